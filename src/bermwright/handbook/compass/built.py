"""What was built: the ring that was measured, flat stretches in it, and the way back to the drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

OVAL_NEEDS = 6
"""Readings from which an oval can be told from errors of measuring."""
SHIFT_NEEDS = 4
FULL_TURN = 2.0 * np.pi
SAME_DIRECTION = 1e-6
"""Two readings nearer than this lie in one direction (rad)."""


class RingFit(NamedTuple):
    """A measured ring as a circle that is moved and oval."""

    radius: float
    """Mean radius (m)."""
    shift: float
    """How far its middle lies from the axis (m)."""
    toward: float
    """Direction of that shift (rad)."""
    oval: float
    """How much the longest radius is over the mean once the shift is taken out (m)."""
    spread: float
    """Root mean square of what is left (m); NaN where no reading is left over."""


class Roundness(NamedTuple):
    """How round a ring is at each reading."""

    share: Array
    """Curvature there over that of the mean circle: 1 is round, 0 is straight, below 0 is a dent."""
    flattest: int
    """Place of the least (counted from 0)."""


def fit_ring(angle: ArrayLike, radius: ArrayLike) -> RingFit:
    """Mean radius, shift and oval of a ring that was measured from the axis, by least squares.

    r = r0 + a cos t + b sin t + c cos 2t + d sin 2t

    Parameters
    ----------
    angle : array
        Directions of the readings [rad]; at least 4 different ones, at most half a turn apart; an oval
        is told from 6 on.
    radius : array
        Radii read there [m]; above 0.

    Returns
    -------
    RingFit
        Mean radius, shift, its direction, oval and spread [m, m, rad, m, m].

    References
    ----------
    [SEBERWILD1989] linear least squares.

    Examples
    --------
    >>> turn = np.radians([0.0, 90.0, 180.0, 270.0])
    >>> round(fit_ring(turn, [2.02, 2.0, 1.98, 2.0]).shift, 3)
    0.02
    """
    t, r = _ring(angle, radius)
    columns = [np.ones_like(t), np.cos(t), np.sin(t)]
    if t.size >= OVAL_NEEDS:
        columns += [np.cos(2.0 * t), np.sin(2.0 * t)]
    matrix = np.column_stack(columns)
    found = np.linalg.lstsq(matrix, r, rcond=None)[0]
    free = t.size - matrix.shape[1]
    left = r - matrix @ found
    return RingFit(
        radius=float(found[0]),
        shift=float(np.hypot(found[1], found[2])),
        toward=float(np.arctan2(found[2], found[1]) % FULL_TURN),
        oval=float(np.hypot(found[3], found[4])) if t.size >= OVAL_NEEDS else 0.0,
        spread=float(np.sqrt(np.sum(left**2) / free)) if free else float(np.nan),
    )


def ring_roundness(angle: ArrayLike, radius: ArrayLike) -> Roundness:
    """Curvature of a ring at each reading, from it and its two neighbours.

    k_i = 4 A/(a b c) of the triangle of three neighbours, over that of the mean circle

    Parameters
    ----------
    angle : array
        Directions of the readings, in order round the ring [rad]; at least 4 different ones, at most
        half a turn apart.
    radius : array
        Radii read there [m]; above 0.

    Returns
    -------
    Roundness
        Share of the mean circle's curvature at each reading [-], and the place of the least.

    Notes
    -----
    The more readings, the more each error of reading counts: at 8 readings of a ring of 2 m, 10 mm move a
    share by about 0.07.

    References
    ----------
    [DOCARMO1976] chapter 1, curvature.

    Examples
    --------
    >>> turn = np.radians(np.arange(0.0, 360.0, 45.0))
    >>> [round(float(one), 9) for one in ring_roundness(turn, np.full(8, 2.0)).share[:2]]
    [1.0, 1.0]
    """
    t, r = _ring(angle, radius)
    x, y = r * np.cos(t), r * np.sin(t)
    before, after = np.roll(np.arange(t.size), 1), np.roll(np.arange(t.size), -1)
    ux, uy, vx, vy = x - x[before], y - y[before], x[after] - x, y[after] - y
    sides = np.hypot(ux, uy) * np.hypot(vx, vy) * np.hypot(x[after] - x[before], y[after] - y[before])
    share = 2.0 * (ux * vy - uy * vx) / sides * float(np.mean(r))
    return Roundness(share=share, flattest=int(np.argmin(share)))


def recover(design: ArrayLike, built: float, greatest: float, change: float) -> Array:
    """Radii of the next courses that lead a ring back to its drawing.

    r'_k = r_k where the step from r'_(k-1) allows it; no step is below 0, over the greatest step or, where
    the drawing itself steps more, over its own; and no step differs from the drawing's by more than `change`

    Parameters
    ----------
    design : array
        Radii of the drawing, from the course that was measured up [m]; from 0, none above the one before.
    built : float
        Radius that was measured for the first of them [m]; above 0.
    greatest : float
        Greatest step-in that a course may have [m]; from 0.
    change : float
        Greatest correction of one course [m]; above 0.

    Returns
    -------
    array
        Radius of every course, the measured one first [m]. Where the last differs from the drawing's, the
        error cannot be made good.

    References
    ----------
    [MAKINGFORMS] a ring that went wrong.

    Examples
    --------
    >>> recover([2.0, 1.95, 1.88, 1.79], 2.03, 0.1, 0.02).round(3).tolist()
    [2.03, 1.96, 1.88, 1.79]
    """
    drawn = np.asarray(design, dtype=float)
    within("design", drawn, 0.0, unit="m")
    within("step of the design", -np.diff(drawn), 0.0, unit="m")
    within("built", built, 0.0, unit="m", open_low=True)
    within("greatest", greatest, 0.0, unit="m")
    within("change", change, 0.0, unit="m", open_low=True)
    found = [float(built)]
    for before, wanted in zip(drawn[:-1].tolist(), drawn[1:].tolist(), strict=True):
        step = before - wanted
        most = min(max(greatest, step), step + change)
        least = max(0.0, step - change)
        found.append(found[-1] - min(max(found[-1] - wanted, least), most))
    return np.asarray(found)


def _ring(angle: ArrayLike, radius: ArrayLike) -> tuple[Array, Array]:
    t, r = np.asarray(angle, dtype=float), np.asarray(radius, dtype=float)
    within("angle", t, unit="rad")
    within("radius", r, 0.0, unit="m", open_low=True)
    within("number of readings", t.size, SHIFT_NEEDS)
    within("readings and angles that are missing", abs(t.size - r.size), 0.0, 0.0)
    turns = np.sort(t % FULL_TURN)
    gaps = np.append(np.diff(turns), turns[0] + FULL_TURN - turns[-1])
    # Two in one direction leave the roundness there no number, a half without any leaves the middle open.
    within("angle between neighbouring readings", gaps, SAME_DIRECTION, 0.5 * FULL_TURN, unit="rad")
    return t, r
