"""The catenary: the curve that carries a weight spread evenly along itself without bending.

Letters as in the books on strings: c parameter (m), a half span, h rise, s half length,
u = a/c. Heights are above the springing, x is from mid-span.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.curves.line import FINE_POINTS, PlaneCurve, mirrored

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

SWEEPS = 40
"""Newton steps; the iteration runs down a convex function and has settled long before."""
STEEPEST = 50.0
"""Largest rise or length as a multiple of the span (beyond it the hyperbolic functions overflow)."""


class CatenaryForces(NamedTuple):
    """Thrust at the crown, vertical reaction at each foot, and axial force at the feet (N/m)."""

    crown: Array
    vertical: Array
    foot: Array


def catenary_parameter(span: ArrayLike, rise: ArrayLike) -> Array:
    """Parameter of the catenary of a given span and rise.

    c (cosh(a/c) - 1) = h, with a half the span.

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0, up to 50 spans.

    Returns
    -------
    float or array
        c, which is also the radius at the crown [m].

    Notes
    -----
    Newton's method on the logarithm of both sides over ln(a/c), where the function is convex;
    from a/c = 2 h/a it runs down to the root from the same side, whatever the proportions.

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(float(catenary_parameter(5.0, 4.0)), 4)
    1.1452
    """
    within("span", span, 0.0, unit="m", open_low=True)
    within("rise", rise, 0.0, unit="m", open_low=True)
    half = 0.5 * np.asarray(span, dtype=float)
    ratio = np.asarray(rise, dtype=float) / half
    within("rise/span", 0.5 * ratio, 0.0, STEEPEST, open_low=True)
    guess = 2.0 * ratio
    u = guess
    for _ in range(SWEEPS):
        excess = np.log(2.0 * np.sinh(0.5 * u) ** 2 / (u * ratio))
        newton_step = -excess / (u / np.tanh(0.5 * u) - 1.0)
        u = u * np.exp(newton_step)
    return np.asarray(half / u)


def catenary_parameter_from_length(span: ArrayLike, length: ArrayLike) -> Array:
    """Parameter of the catenary in which a string of given length hangs over a given span.

    2 c sinh(a/c) = L

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    length : float or array
        Length of the string [m]; above the span, up to 50 spans.

    Returns
    -------
    float or array
        c [m].

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(float(catenary_parameter_from_length(5.0, 10.032)), 3)
    1.145
    """
    within("span", span, 0.0, unit="m", open_low=True)
    ratio = np.asarray(length, dtype=float) / np.asarray(span, dtype=float)
    within("length/span", ratio, 1.0, STEEPEST, open_low=True)
    guess = np.sqrt(6.0 * (ratio - 1.0))
    u = guess
    for _ in range(SWEEPS):
        excess = np.log(np.sinh(u) / (u * ratio))
        newton_step = -excess / (u / np.tanh(u) - 1.0)
        u = u * np.exp(newton_step)
    return np.asarray(0.5 * np.asarray(span, dtype=float) / u)


def catenary_span(rise: ArrayLike, length: ArrayLike) -> Array:
    """Span at which a string of given length hangs with a given sag.

    c = (s^2 - h^2)/(2 h), span = 2 c asinh(s/c), with s half the length.

    Parameters
    ----------
    rise : float or array
        Height of the crown over the feet [m]; above 0, below half the length.
    length : float or array
        Length of the string [m]; above 0.

    Returns
    -------
    float or array
        Span [m].

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(float(catenary_span(4.0, 10.0320)), 3)
    5.0
    """
    within("rise", rise, 0.0, unit="m", open_low=True)
    h = np.asarray(rise, dtype=float)
    s = 0.5 * np.asarray(length, dtype=float)
    within("half length/rise", s / h, 1.0, open_low=True)
    c = (s**2 - h**2) / (2.0 * h)
    return np.asarray(2.0 * c * np.arcsinh(s / c))


def catenary_rise(span: ArrayLike, length: ArrayLike) -> Array:
    """Sag of a string of given length over a given span.

    h = sqrt(c^2 + s^2) - c, with s half the length.

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    length : float or array
        Length of the string [m]; above the span, up to 50 spans.

    Returns
    -------
    float or array
        Rise [m].

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(float(catenary_rise(5.0, 10.0320)), 3)
    4.0
    """
    c = catenary_parameter_from_length(span, length)
    s = 0.5 * np.asarray(length, dtype=float)
    return np.asarray(s**2 / (np.hypot(c, s) + c))


def catenary_length(span: ArrayLike, rise: ArrayLike) -> Array:
    """Length of the catenary, which is the length of the string or chain that traces it.

    L = 2 c sinh(a/c)

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0, up to 50 spans.

    Returns
    -------
    float or array
        Length [m].

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(float(catenary_length(5.0, 4.0)), 3)
    10.032
    """
    c = catenary_parameter(span, rise)
    return np.asarray(2.0 * c * np.sinh(0.5 * np.asarray(span, dtype=float) / c))


def catenary_height(x: ArrayLike, span: ArrayLike, rise: ArrayLike) -> Array:
    """Height of the catenary over its springing line.

    y = h - c (cosh(x/c) - 1)

    Parameters
    ----------
    x : float or array
        Distance from mid-span [m]; from minus to plus half the span.
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0, up to 50 spans.

    Returns
    -------
    float or array
        Height [m].

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(float(catenary_height(1.0, 5.0, 4.0)), 3)
    3.535
    """
    c = catenary_parameter(span, rise)
    within("2 x/span", 2.0 * np.abs(x) / np.asarray(span, dtype=float), 0.0, 1.0 + 1e-12)
    return np.asarray(np.asarray(rise, dtype=float) - 2.0 * c * np.sinh(0.5 * np.asarray(x) / c) ** 2)


def catenary_radius(x: ArrayLike, span: ArrayLike, rise: ArrayLike) -> Array:
    """Radius of curvature of the catenary.

    R = c cosh^2(x/c)

    Parameters
    ----------
    x : float or array
        Distance from mid-span [m]; from minus to plus half the span.
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0, up to 50 spans.

    Returns
    -------
    float or array
        Radius [m].

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(float(catenary_radius(0.0, 5.0, 4.0)), 3)
    1.145
    """
    c = catenary_parameter(span, rise)
    within("2 x/span", 2.0 * np.abs(x) / np.asarray(span, dtype=float), 0.0, 1.0 + 1e-12)
    return np.asarray(c * np.cosh(np.asarray(x, dtype=float) / c) ** 2)


def catenary_springing_angle(span: ArrayLike, rise: ArrayLike) -> Array:
    """Angle of the catenary at its feet, from the horizontal.

    tan(angle) = sinh(a/c)

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0, up to 50 spans.

    Returns
    -------
    float or array
        Angle [rad].

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(float(np.degrees(catenary_springing_angle(5.0, 4.0))), 2)
    77.14
    """
    c = catenary_parameter(span, rise)
    return np.asarray(np.arctan(np.sinh(0.5 * np.asarray(span, dtype=float) / c)))


def catenary_area(span: ArrayLike, rise: ArrayLike) -> Array:
    """Area between the catenary and its springing line.

    A = 2 a (c + h) - 2 c s, with s half the length.

    Parameters
    ----------
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0, up to 50 spans.

    Returns
    -------
    float or array
        Area [m2].

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(float(catenary_area(5.0, 4.0)), 3)
    14.237
    """
    c = catenary_parameter(span, rise)
    length = catenary_length(span, rise)
    return np.asarray(np.asarray(span) * (c + np.asarray(rise)) - c * length)


def catenary_forces(weight: ArrayLike, span: ArrayLike, rise: ArrayLike) -> CatenaryForces:
    """Forces in a catenary under a weight spread evenly along it.

    H = w c, V = w s, N(foot) = w (c + h)

    Parameters
    ----------
    weight : float or array
        Weight per length of the curve and metre of vault [N/m2]; from 0.
    span : float or array
        Distance between the feet [m]; above 0.
    rise : float or array
        Height of the crown over the feet [m]; above 0, up to 50 spans.

    Returns
    -------
    CatenaryForces
        Thrust at the crown, vertical reaction and axial force at each foot [N/m].

    Notes
    -----
    A blanket of even thickness, measured square to the curve, is such a weight: it changes the thrust
    and not the curve. A mound is not.

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> round(float(catenary_forces(1.0, 5.0, 4.0).vertical), 3)
    5.016
    """
    within("weight", weight, 0.0, unit="N/m2")
    w = np.asarray(weight, dtype=float)
    c = catenary_parameter(span, rise)
    return CatenaryForces(
        crown=np.asarray(w * c),
        vertical=np.asarray(w * 0.5 * catenary_length(span, rise)),
        foot=np.asarray(w * (c + np.asarray(rise, dtype=float))),
    )


def catenary(span: float, rise: float, *, points: int = FINE_POINTS) -> PlaneCurve:
    """Points of a catenary at even arc lengths.

    x = c asinh(s/c), y = h - (sqrt(c^2 + s^2) - c)

    Parameters
    ----------
    span : float
        Distance between the feet [m]; above 0.
    rise : float
        Height of the crown over the feet [m]; above 0, up to 50 spans.
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
    >>> round(catenary(5.0, 4.0).length, 3)
    10.032
    """
    within("points", points, 2)
    c = float(catenary_parameter(span, rise))
    s = np.linspace(0.0, 0.5 * float(catenary_length(span, rise)), points)
    x = c * np.arcsinh(s / c)
    z = rise - s**2 / (np.hypot(c, s) + c)
    return mirrored(x, z, s, np.arctan2(s, c), c / (c**2 + s**2))
