"""A chain of tangent arcs that lies nearest to a curve: for a compass, or for a bender with few settings."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import count
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.curves import Arc
from bermwright.handbook.fitting.distance import distance_to_curve
from bermwright.handbook.fitting.minimax import Task, least_largest

if TYPE_CHECKING:
    from collections.abc import Iterator

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
LIFT_BRACKET, HEADING_BRACKET = 0.5, np.pi
"""Most by which a chain's crown may leave the curve's, over the scale, and its first heading level (rad)."""
BEND_BRACKET, LENGTH_BRACKET = (0.01, 100.0), (0.005, 2.0)
"""Bounds of an arc's curvature times the scale, and of its length over the scale."""
STRAIGHTEST_STEP = 1e-3
"""Least half turn of the arc that the search begins with (rad)."""
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
    """Length of the curve (m)."""
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
    [DOCARMO1976] chapter 1 : circles of curvature.
    [NOCEDAL2006] chapter 18 : the least largest distance, see `least_largest`.

    Examples
    --------
    >>> from bermwright.handbook.curves import ellipse
    >>> chain = tangent_arcs(ellipse(4.0, 1.5), 3)
    >>> [round(arc.radius, 2) for arc in chain.arcs], round(1000.0 * chain.deviation)
    ([1.35, 2.47, 1.35], 5)
    """
    within("arcs", arcs, 1, MOST_ARCS)
    for fit in chains_of_arcs(curve):
        if len(fit.arcs) == arcs:
            return fit
        if len(fit.arcs) > arcs:
            break
    raise OutOfRangeError(
        f"{arcs} arcs cannot be laid to this curve as its own mirror image: its crown is "
        + ("round, so take an odd number." if arcs % 2 == 0 else "pointed, so take an even number.")
    )


def chains_of_arcs(curve: PlaneCurve) -> Iterator[ArcFit]:
    """Chains of more and more arcs laid to a curve as `tangent_arcs` lays one, each grown from the last.

    Parameters
    ----------
    curve : PlaneCurve
        The curve, hollow towards the room [m].

    Returns
    -------
    iterator of ArcFit
        Chains of 1, 2, 3 … arcs [m], without end; of a curve that is its own mirror image of 1, 3, 5 …
        where its crown is round and of 2, 4, 6 … where it is pointed.

    References
    ----------
    [NOCEDAL2006] chapter 18.
    """
    target, pointed = _target_of(curve)
    for chain in _grown(target):
        yield _measured(_both(chain, pointed=pointed) if target.half else chain, curve)


def _target_of(curve: PlaneCurve) -> tuple[_Target, bool]:
    """All of the curve, or half of an even one; whether its crown is a point."""
    if not _even(curve):
        return _target(curve.x, curve.z, None, half=False), False
    x, z, slope = _right_half(curve)
    pointed = abs(slope) > KINK_TOLERANCE
    return _target(x, z, None if pointed else 0.0, half=True), pointed


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


def _even(curve: PlaneCurve) -> bool:
    apart = np.abs(curve.x + curve.x[::-1]) + np.abs(curve.z - curve.z[::-1])
    return bool(np.max(apart) < EVEN * (curve.x[-1] - curve.x[0]))


def _target(x: Array, z: Array, heading: float | None, *, half: bool) -> _Target:
    along = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(x), np.diff(z)))])
    at = np.linspace(0.0, along[-1], SAMPLE_POINTS)
    return _Target(np.interp(at, along, x), np.interp(at, along, z), float(along[-1]), heading, half)


def _grown(target: _Target) -> Iterator[tuple[Arc, ...]]:
    """Chains from the target's first point to its last, of one arc, two and so on.

    Each is the best that was found from the last with one of its arcs cut in two. A cut chain is the same
    curve, so no chain lies farther off than the one before it.
    """
    starts = [_one_arc(target)]
    for arcs in count(1):
        task = _task(target, arcs)
        values = min((least_largest(task, start) for start in starts), key=task.largest)
        if not np.isfinite(task.largest(values)):
            raise OutOfRangeError("No chain of arcs was found that ends where this curve ends.")
        yield _arcs(target, values)
        starts = [_cut(values, at) for at in range(arcs)]


def _task(target: _Target, arcs: int) -> Task:
    """The distances of the target's points over the scale, and the last point, which is kept."""
    foot = np.array([target.x[-1], target.z[-1]])
    lift = LIFT_BRACKET if target.half else 0.0
    heading = (-HEADING_BRACKET, HEADING_BRACKET) if target.heading is None else (target.heading,) * 2
    bounds = [(-lift, lift), heading, *[BEND_BRACKET] * arcs, *[LENGTH_BRACKET] * arcs]
    low, high = np.array(bounds).T
    return Task(
        apart=lambda values: _off(target, _chains(target, values)) / target.scale,
        held=lambda values: np.asarray((_chains(target, values).end - foot) / target.scale),
        low=low,
        high=high,
    )


def _one_arc(target: _Target) -> Array:
    """An arc as long as the curve, that leaves as the curve does or as it must."""
    across, up = target.x - target.x[0], target.z - target.z[0]
    leaves = np.arctan2(up[1], across[1]) if target.heading is None else target.heading
    half_turn = leaves - np.arctan2(up[-1], across[-1])
    return np.array([0.0, leaves, max(2.0 * half_turn, STRAIGHTEST_STEP), 1.0])


def _cut(values: Array, at: int) -> Array:
    """The same chain with one of its arcs as two halves."""
    bend, length = np.split(values[2:], 2)
    halves = np.diff(np.linspace(0.0, length[at], 3))
    return np.concatenate([values[:2], np.insert(bend, at, bend[at]), length[:at], halves, length[at + 1 :]])


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
