"""The least value of a slow function over a unit box: a coarse grid, then ever smaller steps along the axes.

Deterministic, without derivatives: the largest of many bendings has corners at which slopes mislead.
"""

from __future__ import annotations

import math
from itertools import product
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    Point = tuple[float, ...]

GRID = {0: 1, 1: 5, 2: 4, 3: 3}
"""Places along each axis of the first grid, by the number of axes."""
FINEST = 0.02
"""Step, as a share of an axis, at which the search ends."""


def least(function: Callable[[Point], float], axes: int) -> tuple[Point, float]:
    """Where a function of points in [0, 1]^axes is least, and its value there; inf where it is nowhere.

    >>> at, value = least(lambda p: abs(p[0] - 0.3) + abs(p[1] - 0.9), 2)
    >>> [round(x, 1) for x in at]
    [0.3, 0.9]
    """
    seen: dict[Point, float] = {}

    def value(point: Point) -> float:
        if point not in seen:
            seen[point] = function(point)
        return seen[point]

    ticks = GRID[axes]
    places = [i / (ticks - 1) for i in range(ticks)] if ticks > 1 else []
    best = min(product(places, repeat=axes), key=value)
    step = 0.5 / (ticks - 1) if ticks > 1 else 0.0
    while step >= FINEST and math.isfinite(value(best)):
        nearest = min(_beside(best, step), key=value)
        if value(nearest) < value(best):
            best = nearest
        else:
            step *= 0.5
    return best, value(best)


def _beside(point: Point, step: float) -> list[Point]:
    """The neighbours one step along each axis, both ways, inside the box."""
    found = []
    for axis, at in enumerate(point):
        for moved in (at - step, at + step):
            inside = min(max(moved, 0.0), 1.0)
            if inside != at:
                found.append((*point[:axis], round(inside, 9), *point[axis + 1 :]))
    return found
