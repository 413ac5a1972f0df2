"""All parts of a house from above, north up: pegs, baselines and the diagonals that prove them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Item, Pen, Sheet, Stroke, Text, View
from bermwright.book.sheets.paper import FIGURE, Board, Figures, figure, heading
from bermwright.book.sheets.plans.measures import north

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout.nouns import CheckLength, Spot
    from bermwright.form.setout.parts import Between, PlacedPart

WIDTH, TALLEST = 174.0, 210.0
SCALES = (50.0, 100.0, 200.0, 500.0, 1000.0)
ROUND = 16.0
"""Paper round the parts (mm)."""
CROSS = 1.4


def between_sheet(between: Between, *, system: str = "metric") -> Sheet:
    """The parts where they stand, as large as an ISO scale lets them be."""
    spots = [spot for part in between.parts for spot in (*part.outline, *(at for _, at in part.pegs))]
    low = min(x for x, _ in spots), min(y for _, y in spots)
    high = max(x for x, _ in spots), max(y for _, y in spots)
    scale = next((one for one in SCALES if _fits(low, high, one)), SCALES[-1])
    factor = 1000.0 / scale
    height = (high[1] - low[1]) * factor + 2.0 * ROUND
    left = 0.5 * (WIDTH - (low[0] + high[0]) * factor)
    view = View(origin=(left, ROUND - low[1] * factor), scale=scale)
    items = (
        *_items(between, view, Figures(system=system)),
        *north((WIDTH - 10.0, height - 11.0), 0.5 * math.pi, 6.0),
    )
    return Sheet(
        width=WIDTH, height=height, items=items, title="Parts to each other", view=view,
        alt=f"{len(between.parts)} parts from above with {len(between.lengths)} lengths between their pegs.",
    )  # fmt: skip


def _fits(low: Spot, high: Spot, scale: float) -> bool:
    wide, tall = (1000.0 * (b - a) / scale + 2.0 * ROUND for a, b in zip(low, high, strict=True))
    return wide <= WIDTH and tall <= TALLEST


def _items(between: Between, view: View, figures: Figures) -> Iterator[Item]:
    board = Board()
    pegs = {f"{part.name} {name}": spot for part in between.parts for name, spot in part.pegs}
    for part in between.parts:
        yield from _part(part, view, board)
    for one in between.lengths:
        yield from _length(one, pegs, view, board, figures)


def _part(part: PlacedPart, view: View, board: Board) -> Iterator[Item]:
    yield Stroke(path=tuple(view.point(*spot) for spot in part.outline), pen=Pen.CUT, closed=True)
    for name, spot in part.pegs:
        x, y = view.point(*spot)
        yield Stroke(path=((x - CROSS, y), (x + CROSS, y)), pen=Pen.SEEN)
        yield Stroke(path=((x, y - CROSS), (x, y + CROSS)), pen=Pen.SEEN)
        yield board.put(
            figure((x + right, y + up), name) for right, up in ((1.5, 1.5), (1.5, -4.0), (-3.5, 1.5))
        )
    x, y = view.point(*part.middle)
    yield board.put(heading((x, y + up), part.name, 3.2, "middle") for up in (2.0, -5.0, 7.0))


def _length(
    one: CheckLength, pegs: dict[str, Spot], view: View, board: Board, figures: Figures
) -> Iterator[Item]:
    """A line from peg to peg with its length along it; diagonals dashed."""
    start, end = (view.point(*pegs[name]) for name in one.between.split(" – "))
    yield Stroke(path=(start, end), pen=Pen.DIMENSION if one.words == "baseline" else Pen.HIDDEN)
    turn = math.atan2(end[1] - start[1], end[0] - start[0])
    if abs(turn) > 0.5 * math.pi:
        turn -= math.copysign(math.pi, turn)
    yield board.put(
        Text(
            at=(
                start[0] + share * (end[0] - start[0]) - math.sin(turn),
                start[1] + share * (end[1] - start[1]) + math.cos(turn),
            ),
            text=figures.length(one.length),
            height=FIGURE,
            anchor="middle",
            angle=turn,
        )
        for share in (0.5, 0.35, 0.65, 0.25, 0.75)
    )
