"""The curve "under cover": free of bending under soil up to any ground line, sideways push included.

The ground is measured up from the level of the crown, so it moves with the crown. See `marching.py`
for the equations of one half; here the thrust, and on uneven ground the place of the crown, are sought
for which both feet are met.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.curves.line import PlaneCurve
from bermwright.handbook.curves.marching import Halves, cubic, march, plain_level

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import ArrayLike, NDArray

    from bermwright.handbook.curves.marching import CoverLoad, Level

    Array = NDArray[np.float64]
    Ground = Callable[[Array], Array] | tuple[ArrayLike, ArrayLike]

COARSE_STEPS, FINE_STEPS = 48, 144
"""Steps of a half in the search, and in the last march."""
POINTS_PER_STEP = 3
"""Points of the curve to a step of the last march (cubics between)."""
SCAN_GRID = (0.01, 40.0, 150)
"""Trial thrusts: lowest and highest over the thrust of a parabola with the same load, and how many."""
ZOOM_GRID = 48
BRACKET_TOLERANCE = 0.01
"""Width of the bracket, over the thrust, from which a straight line finds it."""
NEAR_TOLERANCE = 2e-4
"""Relative difference between neighbouring columns of a march from which its slope is taken; and how
near, over half the span, the feet must be for the last Newton share to be a blend of those columns."""
CLOSE_TOLERANCE, COARSE_SWEEPS, RETRY_STEPS = 0.02, 8, 3
"""How near the feet must be, over half the span, for the fine steps to begin; or after how many sweeps."""
SPARE_LENGTH = 1.06
"""Length of the fine march over that at which the coarse one met the feet."""
FULL_STEP, STEP_CUT = 1.0, 0.3
"""A whole step, and by how much one is cut that failed."""
TILT_TOLERANCE = 0.03
"""Least share of the unevenness of a ground by which the curve is led on."""
SPARE_THRUST_STEP = 0.02
"""Share by which a thrust is raised where a side does not reach its foot."""
LIMIT_TOLERANCE, CLIMB_TOLERANCE = 1e-3, 4e-3
"""How near a limiting rise is found (m), on even ground and by climbing on uneven ground."""
HIGHEST_RISE_BRACKET = 4.0
"""Rise over span up to which a limiting rise is sought."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverCurve:
    """A bending-free curve and the force in it."""

    line: PlaneCurve
    outward: Array
    """Horizontal part of the force at the points of the line, + pressing the feet apart (N/m)."""
    down: Array
    """Vertical part, + downward at the feet (N/m)."""
    crown_thrust: float
    """Horizontal thrust at the crown (N/m)."""
    crown_x: float
    """Place of the crown (m from mid-span)."""
    undercut: float
    """How far the curve bulges out past its feet, the larger of both sides (m)."""

    @property
    def left_foot(self) -> tuple[float, float]:
        """Horizontal (+ pushes outward) and vertical (+ down) force on the left foot (N/m)."""
        return float(self.outward[0]), float(self.down[0])

    @property
    def right_foot(self) -> tuple[float, float]:
        """Horizontal (+ pushes outward) and vertical (+ down) force on the right foot (N/m)."""
        return float(self.outward[-1]), float(self.down[-1])


def under_cover(  # noqa: PLR0913  (a task has many sides, all by name)
    span: float,
    rise: float,
    *,
    ground: Ground,
    load: CoverLoad,
    left_foot: float = 0.0,
    right_foot: float = 0.0,
    name_limit: bool = True,
    near: CoverCurve | None = None,
) -> CoverCurve:
    """The curve that stands without bending under soil to a ground line.

    dV/ds = p dx/ds + w, dH/ds = -K p dz/ds, dx/ds = H/N, dz/ds = V/N; p = gamma depth + q

    Parameters
    ----------
    span : float
        Distance between the feet [m]; above 0.
    rise : float
        Height of the crown over the springing line [m]; above 0.
    ground : callable or pair of arrays
        Height of the ground over the level of the crown at a distance from mid-span [m]: a function of
        an array, or the points of a line, straight between and flat beyond.
    load : CoverLoad
        Soil, K from 0 to 3, weight of the shell, surcharge, distance of the soil face.
    left_foot : float
        Height of the left foot over the springing line [m]; below the rise.
    right_foot : float
        Height of the right foot over the springing line [m]; below the rise.
    name_limit : bool
        Whether the error where there is no curve says up to which rise there is one: that takes ten times
        as long as the curve [-].
    near : CoverCurve, optional
        The curve of a task that differs a little: the search then goes on from its thrust and crown with
        coarse steps, eight times as fast and within 0.1 mm; where that leads nowhere it begins anew [-].

    Returns
    -------
    CoverCurve
        The curve, the force in it, the place of its crown and its undercut.

    Notes
    -----
    Small thrusts give curves that loop; of all thrusts that meet the feet, the largest whose curve does
    not loop is taken. Beyond a limiting rise there is none: the error says at what rise that is. Under
    an undercut face soil is taken to press up with its full depth; it cannot be compacted there, so such
    a curve has to be checked with less pressure as well. Friction between soil and shell is what K < 1
    asks of the face; with a soil face outside the curve, that friction acts at an arm, and the force in
    the curve leans a little off its tangent.

    References
    ----------
    [ROUTH1891] chapter X; [DLMF] section 3.7 for the integration.

    Examples
    --------
    >>> from bermwright.handbook.curves import CoverLoad
    >>> load = CoverLoad(unit_weight=18e3, sideways=0.5, self_weight=0.8e3)
    >>> curve = under_cover(5.0, 2.0, ground=lambda x: 0.3 - 0.5 * abs(x), load=load)
    >>> round(curve.crown_thrust / 1e3, 2)
    7.72
    """
    task = _task(span, ground, load, (left_foot, right_foot))
    within("rise", rise, max(0.0, left_foot, right_foot), unit="m", open_low=True)
    led_on = task.led_on(rise, near) if near is not None else None
    if led_on is not None:
        return led_on
    limit, found = task.raised(rise, name_limit=name_limit)
    if found is None and not name_limit:
        raise OutOfRangeError(f"No curve {span:g} m wide and {rise:g} m high stands without bending here.")
    if found is None:
        raise OutOfRangeError(
            f"No curve {span:g} m wide and {rise:g} m high stands without bending under this ground: "
            f"with K = {load.sideways:g} the rise is limited to about {limit:.2f} m. Take less rise, or "
            f"soil that pushes less sideways."
        )
    return found


def limiting_rise(
    span: float, *, ground: Ground, load: CoverLoad, left_foot: float = 0.0, right_foot: float = 0.0
) -> float:
    """Largest rise for which a bending-free curve exists under a ground line that moves with the crown.

    Found by bisection on the rise to 1 mm; on uneven ground by raising a low curve, to about 5 mm.

    Parameters
    ----------
    span : float
        Distance between the feet [m]; above 0.
    ground : callable or pair of arrays
        Height of the ground over the level of the crown, as in `under_cover` [m].
    load : CoverLoad
        Soil, K from 0 to 3, weight of the shell, surcharge, distance of the soil face.
    left_foot : float
        Height of the left foot over the springing line [m].
    right_foot : float
        Height of the right foot over the springing line [m].

    Returns
    -------
    float
        Rise [m]; infinite when there is a curve at four spans.

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> from bermwright.handbook.curves import CoverLoad
    >>> load = CoverLoad(unit_weight=18e3, sideways=0.5, self_weight=0.8e3)
    >>> round(limiting_rise(5.0, ground=lambda x: 0.3 - 0.5 * abs(x), load=load), 2)
    3.01
    """
    task = _task(span, ground, load, (left_foot, right_foot))
    limit, curve = task.raised(HIGHEST_RISE_BRACKET * span)
    return limit if curve is None else float("inf")


def _task(span: float, ground: Ground, load: CoverLoad, feet: tuple[float, float]) -> _Task:
    within("span", span, 0.0, unit="m", open_low=True)
    within("unit weight of the soil", load.unit_weight, 0.0, unit="N/m3")
    within("K", load.sideways, 0.0, 3.0)
    within("self-weight", load.self_weight, 0.0, unit="N/m2")
    within("surcharge", load.surcharge, 0.0, unit="Pa")
    within("distance of the soil face", load.face, 0.0, unit="m")
    level: Level
    if callable(ground):
        level = ground
    else:
        x, z = (np.asarray(part, dtype=float) for part in ground)
        within("ground", np.concatenate([x, z]), unit="m")
        level = _Line(x, z)
    return _Task(half=0.5 * span, level=level, load=load, feet=feet)


class _Line:
    """A ground by its points: straight between, flat beyond."""

    def __init__(self, x: Array, z: Array) -> None:
        self.x, self.z = x, z
        self.places, self.levels = x.tolist(), z.tolist()

    def __call__(self, at: Array) -> Array:
        return np.asarray(np.interp(at, self.x, self.z))

    def one(self, at: float) -> float:
        """The level at one place."""
        after = bisect_right(self.places, at)
        if after == 0 or after == len(self.places):
            return self.levels[0 if after == 0 else -1] if at == at else at  # noqa: PLR0124  (NaN stays NaN)
        low, high = self.places[after - 1], self.places[after]
        start, end = self.levels[after - 1], self.levels[after]
        return float(start + (end - start) * ((at - low) / (high - low)))


class _Blended:
    """A ground made even, left and right alike, but for a share of its unevenness."""

    def __init__(self, level: Level, share: float) -> None:
        self.level, self.share = level, share
        self.plain = plain_level(level)

    def __call__(self, at: Array) -> Array:
        here_guess, there_guess = self.level(at), self.level(-at)
        return np.asarray(_mixed(here_guess, there_guess, self.share))

    def one(self, at: float) -> float:
        """The level at one place."""
        here_guess, there_guess = self.plain(at), self.plain(-at)
        return float(_mixed(here_guess, there_guess, self.share))


def _mixed(here: Any, there: Any, share: float) -> Any:  # noqa: ANN401  (arrays or plain numbers)
    """On the way from the mean of both sides to a ground as it is: only a path to the answer."""
    ground_guess = 0.5 * (here + there) + 0.5 * share * (here - there)
    return ground_guess  # noqa: RET504  (the name says that it is a step of a search)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Task:
    """Two feet, a ground and a load; asked for the curve of a rise."""

    half: float
    level: Level
    load: CoverLoad
    feet: tuple[float, float]
    """Heights of the left and right foot over the springing line (m)."""

    def raised(self, rise: float, *, name_limit: bool = True) -> tuple[float, CoverCurve | None]:
        """The rise that can be had, up to the one wanted, and the curve if it is that one."""
        if not self._scale(rise) > 0.0:
            raise OutOfRangeError("Nothing presses on the curve: give soil, a weight or a surcharge.")
        curve = self._direct(rise)
        if curve is not None:
            return rise, curve
        if not self._even():
            return self._climbed(rise)
        return (self._halved(rise) if name_limit else np.nan), None

    def led_on(self, rise: float, near: CoverCurve) -> CoverCurve | None:
        """The curve from that of a task nearby; None where it is too far for that."""
        if not self._scale(rise) > 0.0:
            return None
        even = self._even()
        state = np.array([near.crown_thrust] if even else [near.crown_thrust, near.crown_x])
        length_guess = 0.6 * near.line.length
        return self.refined(rise, state, length=length_guess, last_steps=COARSE_STEPS)

    def _halved(self, rise: float) -> float:
        """On even ground: the largest rise below one that cannot be had."""
        low, high = max(self.feet), rise
        while high - low > LIMIT_TOLERANCE:
            guess = 0.5 * (low + high)
            low, high = (low, guess) if self.largest_thrust(guess, FINE_STEPS) is None else (guess, high)
        return low

    def _climbed(self, rise: float) -> tuple[float, CoverCurve | None]:
        """On uneven ground: raise a low curve bit by bit, each the start of the next."""
        low, reached, curve = max(self.feet), rise, None
        while curve is None:
            reached_guess = low + 0.7 * (reached - low)
            reached = reached_guess
            if reached - low < LIMIT_TOLERANCE:
                return low, None
            curve = self._direct(reached)
        step = 0.2 * (rise - reached)
        while step > CLIMB_TOLERANCE and reached < rise:
            wanted_step = min(rise, reached + step)
            higher = self.refined(wanted_step, np.array([curve.crown_thrust, curve.crown_x]))
            if higher is None:
                step *= STEP_CUT
            else:
                reached, curve = wanted_step, higher
        return reached, curve if reached == rise else None

    def _direct(self, rise: float) -> CoverCurve | None:
        """The curve of a rise; on uneven ground led on from that under the mean of both sides."""
        thrust = self._tilted(0.0).largest_thrust(rise)
        if thrust is None:
            return None
        if self._even():
            return self.refined(rise, np.array([thrust]))
        state, reached, step = np.array([thrust, 0.0]), 0.0, FULL_STEP
        while step > TILT_TOLERANCE:
            wanted_step = min(FULL_STEP, reached + step)
            curve = self._tilted(wanted_step).refined(rise, state)
            if curve is None:
                step *= STEP_CUT
                continue
            if wanted_step == FULL_STEP:
                return curve
            state, reached = np.array([curve.crown_thrust, curve.crown_x]), wanted_step
        return None

    def _tilted(self, share: float) -> _Task:
        """The same task with a share of its unevenness: none at 0, all at 1."""
        if share == FULL_STEP:
            return self
        left, right = self.feet
        middle_guess = 0.5 * (left + right)
        left_guess = middle_guess + share * (left - middle_guess)
        right_guess = middle_guess + share * (right - middle_guess)
        level = _Blended(self.level, share)
        return _Task(half=self.half, level=level, load=self.load, feet=(left_guess, right_guess))

    def _even(self) -> bool:
        """Whether left and right are alike."""
        x_grid = self.half * np.linspace(0.0, 2.0, 65)
        right, left = self.level(x_grid), self.level(-x_grid)
        return self.feet[0] == self.feet[1] and bool(np.all(np.abs(right - left) < 1e-9 * self.half))

    def _scale(self, rise: float) -> float:
        """Thrust of a parabola under about the same load: where the search is centred."""
        share_grid = np.linspace(-1.0, 1.0, 33)
        depth_guess = np.maximum(self.level(self.half * share_grid) + rise * share_grid**2, 0.0)
        pressure_guess = self.load.unit_weight * float(np.mean(depth_guess)) + self.load.surcharge
        weight_guess = pressure_guess + self.load.self_weight * np.hypot(1.0, rise / self.half)
        thrust_guess = weight_guess * self.half**2 / (2.0 * rise)
        return float(thrust_guess)

    def _march(
        self,
        rise: float,
        thrust: Array,
        crown: Array,
        side: Array,
        *,
        steps: int,
        length: float | None = None,
    ) -> tuple[Halves, Array, Array]:
        """Halves with where each meets the level of its foot, and how far outside its foot that is."""
        length_guess = 1.7 * self.half + 1.1 * rise
        marched = march(
            thrust,
            crown,
            side,
            level=self.level,
            load=self.load,
            length=length_guess if length is None else length,
            steps=steps,
        )
        drop = rise - np.where(side > 0.0, self.feet[1], self.feet[0])
        s, x = marched.crossing(drop)
        return marched, s, x + side * crown - self.half

    def largest_thrust(self, rise: float, steps: int = COARSE_STEPS) -> float | None:
        """On even ground: the largest thrust at which the foot is met by a curve that does not loop."""
        trials = self._scale(rise) * np.geomspace(*SCAN_GRID)
        for _ in range(6):
            miss = self._march(rise, trials, np.zeros(trials.size), np.ones(trials.size), steps=steps)[2]
            at = _topmost_change(miss)
            if at is None:
                return None
            if np.isfinite(miss[at]) and trials[at + 1] - trials[at] < BRACKET_TOLERANCE * trials[at]:
                return _between(trials, miss, at)
            # A narrow window near the limiting rise hides between two trials: look closer.
            trials = np.linspace(trials[at], trials[at + 1], ZOOM_GRID)
        return None

    def refined(
        self, rise: float, start: Array, *, length: float | None = None, last_steps: int = FINE_STEPS
    ) -> CoverCurve | None:
        """Newton on thrust (and crown) until both feet are met; the last march becomes the curve."""
        guess, steps = start, COARSE_STEPS
        count = RETRY_STEPS
        for sweep in range(COARSE_SWEEPS + 4):
            scale = np.array([guess[0], self.half])[: guess.size]
            marched, s, miss = self._fan(rise, guess, scale, steps=steps, length=length)
            if not np.all(np.isfinite(miss)):
                # A side that turns back before its foot reaches it under a little more thrust.
                guess = guess + SPARE_THRUST_STEP * scale * (np.arange(guess.size) == 0)
                count -= 1
                if count < 0:
                    return None
                continue
            slopes = (miss[1:] - miss[0]).T
            if np.linalg.matrix_rank(slopes) < guess.size:
                return None
            shares = -np.linalg.solve(slopes, miss[0])
            far = float(np.linalg.norm(miss[0])) / self.half
            if steps == last_steps and far < NEAR_TOLERANCE:
                return self._curve(rise, guess, shares, marched)
            guess = guess + np.clip(shares * NEAR_TOLERANCE, -0.2, 0.2) * scale
            if steps != last_steps and (far < CLOSE_TOLERANCE or sweep > COARSE_SWEEPS):
                steps, length = last_steps, SPARE_LENGTH * float(np.max(s))
        return None

    def _fan(
        self, rise: float, state: Array, scale: Array, *, steps: int, length: float | None
    ) -> tuple[Halves, Array, Array]:
        """March a state and its neighbours, on one side if the ground is even; misses by trial and side."""
        sides = np.array([1.0, -1.0])[: state.size]
        trials = np.vstack([state, state + NEAR_TOLERANCE * np.diag(scale)])
        thrust = np.repeat(trials[:, 0], sides.size)
        crown = np.repeat(trials[:, 1], sides.size) if state.size > 1 else 0.0 * thrust
        side = np.tile(sides, len(trials))
        marched, s, miss = self._march(rise, thrust, crown, side, steps=steps, length=length)
        return marched, s, miss.reshape(len(trials), sides.size)

    def _curve(self, rise: float, state: Array, shares: Array, marched: Halves) -> CoverCurve | None:
        """Blend the columns of the last march by Newton's last shares, and join both halves."""
        sides = state.size
        crown_x = 0.0 if sides == 1 else float(state[1] + NEAR_TOLERANCE * self.half * shares[1])
        halves = []
        for face, (side, foot) in enumerate(zip((1.0, -1.0)[:sides], self.feet[::-1], strict=False)):
            blended = [
                values[:, face] + (values[:, face + sides :: sides] - values[:, face : face + 1]) @ shares
                for values in (marched.x, marched.z, marched.fall, marched.outward, marched.down)
            ]
            width = self.half - side * crown_x
            halves.append(_half_points(blended, float(marched.step[face]), rise - foot, width))
        right, left = halves[0], halves[-1]
        return None if right is None or left is None else _joined(left, right, rise, crown_x)


def _topmost_change(miss: Array) -> int | None:
    """Index below which, coming down from large thrusts, the curve no longer passes outside its foot."""
    outside = np.flatnonzero(miss > 0.0)
    if outside.size == 0:
        return None
    lower = np.flatnonzero(~(miss[: outside[-1]] > 0.0))
    return None if lower.size == 0 else int(lower[-1])


def _between(trials: Array, miss: Array, at: int) -> float:
    share_guess = miss[at] / (miss[at] - miss[at + 1])
    guess = trials[at] + share_guess * (trials[at + 1] - trials[at])
    return float(guess)


Half = tuple["Array", ...]
"""s, x, z below the crown, fall, horizontal and vertical force, bend of one half from crown to foot."""


def _half_points(values: list[Array], step: float, drop: float, width: float) -> Half | None:
    """Evenly spaced points of a half down to its foot, which is then met to the last bit."""
    x, z, fall, outward, down = values
    one = Halves(
        x=x[:, None],
        z=z[:, None],
        fall=fall[:, None],
        outward=outward[:, None],
        down=down[:, None],
        step=np.array([step]),
    )
    length = float(one.crossing(drop)[0][0])
    if not np.isfinite(length):
        return None
    s_points = np.linspace(0.0, length, POINTS_PER_STEP * FINE_STEPS + 1)
    s = s_points
    bend = np.gradient(fall, step)
    rates = (np.cos(fall), np.sin(fall), bend)
    x, z, fall = (
        _between_steps(level, rate, step, s) for level, rate in zip((x, z, fall), rates, strict=True)
    )
    outward, down, bend = (
        _between_steps(level, np.gradient(level, step), step, s) for level in (outward, down, bend)
    )
    return s, x * (width / x[-1]), z * (drop / z[-1]), fall, outward, down, bend


def _between_steps(level: Array, rate: Array, step: float, s: Array) -> Array:
    """Cubics through the marched points."""
    below = np.minimum((s / step).astype(int), level.size - 2)
    return cubic((level[below], level[below + 1], rate[below], rate[below + 1]), s / step - below, step)


def _joined(left: Half, right: Half, rise: float, crown_x: float) -> CoverCurve:
    back = slice(None, 0, -1)
    s, x, z, fall, outward, down, bend = (
        np.concatenate([one[back], other]) for one, other in zip(left, right, strict=True)
    )
    middle = left[0].size - 1
    sign = np.where(np.arange(s.size) < middle, -1.0, 1.0)
    line = PlaneCurve(
        x=crown_x + sign * x, z=rise - z, s=left[0][-1] + sign * s, angle=-sign * fall, curvature=bend
    )
    for array in (outward, down):
        array.setflags(write=False)
    return CoverCurve(
        line=line,
        outward=outward,
        down=down,
        crown_thrust=float(outward[middle]),
        crown_x=crown_x,
        undercut=line.half_width - float(line.x[-1]),
    )
