"""A sheet as SVG: real millimetres, resolved colours, arcs as arcs, splines as Bezier chains.

Nothing here relies on style sheets, markers or patterns, so every reader shows the same.
"""

from __future__ import annotations

import math
import re
from dataclasses import replace
from functools import cache, lru_cache
from itertools import groupby
from typing import TYPE_CHECKING, assert_never
from xml.sax.saxutils import escape, quoteattr

import numpy as np
import shapely

from bermwright.base.drawing import Arc, Area, Hatch, Ink, Lettering, Pen, Spline, Text, Wash
from bermwright.base.lettering import FACES, body_size
from bermwright.formats.drawings.curves import bezier_points
from bermwright.formats.drawings.hatching.expand import box_of
from bermwright.formats.drawings.hatching.fields import anchored
from bermwright.formats.drawings.lower import lower, lower_item
from bermwright.formats.drawings.plain import Fill, Plain, Strokes, Window
from bermwright.formats.drawings.plates import plate_of
from bermwright.formats.drawings.styles import PENS, THEMES, WASH_OPACITY, Theme, ink_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Item, Path, Point, Sheet
    from bermwright.formats.drawings.hatching.fields import Laid


def svg(
    sheet: Sheet,
    theme: str = "paper",
    *,
    background: bool = True,
    prefix: str = "w",
    quick: bool = False,
    printed: bool = False,
) -> str:
    """The sheet as an SVG document, in the colours of `paper`, `day` or `lamp`.

    `prefix` starts the names of its clipping windows: give each drawing its own where several are put
    into one page. Without `background` the paper is left clear. A `quick` one, for a drawing that follows
    the hand, looks the same: strokes of a hatch are written once and cut by the reader, not here. A `printed`
    one, for a PDF, has plates of paper under its letters and no edges round them.
    """
    kind = _QuickPencil if quick else _PrintPencil if printed else _Pencil
    pencil = kind(THEMES[theme], sheet.height, prefix)
    size = f"{_figure(sheet.width)} {_figure(sheet.height)}"
    measures = f'width="{_figure(sheet.width)}mm" height="{_figure(sheet.height)}mm" viewBox="0 0 {size}"'
    manner = 'role="img" fill="none" stroke-linecap="round" stroke-linejoin="round"'
    lines = [f'<svg xmlns="http://www.w3.org/2000/svg" {measures} {manner}>']
    lines += [f"<title>{escape(sheet.title)}</title>"] if sheet.title else []
    lines += [f"<desc>{escape(sheet.alt)}</desc>"] if sheet.alt else []
    if background:
        paper = THEMES[theme].inks[Ink.PAPER]
        lines.append(
            f'<rect width="{_figure(sheet.width)}" height="{_figure(sheet.height)}" fill="{paper}"/>'
        )
    lines += pencil.whole(sheet.items)
    return "\n".join([*lines, "</svg>", ""])


def _figure(value: float, digits: int = 3) -> str:
    """A number without needless zeros, and never as minus zero."""
    text = f"{value:.{digits}f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


@lru_cache(maxsize=512)
def _pattern(count: int, digits: int, end: str) -> str:
    """How so many points are written; one call of the formatter for many paths is quick."""
    return "M" + "L".join([f"%.{digits}f %.{digits}f"] * count) + end


_ZEROS = re.compile(r"\.?0+(?=[ MLCZ]|$)")
_MINUS_ZERO = re.compile(r"(?<![\d.])-0(?=[ MLCZ]|$)")


def _bare(text: str) -> str:
    """Numbers with decimals as `_figure` writes them: no needless zeros, and never as minus zero."""
    bare = _ZEROS.sub("", text)
    return _MINUS_ZERO.sub("0", bare) if "-0" in bare else bare


class _Pencil:
    """Turns plain items into SVG elements; counts its clipping windows."""

    def __init__(self, theme: Theme, height: float, prefix: str) -> None:
        self.theme = theme
        self.height = height
        self.prefix = prefix
        self.windows = 0

    def whole(self, items: tuple[Item, ...]) -> list[str]:
        """Everything on the sheet."""
        return self.draw(lower(items))

    def draw(self, items: Iterator[Plain] | tuple[Plain, ...]) -> list[str]:
        """One element or group for each item."""
        return [line for item in items for line in self.element(item)]

    def element(self, item: Plain) -> list[str]:
        """The element of one item."""
        match item:
            case Fill():
                return [self.fill(item)]
            case Strokes():
                paths = self.paths(item.paths, 2 if item.hatch else 3, closed=item.closed)
                return [f'<path d="{paths}" {self.pen(item.pen, item.ink)}/>'] if paths else []
            case Arc():
                return [f'<path d="{self.arc(item)}" {self.pen(item.pen, item.ink)}/>']
            case Spline():
                return [f'<path d="{self.spline(item.path)}" {self.pen(item.pen, item.ink)}/>']
            case Text():
                return [self.text(item)]
            case Window():
                return self.window(item)
            case _:
                assert_never(item)

    def point(self, point: Point, digits: int = 3) -> str:
        """Sheet millimetres with y up, as SVG millimetres with y down."""
        return f"{_figure(point[0], digits)} {_figure(self.height - point[1], digits)}"

    def path(self, path: Path, digits: int = 3, *, closed: bool = False) -> str:
        """A polyline as path data."""
        return self.paths((path,), digits, closed=closed)

    def paths(self, paths: tuple[Path, ...], digits: int = 3, *, closed: bool = False) -> str:
        """Several polylines as path data, written in one go."""
        end = "Z" if closed else ""
        patterns = "".join([_pattern(len(path), digits, end) for path in paths if path])
        height = self.height
        return _bare(patterns % tuple([c for path in paths for x, y in path for c in (x, height - y)]))

    def fill(self, item: Fill) -> str:
        """A flat tint."""
        rings = "".join(self.path(ring, closed=True) for ring in (item.path, *item.holes))
        rule = ' fill-rule="evenodd"' if item.holes else ""
        opacity = WASH_OPACITY.get(item.wash, 1.0)
        faint = f' fill-opacity="{_figure(opacity)}"' if opacity < 1.0 else ""
        return f'<path d="{rings}" fill="{self.theme.washes[item.wash]}"{rule}{faint}/>'

    def pen(self, pen: Pen, ink: Ink) -> str:
        """Colour, width and dashes of a pen."""
        style = PENS[pen]
        colour = self.theme.inks[ink_of(pen, ink)]
        dash = f' stroke-dasharray="{" ".join(map(_figure, style.dash))}"' if style.dash else ""
        flat = ' stroke-linecap="butt"' if style.dash else ""
        faint = f' stroke-opacity="{_figure(style.opacity)}"' if style.opacity < 1.0 else ""
        return f'stroke="{colour}" stroke-width="{_figure(style.width)}"{dash}{flat}{faint}'

    def arc(self, item: Arc) -> str:
        """An arc as one A command, a full circle as two."""
        sweep = (item.end - item.start) % (2.0 * math.pi)
        turns = 1 if not math.isclose(abs(item.end - item.start), 2.0 * math.pi) else 2
        sweep = 2.0 * math.pi if turns == 2 else sweep
        large = int(turns == 1 and sweep > math.pi)
        halves = [item.start + sweep * k / turns for k in range(turns + 1)]
        spots = [
            self.point(
                (item.centre[0] + item.radius * math.cos(a), item.centre[1] + item.radius * math.sin(a))
            )
            for a in halves
        ]
        radius = _figure(item.radius)
        return f"M{spots[0]}" + "".join(f"A{radius} {radius} 0 {large} 0 {spot}" for spot in spots[1:])

    def spline(self, path: Path) -> str:
        """A smooth curve through its points as a chain of cubic Beziers."""
        _, *rest = bezier_points(path)
        places = np.stack(rest, axis=1) * (1.0, -1.0) + (0.0, self.height)
        pattern = "C%.3f %.3f %.3f %.3f %.3f %.3f" * len(places)
        return f"M{self.point(path[0])}{_bare(pattern % tuple(places.ravel().tolist()))}"

    def text(self, item: Text) -> str:
        """Lettering with its halo; the halo is painted under the letter."""
        edge = f' {self.edge()} paint-order="stroke"' if item.halo else ""
        return self.letters(item, self.ink(item) + edge)

    def ink(self, item: Text) -> str:
        """The colour of letters."""
        return f'fill="{self.theme.inks[item.ink]}"'

    def edge(self) -> str:
        """The edge of letters."""
        return f'stroke="{self.theme.inks[Ink.PAPER]}" stroke-width="{_figure(self.theme.halo)}"'

    def letters(self, item: Text, paint: str) -> str:
        """Lettering in its place, painted in a manner."""
        turn = f" rotate({_figure(-math.degrees(item.angle))})" if item.angle else ""
        place = f'transform="translate({self.point(item.at)}){turn}{_narrowed(item.face)}"'
        style = _lettering(item.face, item.height, item.anchor, strong=item.strong)
        return f'<text xml:space="preserve" {place} {style} {paint}>{escape(item.text)}</text>'

    def window(self, item: Window) -> list[str]:
        """Items behind a clipping window."""
        self.windows += 1
        name = f"{self.prefix}{self.windows}"
        return [
            f'<clipPath id="{name}">{self.opening(item)}</clipPath>',
            f'<g clip-path="url(#{name})">',
            *self.draw(item.items),
            "</g>",
        ]

    def opening(self, item: Window) -> str:
        """The shape of a window."""
        wide, tall = item.high[0] - item.low[0], item.high[1] - item.low[1]
        if item.round:
            centre = (0.5 * (item.low[0] + item.high[0]), self.height - 0.5 * (item.low[1] + item.high[1]))
            places = f'cx="{_figure(centre[0])}" cy="{_figure(centre[1])}"'
            return f'<ellipse {places} rx="{_figure(0.5 * wide)}" ry="{_figure(0.5 * tall)}"/>'
        corner = f'x="{_figure(item.low[0])}" y="{_figure(self.height - item.high[1])}"'
        return f'<rect {corner} width="{_figure(wide)}" height="{_figure(tall)}"/>'


class _PrintPencil(_Pencil):
    """Lays a plate of paper under letters: a PDF would lay the edge of each over the letter before it.

    Lines of one pen that follow each other are one path, which is quicker to print.
    """

    def draw(self, items: Iterator[Plain] | tuple[Plain, ...]) -> list[str]:
        """One element or group for each item or run of lines."""
        return super().draw(_joined(items))

    def text(self, item: Text) -> str:
        """The plate, then the letters."""
        letters = self.letters(item, self.ink(item))
        if not item.halo:
            return letters
        plate = self.path(plate_of(item), closed=True)
        return f'<path d="{plate}" fill="{self.theme.inks[Ink.PAPER]}"/>\n{letters}'


class _QuickPencil(_Pencil):
    """Writes the strokes of a hatch once, and lets the reader cut them to each area."""

    def whole(self, items: tuple[Item, ...]) -> list[str]:
        """Everything on the sheet."""
        return [line for item in items for line in self.quick(item)]

    def quick(self, item: Item) -> list[str]:
        """One item; an area whose hatch lies ready is cut by a window of its own outline."""
        strokes = anchored(item.hatch, box_of(item)) if isinstance(item, Area) and item.path else None
        if not isinstance(item, Area) or strokes is None:
            return self.draw(lower_item(item))
        rings = self.paths((item.path, *item.holes), closed=True)
        shown = self.strokes(strokes, item)
        plain = self.draw(lower_item(replace(item, hatch=Hatch.NONE)))
        wash = plain[:1] if item.wash is not Wash.NONE else []
        self.windows += 1
        name = f"{self.prefix}{self.windows}"
        rule = ' clip-rule="evenodd"' if item.holes else ""
        hatch = [
            f'<clipPath id="{name}"><path d="{rings}"{rule}/></clipPath>',
            f'<path d="{shown}" clip-path="url(#{name})" {self.pen(Pen.HATCH, Ink.INK)}/>',
        ]
        return [*wash, *(hatch if shown else []), *plain[len(wash) :]]

    def strokes(self, laid: Laid, item: Area) -> str:
        """The strokes that touch an area."""
        written = laid.written.get(self.height)
        if written is None:
            laid.written.clear()
            written = laid.written[self.height] = tuple(self.path(path, 2) for path in laid.paths)
        outline = shapely.polygons(item.path)
        shapely.prepare(outline)
        touched = np.flatnonzero(shapely.intersects(outline, laid.lines))
        return "".join([written[place] for place in touched.tolist()])


@cache
def _narrowed(face: Lettering) -> str:
    """How letters are set narrower than they were drawn."""
    share = FACES[face].condense
    return f" scale({_figure(share)} 1)" if share != 1.0 else ""


@lru_cache(maxsize=512)
def _lettering(face: Lettering, height: float, anchor: str, *, strong: bool) -> str:
    """Face, size and anchor of letters."""
    kind = FACES[face]
    style = [
        f"font-family={quoteattr(', '.join(map(_family, kind.families)))}",
        f'font-size="{_figure(body_size(height, face))}"',
    ]
    style += ['font-style="italic"'] if kind.italic else []
    style += ['font-weight="700"'] if strong else []
    style += [f'text-anchor="{anchor}"'] if anchor != "start" else []
    return " ".join(style)


def _joined(items: Iterator[Plain] | tuple[Plain, ...]) -> Iterator[Plain]:
    """The items, open lines of one pen that follow each other as one."""
    for pen, run in groupby(items, key=_pen_of):
        if pen is None:
            yield from run
        else:
            lines = [item for item in run if isinstance(item, Strokes)]
            paths = tuple(path for item in lines for path in item.paths)
            yield replace(lines[0], paths=paths) if len(lines) > 1 else lines[0]


def _pen_of(item: Plain) -> tuple[Pen, Ink, bool] | None:
    """What open lines are drawn with; None for what stays on its own."""
    return (item.pen, item.ink, item.hatch) if isinstance(item, Strokes) and not item.closed else None


def _family(name: str) -> str:
    """A family name, quoted where it has a space."""
    return f"'{name}'" if " " in name else name
