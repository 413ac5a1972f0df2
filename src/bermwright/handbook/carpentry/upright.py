"""Upright posts that soil leans against: held at foot and head, or standing free in the ground."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class PostForces:
    """What a post must carry, and what it gives its supports."""

    foot: Array
    """Force on the foot (N)."""
    head: Array
    """Force on the head (N); 0 for a post that stands free."""
    moment: Array
    """Largest bending moment (N m)."""


def leaning_post(
    bottom: ArrayLike,
    top: ArrayLike,
    *,
    height: ArrayLike,
    above: ArrayLike,
    span: ArrayLike,
    water: ArrayLike = 0.0,
    stands: ArrayLike | None = None,
) -> PostForces:
    """A post held at foot and head, with soil against a part of it, and water in a part of the soil.

    R_h = F·z/l, R_f = F − R_h; M is largest where the shear is nil. Below the water
    q_b·s + q_w·s − (q_b − q_t)·s²/(2·h) − q_w·s²/(2·w) = R_f, above it q_w·w/2 in place of what has q_w;
    M = R_f·(a + s) − q_b·s²/2 + (q_b − q_t)·s³/(6·h) − M_w with M_w = q_w·s²/2 − q_w·s³/(6·w), above it
    q_w·w/2·(s − w/3)

    Parameters
    ----------
    bottom : float or array
        Load q_b at the bottom of the loaded part [N/m], ≥ 0.
    top : float or array
        Load q_t at its top [N/m], ≥ 0.
    height : float or array
        Height h of the loaded part [m], > 0.
    above : float or array
        From the foot's support up to the loaded part, a [m], ≥ 0.
    span : float or array
        From support to support, l [m], at least a + h.
    water : float or array
        What water adds at the bottom, q_w [N/m], ≥ 0; it fades to nothing at its surface.
    stands : float or array or None
        How high over the bottom it stands, w [m], above 0 and no higher than h; as high as the soil where it
        is not given.

    Returns
    -------
    PostForces
        Forces on foot and head [N] and the largest moment [N m].

    References
    ----------
    [TIMOSHENKO] beam on two supports, equilibrium.

    Examples
    --------
    >>> post = leaning_post(9e3, 0.0, height=3.0, above=0.0, span=3.0)
    >>> round(float(post.foot)), round(float(post.head)), round(float(post.moment))
    (9000, 4500, 5196)
    """
    low, high, h, a = _loaded(bottom, top, height, above)
    wet, w = _watered(water, stands, h)
    within("span over the loaded height", np.asarray(span, dtype=np.float64) / (a + h), 1.0 - 1e-9)
    still = standing_post(low, high, height=h, above=a, water=wet, stands=w)
    head = still.moment / np.asarray(span, dtype=np.float64)
    foot = still.foot - head
    fall, fades = (low - high) / h, wet / w
    inside = _shear_nil(low + wet, fall + fades, foot)
    s = np.clip(np.where(inside <= w, inside, _shear_nil(low, fall, foot - 0.5 * wet * w)), 0.0, h)
    still_moment = np.where(s <= w, 0.5 * wet * s**2 - fades * s**3 / 6, 0.5 * wet * w * (s - w / 3))
    moment: Array = foot * (a + s) - 0.5 * low * s**2 + fall * s**3 / 6 - still_moment
    return PostForces(foot=foot, head=head, moment=moment)


def _shear_nil(load: Array, fall: Array, foot: Array) -> Array:
    """How far over the bottom a load that falls evenly has taken up the force of the foot (m)."""
    root = np.sqrt(np.maximum(load**2 - 2 * fall * foot, 0.0))
    with np.errstate(divide="ignore", invalid="ignore"):
        nil: Array = np.where(load + root > 0.0, 2 * foot / (load + root), 0.0)
    return nil


def standing_post(
    bottom: ArrayLike,
    top: ArrayLike,
    *,
    height: ArrayLike,
    above: ArrayLike,
    water: ArrayLike = 0.0,
    stands: ArrayLike | None = None,
) -> PostForces:
    """A post that stands free like a fence, with soil against a part of it, and water in a part of the soil.

    F = (q_b + q_t)·h/2 + q_w·w/2, M = F·a + h²·(q_b + 2·q_t)/6 + q_w·w²/6

    Parameters
    ----------
    bottom : float or array
        Load q_b at the bottom of the loaded part [N/m], ≥ 0.
    top : float or array
        Load q_t at its top [N/m], ≥ 0.
    height : float or array
        Height h of the loaded part [m], > 0.
    above : float or array
        From where it is held up to the loaded part, a [m], ≥ 0.
    water : float or array
        What water adds at the bottom, q_w [N/m], ≥ 0; it fades to nothing at its surface.
    stands : float or array or None
        How high over the bottom it stands, w [m], above 0 and no higher than h; as high as the soil where it
        is not given.

    Returns
    -------
    PostForces
        Force [N] and moment [N m] where it is held.

    References
    ----------
    [TIMOSHENKO] cantilever, equilibrium.

    Examples
    --------
    >>> round(float(standing_post(9e3, 0.0, height=3.0, above=0.0).moment))
    13500
    """
    low, high, h, a = _loaded(bottom, top, height, above)
    wet, w = _watered(water, stands, h)
    force = 0.5 * (low + high) * h + 0.5 * wet * w
    moment = force * a + h**2 * (low + 2 * high) / 6 + wet * w**2 / 6
    return PostForces(foot=force, head=np.zeros_like(force), moment=moment)


def free_post_holds(
    unit_weight: ArrayLike, passive: ArrayLike, *, width: ArrayLike, depth: ArrayLike, lever: ArrayLike
) -> Array:
    """Sideways force that a short post in sand holds when it stands free.

    H = γ·b·L³·K_p/(2·(e + L)): the ground in front gives three times K_p over the width of the post

    Parameters
    ----------
    unit_weight : float or array
        Unit weight γ of the ground [N/m3], above 0 to 30e3; buoyant under water.
    passive : float or array
        Passive pressure ratio K_p [-], ≥ 1.
    width : float or array
        Width b of the post across the push [m], > 0.
    depth : float or array
        Depth L in the ground [m], ≥ 0.
    lever : float or array
        Height e of the force over the ground [m], ≥ 0.

    Returns
    -------
    array
        Largest force [N].

    References
    ----------
    [BROMS1964] short free-headed piles in cohesionless soil.

    Examples
    --------
    >>> round(float(free_post_holds(18e3, 3.0, width=0.2, depth=1.5, lever=0.5)))
    9112
    """
    weight, ratio, wide, deep = _ground(unit_weight, passive, width, depth)
    within("height of the force", lever, 0.0, unit="m")
    arm = np.asarray(lever, dtype=np.float64) + deep
    return np.where(deep > 0.0, weight * wide * deep**3 * ratio / (2 * np.where(deep > 0.0, arm, 1.0)), 0.0)


def free_post_moment(
    force: ArrayLike, unit_weight: ArrayLike, passive: ArrayLike, *, width: ArrayLike, lever: ArrayLike
) -> Array:
    """Largest bending of a post that stands free in sand.

    M = H·(e + 2/3·f), f = √(2·H/(3·γ·b·K_p)): the depth at which the ground has taken up the force

    Parameters
    ----------
    force : float or array
        Sideways force H [N], ≥ 0.
    unit_weight : float or array
        Unit weight γ of the ground [N/m3], above 0 to 30e3; buoyant under water.
    passive : float or array
        Passive pressure ratio K_p [-], ≥ 1.
    width : float or array
        Width b of the post across the push [m], > 0.
    lever : float or array
        Height e of the force over the ground [m], ≥ 0.

    Returns
    -------
    array
        Moment [N m].

    References
    ----------
    [BROMS1964] long and short free-headed piles in cohesionless soil.

    Examples
    --------
    >>> round(float(free_post_moment(3e3, 18e3, 3.0, width=0.2, lever=0.5)))
    2361
    """
    weight, ratio, wide, _ = _ground(unit_weight, passive, width, 0.0)
    within("sideways force", force, 0.0, unit="N")
    within("height of the force", lever, 0.0, unit="m")
    push = np.asarray(force, dtype=np.float64)
    taken = np.sqrt(2 * push / (3 * weight * wide * ratio))
    return push * (np.asarray(lever, dtype=np.float64) + 2 * taken / 3)


def held_foot_holds(
    unit_weight: ArrayLike, passive: ArrayLike, *, width: ArrayLike, depth: ArrayLike
) -> Array:
    """Sideways force that the ground holds at the foot of a post whose head is held too.

    H = 3/2·γ·b·L²·K_p, acting at 2/3·L below the ground

    Parameters
    ----------
    unit_weight : float or array
        Unit weight γ of the ground [N/m3], above 0 to 30e3; buoyant under water.
    passive : float or array
        Passive pressure ratio K_p [-], ≥ 1.
    width : float or array
        Width b of the post across the push [m], > 0.
    depth : float or array
        Depth L in the ground [m], ≥ 0.

    Returns
    -------
    array
        Largest force [N].

    References
    ----------
    [BROMS1964] short fixed-headed piles in cohesionless soil.

    Examples
    --------
    >>> round(float(held_foot_holds(18e3, 3.0, width=0.2, depth=0.6)))
    5832
    """
    weight, ratio, wide, deep = _ground(unit_weight, passive, width, depth)
    return 1.5 * weight * wide * deep**2 * ratio


def _watered(water: ArrayLike, stands: ArrayLike | None, height: Array) -> tuple[Array, Array]:
    within("load of the water", water, 0.0, unit="N/m")
    wet, high = np.asarray(water, dtype=np.float64), np.asarray(height if stands is None else stands)
    within("height of the water", high, 0.0, unit="m", open_low=True)
    within("water over soil", np.where(wet > 0.0, high / height, 0.0), 0.0, 1.0 + 1e-9)
    return wet, high


def _loaded(
    bottom: ArrayLike, top: ArrayLike, height: ArrayLike, above: ArrayLike
) -> tuple[Array, Array, Array, Array]:
    within("load at the bottom", bottom, 0.0, unit="N/m")
    within("load at the top", top, 0.0, unit="N/m")
    within("loaded height", height, 0.0, unit="m", open_low=True)
    within("height of the load over the foot", above, 0.0, unit="m")
    low, high, h, a = (np.asarray(value, dtype=np.float64) for value in (bottom, top, height, above))
    return low, high, h, a


def _ground(
    unit_weight: ArrayLike, passive: ArrayLike, width: ArrayLike, depth: ArrayLike
) -> tuple[Array, Array, Array, Array]:
    within("unit weight", unit_weight, 0.0, 30e3, unit="N/m3", open_low=True)
    within("passive ratio", passive, 1.0)
    within("width of the post", width, 0.0, unit="m", open_low=True)
    within("depth in the ground", depth, 0.0, unit="m")
    weight, ratio, wide, deep = (
        np.asarray(value, dtype=np.float64) for value in (unit_weight, passive, width, depth)
    )
    return weight, ratio, wide, deep
