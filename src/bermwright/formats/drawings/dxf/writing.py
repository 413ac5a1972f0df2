"""The DXF writer: one entity for each plain item; arcs stay arcs, splines stay splines."""

from __future__ import annotations

import io
import math
from typing import TYPE_CHECKING, Any, assert_never

from bermwright.base.dimensions import dimension_text
from bermwright.base.drawing import Arc, Dimension, Ink, Pen, Sheet, Spline, Text, Wash
from bermwright.base.lettering import FACES
from bermwright.base.wording import NOT_REVIEWED
from bermwright.formats.drawings.curves import bezier_chain
from bermwright.formats.drawings.dxf.layers import layer_name, line_type
from bermwright.formats.drawings.dxf.windows import opened
from bermwright.formats.drawings.lower import lower_item
from bermwright.formats.drawings.pdf import DrawingError
from bermwright.formats.drawings.plain import Fill, Plain, Strokes, Window
from bermwright.formats.drawings.styles import PENS, THEMES, ink_of

if TYPE_CHECKING:
    from bermwright.base.drawing import Point

GAP = 20.0
"""Gap between sheets that lie side by side (mm on paper)."""
_ANCHORS = {"start": "LEFT", "middle": "CENTER", "end": "RIGHT"}


def dxf(*sheets: Sheet, full_size: bool = False, mark: str = NOT_REVIEWED) -> bytes:
    """The sheets side by side in model space, as DXF R2010 in millimetres.

    On paper a millimetre of the file is one of the sheet. With `full_size` the first sheet's main view
    is drawn 1 : 1 with the house's (0, 0) at the origin: a span of 4.8 m measures 4800. `mark` stands
    under every sheet, because a file goes where its book does not.
    """
    import ezdxf

    if not sheets:
        raise DrawingError("A DXF needs at least one sheet.")
    kept = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True  # the same sheets give the same bytes
    try:
        document = _document(sheets, full_size=full_size, mark=mark)
        stream = io.StringIO()
        document.write(stream)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = kept
    return stream.getvalue().encode("utf-8")


def _document(sheets: tuple[Sheet, ...], *, full_size: bool, mark: str) -> Any:  # noqa: ANN401  (the library has no types)
    """A new drawing with line types, text styles and all entities."""
    import ezdxf

    document = ezdxf.new("R2010", setup=False, units=4)
    document.header["$INSUNITS"] = 4
    document.header["$MEASUREMENT"] = 1
    _line_types(document)
    for face, kind in FACES.items():
        style = document.styles.new(
            f"BW_{face.name}", dxfattribs={"font": f"{kind.families[0].replace(' ', '')}.ttf"}
        )
        style.dxf.width = kind.condense
    right = 0.0
    for sheet in sheets:
        hand = _Hand(document, *_placing(sheet, right, full_size=full_size))
        if full_size:
            document.header["$LTSCALE"] = hand.factor
        for item in sheet.items:
            hand.item(item)
        hand.text(Text(at=(0.0, -8.0), text=mark, height=3.5, strong=True))
        right += sheet.width + GAP
    return document


def _placing(sheet: Sheet, right: float, *, full_size: bool) -> tuple[float, Point, float]:
    """Scale factor, sheet point that comes to the origin, and what a millimetre of the file measures."""
    scale = sheet.view.scale if sheet.view else 1.0
    if not full_size:
        return 1.0, (-right, 0.0), scale
    if sheet.view is None:
        raise DrawingError(f"{sheet.title or 'This sheet'} has no main view, so it has no full size.")
    return scale, (sheet.view.origin[0] - right, sheet.view.origin[1]), 1.0


def _line_types(document: Any) -> None:  # noqa: ANN401  (the library has no types)
    """Dashes in millimetres: positive is drawn, negative is a gap."""
    for pen in (Pen.HIDDEN, Pen.NOT_YET, Pen.LIMIT):
        dash = PENS[pen].dash
        pattern = [sum(dash), *[length if k % 2 == 0 else -length for k, length in enumerate(dash)]]
        document.linetypes.add(line_type(pen), pattern=pattern, description=pen.value)


def _colour(code: str) -> int:
    """A hex colour as one number."""
    return int(code[1:], 16)


class _Hand:
    """Draws items into model space, scaled about a point of the sheet."""

    def __init__(self, document: Any, factor: float, zero: Point, measure: float) -> None:  # noqa: ANN401  (the library has no types)
        self.document = document
        self.space = document.modelspace()
        self.factor = factor
        self.zero = zero
        self.measure = measure
        self.theme = THEMES["paper"]

    def item(self, item: Any) -> None:  # noqa: ANN401  (the library has no types)
        """One item of a sheet; a dimension stays a dimension."""
        if isinstance(item, Dimension):
            self.dimension(item)
            return
        for part in opened(tuple(lower_item(item))):
            self.plain(part)

    def point(self, point: Point) -> Point:
        """A point of the sheet in the file."""
        return (point[0] - self.zero[0]) * self.factor, (point[1] - self.zero[1]) * self.factor

    def looks(self, layer: str, presentation: str, pen: Pen, ink: Ink) -> dict[str, Any]:
        """Layer, line type, width and colour of an entity."""
        name = layer_name(layer, presentation)
        if name not in self.document.layers:
            self.document.layers.add(name)
        return {
            "layer": name,
            "linetype": line_type(pen),
            "lineweight": round(100.0 * PENS[pen].width),
            "true_color": _colour(self.theme.inks[ink_of(pen, ink)]),
        }

    def plain(self, item: Plain) -> None:
        """One plain item as one or more entities."""
        match item:
            case Fill():
                self.fill(item)
            case Strokes():
                self.strokes(item)
            case Arc():
                self.arc(item)
            case Spline():
                self.spline(item)
            case Text():
                self.text(item)
            case Window():
                raise TypeError("windows are opened before they are drawn")
            case _:
                assert_never(item)

    def fill(self, item: Fill) -> None:
        """A wash as a solid hatch; paper needs none."""
        if item.wash in {Wash.PAPER, Wash.NONE}:
            return
        looks = self.looks(item.layer, "H", Pen.HATCH, Ink.INK)
        looks.pop("linetype")
        solid = self.space.add_hatch(dxfattribs=looks)
        solid.dxf.true_color = _colour(self.theme.washes[item.wash])
        solid.paths.add_polyline_path([self.point(p) for p in item.path], is_closed=True, flags=1)
        for hole in item.holes:
            solid.paths.add_polyline_path([self.point(p) for p in hole], is_closed=True, flags=16)

    def strokes(self, item: Strokes) -> None:
        """Straight strokes as lines, longer paths as polylines."""
        looks = self.looks(item.layer, "H" if item.hatch else "E", item.pen, item.ink)
        for path in item.paths:
            points = [self.point(p) for p in path]
            if len(points) == 2 and not item.closed:
                self.space.add_line(points[0], points[1], dxfattribs=looks)
            elif len(points) > 1:
                self.space.add_lwpolyline(points, close=item.closed, dxfattribs=looks)

    def arc(self, item: Arc) -> None:
        """An arc, or a circle where it goes all the way round."""
        looks = self.looks(item.layer, "E", item.pen, item.ink)
        centre, radius = self.point(item.centre), item.radius * self.factor
        if math.isclose(abs(item.end - item.start), 2.0 * math.pi):
            self.space.add_circle(centre, radius, dxfattribs=looks)
            return
        ends = math.degrees(item.start), math.degrees(item.end)
        self.space.add_arc(centre, radius, *ends, is_counter_clockwise=True, dxfattribs=looks)

    def spline(self, item: Spline) -> None:
        """The same Bezier chain as in every other format, as one spline."""
        from ezdxf.math import Bezier4P, Vec3, bezier_to_bspline

        chain = [Bezier4P([Vec3(self.point(p)) for p in piece]) for piece in bezier_chain(item.path)]
        if chain:
            entity = self.space.add_spline(dxfattribs=self.looks(item.layer, "E", item.pen, item.ink))
            entity.apply_construction_tool(bezier_to_bspline(chain))

    def text(self, item: Text) -> None:
        """Lettering as a line of text with its own height."""
        from ezdxf.enums import TextEntityAlignment

        looks = self.looks(item.layer, "T", Pen.LAYER, item.ink)
        looks |= {"style": f"BW_{item.face.name}", "width": FACES[item.face].condense}
        looks |= {"height": item.height * self.factor, "rotation": math.degrees(item.angle)}
        entity = self.space.add_text(item.text, dxfattribs=looks)
        entity.set_placement(self.point(item.at), align=TextEntityAlignment[_ANCHORS[item.anchor]])

    def dimension(self, item: Dimension) -> None:
        """An aligned dimension whose measurement reads back in millimetres of the house."""
        measure = self.measure if item.scale is None else item.scale / self.factor
        style = {
            "dimtxt": 2.5 * self.factor,
            "dimasz": 2.0 * self.factor,
            "dimexe": 1.2 * self.factor,
            "dimexo": 0.8 * self.factor,
            "dimgap": 0.6 * self.factor,
            "dimlfac": measure,
            "dimtad": 1,
            "dimtsz": 1.2 * self.factor,
            "dimtxsty": "BW_FIGURES",
        }
        if item.shift != (0.0, 0.0):
            style["dimtmove"] = 2
        made = self.space.add_aligned_dim(
            p1=self.point(item.start),
            p2=self.point(item.end),
            distance=item.offset * self.factor,
            text=item.text,
            override=style,
            dxfattribs=self.looks(item.layer, "D", Pen.DIMENSION, Ink.INK),
        )
        if item.shift != (0.0, 0.0):
            figure = dimension_text(item)
            up = (-0.5 * figure.height * math.sin(figure.angle), 0.5 * figure.height * math.cos(figure.angle))
            made.set_location(self.point((figure.at[0] + up[0], figure.at[1] + up[1])))
        made.render()
        raw = math.dist(item.start, item.end) * self.factor
        made.dimension.dxf.actual_measurement = raw * measure
