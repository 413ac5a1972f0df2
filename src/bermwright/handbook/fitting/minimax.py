"""Values at which the largest of many distances is least, while others are held at nothing.

Linear programmes choose the steps, within a reach that grows where they keep their word and shrinks
where they do not; after each step what is held is brought back to nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Distances = Callable[[Array], Array]

MOST_STEPS = 200
FIRST_STEP = 0.5
"""Reach of a step, as a share of each value."""
SHORTER_STEP, LONGER_STEP = 0.3, 2.0
"""Factors on the reach after steps that kept little or nearly all of what they promised."""
POOR_TOLERANCE, GOOD_TOLERANCE = 0.25, 0.75
"""Shares of what a step promised."""
ENOUGH_TOLERANCE = 1e-8
SMALL_VALUE = 0.1
"""Values nearer to nothing than this are moved as if they were as large."""
BACK_STEPS, HELD_TOLERANCE = 12, 1e-12
NUDGE_STEP = 2.0**-26
"""Change of a value by which slopes are found; about the root of what a float resolves."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """What is asked of the values; both callables take many sets of values at once, the last axis one set."""

    apart: Distances
    """Distances of which the largest is to be least (-)."""
    held: Distances
    """What must be nothing (-)."""
    low: Array
    high: Array

    def largest(self, values: Array) -> float:
        """The largest distance; without end where what must be nothing is not."""
        if not np.all(np.abs(self.held(values)) < HELD_TOLERANCE):
            return np.inf
        return float(np.max(np.abs(self.apart(values))))

    def back(self, values: Array) -> Array:
        """The values near these that hold what must be held: Newton's steps of the least size."""
        values = self.kept_in(values)
        for _ in range(BACK_STEPS):
            off, slopes = _slopes(self.held, values)
            if np.all(np.abs(off) < HELD_TOLERANCE):
                break
            size = _size(values) * (self.high > self.low)
            values = self.kept_in(values - size * (np.linalg.pinv(slopes * size) @ off))
        return values

    def kept_in(self, values: Array) -> Array:
        """The values within their bounds."""
        return np.clip(values, self.low, self.high)


def least_largest(task: Task, start: Array) -> Array:
    """Values with the least largest distance that can be reached from a start downhill.

    min t with |d_i + J_i·δ| ≤ t and E·δ = 0, step after step; never worse than the start

    Parameters
    ----------
    task : Task
        Distances d, what is held e, and bounds [-].
    start : array
        Values to begin with [-].

    Returns
    -------
    array
        The values [-].

    References
    ----------
    [NOCEDAL2006] chapters 4, 15 and 18 : trust regions, corrections of second order.
    """
    values, reach = task.back(start), FIRST_STEP
    largest = task.largest(values)
    for _ in range(MOST_STEPS if np.isfinite(largest) else 0):
        step, hoped = _best_step(task, values, reach)
        if largest - hoped < ENOUGH_TOLERANCE or reach < ENOUGH_TOLERANCE:
            break
        moved = task.back(values + step)
        found = task.largest(moved)
        kept = (largest - found) / (largest - hoped)
        if kept > 0.0:
            values, largest = moved, found
        if kept < POOR_TOLERANCE:
            reach *= SHORTER_STEP
        elif kept > GOOD_TOLERANCE:
            reach *= LONGER_STEP
    return values


def _best_step(task: Task, values: Array, reach: float) -> tuple[Array, float]:
    """The step that would be best if all were straight, and the largest distance that it would leave."""
    from scipy.optimize import linprog

    off, slopes = _slopes(task.apart, values)
    held, turns = _slopes(task.held, values)
    size, one = reach * _size(values), np.ones((off.size, 1))
    steps = zip(np.maximum(task.low - values, -size), np.minimum(task.high - values, size), strict=True)
    solved = linprog(
        np.concatenate([np.zeros(values.size), [1.0]]),  # unknown are the step and, last, the distance
        A_ub=np.block([[slopes, -one], [-slopes, -one]]),
        b_ub=np.concatenate([-off, off]),
        A_eq=np.hstack([turns, np.zeros((held.size, 1))]),
        b_eq=np.zeros(held.size),
        bounds=[*steps, (0.0, None)],
        method="highs-ds",
    )
    if solved.x is None:  # no step is better, or the slopes are no numbers
        return np.zeros(values.size), np.inf
    return np.asarray(solved.x[:-1]), float(solved.fun)


def _slopes(found: Distances, values: Array) -> tuple[Array, Array]:
    """Distances and their slopes; many sets of values cost little more than one: all are nudged at once."""
    off = found(values + NUDGE_STEP * np.eye(values.size + 1, values.size, -1))
    return off[0], np.asarray((off[1:] - off[0]).T / NUDGE_STEP)


def _size(values: Array) -> Array:
    return np.maximum(np.abs(values), SMALL_VALUE)
