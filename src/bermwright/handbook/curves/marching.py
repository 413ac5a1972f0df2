"""The march down a bending-free curve from its crown, for many trial thrusts at once.

Each half is seen from the crown: x outward, z down, both positive. Along the arc length s, with the
slope angle t below the horizontal and the axial force N,

    dx/ds = cos t,  dz/ds = sin t,
    dt/ds = (p (cos^2 t + K sin^2 t) + w cos t)/N,
    dN/ds = p (1 - K) sin t cos t + w sin t,

where p is the vertical pressure at the soil face and w the weight of the curve. This is
dV/ds = p dx/ds + w, dH/ds = -K p dz/ds with signs, in other letters: on an undercut face (t over a right
angle) dx/ds is negative and soil presses up. Where the soil face lies outside the curve by e, its
pressures act on 1 + e dt/ds as much length.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Index = NDArray[np.intp]
    Level = Callable[[Array], Array]


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverLoad:
    """What presses on the curve, per metre of vault."""

    unit_weight: float
    """Of the soil (N/m3)."""
    sideways: float
    """K: horizontal over vertical pressure (-)."""
    self_weight: float = 0.0
    """Of the shell, along the curve (N/m2)."""
    surcharge: float = 0.0
    """Pressure on the finished ground, such as snow; it goes down as it is and sideways by K (Pa)."""
    face: float = 0.0
    """Distance of the soil face outside the curve (m): depth and pressures are taken there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Halves:
    """Marched half curves, one a column: (steps + 1, m) arrays."""

    x: Array
    z: Array
    fall: Array
    """Slope angle below the horizontal (rad)."""
    thrust: Array
    """Axial force (N/m)."""
    bend: Array
    """Curvature (1/m)."""
    step: Array
    """(m,) arc length between neighbouring points (m)."""

    def crossing(self, drop: float | Array) -> tuple[Array, Array]:
        """Arc length and x where each column first lies `drop` below the crown; NaN if it turns before."""
        below = self.z >= np.asarray(drop)
        first = np.argmax(below, axis=0)
        columns = np.arange(self.z.shape[1])
        turned = np.maximum.accumulate(self.fall, axis=0) >= np.pi
        before = np.maximum(first - 1, 0)
        good = below[first, columns] & ~turned[before, columns]
        share = self._share(before, columns, drop)
        x = _hermite(self._ends(self.x, before, columns, np.cos), share, self.step)
        return (
            np.where(good, (before + share) * self.step, np.nan),
            np.where(good, x, np.nan),
        )

    def _share(self, before: Index, columns: Index, drop: float | Array) -> Array:
        """How far through its step each column reaches the drop: Newton on the cubic."""
        ends = self._ends(self.z, before, columns, np.sin)
        share = np.clip((drop - ends[0]) / (ends[1] - ends[0]), 0.0, 1.0)
        for _ in range(4):
            miss = _hermite(ends, share, self.step) - drop
            slope = _hermite_slope(ends, share, self.step)
            share = np.clip(share - miss / np.where(slope > 0.0, slope, np.inf), 0.0, 1.0)
        return share

    def _ends(
        self, values: Array, before: Index, columns: Index, rate: Callable[[Array], Array]
    ) -> tuple[Array, Array, Array, Array]:
        fall = self.fall
        return (
            values[before, columns],
            values[before + 1, columns],
            rate(fall[before, columns]),
            rate(fall[before + 1, columns]),
        )


def march(
    crown_thrust: Array,
    crown_x: Array,
    side: Array,
    *,
    level: Level,
    load: CoverLoad,
    length: Array | float,
    steps: int,
) -> Halves:
    """Columns of half curves from the crown over a given arc length, by classical Runge-Kutta steps.

    `side` is +1 for right halves and -1 for left ones; `level(x)` is the ground over the crown's level.
    """
    size = crown_thrust.size
    step = np.broadcast_to(np.asarray(length, dtype=float) / steps, (size,))
    half, sixth = step / 2.0, step / 6.0
    state: State = (np.zeros(size), np.zeros(size), np.zeros(size), crown_thrust.astype(float))
    history = np.full((5, steps + 1, size), np.nan)
    with np.errstate(all="ignore"):  # columns that have turned back may run wild; they are not read
        for row in range(steps + 1):
            first = _rates(state, crown_x, side, level, load)
            history[0, row], history[1, row], history[2, row], history[3, row] = state
            history[4, row] = first[2]
            second = _rates(_moved(state, first, half), crown_x, side, level, load)
            third = _rates(_moved(state, second, half), crown_x, side, level, load)
            fourth = _rates(_moved(state, third, step), crown_x, side, level, load)
            mean = tuple(
                k1 + 2.0 * (k2 + k3) + k4 for k1, k2, k3, k4 in zip(first, second, third, fourth, strict=True)
            )
            state = _moved(state, mean, sixth)
    x, z, fall, thrust, bend = history
    return Halves(x=x, z=z, fall=fall, thrust=thrust, bend=bend, step=step)


State = tuple["Array", ...]


def _moved(state: State, rates: State, step: Array) -> State:
    return tuple(value + step * rate for value, rate in zip(state, rates, strict=True))


def _rates(state: State, crown_x: Array, side: Array, level: Level, load: CoverLoad) -> State:
    x, z, fall, thrust = state
    sine, cosine = np.sin(fall), np.cos(fall)
    ground = level(crown_x + side * (x + load.face * sine))
    depth = np.maximum(ground + z - load.face * cosine, 0.0)
    pressure = load.unit_weight * depth + load.surcharge
    square = pressure * (cosine**2 + load.sideways * sine**2)
    bend = (square + load.self_weight * cosine) / (thrust - load.face * square)
    along = pressure * (1.0 + load.face * bend) * (1.0 - load.sideways) * cosine
    return cosine, sine, bend, (along + load.self_weight) * sine


def _hermite(ends: tuple[Array, Array, Array, Array], share: Array, step: Array) -> Array:
    """Cubic through both ends of a step with the slopes there."""
    start, stop, start_rate, stop_rate = ends
    rest = 1.0 - share
    return (
        start * rest**2 * (1.0 + 2.0 * share)
        + stop * share**2 * (1.0 + 2.0 * rest)
        + step * share * rest * (start_rate * rest - stop_rate * share)
    )


def _hermite_slope(ends: tuple[Array, Array, Array, Array], share: Array, step: Array) -> Array:
    start, stop, start_rate, stop_rate = ends
    rest = 1.0 - share
    return (
        6.0 * (stop - start) * share * rest
        + step * start_rate * rest * (1.0 - 3.0 * share)
        + step * stop_rate * share * (3.0 * share - 2.0)
    )
