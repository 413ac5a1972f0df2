"""Forces on a drawing: one arrow each, a letter at its tail, and the words in a list under it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.drawing import Arrow, Item, Pen, Text
from bermwright.book.sheets.paper import FIGURE, figure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Point, View

LEAST, MOST = 8.0, 24.0
"""Length of the shortest and the longest arrow (mm)."""
LINE = 5.0
"""Height of a line of words (mm)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Force:
    """One force on a part, as it is drawn."""

    words: str
    """What it is, with its value: stands in the list."""
    at: tuple[float, float]
    """Where it acts in the section (m)."""
    across: float
    down: float
    """Its parts (N/m), + to the right and + down; only their direction and size for the arrow count."""
    leaves: bool = False
    """Whether its tail stands where it acts, so that it points away; else its head does."""

    @property
    def size(self) -> float:
        """N/m."""
        return math.hypot(self.across, self.down)


def letters(count: int) -> str:
    """One letter for each force."""
    return "ABCDEFGHJKLMNPQRSTUVWXYZ"[:count]


def force_items(forces: tuple[Force, ...], view: View) -> Iterator[Item]:
    """The arrows with their letters."""
    most = max((force.size for force in forces), default=1.0) or 1.0
    for letter, force in zip(letters(len(forces)), forces, strict=True):
        if force.size <= 0.0:
            continue
        length = LEAST + (MOST - LEAST) * force.size / most
        way = (force.across / force.size, -force.down / force.size)
        here = view.point(*force.at)
        tail = here if force.leaves else _along(here, way, -length)
        head = _along(tail, way, length)
        yield Arrow(tail=tail, head=head, pen=Pen.FORCE, layer="force")
        end = _along(head, way, 3.4) if force.leaves else _along(tail, way, -3.4)
        at = (end[0], end[1] - 0.4 * FIGURE)
        yield Text(at=at, text=letter, height=3.0, anchor="middle", strong=True, layer="force")


def _along(start: Point, way: tuple[float, float], length: float) -> Point:
    return start[0] + way[0] * length, start[1] + way[1] * length


def force_list(forces: tuple[Force, ...], top: float, left: float) -> Iterator[Item]:
    """The letters with their words, from a height down (mm)."""
    for row, (letter, force) in enumerate(zip(letters(len(forces)), forces, strict=True)):
        y = top - LINE * (row + 1)
        yield Text(at=(left, y), text=letter, height=2.6, strong=True, layer="text")
        yield figure((left + 6.0, y), force.words)
