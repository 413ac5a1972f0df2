"""Two outlines beside each other in one wide blank."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Dimension, Item, Pen, Sheet, Stroke, View, Wash
from bermwright.book.sheets.paper import Figures, figure, heading, note
from bermwright.book.templates.pieces import lay_flat

if TYPE_CHECKING:
    from bermwright.form.shapes import RibForm, RibPiece
    from bermwright.takeoff.cutting import PieceKind

SCALES = (5, 10, 20)
HEAD, FOOT, SIDE = 16.0, 16.0, 14.0
MARK = "calculation aid, not reviewed"


def nest_sheet(
    rib: RibForm,
    piece: RibPiece,
    kind: PieceKind,
    beside: int,
    *,
    width: float = 174.0,
    system: str = "metric",
) -> Sheet:
    """The outlines in their blank, with the width that they need and how far they are apart."""
    figures, flat = Figures(system=system), lay_flat(rib, piece)
    wide = kind.stack_width(beside)
    scale = next((one for one in SCALES if kind.length * 1000.0 / one <= width - 2 * SIDE - 6.0), SCALES[-1])
    factor = 1000.0 / scale
    view = View(origin=(SIDE - flat.start * factor, FOOT - flat.edge * factor), scale=scale)
    height = wide * factor + FOOT + HEAD + 4.0
    left, low = view.point(flat.start, flat.edge)
    right, high = view.point(flat.start + kind.length, flat.edge + wide)
    items: list[Item] = [
        Area(
            path=((left, low), (right, low), (right, high), (left, high)), wash=Wash.PAPER, outline=Pen.SEEN
        ),
    ]
    for number in range(beside):
        path = tuple(view.point(u, v + number * kind.step) for u, v in flat.points)
        items.append(Area(path=path, wash=Wash.TIMBER, outline=Pen.TEMPLATE, layer="piece"))
        middle = view.point(flat.start + 0.5 * kind.length, flat.edge + number * kind.step + 0.5 * kind.width)
        items.append(figure((middle[0], middle[1] - 1.2), piece.name, "middle"))
    items += [
        Stroke(path=((left, low + kind.width * factor), (right, low + kind.width * factor)), pen=Pen.HIDDEN),
        Dimension(start=(left, low), end=(right, low), offset=-7.0, text=figures.length(kind.length)),
        Dimension(start=(right, high), end=(right, low), offset=-6.0, text=figures.length(wide)),
        Dimension(start=(left, low), end=(left, low + kind.step * factor), offset=6.0,
                  text=figures.length(kind.step)),
        heading((0.0, height - 5.0), f"{beside} outlines in one blank"),
        figure((0.0, height - 10.5), f"1:{scale}; pieces {kind.name}; dashed: the blank of one alone"),
        note((width, 1.5), MARK, "end"),
    ]  # fmt: skip
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title="Outlines in one blank",
        alt=f"{beside} outlines of {kind.name} beside each other in one blank.",
        view=view,
    )
