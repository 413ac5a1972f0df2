"""How many ways a loaded frame can buckle, and the load at which the first appears (compiled)."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.frames.band import assemble, factor
from bermwright.handbook.frames.compiled import compiled
from bermwright.handbook.frames.kernel import make_work

if TYPE_CHECKING:
    from bermwright.handbook.frames.nouns import Array
    from bermwright.handbook.frames.records import Bars, Work


@compiled
def unstable(bars: Bars, work: Work, axial: Array, times: float, factors: Array) -> bool:
    """Whether the frame has left its stable state under `times` the axial forces."""
    for e in range(axial.size):
        work.tension[e] = -times * axial[e]
    return assemble(bars, work, factors[0], factors[1]) + factor(work.band, work.scale) > 0


@compiled
def critical(bars: Bars, axial: Array, factors: Array, springs: Array, limits: tuple[float, float]) -> Array:
    """Factor on each row of axial forces at which the frame buckles; see `buckling_factor`."""
    work = make_work(bars.length.size, 0)
    answer = np.full(axial.shape[0], np.nan)
    for case in range(axial.shape[0]):
        for i in range(bars.plan.size):
            work.held[i] = springs[case, i] * abs(bars.rise[i])
        if not (np.isfinite(axial[case]).all() and np.isfinite(springs[case]).all()):
            continue
        if np.isfinite(factors[case]).all() and not unstable(bars, work, axial[case], 0.0, factors[case]):
            answer[case] = _bisect(bars, work, axial[case], factors[case], limits)
    return answer


@compiled
def _bisect(bars: Bars, work: Work, axial: Array, factors: Array, limits: tuple[float, float]) -> float:
    most, tolerance = limits
    low, high = 0.0, 1.0
    while not unstable(bars, work, axial, high, factors):
        low, high = high, 2.0 * high
        if high > most:
            return np.inf
    while high - low > tolerance * high:
        middle = 0.5 * (low + high)
        if unstable(bars, work, axial, middle, factors):
            high = middle
        else:
            low = middle
    return low
