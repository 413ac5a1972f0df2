"""An end wall of short pieces, every piece with its number."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely

from bermwright.base.drawing import Area, Hatch, Item, Pen, Sheet, Text, View, Wash
from bermwright.base.lettering import text_width
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.cutting.boards import SCALES
from bermwright.book.sheets.paper import CAPTION, FIGURE, Figures, curve_path, figure, heading, note

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.takeoff.cutting.end_wall import EndWall, WallPiece

HEAD, FOOT, SIDE = 16.0, 10.0, 8.0


def end_wall_sheet(form: VaultForm, wall: EndWall, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """The wall as seen walking in: pieces with numbers, missing ones in red outline."""
    figures = Figures(system=system)
    wide = float(np.ptp(form.rib.outside.x))
    levels = [text_width(figures.level(top), CAPTION) for _, top in wall.rows]
    side = max(SIDE, *(level + 3.0 for level in levels))
    scale = next((one for one in SCALES if wide * 1000.0 / one <= width - 2 * side), SCALES[-1])
    factor = 1000.0 / scale
    middle = 0.5 * float(form.rib.outside.x.min() + form.rib.outside.x.max())
    view = View(origin=(0.5 * width - middle * factor, FOOT), scale=scale)
    height = float(form.rib.outside.z.max()) * factor + FOOT + HEAD
    ribs = (*curve_path(view, form.rib.outside), *reversed(curve_path(view, form.rib.inside)))
    items: list[Item] = [
        Area(path=ribs, wash=Wash.PAPER, outline=Pen.LAYER, layer="rib"),
        *(item for piece in wall.pieces for item in _piece(piece, view)),
        *(
            Area(
                path=tuple(view.point(x, z) for x, z in gap.outline),
                holes=tuple(tuple(view.point(x, z) for x, z in hole) for hole in gap.holes),
                wash=Wash.NONE,
                hatch=Hatch.OVERFILLED,
                outline=Pen.STOP,
                layer="missing",
            )
            for gap in wall.gaps
        ),
        *_levels(wall, form, view, figures),
        heading((0.0, height - 5.0), f"The {wall.side} end of {wall.vault}, from offcuts"),
        figure((0.0, height - 10.5), f"1:{scale:.0f}, as seen walking in; {_words(wall)}"),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title=f"The {wall.side} end from offcuts",
        alt=f"The {wall.side} end of {wall.vault} filled with {len(wall.pieces)} pieces in "
        f"{len(wall.rows)} rows.",
        view=view,
    )


def _words(wall: EndWall) -> str:
    gaps = f"; {len(wall.gaps)} places are missing (struck through)" if wall.gaps else ""
    return f"{len(wall.pieces)} pieces in {len(wall.rows)} rows{gaps}"


def _piece(piece: WallPiece, view: View) -> Iterator[Item]:
    path = tuple(view.point(x, z) for x, z in piece.outline)
    holes = tuple(tuple(view.point(x, z) for x, z in hole) for hole in piece.holes)
    yield Area(path=path, holes=holes, wash=Wash.LAGGING, outline=Pen.SEEN, layer="piece")
    spot = shapely.Polygon(path, holes).representative_point()
    xs, ys = zip(*path, strict=True)
    room, tall = max(xs) - min(xs), max(ys) - min(ys)
    text = str(piece.number)
    height = FIGURE if text_width(text, FIGURE) < room - 1.0 and tall > FIGURE + 1.0 else CAPTION
    yield Text(at=(spot.x, spot.y - 0.5 * height), text=text, height=height, anchor="middle", halo=False)


def _levels(wall: EndWall, form: VaultForm, view: View, figures: Figures) -> Iterator[Item]:
    """The upper edge of every row, at the left."""
    left = view.point(float(form.rib.outside.x.min()), 0.0)[0] - 2.0
    last = -CAPTION
    for _, top in wall.rows[:-1]:
        y = view.point(0.0, top)[1]
        if y - last < CAPTION + 0.5:
            continue
        last = y
        yield Text(at=(left, y - 0.9), text=figures.level(top), height=CAPTION, anchor="end", halo=False)
