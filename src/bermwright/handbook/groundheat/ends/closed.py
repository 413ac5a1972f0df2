"""What a section misses of a house that ends: the loss of a floor of finite length, in closed form.

On the surface of the half-space lies a rectangle of one temperature; across a strip around it (the wall) the
temperature falls evenly to that of the open ground, with mitred corners. The heat that leaves the rectangle
is an integral of Green's function over all pairs of places; three of its four folds are closed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.conduction import (
    characteristic_dimension,
    equivalent_thickness,
    slab_transmittance,
)

if TYPE_CHECKING:
    from bermwright.handbook.groundheat.section import Array

GAUSS_POINTS = 60
"""Points of Gauss's rule across the strip and along the floor."""


def floor_conductance(length: float, width: float, *, wall: float, conductivity: float) -> float:
    """Steady loss of a rectangular floor on the ground, for a kelvin.

    Q = 2λ/π ∫₀¹ds ∫∫ √(p² + q²)/(p·q) dp dq over p from s·w to s·w + a, q from s·w to s·w + b.

    Parameters
    ----------
    length, width : float
        Sides a and b of the floor [m], above 0.
    wall : float
        Width w of the strip around it, across which the temperature of the surface falls [m], above 0.
    conductivity : float
        Of the ground [W/(m K)], above 0.

    Returns
    -------
    float
        Conductance [W/K].

    References
    ----------
    [NREL2008] : case GC10a, the closed solution that all programs are held against.

    Examples
    --------
    >>> round(20.0 * floor_conductance(12.0, 12.0, wall=0.24, conductivity=1.9), 1)
    2432.6
    """
    _checked(length, width, wall, conductivity)
    strip, weights = _gauss(0.0, 1.0)
    # Near the inner edge the integrand rises like a logarithm: points are drawn there.
    place, stretch = strip**3, 3.0 * strip**2
    total = 0.0
    for s, weight in zip(place, weights * stretch, strict=True):
        total += weight * _pairs(s * wall, length, width)
    return 2.0 * conductivity / np.pi * float(total)


def strip_conductance(width: float, *, wall: float, conductivity: float) -> float:
    """Steady loss of a metre of an endless floor on the ground, for a kelvin.

    q = 2λ/π ∫₀¹ ln((b + s·w)/(s·w)) ds = 2λ/π·[(1 + r)·ln(1 + r) - r·ln r] with r = b/w.

    Parameters
    ----------
    width : float
        Width b of the floor [m], above 0.
    wall : float
        Width w of the strip beside it, across which the temperature of the surface falls [m], above 0.
    conductivity : float
        Of the ground [W/(m K)], above 0.

    Returns
    -------
    float
        Conductance of a metre of length [W/(m K)].

    References
    ----------
    [NREL2008] : case GC10a, its solution for a floor without ends.

    Examples
    --------
    >>> round(strip_conductance(12.0, wall=0.24, conductivity=1.9), 4)
    5.9535
    """
    _checked(width, width, wall, conductivity)
    ratio = width / wall
    return float(2.0 * conductivity / np.pi * ((1.0 + ratio) * np.log1p(ratio) - ratio * np.log(ratio)))


def end_factor(length: float, width: float, *, wall: float, conductivity: float, resistance: float) -> float:
    """How much more a floor of finite length loses than its share of an endless one.

    f = U(B')/U(b), the transmittance of a slab with the characteristic dimension B' = a·b/(a + b) of the
    whole floor over that of a floor that is b wide and does not end, both with d_t = w + λ·(R + Rse).

    Parameters
    ----------
    length, width : float
        Sides a and b of the floor [m], above 0.
    wall : float
        Width w of the wall around it [m], above 0.
    conductivity : float
        Of the ground λ [W/(m K)], above 0.
    resistance : float
        R of the floor and its inner surface [m2 K/W], 0 to 15.

    Returns
    -------
    float
        Factor on the ground heat of the section [-], above 1. Own three-dimensional solutions lie within
        3 % of it for floors as long as they are wide or longer.

    References
    ----------
    [ISO13370] : slab-on-ground floors.

    Examples
    --------
    >>> round(end_factor(7.5, 4.2, wall=0.4, conductivity=2.0, resistance=2.17), 3)
    1.114
    """
    _checked(length, width, wall, conductivity)
    within("resistance", resistance, 0.0, 15.0, unit="m2 K/W")
    thick = equivalent_thickness(conductivity, resistance, wall=wall)
    whole = characteristic_dimension(length * width, 2.0 * (length + width))
    endless = slab_transmittance(width, thick, conductivity)
    return float(slab_transmittance(whole, thick, conductivity) / endless)


def _checked(length: float, width: float, wall: float, conductivity: float) -> None:
    within("length", length, 0.0, 1e3, unit="m", open_low=True)
    within("width", width, 0.0, 1e3, unit="m", open_low=True)
    within("wall", wall, 0.0, 100.0, unit="m", open_low=True)
    within("conductivity", conductivity, 0.0, 450.0, unit="W/(m K)", open_low=True)


def _pairs(near: float, length: float, width: float) -> float:
    """∫∫ √(p² + q²)/(p·q): the inner integral closed, the outer one by Gauss's rule in ln p."""
    log_p, weights = _gauss(np.log(near), np.log(near + length))
    p = np.exp(log_p)
    low, high = near, near + width
    closed = _primitive(p, high) - _primitive(p, low)
    return float(np.sum(weights * p * closed))


def _primitive(p: Array, q: float) -> Array:
    """∫ √(p² + q²)/(p·q) dq."""
    return np.asarray(np.hypot(p, q) / p - np.arcsinh(p / q))


def _gauss(low: float, high: float) -> tuple[Array, Array]:
    from numpy.polynomial.legendre import leggauss

    nodes, weights = leggauss(GAUSS_POINTS)
    half = 0.5 * (high - low)
    return np.asarray(low + half * (nodes + 1.0)), np.asarray(half * weights)
