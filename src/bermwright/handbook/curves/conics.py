"""Parabola, circular segment and ellipse, as arches of a given span and rise."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.curves.line import FINE_POINTS, PlaneCurve, mirrored, quadrature

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


def parabola_thrust(load: ArrayLike, span: ArrayLike, rise: ArrayLike) -> Array:
    """Thrust of a parabola under a load spread evenly over its plan, which it carries without bending.

    H = w L^2/(8 f)

    Parameters
    ----------
    load : float or array
        Load per metre of plan and metre of vault [N/m2]; from 0.
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0.

    Returns
    -------
    float or array
        Horizontal thrust [N/m].

    References
    ----------
    [ROUTH1891] chapter X, the suspension bridge.

    Examples
    --------
    >>> float(parabola_thrust(1.0, 6.0, 3.0))
    1.5
    """
    _arch(span, rise)
    within("load", load, 0.0, unit="N/m2")
    return np.asarray(np.asarray(load, dtype=float) * np.asarray(span) ** 2 / (8.0 * np.asarray(rise)))


def parabola_height(x: ArrayLike, span: ArrayLike, rise: ArrayLike) -> Array:
    """Height of the parabola over its springing line.

    y = h (1 - (x/a)^2)

    Parameters
    ----------
    x : float or array
        Distance from mid-span [m]; from minus to plus half the span.
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0.

    Returns
    -------
    float or array
        Height [m].

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> float(parabola_height(1.5, 6.0, 3.0))
    2.25
    """
    _arch(span, rise)
    share = 2.0 * np.abs(x) / np.asarray(span, dtype=float)
    within("2 x/span", share, 0.0, 1.0 + 1e-12)
    return np.asarray(np.asarray(rise) * (1.0 - share**2))


def parabola_length(span: ArrayLike, rise: ArrayLike) -> Array:
    """Length of the parabola.

    L = k (v + sinh v cosh v), with k = a^2/(2 h) the radius at the crown and sinh v = a/k.

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0.

    Returns
    -------
    float or array
        Length [m].

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(float(parabola_length(6.0, 3.0)), 5)
    8.87366
    """
    k = parabola_crown_radius(span, rise)
    slope = 0.5 * np.asarray(span, dtype=float) / k
    return np.asarray(k * (np.arcsinh(slope) + slope * np.hypot(1.0, slope)))


def parabola_crown_radius(span: ArrayLike, rise: ArrayLike) -> Array:
    """Radius of the parabola at its crown, the smallest.

    R = a^2/(2 h)

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0.

    Returns
    -------
    float or array
        Radius [m].

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> float(parabola_crown_radius(6.0, 3.0))
    1.5
    """
    _arch(span, rise)
    return np.asarray((0.5 * np.asarray(span, dtype=float)) ** 2 / (2.0 * np.asarray(rise)))


def segment_radius(span: ArrayLike, rise: ArrayLike) -> Array:
    """Radius of the circle through both feet and the crown.

    R = (a^2 + h^2)/(2 h)

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0. Half the span gives the semicircle, more a
        circle that leans out over its feet.

    Returns
    -------
    float or array
        Radius [m].

    References
    ----------
    [DOCARMO1976] chapter 1.

    Examples
    --------
    >>> float(segment_radius(4.0, 1.0))
    2.5
    """
    _arch(span, rise)
    h = np.asarray(rise, dtype=float)
    return np.asarray(((0.5 * np.asarray(span, dtype=float)) ** 2 + h**2) / (2.0 * h))


def segment_angle(span: ArrayLike, rise: ArrayLike) -> Array:
    """Half the angle of the circular segment, which is its slope at the feet.

    tan(angle/2) = h/a

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0.

    Returns
    -------
    float or array
        Angle [rad]; over a right angle the segment leans out over its feet.

    References
    ----------
    [DOCARMO1976] chapter 1.

    Examples
    --------
    >>> round(float(np.degrees(segment_angle(4.0, 2.0))), 6)
    90.0
    """
    _arch(span, rise)
    return np.asarray(2.0 * np.arctan2(np.asarray(rise), 0.5 * np.asarray(span, dtype=float)))


def ellipse_height(x: ArrayLike, span: ArrayLike, rise: ArrayLike) -> Array:
    """Height of the half ellipse over its springing line.

    y = h sqrt(1 - (x/a)^2)

    Parameters
    ----------
    x : float or array
        Distance from mid-span [m]; from minus to plus half the span.
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0.

    Returns
    -------
    float or array
        Height [m].

    References
    ----------
    [DLMF] section 19.30.

    Examples
    --------
    >>> float(ellipse_height(1.5, 5.0, 3.0))
    2.4
    """
    _arch(span, rise)
    share = 2.0 * np.abs(x) / np.asarray(span, dtype=float)
    within("2 x/span", share, 0.0, 1.0)
    return np.asarray(np.asarray(rise) * np.sqrt(1.0 - share**2))


def even_pressure_proportion(ratio: ArrayLike) -> Array:
    """Height to half width of the ellipse that stands without bending in an even pressure.

    h/a = 1/sqrt(K): vertical pressure p and horizontal pressure K p, the same at every depth.

    Parameters
    ----------
    ratio : float or array
        K, horizontal over vertical pressure [-]; above 0, up to 4.

    Returns
    -------
    float or array
        Vertical over horizontal half axis [-].

    Notes
    -----
    Near the surface the pressure grows with depth and the curve "under cover" is the better one.

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(float(even_pressure_proportion(0.5)), 2)
    1.41
    """
    within("ratio", ratio, 0.0, 4.0, open_low=True)
    return np.asarray(1.0 / np.sqrt(np.asarray(ratio, dtype=float)))


def parabola(span: float, rise: float, *, points: int = FINE_POINTS) -> PlaneCurve:
    """Points of a parabola.

    x = k sinh v, y = h - k sinh^2(v)/2, with k = a^2/(2 h); even steps of v.

    Parameters
    ----------
    span : float
        Distance between the feet [m]; above 0.
    rise : float
        Height of the crown over the feet [m]; above 0.
    points : int
        Points of each half [-]; at least 2.

    Returns
    -------
    PlaneCurve
        Left foot over crown to right foot [m].

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(parabola(6.0, 3.0).length, 5)
    8.87366
    """
    within("points", points, 2)
    k = float(parabola_crown_radius(span, rise))
    v = np.linspace(0.0, np.arcsinh(0.5 * span / k), points)
    slope, secant = np.sinh(v), np.cosh(v)
    s = 0.5 * k * (v + slope * secant)
    return mirrored(k * slope, rise - 0.5 * k * slope**2, s, np.arctan(slope), 1.0 / (k * secant**3))


def segment(span: float, rise: float, *, points: int = FINE_POINTS) -> PlaneCurve:
    """Points of a circular segment; the semicircle when the rise is half the span.

    x = R sin t, y = h - R (1 - cos t)

    Parameters
    ----------
    span : float
        Distance between the feet [m]; above 0.
    rise : float
        Height of the crown over the feet [m]; above 0.
    points : int
        Points of each half [-]; at least 2.

    Returns
    -------
    PlaneCurve
        Left foot over crown to right foot [m].

    References
    ----------
    [DOCARMO1976] chapter 1.

    Examples
    --------
    >>> round(segment(4.0, 2.0).length, 4)
    6.2832
    """
    within("points", points, 2)
    radius = float(segment_radius(span, rise))
    t = np.linspace(0.0, float(segment_angle(span, rise)), points)
    z = rise - radius * (1.0 - np.cos(t))
    return mirrored(radius * np.sin(t), z, radius * t, t, np.full(points, 1.0 / radius))


def ellipse(span: float, rise: float, *, points: int = FINE_POINTS) -> PlaneCurve:
    """Points of a half ellipse.

    x = a sin t, y = h cos t; arc length by Gauss quadrature between neighbouring points.

    Parameters
    ----------
    span : float
        Distance between the feet [m]; above 0.
    rise : float
        Height of the crown over the feet [m]; above 0.
    points : int
        Points of each half [-]; at least 2.

    Returns
    -------
    PlaneCurve
        Left foot over crown to right foot [m].

    References
    ----------
    [DLMF] section 19.30.

    Examples
    --------
    >>> round(ellipse(4.0, 2.0).length, 4)
    6.2832
    """
    _arch(span, rise)
    within("points", points, 2)
    a = 0.5 * span
    t = np.linspace(0.0, 0.5 * np.pi, points)
    speed = np.hypot(a * np.cos(t), rise * np.sin(t))
    s = quadrature(lambda u: np.hypot(a * np.cos(u), rise * np.sin(u)), t)
    fall = np.arctan2(rise * np.sin(t), a * np.cos(t))
    return mirrored(a * np.sin(t), rise * np.cos(t), s, fall, a * rise / speed**3)


def _arch(span: ArrayLike, rise: ArrayLike) -> None:
    within("span", span, 0.0, unit="m", open_low=True)
    within("rise", rise, 0.0, unit="m", open_low=True)
