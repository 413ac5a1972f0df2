"""Outlines beside each other in one wide blank, alike or not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Dimension, Item, Pen, Sheet, Stroke, View, Wash
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import Figures, figure, heading, note
from bermwright.form.rib.flat import lay_flat

if TYPE_CHECKING:
    from bermwright.form.shapes import RibForm, RibPiece
    from bermwright.takeoff.cutting import PieceKind
    from bermwright.takeoff.cutting.nouns import Other

SCALES = (5, 10, 20)
HEAD, FOOT, SIDE = 16.0, 16.0, 14.0


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
        Dimension(start=(right, high), end=(right, low), offset=6.0, text=figures.length(wide)),
        Dimension(start=(left, low), end=(left, low + kind.step * factor), offset=6.0,
                  text=figures.length(kind.step)),
        heading((0.0, height - 5.0), f"{beside} outlines in one blank"),
        figure((0.0, height - 10.5), f"1:{scale}; pieces {kind.name}; dashed: the blank of one alone"),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]  # fmt: skip
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title="Outlines in one blank",
        alt=f"{beside} outlines of {kind.name} beside each other in one blank.",
        view=view,
    )


def pair_sheet(kind: PieceKind, other: Other, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """Two unlike outlines in their blank, with how far they are apart and shifted."""
    figures = Figures(system=system)
    wide = max(kind.width, other.gap + other.kind.width)
    scale = next((one for one in SCALES if kind.length * 1000.0 / one <= width - 2 * SIDE - 6.0), SCALES[-1])
    factor = 1000.0 / scale
    view = View(origin=(SIDE, FOOT), scale=scale)
    height = wide * factor + FOOT + HEAD + 4.0
    corners = ((0.0, 0.0), (kind.length, 0.0), (kind.length, wide), (0.0, wide))
    items: list[Item] = [
        Area(path=tuple(view.point(*one) for one in corners), wash=Wash.PAPER, outline=Pen.SEEN)
    ]
    for one, shift, up in ((kind, 0.0, 0.0), (other.kind, other.shift, other.gap)):
        step = one.length / (len(one.edges) - 1)
        low = [view.point(shift + k * step, up + edge[0]) for k, edge in enumerate(one.edges)]
        high = [view.point(shift + k * step, up + edge[1]) for k, edge in enumerate(one.edges)]
        items.append(Area(path=(*low, *high[::-1]), wash=Wash.TIMBER, outline=Pen.TEMPLATE, layer="piece"))
        middle = view.point(shift + 0.5 * one.length, up + 0.5 * sum(one.edges[len(one.edges) // 2]))
        items.append(figure((middle[0], middle[1] - 1.2), one.name, "middle"))
    left, right = view.point(0.0, 0.0), view.point(kind.length, 0.0)
    top = view.point(kind.length, wide)
    items += [
        Dimension(start=left, end=right, offset=-7.0, text=figures.length(kind.length)),
        Dimension(start=top, end=right, offset=6.0, text=figures.length(wide)),
        Dimension(start=left, end=view.point(0.0, other.gap), offset=6.0, text=figures.length(other.gap)),
        heading((0.0, height - 5.0), "Two unlike outlines in one blank"),
        figure(
            (0.0, height - 10.5),
            f"1:{scale}; the upper one begins {figures.length(other.shift)} from the end",
        ),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title="Unlike outlines in one blank",
        alt=f"{kind.name} and {other.kind.name} beside each other in one blank.",
        view=view,
    )
