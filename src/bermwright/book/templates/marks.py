"""What every sheet of a template carries so that it prints true and joins its neighbours."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Arc, Area, Ink, Item, Lettering, Pen, Stroke, Text, Wash

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Point

SQUARE = 100.0
"""Side of the check square (mm)."""
_LEG = 8.0
_RADIUS = 3.2
_WHISKER = 6.0
_ARC_POINTS = 9


def check_square(centre: Point, stretch: Point = (1.0, 1.0)) -> Iterator[Item]:
    """Corners of a 100 mm square with its diagonal: measured before anything is cut."""
    x0, y0, x1, y1 = _sides(centre, stretch)
    for x, y, right, up in ((x0, y0, 1, 1), (x1, y0, -1, 1), (x1, y1, -1, -1), (x0, y1, 1, -1)):
        yield Stroke(path=((x + right * _LEG, y), (x, y), (x, y + up * _LEG)), pen=Pen.SEEN, layer="check")
    yield Stroke(path=((x0, y1), (x1, y0)), pen=Pen.HIDDEN, layer="check")


def check_words(centre: Point, taken: tuple[Point, ...]) -> Text:
    """The name of the check square, in the corner that is least crowded by `taken`."""
    x0, y0, x1, y1 = _sides(centre)
    spots = [(x0 + 2.0, y1 - 4.6, "start"), (x1 - 2.0, y1 - 4.6, "end")]
    spots += [(x0 + 2.0, y0 + 2.4, "start"), (x1 - 2.0, y0 + 2.4, "end")]

    def room(spot: tuple[float, float, str]) -> float:
        middle = spot[0] + (14.0 if spot[2] == "start" else -14.0)
        return min((math.hypot((x - middle) / 3.0, y - spot[1]) for x, y in taken), default=math.inf)

    x, y, anchor = max(spots, key=room)
    return Text(at=(x, y), text="check 100.0 mm", height=2.2, anchor=anchor, strong=True)


def _sides(centre: Point, stretch: Point = (1.0, 1.0)) -> tuple[float, float, float, float]:
    wide, tall = (0.5 * SQUARE * share for share in stretch)
    return (centre[0] - wide, centre[1] - tall, centre[0] + wide, centre[1] + tall)


def registration(at: Point, name: str, toward: Point) -> Iterator[Item]:
    """A mark that two sheets share; its name stands on the side of the window's middle."""
    x, y = at
    for start in (0.0, math.pi):
        yield Area(path=_quarter(at, start), wash=Wash.INK, layer="marks")
    yield Arc(centre=at, radius=_RADIUS, start=0.0, end=2.0 * math.pi, pen=Pen.LAYER, layer="marks")
    yield Stroke(path=((x - _WHISKER, y), (x + _WHISKER, y)), pen=Pen.LAYER, layer="marks")
    yield Stroke(path=((x, y - _WHISKER), (x, y + _WHISKER)), pen=Pen.LAYER, layer="marks")
    right = 1.0 if toward[0] > x else -1.0
    up = 4.6 if toward[1] > y else -6.8
    anchor = "start" if right > 0 else "end"
    yield Text(at=(x + right * 4.8, y + up), text=name, height=2.4, anchor=anchor, strong=True)


def _quarter(at: Point, start: float) -> tuple[Point, ...]:
    angles = [start + 0.5 * math.pi * i / (_ARC_POINTS - 1) for i in range(_ARC_POINTS)]
    return (at, *((at[0] + _RADIUS * math.cos(a), at[1] + _RADIUS * math.sin(a)) for a in angles))


NAIL_MARKS = ("upright crosses", "tilted crosses", "rings", "squares", "triangles", "diamonds")
"""How the nails of layers that stand beside each other are told apart, turn by turn."""
_CORNERS = {2: (16, 0.0), 3: (4, 0.25 * math.pi), 4: (3, 0.5 * math.pi), 5: (4, 0.0)}
"""Corners of the closed marks, and where the first one lies (rad); a ring has many."""


def nail_words(turn: int) -> str:
    """How the marks of a turn are called."""
    return NAIL_MARKS[turn % len(NAIL_MARKS)]


def nail_mark(turn: int, at: Point, half: float) -> Iterator[Item]:
    """The mark of a nail, with its middle to be seen; `half` as wide to each side."""
    x, y = at
    kind = turn % len(NAIL_MARKS)
    closed = kind in _CORNERS
    if closed:
        count, first = _CORNERS[kind]
        angles = [first + 2.0 * math.pi * corner / count for corner in range(count)]
        path = tuple((x + half * math.cos(angle), y + half * math.sin(angle)) for angle in angles)
        yield Stroke(path=path, pen=Pen.LAYER, closed=True, layer="nails")
    long, turned = (0.3 * half, 0.0) if closed else (half, 0.25 * math.pi * kind)
    for angle in (turned, turned + 0.5 * math.pi):
        dx, dy = long * math.cos(angle), long * math.sin(angle)
        yield Stroke(path=((x - dx, y - dy), (x + dx, y + dy)), pen=Pen.LAYER, layer="nails")


def arrow_to(tail: Point, words: str) -> Iterator[Item]:
    """An arrow up the sheet with what lies there."""
    x, y = tail
    yield Stroke(path=((x, y), (x, y + 18.0)), pen=Pen.SEEN)
    yield Area(path=((x - 2.6, y + 17.0), (x + 2.6, y + 17.0), (x, y + 26.0)), wash=Wash.INK)
    yield Text(at=(x, y - 4.5), text=words, height=2.6, anchor="middle", strong=True)


def small_words(at: Point, text: str, *, angle: float = 0.0) -> Text:
    """An italic word that says which side is which."""
    face = Lettering.NOTE
    return Text(
        at=at, text=text, height=3.0, anchor="middle", angle=angle, face=face, ink=Ink.SOFT, halo=False
    )
