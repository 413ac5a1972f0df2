"""A dome from above on the day it is pegged: middle, cross of pegs, circles, edges of openings."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Arc, Arrow, Ink, Item, Pen, Sheet, Stroke, Text, View
from bermwright.book.sheets.paper import Board, Figures, figure, note
from bermwright.book.sheets.setout.marks import block_peg, north_arrow, peg

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Point
    from bermwright.form.setout.rounds import RoundOut

SCALES = (50.0, 75.0, 100.0, 125.0, 150.0, 200.0, 250.0, 300.0, 400.0, 500.0)
ROOM = 9.0
"""Paper round the pegs (mm)."""
PENS = (Pen.CUT, Pen.NOT_YET, Pen.CUT, Pen.SEEN)
"""Inner face, middle, outer face, bottom of the dig."""
TURN = 2.0 * math.pi
ALONG = (0.62, 0.56, 0.68, 0.44, 0.38, 0.3)
"""Shares of a whole turn at which the name of a circle may stand."""


def round_sheet(
    out: RoundOut,
    *,
    circles: bool,
    width: float = 174.0,
    tallest: float = 120.0,
    system: str = "metric",
) -> Sheet:
    """The zero mark lies below, directions run clockwise as seen from above.

    `circles`: the wall's circles and openings alone; else the cross of pegs and the dig.
    """
    reach = out.circles[-1].radius if circles else max(out.pegs, out.post)
    scale = next((one for one in SCALES if 2000.0 * reach / one + 2.0 * ROOM <= tallest), SCALES[-1])
    height = 2000.0 * reach / scale + 2.0 * ROOM
    view = View(origin=(0.5 * width, 0.5 * height), scale=scale)
    board = Board()
    make = _wall_items if circles else _cross_items
    items = tuple(make(out, view, board, Figures(system=system), (width, height)))
    what = "circles and openings" if circles else "middle, pegs and dig"
    words = f"{out.dome} from above: {what}, 1:{scale:.0f}"
    return Sheet(width=width, height=height, items=items, title=words, alt=words, view=view)


def _spot(view: View, radius: float, turn: float) -> Point:
    """A place on the paper from the middle: the zero mark below, clockwise."""
    angle = -0.5 * math.pi - turn
    return view.point(radius * math.cos(angle), radius * math.sin(angle))


def _north(out: RoundOut, size: Point, board: Board) -> Iterator[Item]:
    if out.axis is not None:
        # Straight up on the paper is away from the zero mark; the arrow wants what lies to the right.
        yield from north_arrow((size[0] - 11.0, size[1] - 11.0), out.axis - 0.5 * math.pi)
        board.block((size[0] - 22.0, size[1] - 22.0), size)


def _circles(out: RoundOut, view: View, wanted: range) -> Iterator[Item]:
    for number in wanted:
        radius = view.length(out.circles[number].radius)
        yield Arc(centre=view.point(0.0, 0.0), radius=radius, start=0.0, end=TURN, pen=PENS[number])


def _zero(spot: Point, view: View, board: Board) -> Iterator[Item]:
    """An arrow towards the zero mark, and the scale."""
    yield Arrow(tail=(spot[0], spot[1] - 1.6), head=(spot[0], spot[1] - 6.0), pen=Pen.FORCE)
    yield from board.fit(
        note((spot[0] + away, spot[1] - 5.4), "zero mark", anchor)
        for away, anchor in ((3.0, "start"), (-3.0, "end"))
    )
    yield figure((1.0, 1.0), f"1:{view.scale:.0f}, seen from above")


def _cross_items(out: RoundOut, view: View, board: Board, figures: Figures, size: Point) -> Iterator[Item]:
    """Middle, cross of pegs, post, bottom and upper edge of the dig; the wall only as two circles."""
    yield from _north(out, size, board)
    yield from _circles(out, view, range(len(out.circles)))
    if out.edge:
        path = tuple(_spot(view, radius, turn) for turn, radius in out.edge)
        yield Stroke(path=path, pen=Pen.HIDDEN, closed=True, ink=Ink.SOFT)
    spots = {f"Q{number}": _spot(view, out.pegs, 0.5 * math.pi * number) for number in range(4)}
    spots |= {"M": view.point(0.0, 0.0), "H": _spot(view, out.post, 0.25 * math.pi)}
    for first, last in (("Q0", "Q2"), ("Q1", "Q3")):
        yield Stroke(path=(spots[first], spots[last]), pen=Pen.NOT_YET)
    for spot in spots.values():
        block_peg(spot, board)
    for name, spot in spots.items():
        yield from peg(spot, name, board)
    yield from _figures(out, view, board, figures, (len(out.circles) - 1,))
    for share in (0.85, 0.8, 0.5, 0.3):
        spot = _spot(view, share * out.pegs, 0.5 * math.pi)
        text = figure((spot[0], spot[1] + 0.9), figures.length(out.pegs), "middle")
        if board.free(text):
            yield board.take(text)
            break
    yield from _zero(spots["Q0"], view, board)


def _wall_items(out: RoundOut, view: View, board: Board, figures: Figures, size: Point) -> Iterator[Item]:
    """The circles of the wall by chain, and both edges of every opening."""
    yield from _north(out, size, board)
    yield from _circles(out, view, range(len(out.circles)))
    reach = out.circles[-1].radius
    for first in (0.0, 0.5 * math.pi):
        ends = _spot(view, reach, first), _spot(view, reach, first + math.pi)
        yield Stroke(path=ends, pen=Pen.NOT_YET)
    block_peg(view.point(0.0, 0.0), board)
    yield from peg(view.point(0.0, 0.0), "M", board)
    yield from _marks(out, view, board)
    yield from _figures(out, view, board, figures, tuple(range(len(out.circles))))
    yield from _zero(_spot(view, reach, 0.0), view, board)


def _marks(out: RoundOut, view: View, board: Board) -> Iterator[Item]:
    """Edges of openings as short strokes through the wall, the name between them."""
    inner, outer = out.circles[0].radius, out.circles[2].radius
    for one in out.marks:
        for turn in one.turns:
            yield Stroke(path=(_spot(view, inner, turn), _spot(view, outer, turn)), pen=Pen.FRAME)
        middle = 0.5 * (one.turns[0] + one.turns[1])
        yield from board.fit(
            note(_spot(view, radius, middle), one.name, "middle")
            for radius in (0.72 * inner, 0.5 * inner, 0.85 * inner, 1.25 * outer)
        )


def _figures(
    out: RoundOut, view: View, board: Board, figures: Figures, wanted: tuple[int, ...]
) -> Iterator[Text]:
    """Radius of a circle on it."""
    for number in wanted:
        one = out.circles[number]
        yield from board.fit(
            figure(_spot(view, one.radius, TURN * share), f"R {figures.length(one.radius)}", "middle")
            for share in ALONG
        )
