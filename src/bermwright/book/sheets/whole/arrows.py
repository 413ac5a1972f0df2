"""One way to draw a force: an arrow as long as it is strong, its figure at the tail, and its name."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Arrow, Ink, Item, Pen, Text
from bermwright.base.units import show
from bermwright.book.sheets.paper import CAPTION, FIGURE, Board

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Point

LONGEST = 24.0
"""Length of the strongest force of a drawing (mm)."""
SHORTEST = 4.5
"""A weaker one is drawn no shorter than this, so that it is seen (mm)."""
LINE = 4.3
"""From line to line of lettering (mm)."""


def reach(force: float, strongest: float) -> float:
    """Length of its arrow (mm)."""
    return max(SHORTEST, LONGEST * abs(force) / max(strongest, 1e-9))


def force_arrow(
    head: Point,
    way: Point,
    *,
    length: float,
    words: tuple[str, ...],
    board: Board,
    pen: Pen = Pen.FORCE,
    ink: Ink = Ink.INK,
) -> Iterator[Item]:
    """An arrow that ends at `head`, coming along `way` (any length), its words where there is room."""
    size = math.hypot(*way)
    u, v = way[0] / size, way[1] / size
    tail = (head[0] - length * u, head[1] - length * v)
    yield Arrow(tail=tail, head=head, pen=pen, ink=ink, layer="force")
    for number, line in enumerate(words):
        yield board.put(_places(tail, (u, v), line, number, len(words), ink))


def _places(tail: Point, way: Point, line: str, number: int, count: int, ink: Ink) -> Iterator[Text]:
    """At the tail on the side away from the head, then above and below it."""
    drop = LINE * (0.5 * (count - 1) - number) - 0.5 * FIGURE
    level = abs(way[0]) > abs(way[1])
    anchor = "middle" if not level else ("end" if way[0] > 0.0 else "start")
    aside = 0.0 if not level else (-1.5 if way[0] > 0.0 else 1.5)
    up = 0.0 if level else (LINE * count * 0.5 + 1.2) * (-1.0 if way[1] > 0.0 else 1.0)
    for shift in (0.0, LINE, -LINE, 2.0 * LINE, -2.0 * LINE):
        for sideways in (0.0, 9.0, -9.0):
            yield Text(
                at=(tail[0] + aside + (0.0 if level else sideways), tail[1] + drop + up + shift),
                text=line,
                height=CAPTION + 0.2 if number else FIGURE,
                anchor=anchor,
                strong=number == 0,
                ink=ink,
            )


def per_metre(force: float, system: str) -> str:
    """A force on a metre of vault."""
    return show(abs(force), "kN/m", 1, system)


def whole(force: float, system: str) -> str:
    """A force on the whole house."""
    return show(abs(force), "kN", 1, system)
