"""Small signs of a plan: pegs, numbered strings, the north arrow, the triangle of three, four and five."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Arc, Area, Item, Pen, Stroke, Text, Wash
from bermwright.book.sheets.paper import figure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Path, Point
    from bermwright.book.sheets.paper import Board

SHARES = (0.5, 0.35, 0.65, 0.25, 0.75, 0.15, 0.85)
"""Places along a line that are tried for its figure."""
PEG = 1.1
CIRCLE = 2.1
TURN = 2.0 * math.pi


def peg(at: Point, name: str, board: Board) -> Iterator[Item]:
    """A peg with its letter."""
    x, y = at
    yield Area(
        path=((x - PEG, y - PEG), (x + PEG, y - PEG), (x + PEG, y + PEG), (x - PEG, y + PEG)), wash=Wash.INK
    )
    block_peg(at, board)
    spots = ((1.9, 1.6), (-4.4, 1.6), (1.9, -4.6), (-4.4, -4.6), (2.4, -1.5), (-5.2, -1.5))
    yield board.put(Text(at=(x + right, y + up), text=name, height=3.0, strong=True) for right, up in spots)


def block_peg(at: Point, board: Board) -> None:
    """Keep labels off a peg."""
    board.block((at[0] - PEG, at[1] - PEG), (at[0] + PEG, at[1] + PEG))


def fanned(
    starts: list[Point], numbers: list[int], board: Board, *, upright: bool, away: float, apart: float
) -> Iterator[Item]:
    """Numbers in circles beside the ends of strings, in a row, each with a line to its own string."""
    if not starts:
        return
    side = 1 if upright else 0
    order = sorted(range(len(starts)), key=lambda at: starts[at][side])
    places = spread([starts[at][side] for at in order], apart)
    for at, place in zip(order, places, strict=True):
        x, y = starts[at]
        spot = (x - away, place) if upright else (place, y + 0.6 * away)
        elbow = (spot[0] + 0.35 * away, place) if upright else (place, spot[1] - 0.25 * away)
        yield Stroke(path=((x, y), elbow, spot), pen=Pen.DIMENSION)
        yield from _circled(spot, numbers[at], board)


def spread(places: list[float], apart: float) -> list[float]:
    """Rising places moved as little as it takes to lie a least distance apart.

    >>> spread([0.0, 1.0, 10.0], 4.0)
    [-1.5, 2.5, 10.0]
    """
    groups: list[list[float]] = []
    for place in places:
        groups.append([place])
        while len(groups) > 1 and _first(groups[-1], apart) < _last(groups[-2], apart) + apart:
            last = groups.pop()
            groups[-1] += last
    return [_first(group, apart) + apart * number for group in groups for number in range(len(group))]


def _first(group: list[float], apart: float) -> float:
    return sum(group) / len(group) - 0.5 * apart * (len(group) - 1)


def _last(group: list[float], apart: float) -> float:
    return sum(group) / len(group) + 0.5 * apart * (len(group) - 1)


def _circled(spot: Point, number: int, board: Board) -> Iterator[Item]:
    x, y = spot
    ring = tuple(
        (x + CIRCLE * math.cos(TURN * k / 24), y + CIRCLE * math.sin(TURN * k / 24)) for k in range(24)
    )
    board.block((x - CIRCLE, y - CIRCLE), (x + CIRCLE, y + CIRCLE))
    yield Area(path=ring, wash=Wash.PAPER)
    yield Arc(centre=spot, radius=CIRCLE, start=0.0, end=TURN, pen=Pen.LAYER)
    yield Text(at=(x, y - 0.95), text=f"{number}", height=1.9, anchor="middle", halo=False)


def north_arrow(at: Point, axis: float, radius: float = 6.5) -> Iterator[Item]:
    """Where north lies on a plan whose axis runs to the right."""
    ahead = (math.cos(axis), math.sin(axis))
    across = (-ahead[1], ahead[0])
    tip = (at[0] + radius * ahead[0], at[1] + radius * ahead[1])
    wings = [
        (at[0] - 0.6 * radius * ahead[0] + side * 0.4 * radius * across[0],
         at[1] - 0.6 * radius * ahead[1] + side * 0.4 * radius * across[1])
        for side in (1.0, -1.0)
    ]  # fmt: skip
    notch = (at[0] - 0.3 * radius * ahead[0], at[1] - 0.3 * radius * ahead[1])
    yield Area(path=(tip, wings[0], notch), wash=Wash.INK)
    yield Area(path=(tip, wings[1], notch), wash=Wash.PAPER, outline=Pen.LAYER)
    letter = (at[0] + 1.45 * radius * ahead[0], at[1] + 1.45 * radius * ahead[1] - 1.2)
    yield Text(at=letter, text="N", height=2.6, anchor="middle", strong=True)


def triangle(path: Path, words: list[str], board: Board) -> Iterator[Item]:
    """The triangle of three, four and five with its lengths."""
    yield Stroke(path=path, pen=Pen.TEMPLATE, closed=True)
    corner, along, across = path
    # The lengths stand in the table as well: what finds no room is left off.
    yield from board.fit(
        _beside(corner, along, share, words[0], (0.0, up)) for up in (-3.4, 1.0) for share in SHARES
    )
    yield from board.fit(
        _beside(corner, across, share, words[1], (right, -1.2)) for right in (1.2, -9.0) for share in SHARES
    )
    yield from board.fit(_beside(along, across, share, words[2], (1.6, -2.2)) for share in SHARES)


def _beside(start: Point, end: Point, share: float, words: str, shift: Point) -> Text:
    """A figure beside a place on a line."""
    x, y = (a + share * (b - a) for a, b in zip(start, end, strict=True))
    return figure((x + shift[0], y + shift[1]), words, "start" if shift[1] in {-1.2, -2.2} else "middle")
