"""How many ways a loaded frame can buckle, and the load at which the first appears (compiled)."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.frames.band import assemble, factor
from bermwright.handbook.frames.compiled import compiled, entrance
from bermwright.handbook.frames.kernel import make_equations

if TYPE_CHECKING:
    from bermwright.handbook.frames.nouns import Array
    from bermwright.handbook.frames.records import Bars, Equations


DOUBLING_STEP = 2.0
"""How far the factor is raised until the frame gives way."""


@compiled
def unstable(
    bars: Bars, equations: Equations, tension: Array, held: Array, factors: tuple[float, float]
) -> bool:
    """Whether the frame has left its stable state under these axial forces."""
    negative = assemble(bars, equations, tension, held, factors)
    return negative + factor(equations.band, equations.scale) > 0


@entrance
def critical(bars: Bars, axial: Array, factors: Array, springs: Array, limits: tuple[float, float]) -> Array:
    """Factor on each row of axial forces at which the frame buckles; see `buckling_factor`."""
    equations = make_equations(bars.length.size)
    answer = np.full(axial.shape[0], np.nan)
    nothing = np.zeros(bars.length.size)
    for case in range(axial.shape[0]):
        held = springs[case] * np.abs(bars.rise)
        pair = (factors[case, 0], factors[case, 1])
        known = np.isfinite(axial[case]).all() and np.isfinite(held).all()
        if not (known and pair[0] > 0.0 and pair[1] > 0.0):
            continue
        if not unstable(bars, equations, nothing, held, pair):
            answer[case] = _bisect(bars, equations, axial[case], held, pair, limits)
    return answer


@compiled
def _bisect(
    bars: Bars,
    equations: Equations,
    axial: Array,
    held: Array,
    factors: tuple[float, float],
    limits: tuple[float, float],
) -> float:
    most, tolerance = limits
    low = 0.0
    first_guess = 1.0
    high = first_guess
    while not unstable(bars, equations, -high * axial, held, factors):
        low = high
        high *= DOUBLING_STEP
        if high > most:
            return float(np.inf)
    while high - low > tolerance * high:
        middle = 0.5 * (low + high)
        if unstable(bars, equations, -middle * axial, held, factors):
            high = middle
        else:
            low = middle
    return low
