"""Chains of circular arcs with common tangents: pointed, three-centred and egg-shaped arches.

Where two arcs of a chain share a tangent, both centres and the joint lie on one line.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.curves.line import FINE_POINTS, PlaneCurve

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

SMOOTH_TOLERANCE = 1e-9
"""Turn below which two arcs run on smoothly (rad)."""
GAP_TOLERANCE = 1e-9
"""Distance below which the ends of two arcs meet (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """One arc of a chain, swept clockwise as one walks from the left foot to the right."""

    x: float
    z: float
    """Centre (m)."""
    radius: float
    start: float
    end: float
    """Direction from the centre to both ends (rad from the x axis, counter-clockwise); start > end."""

    @property
    def length(self) -> float:
        """Arc length (m)."""
        return self.radius * (self.start - self.end)

    def point(self, direction: float) -> tuple[float, float]:
        """The point in a direction from the centre."""
        return self.x + self.radius * np.cos(direction), self.z + self.radius * np.sin(direction)


def pointed_radius(span: ArrayLike, rise: ArrayLike) -> Array:
    """Radius of the pointed arch whose centres lie on the springing line.

    R = (r^2 + h^2)/(2 r), with r half the span.

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the point over the feet [m]; above 0.

    Returns
    -------
    float or array
        Radius [m]. Each centre lies R - r beyond mid-span, on the other side than its arc.

    References
    ----------
    [HUNTER2004] compasses for domes.

    Examples
    --------
    >>> float(pointed_radius(1.0, 1.0))
    1.25
    """
    within("span", span, 0.0, unit="m", open_low=True)
    within("rise", rise, 0.0, unit="m", open_low=True)
    r = 0.5 * np.asarray(span, dtype=float)
    return np.asarray((r**2 + np.asarray(rise, dtype=float) ** 2) / (2.0 * r))


def pointed_rise(span: ArrayLike, offset: ArrayLike) -> Array:
    """Height of the pointed arch with a given offset of its centres.

    h = sqrt(R^2 - e^2) = sqrt(r^2 + 2 r e), with R = r + e and r half the span.

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    offset : float or array
        e, how far each centre lies beyond mid-span on the other side than its arc [m]; above minus a
        quarter of the span. 0 is the semicircle, half the span the equilateral arch, more a lancet;
        less than 0 a drop arch, whose crown is a valley between two noses.

    Returns
    -------
    float or array
        Rise [m].

    References
    ----------
    [HUNTER2004] compasses for domes.

    Examples
    --------
    >>> round(float(pointed_rise(1.0, 0.5)), 3)
    0.866
    """
    within("span", span, 0.0, unit="m", open_low=True)
    r = 0.5 * np.asarray(span, dtype=float)
    e = np.asarray(offset, dtype=float)
    within("offset/half span", e / r, -0.5, open_low=True)
    return np.asarray(np.sqrt(r**2 + 2.0 * r * e))


def pointed_half_width(z: ArrayLike, radius: ArrayLike, offset: ArrayLike) -> Array:
    """Half width of a pointed arch, or course radius of a pointed dome, at a height.

    r(z) = sqrt(R^2 - z^2) - e

    Parameters
    ----------
    z : float or array
        Height over the springing line [m]; from 0 to where both sides meet.
    radius : float or array
        R [m]; above 0.
    offset : float or array
        e, how far each centre lies beyond mid-span [m]; below the radius.

    Returns
    -------
    float or array
        Half width [m].

    References
    ----------
    [HUNTER2004] compasses for domes.

    Examples
    --------
    >>> round(float(pointed_half_width(2.0, 5.25, 3.15)), 3)
    1.704
    """
    within("radius", radius, 0.0, unit="m", open_low=True)
    within("z/radius", np.asarray(z) / np.asarray(radius, dtype=float), 0.0, 1.0)
    width = np.sqrt(np.asarray(radius, dtype=float) ** 2 - np.asarray(z, dtype=float) ** 2) - offset
    within("half width", width, 0.0, unit="m")
    return np.asarray(width)


def centre_chain(z: ArrayLike, half_width: ArrayLike) -> Array:
    """Length of the chain from the middle of the floor to a course.

    c(z) = sqrt(r(z)^2 + z^2)

    Parameters
    ----------
    z : float or array
        Height over the chain's fixed end [m]; from 0.
    half_width : float or array
        Half width of the arch, or radius of the course, there [m]; from 0.

    Returns
    -------
    float or array
        Length [m].

    References
    ----------
    [HUNTER2004] compasses for domes.

    Examples
    --------
    >>> round(float(centre_chain(2.0, 1.704)), 3)
    2.627
    """
    within("z", z, 0.0, unit="m")
    within("half_width", half_width, 0.0, unit="m")
    return np.asarray(np.hypot(z, half_width))


def pointed_arcs(span: float, rise: float, *, centres: float = 0.0) -> tuple[Arc, ...]:
    """The two arcs of a pointed arch.

    e = (h^2 - 2 h zc - r^2)/(2 r), R = sqrt((r + e)^2 + zc^2)

    Parameters
    ----------
    span : float
        Distance between the feet [m]; above 0.
    rise : float
        Height of the point over the feet [m]; above 0.
    centres : float
        Level of both centres over the springing line, zc [m]; at most half the rise. Below 0 gives
        low pointed arches without a valley.

    Returns
    -------
    tuple of Arc
        Left and right arc. With e below 0 the crown is a valley between two noses.

    References
    ----------
    [HUNTER2004] compasses for domes.

    Examples
    --------
    >>> round(pointed_arcs(4.2, 4.2)[0].radius, 2)
    5.25
    """
    within("span", span, 0.0, unit="m", open_low=True)
    within("rise", rise, 0.0, unit="m", open_low=True)
    within("centres/rise", centres / rise, -np.inf, 0.5)
    r = 0.5 * span
    e = (rise**2 - 2.0 * rise * centres - r**2) / (2.0 * r)
    within("offset/half span", e / r, -0.5, open_low=True)
    radius = float(np.hypot(r + e, centres))
    foot, apex = np.arctan2(-centres, r + e), np.arctan2(rise - centres, e)
    right = Arc(x=-e, z=centres, radius=radius, start=float(apex), end=float(foot))
    return _mirror(right), right


def three_centred_arcs(span: float, rise: float, side_radius: float) -> tuple[Arc, ...]:
    """The three arcs of a three-centred arch that leaves its feet upright.

    R = (a^2 + h^2 - 2 a r)/(2 (h - r))

    Parameters
    ----------
    span : float
        Distance between the feet [m]; above 0.
    rise : float
        Height of the crown over the feet [m]; above 0.
    side_radius : float
        Radius of both side arcs, r [m]; above 0. Below both half span and rise for a low arch; for a
        tall one (rise over half the span) above (a^2 + h^2)/(2 a).

    Returns
    -------
    tuple of Arc
        Left, crown and right arc.

    References
    ----------
    [DOCARMO1976] chapter 1.

    Examples
    --------
    >>> round(three_centred_arcs(4.0, 1.5, 1.0)[1].radius, 3)
    2.25
    """
    within("span", span, 0.0, unit="m", open_low=True)
    within("rise", rise, 0.0, unit="m", open_low=True)
    within("side_radius", side_radius, 0.0, unit="m", open_low=True)
    a, r = 0.5 * span, side_radius
    crown = (a**2 + rise**2 - 2.0 * a * r) / (2.0 * (rise - r)) if rise != r else np.inf
    low = r < a and r < rise
    tall = rise > a and r > float(pointed_radius(span, rise))
    if not ((low or tall) and 0.0 < crown < np.inf):
        raise OutOfRangeError(
            f"No three-centred arch {span:g} m wide and {rise:g} m high has sides of radius {r:g} m: take "
            f"less than {min(a, rise):g} m, or, if it is taller than half its width, "
            f"more than {float(pointed_radius(span, rise)):g} m."
        )
    side_x, top_z = a - r, rise - crown
    # The joint lies on the line of both centres; which centre is beyond depends on the larger radius.
    joint = np.arctan2(-top_z, side_x) if crown > r else np.arctan2(top_z, -side_x)
    right = Arc(x=side_x, z=0.0, radius=r, start=float(joint), end=0.0)
    top = Arc(x=0.0, z=top_z, radius=float(crown), start=float(np.pi - joint), end=float(joint))
    return _mirror(right), top, right


def egg_arcs(
    span: float, rise: float, *, base_centre: float, flank_radius: float, crown_radius: float
) -> tuple[Arc, ...]:
    """The five arcs of a four-centre egg: one base circle, two flanks, one crown.

    Base centre B and crown centre C lie on the axis; the flank centres lie R2 - R1 from B and R2 - R3
    from C, with R1 = sqrt(a^2 + b^2) for a base centre at height b.

    Parameters
    ----------
    span : float
        Distance between the feet [m]; above 0.
    rise : float
        Height of the crown over the feet [m]; above 0.
    base_centre : float
        Height of the base circle's centre over the feet [m]; from 0, below the rise. Over 0 the egg
        leans out over its feet.
    flank_radius : float
        Radius of the flanks, R2 [m]; above the base circle's.
    crown_radius : float
        Radius of the crown, R3 [m]; above 0, below the base circle's.

    Returns
    -------
    tuple of Arc
        Left base, left flank, crown, right flank, right base.

    References
    ----------
    [DOCARMO1976] chapter 1.

    Examples
    --------
    >>> arcs = egg_arcs(4.0, 3.4, base_centre=0.5, flank_radius=4.0, crown_radius=1.2)
    >>> round(tangent_break(arcs), 9)
    0.0
    """
    within("span", span, 0.0, unit="m", open_low=True)
    within("base_centre", base_centre, 0.0, rise, unit="m")
    base = float(np.hypot(0.5 * span, base_centre))
    within("crown_radius", crown_radius, 0.0, base, unit="m", open_low=True)
    within("flank_radius", flank_radius, base, unit="m", open_low=True)
    apart = rise - crown_radius - base_centre
    to_base, to_crown = flank_radius - base, flank_radius - crown_radius
    # Height of the flank centres over the base centre, from the two distances.
    height = (apart**2 + to_base**2 - to_crown**2) / (2.0 * apart) if apart else np.nan
    reach = to_base**2 - height**2
    if not (reach > 0.0 and height < apart):
        raise OutOfRangeError(
            f"Flanks of radius {flank_radius:g} m do not join a base circle of {base:.3g} m to a crown of "
            f"{crown_radius:g} m at a rise of {rise:g} m; change the rise or the flanks."
        )
    flank_x = -float(np.sqrt(reach))
    lower = float(np.arctan2(-height, -flank_x))
    upper = float(np.arctan2(apart - height, -flank_x))
    foot = float(np.arctan2(-base_centre, 0.5 * span))
    if lower < foot:
        raise OutOfRangeError("The flanks would join the base circle below the feet; lower its centre.")
    right = Arc(x=0.0, z=base_centre, radius=base, start=lower, end=foot)
    flank = Arc(x=flank_x, z=base_centre + height, radius=flank_radius, start=upper, end=lower)
    top = Arc(x=0.0, z=rise - crown_radius, radius=crown_radius, start=np.pi - upper, end=upper)
    return _mirror(right), _mirror(flank), top, flank, right


def offset_arcs(arcs: Sequence[Arc], distance: float) -> tuple[Arc, ...]:
    """The parallel chain: the same centres, every radius longer by the distance.

    R' = R + d

    Parameters
    ----------
    arcs : sequence of Arc
        A chain with common tangents [m].
    distance : float
        Distance outward [m]; below 0 inward, by less than the smallest radius.

    Returns
    -------
    tuple of Arc
        The parallel chain: faces of a thick shell.

    References
    ----------
    [DOCARMO1976] chapter 1, parallel curves.

    Examples
    --------
    >>> [round(arc.radius, 2) for arc in offset_arcs(pointed_arcs(4.2, 4.2), -0.25)]
    [5.0, 5.0]
    """
    within("distance", distance, -min(arc.radius for arc in arcs), unit="m", open_low=True)
    return tuple(
        Arc(x=arc.x, z=arc.z, radius=arc.radius + distance, start=arc.start, end=arc.end) for arc in arcs
    )


def tangent_break(arcs: Sequence[Arc]) -> float:
    """Largest kink or gap between neighbouring arcs of a chain.

    max |direction_i - direction_i+1| at the joints; infinite where the ends do not meet.

    Parameters
    ----------
    arcs : sequence of Arc
        A chain from the left foot to the right [m].

    Returns
    -------
    float
        Angle [rad]; 0 for a smooth chain.

    References
    ----------
    [DOCARMO1976] chapter 1.

    Examples
    --------
    >>> round(float(np.degrees(tangent_break(pointed_arcs(4.2, 4.2)))), 1)
    73.7
    """
    kinks = [0.0]
    for before, after in pairwise(arcs):
        gap = np.subtract(before.point(before.end), after.point(after.start))
        kinks.append(_turn(before, after) if np.hypot(*gap) < GAP_TOLERANCE else np.inf)
    return float(max(kinks))


def arc_chain(arcs: Sequence[Arc], *, points: int = FINE_POINTS) -> PlaneCurve:
    """Points of a chain of arcs; where the chain has a kink, it stands twice with both tangents.

    x = xc + R cos t, z = zc + R sin t, tangent angle t - pi/2

    Parameters
    ----------
    arcs : sequence of Arc
        A chain from the left foot to the right [m].
    points : int
        Points of the whole chain, shared out by length [-]; at least 2.

    Returns
    -------
    PlaneCurve
        Left foot over crown to right foot [m].

    References
    ----------
    [DOCARMO1976] chapter 1.

    Examples
    --------
    >>> round(arc_chain(pointed_arcs(4.2, 4.2)).length, 3)
    9.736
    """
    within("points", points, 2)
    whole = sum(arc.length for arc in arcs)
    turns, centres, starts, before = [], [], [], 0.0
    for at, arc in enumerate(arcs):
        smooth = at > 0 and _turn(arcs[at - 1], arc) < SMOOTH_TOLERANCE
        arc_points = max(1, round(points * arc.length / whole))
        turns.append(np.linspace(arc.start, arc.end, arc_points + 1)[int(smooth) :])
        centres.append(np.tile([arc.x, arc.z, arc.radius], (turns[-1].size, 1)))
        starts.append(before + arc.radius * (arc.start - turns[-1]))
        before += arc.length
    turn = np.concatenate(turns)
    x, z, radius = np.concatenate(centres).T
    return PlaneCurve(
        x=x + radius * np.cos(turn),
        z=z + radius * np.sin(turn),
        s=np.concatenate(starts),
        angle=turn - 0.5 * np.pi,
        curvature=1.0 / radius,
    )


def _turn(before: Arc, after: Arc) -> float:
    return abs(before.end - after.start)


def _mirror(arc: Arc) -> Arc:
    return Arc(x=-arc.x, z=arc.z, radius=arc.radius, start=np.pi - arc.end, end=np.pi - arc.start)
