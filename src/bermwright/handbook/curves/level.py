"""The curve that stands without bending under soil up to a level surface, soil pressing down only.

Depth y below the surface grows from d0 over the crown to d0 + h over the feet: y = d0 cosh(x/k),
a catenary stretched in height.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.curves.catenaries import catenary_parameter
from bermwright.handbook.curves.line import FINE_POINTS, PlaneCurve, mirrored, quadrature

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


class LevelCoverForces(NamedTuple):
    """Thrust, the same all along, and vertical reaction of each foot (N/m)."""

    thrust: Array
    vertical: Array


def level_cover_parameter(span: ArrayLike, rise: ArrayLike, cover: ArrayLike) -> Array:
    """Parameter of the bending-free curve under soil to a level surface.

    k = a/arcosh((d0 + h)/d0)

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0.
    cover : float or array
        Depth of soil over the crown, d0 [m]; above 0.

    Returns
    -------
    float or array
        k [m].

    Notes
    -----
    The weight of the arch itself and the sideways push of the soil are left out.

    References
    ----------
    [INGLIS1951] transformed catenary.

    Examples
    --------
    >>> round(float(level_cover_parameter(6.0, 2.4, 0.6)), 5)
    1.30865
    """
    within("span", span, 0.0, unit="m", open_low=True)
    within("rise", rise, 0.0, unit="m", open_low=True)
    within("cover", cover, 0.0, unit="m", open_low=True)
    d0 = np.asarray(cover, dtype=float)
    return np.asarray(0.5 * np.asarray(span, dtype=float) / np.arccosh((d0 + np.asarray(rise)) / d0))


def level_cover_depth(x: ArrayLike, span: ArrayLike, rise: ArrayLike, cover: ArrayLike) -> Array:
    """Depth of the bending-free curve below the level surface.

    y = d0 cosh(x/k)

    Parameters
    ----------
    x : float or array
        Distance from mid-span [m]; from minus to plus half the span.
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0.
    cover : float or array
        Depth of soil over the crown, d0 [m]; above 0.

    Returns
    -------
    float or array
        Depth [m].

    References
    ----------
    [INGLIS1951] transformed catenary.

    Examples
    --------
    >>> round(float(level_cover_depth(1.5, 6.0, 2.4, 0.6)), 4)
    1.0392
    """
    k = level_cover_parameter(span, rise, cover)
    within("2 x/span", 2.0 * np.abs(x) / np.asarray(span, dtype=float), 0.0, 1.0 + 1e-12)
    return np.asarray(np.asarray(cover, dtype=float) * np.cosh(np.asarray(x, dtype=float) / k))


def level_cover_curvature(x: ArrayLike, span: ArrayLike, rise: ArrayLike, cover: ArrayLike) -> Array:
    """Curvature of the bending-free curve under a level surface.

    (d0/k^2) cosh(x/k)/(1 + (d0/k)^2 sinh^2(x/k))^1.5

    Parameters
    ----------
    x : float or array
        Distance from mid-span [m]; from minus to plus half the span.
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0.
    cover : float or array
        Depth of soil over the crown, d0 [m]; above 0.

    Returns
    -------
    float or array
        Curvature [1/m].

    References
    ----------
    [INGLIS1951] transformed catenary.

    Examples
    --------
    >>> round(1.0 / float(level_cover_curvature(0.0, 6.0, 2.4, 0.6)), 3)
    2.854
    """
    k = level_cover_parameter(span, rise, cover)
    within("2 x/span", 2.0 * np.abs(x) / np.asarray(span, dtype=float), 0.0, 1.0 + 1e-12)
    u, d0 = np.asarray(x, dtype=float) / k, np.asarray(cover, dtype=float)
    return np.asarray(d0 / k**2 * np.cosh(u) / (1.0 + (d0 / k * np.sinh(u)) ** 2) ** 1.5)


def level_cover_springing_angle(span: ArrayLike, rise: ArrayLike, cover: ArrayLike) -> Array:
    """Angle of the bending-free curve under a level surface at its feet, from the horizontal.

    tan(angle) = (d0/k) sinh(a/k)

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0.
    cover : float or array
        Depth of soil over the crown, d0 [m]; above 0.

    Returns
    -------
    float or array
        Angle [rad].

    References
    ----------
    [INGLIS1951] transformed catenary.

    Examples
    --------
    >>> round(float(np.degrees(level_cover_springing_angle(6.0, 2.4, 0.6))), 1)
    66.0
    """
    k = level_cover_parameter(span, rise, cover)
    half = 0.5 * np.asarray(span, dtype=float)
    return np.asarray(np.arctan(np.asarray(cover) / k * np.sinh(half / k)))


def level_cover_forces(
    unit_weight: ArrayLike, span: ArrayLike, rise: ArrayLike, cover: ArrayLike
) -> LevelCoverForces:
    """Forces in the bending-free curve under soil to a level surface.

    H = gamma k^2, V = gamma k d0 sinh(a/k)

    Parameters
    ----------
    unit_weight : float or array
        Unit weight of the soil, gamma [N/m3]; from 0.
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0.
    cover : float or array
        Depth of soil over the crown, d0 [m]; above 0.

    Returns
    -------
    LevelCoverForces
        Thrust and vertical reaction of each foot, per metre of vault [N/m].

    References
    ----------
    [INGLIS1951] transformed catenary.

    Examples
    --------
    >>> round(float(level_cover_forces(18.0e3, 6.0, 2.4, 0.6).thrust))
    30826
    """
    within("unit_weight", unit_weight, 0.0, unit="N/m3")
    k = level_cover_parameter(span, rise, cover)
    gamma = np.asarray(unit_weight, dtype=float)
    slope = np.tan(level_cover_springing_angle(span, rise, cover))
    return LevelCoverForces(thrust=np.asarray(gamma * k**2), vertical=np.asarray(gamma * k**2 * slope))


def single_nosed_cover(span: ArrayLike, rise: ArrayLike) -> Array:
    """Least depth of soil over the crown at which the crown is the place of sharpest bend.

    d0 = k/sqrt(3), with k from k (cosh(a/k) - 1) = sqrt(3) h.

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0.

    Returns
    -------
    float or array
        Depth over the crown [m]; below it the curve has two noses, one each side of a flatter crown.

    Notes
    -----
    The second derivative of the curvature at the crown, 1/k^2 - 3 d0^2/k^4, changes sign there. With
    v = a/k it reads (cosh v - 1)/v = sqrt(3) h/a: the equation of a catenary with sqrt(3) times the
    rise, whose parameter is k.

    References
    ----------
    [INGLIS1951] two-nosed catenary.

    Examples
    --------
    >>> bool(single_nosed_cover(6.0, 2.4) > 0.6)
    True
    """
    within("span", span, 0.0, unit="m", open_low=True)
    within("rise", rise, 0.0, unit="m", open_low=True)
    k = catenary_parameter(span, np.sqrt(3.0) * np.asarray(rise, dtype=float))
    return np.asarray(k / np.sqrt(3.0))


def depth_for_weight_ratio(rise: ArrayLike, ratio: ArrayLike) -> Array:
    """Depth over the crown at which the load per plan at the feet is a given multiple of the crown's.

    d0 = h/(q - 1)

    Parameters
    ----------
    rise : float or array
        Height of the crown over the feet [m]; above 0.
    ratio : float or array
        Load, or section of an arch of one material, at the feet over that at the crown, q [-]; above 1.

    Returns
    -------
    float or array
        d0 [m]: with it, `level_cover_*` describe the weighted catenary of an arch that is thicker below.

    References
    ----------
    [NPSGATEWAY] the equation of the arch.

    Examples
    --------
    >>> round(float(depth_for_weight_ratio(625.0925, 1262.6651 / 125.1406)), 2)
    68.77
    """
    within("rise", rise, 0.0, unit="m", open_low=True)
    within("ratio", ratio, 1.0, open_low=True)
    return np.asarray(np.asarray(rise, dtype=float) / (np.asarray(ratio, dtype=float) - 1.0))


def level_cover(span: float, rise: float, cover: float, *, points: int = FINE_POINTS) -> PlaneCurve:
    """Points of the bending-free curve under soil to a level surface.

    y = d0 cosh(x/k); arc length by Gauss quadrature between neighbouring points.

    Parameters
    ----------
    span : float
        Distance between the feet [m]; above 0.
    rise : float
        Height of the crown over the feet [m]; above 0.
    cover : float
        Depth of soil over the crown, d0 [m]; above 0.
    points : int
        Points of each half [-]; at least 2.

    Returns
    -------
    PlaneCurve
        Left foot over crown to right foot [m].

    References
    ----------
    [INGLIS1951] transformed catenary.

    Examples
    --------
    >>> round(level_cover(6.0, 2.4, 0.6).length, 4)
    8.1767
    """
    within("points", points, 2)
    k = float(level_cover_parameter(span, rise, cover))
    steepness = cover / k
    # Even steps of the tangent's hyperbolic angle put the points where the curve bends.
    v = np.linspace(0.0, np.arcsinh(steepness * np.sinh(0.5 * span / k)), points)
    x = k * np.arcsinh(np.sinh(v) / steepness)
    s = quadrature(lambda at: np.hypot(1.0, steepness * np.sinh(at / k)), x)
    z = rise + cover - cover * np.cosh(x / k)
    fall = np.arctan(steepness * np.sinh(x / k))
    return mirrored(x, z, s, fall, steepness / k * np.cosh(x / k) / np.cosh(v) ** 3)
