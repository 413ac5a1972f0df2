"""The march down a bending-free curve from its crown, for many trial thrusts at once.

Each half is seen from the crown: x outward, z down, both positive; H and V are the horizontal and the
vertical part of the force in the curve, p is the vertical pressure at the soil face and w the weight of
the curve along its arc. On the curve itself

    dx/ds = cos t,  dz/ds = sin t,  dV/ds = p dx/ds + w,  dH/ds = -K p dz/ds,  tan t = V/H,

with signs: on an undercut face dx/ds is negative and soil presses up. Where the soil face lies outside
the curve by e, its pressures act on 1 + e dt/ds as much length, and at an arm: the force then has to lean
off the tangent so far that the bending stays nought,

    V cos t - H sin t = e p (1 + e dt/ds)(1 - K) sin t cos t.

The lean changes slowly; it is carried along from step to step.
"""

from __future__ import annotations

import math
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Index = NDArray[np.intp]
    Level = Callable[[Array], Array]

TURNED_TOLERANCE = -1e-9
"""Slope angle below which a half has passed the upright and turned back in (rad)."""
HALVING_STEPS = 30
COLUMN_CHUNK = 8
"""Up to so many columns are marched one by one (-)."""
CROWN_SWEEPS = 5
"""Rates taken at the crown before the march, until its bend has settled."""


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
    """Slope angle below the horizontal (rad); it comes back as a negative one once the half has turned."""
    outward: Array
    down: Array
    """Horizontal and vertical part of the force (N/m)."""
    step: Array
    """(m,) arc length between neighbouring points (m)."""

    def crossing(self, drop: float | Array) -> tuple[Array, Array]:
        """Arc length and x where each column first lies `drop` below the crown; NaN if it turns before."""
        rate = np.sin(self.fall)
        turned = np.logical_or.accumulate(~(self.fall >= TURNED_TOLERANCE), axis=0)
        # In the step in which it turns, a half is deepest between both ends: where a parabola would be.
        with np.errstate(all="ignore"):
            peak_guess = np.where(turned[1:], rate[:-1] / (rate[:-1] - rate[1:]), 1.0)
        peak_guess = np.clip(peak_guess, 0.0, 1.0)
        all_ends = (self.z[:-1], self.z[1:], rate[:-1], rate[1:])
        reached = cubic(all_ends, peak_guess, self.step) >= np.asarray(drop)
        before = np.argmax(reached, axis=0)
        columns = np.arange(self.z.shape[1])
        good = reached[before, columns] & ~turned[before, columns]
        ends = self._ends(self.z, before, columns, np.sin)
        low, high = np.zeros(columns.size), peak_guess[before, columns]
        for _ in range(HALVING_STEPS):
            guess = 0.5 * (low + high)
            short = cubic(ends, guess, self.step) < drop
            low, high = np.where(short, guess, low), np.where(short, high, guess)
        share = high
        x = cubic(self._ends(self.x, before, columns, np.cos), share, self.step)
        return np.where(good, (before + share) * self.step, np.nan), np.where(good, x, np.nan)

    def _ends(self, values: Array, before: Index, columns: Index, rate: Callable[[Array], Array]) -> Ends:
        return (
            values[before, columns],
            values[before + 1, columns],
            rate(self.fall[before, columns]),
            rate(self.fall[before + 1, columns]),
        )


Ends = tuple["Array", "Array", "Array", "Array"]
"""Values at both ends of a step, then their rates."""
State = tuple[Any, ...]
"""x, z, H, V: arrays with one entry a column, or plain numbers."""


def march(
    crown_thrust: Array,
    crown_x: Array,
    side: Array,
    *,
    level: Level,
    load: CoverLoad,
    length: float,
    steps: int,
) -> Halves:
    """Columns of half curves from the crown over a given arc length, by classical Runge-Kutta steps.

    `side` is +1 for right halves and -1 for left ones; `level(x)` is the ground over the crown's level. A few
    columns are marched one by one as plain numbers, which is five times as quick as short arrays.
    """
    size, step = crown_thrust.size, length / steps
    if size > COLUMN_CHUNK:
        slope = _Slope(crown_x=crown_x, side=side, level=level, load=load, by=ARRAYS)
        zero = np.zeros(size)
        with np.errstate(all="ignore"):  # columns that have turned back may run wild; they are not read
            rows = list(_steps(slope, (zero, zero, crown_thrust.astype(float), zero), step, steps))
        history = np.array(rows).transpose(1, 0, 2)
    else:
        history = np.full((5, steps + 1, size), np.nan)
        at = zip(crown_thrust.tolist(), crown_x.tolist(), side.tolist(), strict=True)
        plain = plain_level(level)
        for column, (thrust, crown, way) in enumerate(at):
            slope = _Slope(crown_x=crown, side=way, level=plain, load=load, by=FLOATS)
            rows = _until_wild(_steps(slope, (0.0, 0.0, thrust, 0.0), step, steps))
            history[:, : len(rows), column] = np.array(rows).T
    x, z, outward, down, fall = history
    return Halves(x=x, z=z, fall=fall, outward=outward, down=down, step=np.full(size, step))


def _steps(slope: _Slope, state: State, step: float, steps: int) -> Iterator[tuple[Any, ...]]:
    """x, z, H, V and slope angle at every step."""
    for _ in range(CROWN_SWEEPS):
        slope.rates(state)
    for row in range(steps + 1):
        first = slope.rates(state)
        slope.settle(step if row else 0.0)
        yield (*state, slope.fall)
        second = slope.rates(_moved(state, first, step / 2.0))
        third = slope.rates(_moved(state, second, step / 2.0))
        fourth = slope.rates(_moved(state, third, step))
        total = tuple(
            k1 + 2.0 * (k2 + k3) + k4 for k1, k2, k3, k4 in zip(first, second, third, fourth, strict=True)
        )
        state = _moved(state, total, step / 6.0)


def _until_wild(rows: Iterator[tuple[Any, ...]]) -> list[tuple[Any, ...]]:
    """The rows of one column of plain numbers, up to where it runs wild."""
    found: list[tuple[Any, ...]] = []
    with suppress(ArithmeticError, ValueError):
        found.extend(rows)
    return found


def plain_level(level: Level) -> Callable[[float], float]:
    """The same ground for a plain number."""
    quick: Callable[[float], float] | None = getattr(level, "one", None)
    return quick if quick is not None else lambda at: float(level(np.asarray(at)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbers:
    """How one kind of number is worked with: whole arrays, or plain numbers one by one."""

    sin: Callable[[Any], Any]
    cos: Callable[[Any], Any]
    arcsin: Callable[[Any], Any]
    arctan2: Callable[[Any, Any], Any]
    root: Callable[[Any], Any]
    larger: Callable[[Any, float], Any]
    where: Callable[[Any, Any, float], Any]


ARRAYS = Numbers(
    sin=np.sin,
    cos=np.cos,
    arcsin=np.arcsin,
    arctan2=np.arctan2,
    root=np.sqrt,
    larger=np.maximum,
    where=np.where,
)
FLOATS = Numbers(
    sin=math.sin,
    cos=math.cos,
    arcsin=math.asin,
    arctan2=math.atan2,
    root=math.sqrt,
    larger=max,
    where=lambda wanted, this, other: this if wanted else other,
)


class _Slope:
    """The rates of the march, with the lean of the force off the tangent carried along.

    With A = e p (1 - K)/N the lean condition reads t + asin(A (1 + e t') sin t cos t) = atan(V/H); its
    derivative along the arc gives t', in which only the change of A is taken from the last step.
    """

    def __init__(self, *, crown_x: Any, side: Any, level: Any, load: CoverLoad, by: Numbers) -> None:  # noqa: ANN401  (arrays in a march of many, plain numbers in one of few)
        self.crown_x, self.side, self.level, self.load, self.by = crown_x, side, level, load, by
        zero = 0.0 * crown_x
        first_guess = zero + 1.0
        self.fall, self.lean, self.stretch = zero, zero, first_guess
        self.arm, self.arm_before, self.arm_change = zero, zero, zero

    def rates(self, state: State) -> State:
        """dx/ds, dz/ds, dH/ds, dV/ds."""
        x, z, outward, down = state
        load, by = self.load, self.by
        toward = by.arctan2(down, outward)
        self.fall = toward - self.lean
        sine, cosine = by.sin(self.fall), by.cos(self.fall)
        pressure = self._pressure(x, z, sine, cosine)
        if load.face:
            self._lean(pressure, toward, sine, cosine, outward, down)
            sine, cosine = by.sin(self.fall), by.cos(self.fall)
            pressure = pressure * self.stretch
        return cosine, sine, -load.sideways * pressure * sine, pressure * cosine + load.self_weight

    def settle(self, step: float) -> None:
        """Note how the arm of the friction has changed over the step that has just ended."""
        if step:
            self.arm_change = (self.arm - self.arm_before) / step
        self.arm_before = self.arm

    def _lean(self, pressure: Any, toward: Any, sine: Any, cosine: Any, outward: Any, down: Any) -> None:  # noqa: ANN401  (arrays in a march of many, plain numbers in one of few)
        """Better slope angle and lean, by one Newton step from the last; and the stretch of the face."""
        face, ratio, by = self.load.face, self.load.sideways, self.by
        square = outward * outward + down * down
        self.arm = face * (1.0 - ratio) * pressure / by.root(square)
        turn = self.arm * self.stretch
        both = sine * cosine
        slow = 1.0 + turn * (1.0 - 2.0 * sine * sine)
        push = pressure * (cosine * outward + ratio * sine * down) / square - self.arm_change * both
        # Where the force is too small for its pressure, the soil face would fold: there is no curve.
        room = by.where(slow > face * push, slow - face * push, np.nan)
        self.stretch = 1.0 + face * (push + self.load.self_weight * outward / square) / room
        miss = self.fall + by.arcsin(turn * both) - toward
        self.fall = self.fall - miss / slow
        self.lean = toward - self.fall

    def _pressure(self, x: Any, z: Any, sine: Any, cosine: Any) -> Any:  # noqa: ANN401  (arrays in a march of many, plain numbers in one of few)
        face = self.load.face
        ground = self.level(self.crown_x + self.side * (x + face * sine))
        depth = self.by.larger(ground + z - face * cosine, 0.0)
        return self.load.unit_weight * depth + self.load.surcharge


def _moved(state: State, rates: State, step: float) -> State:
    x, z, outward, down = state
    a, b, c, d = rates
    return x + step * a, z + step * b, outward + step * c, down + step * d


def cubic(ends: Ends, share: Array, step: Array | float) -> Array:
    """Cubic through both ends of a step with the rates there."""
    start, stop, start_rate, stop_rate = ends
    rest = 1.0 - share
    return np.asarray(
        start * rest**2 * (1.0 + 2.0 * share)
        + stop * share**2 * (1.0 + 2.0 * rest)
        + step * share * rest * (start_rate * rest - stop_rate * share)
    )
