"""A chain of tangent arcs that lies nearest to a curve: for a compass, or for a bender with few settings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.curves import Arc
from bermwright.handbook.fitting.distance import distance_to_curve

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from bermwright.handbook.curves import PlaneCurve

    Array = NDArray[np.float64]

MOST_ARCS = 9
SAMPLE_POINTS = 60
"""Points of the curve at which the chain is compared."""
EVEN = 1e-6
"""Difference of both halves, over the span, below which a curve is its own mirror image."""
KINK_TOLERANCE = 1e-3
"""Slope of a half at its crown (rad) over which the crown is a point."""
STRAIGHTEST_GUESS, SHARPEST_GUESS = 0.01, 40.0
"""Bounds of an arc's curvature times the span."""
CROWN_GUESS_LIFT = 0.1
"""Most by which a chain's crown may leave the curve's, over the span."""
LENGTH_GUESS_BOUNDS = (0.02, 3.0)
"""Bounds of an arc's length over the span."""
MISSED_STEP = 10.0
"""Weight of a chain that misses its end, beside its largest distance."""
GUESS_SPLITS = (1.0, 1.7, 0.6)
"""Exponents of the curvature by which the first guesses share the curve out."""
STEPS, TOLERANCE = 200, 1e-10
NUDGE_STEP = 2.0**-26
"""Change of a value by which slopes are found; about the root of what a float resolves."""
CHORD_STEP = 0.004
"""Turn of one chord of the drawn chain (rad): 0.004 mm on a radius of 2 m."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcFit:
    """A chain of arcs and how far it leaves the curve."""

    arcs: tuple[Arc, ...]
    """From the left foot to the right."""
    deviation: float
    """Largest distance between chain and curve (m)."""
    where: tuple[float, float]
    """Place of the curve where it lies (m)."""


@dataclass(frozen=True, slots=True)
class _Chains:
    """Many chains at once, as arrays: the last axis runs along the arcs of one chain."""

    x: Array
    z: Array
    """Centres (m)."""
    radius: Array
    ways: Array
    """Headings at the start of each arc and at the end of the last (rad)."""
    end: Array
    """(..., 2) where each chain ends (m)."""


@dataclass(frozen=True, slots=True)
class _Target:
    """What a chain is laid to: points of a curve, and where the chain begins and ends."""

    x: Array
    z: Array
    scale: float
    heading: float | None
    """Direction in which the chain leaves its first point (rad); None when it is free."""
    half: bool
    """Whether it begins at a crown, whose height is then free."""


def tangent_arcs(curve: PlaneCurve, arcs: int) -> ArcFit:
    """The chain of arcs with common tangents whose largest distance from a curve is least.

    min over radii and lengths of max |d(P_i, chain)|; both feet are kept

    Parameters
    ----------
    curve : PlaneCurve
        The curve, hollow towards the room [m].
    arcs : int
        Arcs of the whole chain [-]; from 1 to 9. A curve that is its own mirror image gets a chain that is
        one too: then the number is odd where its crown is round and even where it is pointed.

    Returns
    -------
    ArcFit
        The arcs [m] and their largest distance from the curve [m].

    References
    ----------
    [DOCARMO1976] chapter 1; the least largest distance is found by sequential quadratic programming
    [NOCEDAL2006] chapter 18.

    Examples
    --------
    >>> from bermwright.handbook.curves import ellipse
    >>> chain = tangent_arcs(ellipse(4.0, 1.5), 3)
    >>> [round(arc.radius, 2) for arc in chain.arcs], round(1000.0 * chain.deviation)
    ([1.35, 2.47, 1.35], 5)
    """
    within("arcs", arcs, 1, MOST_ARCS)
    span = float(curve.x[-1] - curve.x[0])
    if not _even(curve, span):
        return _measured(_chain_of(_target(curve.x, curve.z, span, None, half=False), curve, arcs), curve)
    x, z, slope = _right_half(curve)
    pointed = abs(slope) > KINK_TOLERANCE
    if pointed == bool(arcs % 2):
        raise OutOfRangeError(
            f"{arcs} arcs cannot be laid to this curve as its own mirror image: its crown is "
            f"{'pointed, so take an even' if pointed else 'round, so take an odd'} number of arcs."
        )
    target = _target(x, z, span, None if pointed else 0.0, half=True)
    return _measured(_both(_chain_of(target, curve, (arcs + 1) // 2), pointed=pointed), curve)


def _right_half(curve: PlaneCurve) -> tuple[Array, Array, float]:
    """Right half of an even curve from its crown, and the slope with which it leaves the crown (rad)."""
    first = curve.x.size // 2  # the second of two points that stand at a pointed crown
    x, z = curve.x[first:], curve.z[first:]
    if abs(x[0]) < EVEN * float(curve.x[-1]):
        return x, z, float(curve.angle[first])
    # No point stands at the crown: half a step further in, on the circle of curvature.
    bend = float(curve.curvature[first])
    top = float(z[0]) + 0.5 * bend * float(x[0]) ** 2
    return np.concatenate([[0.0], x]), np.concatenate([[top], z]), float(curve.angle[first] + bend * x[0])


def _even(curve: PlaneCurve, span: float) -> bool:
    apart = np.abs(curve.x + curve.x[::-1]) + np.abs(curve.z - curve.z[::-1])
    return bool(np.max(apart) < EVEN * span)


def _target(x: Array, z: Array, span: float, heading: float | None, *, half: bool) -> _Target:
    along = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(x), np.diff(z)))])
    at = np.linspace(0.0, along[-1], SAMPLE_POINTS)
    return _Target(np.interp(at, along, x), np.interp(at, along, z), span, heading, half)


def _chain_of(target: _Target, curve: PlaneCurve, count: int) -> tuple[Arc, ...]:
    """The best chain from the target's first point to its last, over several first guesses."""
    found = [_solve(target, _guess(target, curve, count, power)) for power in GUESS_SPLITS]
    values, _ = min(found, key=lambda one: one[1])
    return _arcs(target, values)


def _guess(target: _Target, curve: PlaneCurve, count: int, power: float) -> Array:
    """Curvatures and lengths from pieces of the curve with equal shares of curvature to a power."""
    nearest = np.argmin(np.hypot(curve.x[:, None] - target.x, curve.z[:, None] - target.z), axis=0)
    curvature = np.clip(curve.curvature[nearest] * target.scale, STRAIGHTEST_GUESS, SHARPEST_GUESS)
    steps = np.hypot(np.diff(target.x), np.diff(target.z))
    weight = 0.5 * (curvature[1:] ** power + curvature[:-1] ** power) * steps
    share = np.concatenate([[0.0], np.cumsum(weight) / weight.sum()])
    along = np.concatenate([[0.0], np.cumsum(steps)])
    cuts = np.interp(np.linspace(0.0, 1.0, count + 1), share, along)
    middles = np.interp(0.5 * (cuts[1:] + cuts[:-1]), along, curvature)
    heading = float(np.arctan2(target.z[1] - target.z[0], target.x[1] - target.x[0]))
    return np.concatenate([[0.0, heading], middles, np.diff(cuts) / target.scale])


def _solve(target: _Target, start: Array) -> tuple[Array, float]:
    """Least largest distance t: -t <= d_i <= t, the chain ends where the target ends."""
    from scipy.optimize import minimize

    count = (start.size - 2) // 2
    foot = np.array([target.x[-1], target.z[-1]])

    def apart(values: Array) -> Array:
        return _off(target, _chains(target, values)) / target.scale

    def end(values: Array) -> Array:
        return np.asarray((_chains(target, values).end - foot) / target.scale)

    def kept(values: Array) -> Array:
        off = apart(values[..., :-1])
        return np.concatenate([values[..., -1:] - off, values[..., -1:] + off], axis=-1)

    first_guess = np.concatenate([start, [float(np.max(np.abs(apart(start))))]])
    free = (-np.pi, np.pi) if target.heading is None else (target.heading, target.heading)
    lift = (-CROWN_GUESS_LIFT, CROWN_GUESS_LIFT) if target.half else (0.0, 0.0)
    bounds = [
        lift,
        free,
        *[(STRAIGHTEST_GUESS, SHARPEST_GUESS)] * count,
        *[LENGTH_GUESS_BOUNDS] * count,
        (0.0, None),
    ]
    first_guess[1] = np.clip(first_guess[1], *free)
    found = minimize(
        lambda values: values[-1],
        first_guess,
        jac=lambda values: np.concatenate([np.zeros(values.size - 1), [1.0]]),
        bounds=bounds,
        constraints=[_kind("eq", lambda values: end(values[..., :-1])), _kind("ineq", kept)],
        method="SLSQP",
        options={"maxiter": STEPS, "ftol": TOLERANCE},
    )
    values = np.asarray(found.x[:-1])
    missed = float(np.max(np.abs(end(values))))
    worst = float(np.max(np.abs(apart(values)))) + MISSED_STEP * missed
    return values, worst if np.isfinite(worst) else np.inf


def _kind(kind: str, held: Callable[[Array], Array]) -> dict[str, object]:
    """A constraint with its slopes; many chains cost little more than one, so all are nudged at once."""

    def slopes(values: Array) -> Array:
        found = held(values + NUDGE_STEP * np.eye(values.size + 1, values.size, -1))
        return np.asarray((found[1:] - found[0]).T / NUDGE_STEP)

    return {"type": kind, "fun": held, "jac": slopes}


def _chains(target: _Target, values: Array) -> _Chains:
    """The arcs one after the other: each begins where, and in the direction in which, the last ends.

    `values` (the last axis) are the lift of the first point, the heading there, curvatures and lengths, over
    the scale.
    """
    count = (values.shape[-1] - 2) // 2
    bend, length = values[..., 2 : 2 + count], values[..., 2 + count :]
    radius = target.scale / bend
    ways = values[..., 1:2] - _running(length * bend)
    sine, cosine = np.sin(ways), np.cos(ways)
    x = target.x[0] + _running(radius * -np.diff(sine))
    z = target.z[0] + values[..., :1] * target.scale + _running(radius * np.diff(cosine))
    return _Chains(
        # A centre lies to the right of the way, since the curve turns right from foot to foot.
        x=x[..., :-1] + radius * sine[..., :-1],
        z=z[..., :-1] - radius * cosine[..., :-1],
        radius=radius,
        ways=ways,
        end=np.stack([x[..., -1], z[..., -1]], axis=-1),
    )


def _running(steps: Array) -> Array:
    """Sums from 0 to all of the steps."""
    return np.concatenate([np.zeros_like(steps[..., :1]), np.cumsum(steps, axis=-1)], axis=-1)


def _arcs(target: _Target, values: Array) -> tuple[Arc, ...]:
    """The arcs of one chain."""
    chain = _chains(target, values)
    ends = chain.ways + 0.5 * np.pi
    columns = (chain.x, chain.z, chain.radius, ends[:-1], ends[1:])
    return tuple(
        Arc(x=x, z=z, radius=radius, start=start, end=end)
        for x, z, radius, start, end in zip(*(column.tolist() for column in columns), strict=True)
    )


def _off(target: _Target, chains: _Chains) -> Array:
    """Distance of the target's points (the last axis) from the nearest arc of each chain, + outside (m)."""
    across, up = target.x[:, None] - chains.x[..., None, :], target.z[:, None] - chains.z[..., None, :]
    radius = chains.radius[..., None, :]
    # Past an end of an arc its end point is the nearest; the turn counts from the middle of the arc.
    ends = chains.ways[..., None, :] + 0.5 * np.pi
    middle, half = 0.5 * (ends[..., :-1] + ends[..., 1:]), 0.5 * (ends[..., :-1] - ends[..., 1:])
    turn = (np.arctan2(up, across) - middle + np.pi) % (2.0 * np.pi) - np.pi
    held = middle + np.clip(turn, -half, half)
    off = np.hypot(across - radius * np.cos(held), up - radius * np.sin(held))
    nearest = np.argmin(off, axis=-1)[..., None]
    outside = np.take_along_axis(np.hypot(across, up) - radius, nearest, axis=-1)[..., 0]
    return np.asarray(np.copysign(np.take_along_axis(off, nearest, axis=-1)[..., 0], outside))


def _drawn(arcs: tuple[Arc, ...]) -> tuple[Array, Array]:
    x, z = [], []
    for arc in arcs:
        points = max(3, int((arc.start - arc.end) / CHORD_STEP) + 2)
        turn = np.linspace(arc.start, arc.end, points)
        x.append(arc.x + arc.radius * np.cos(turn))
        z.append(arc.z + arc.radius * np.sin(turn))
    return np.concatenate(x), np.concatenate(z)


def _both(half: tuple[Arc, ...], *, pointed: bool) -> tuple[Arc, ...]:
    """The whole chain from its right half; a round crown is one arc."""
    mirrored = tuple(
        Arc(x=-arc.x, z=arc.z, radius=arc.radius, start=np.pi - arc.end, end=np.pi - arc.start)
        for arc in reversed(half)
    )
    if pointed:
        return (*mirrored, *half)
    crown = half[0]
    top = Arc(x=0.0, z=crown.z, radius=crown.radius, start=np.pi - crown.end, end=crown.end)
    return (*mirrored[:-1], top, *half[1:])


def _measured(arcs: tuple[Arc, ...], curve: PlaneCurve) -> ArcFit:
    """The chain with its largest distance from the curve, over all points of the curve."""
    apart = np.abs(distance_to_curve(curve.x, curve.z, *_drawn(arcs)))
    at = int(np.argmax(apart))
    return ArcFit(arcs=arcs, deviation=float(apart[at]), where=(float(curve.x[at]), float(curve.z[at])))
