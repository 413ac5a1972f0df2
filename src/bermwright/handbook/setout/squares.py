"""Right angles with a tape: diagonals, the triangle of three, four and five, and how far a corner is out."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array

LARGEST_SHARE = 0.2
"""Difference of the diagonals, over the shorter side, up to which the first-order rule holds."""


def diagonal(length: Number, width: Number) -> Array:
    """Diagonal of a rectangle.

    d = √(a² + b²)

    Parameters
    ----------
    length : float or array
        One side, a [m], above 0.
    width : float or array
        The other side, b [m], above 0.

    Returns
    -------
    float or array
        Diagonal, d [m].

    References
    ----------
    [TAPEGEOMETRY] : the right triangle.

    Examples
    --------
    >>> float(diagonal(8.0, 6.0))
    10.0
    """
    within("length", length, 0.0, unit="m", open_low=True)
    within("width", width, 0.0, unit="m", open_low=True)
    return np.asarray(np.hypot(length, width))


def out_of_square(difference: Number, *, length: Number, width: Number) -> Array:
    """How far the end of a rectangle has slipped along its side, from the difference of its diagonals.

    e = Δ·d/(2·a)

    Parameters
    ----------
    difference : float or array
        Longer less shorter diagonal, Δ [m], from 0 to a fifth of either side.
    length : float or array
        Side along which it has slipped, a [m], above 0.
    width : float or array
        The other side, over whose length the slip shows [m], above 0.

    Returns
    -------
    float or array
        Slip over the other side, e [m].

    Notes
    -----
    To first order; all four sides are as long as they should be, so that only the angles are wrong. Move
    one end by e along the side.

    References
    ----------
    [TAPEGEOMETRY] : the parallelogram, to first order.

    Examples
    --------
    >>> round(1000.0 * float(out_of_square(0.020, length=8.0, width=6.0)), 1)
    12.5
    """
    across = diagonal(length, width)
    within("difference over the shorter side", difference / np.minimum(length, width), 0.0, LARGEST_SHARE)
    return np.asarray(np.asarray(difference, dtype=float) * across / (2.0 * np.asarray(length)))


def corner_angle(first: Number, second: Number, across: Number) -> Array:
    """Angle of a corner from two sides and the distance between their ends.

    cos γ = (a² + b² − c²)/(2·a·b)

    Parameters
    ----------
    first : float or array
        One side, a [m], above 0.
    second : float or array
        The other side, b [m], above 0.
    across : float or array
        Distance between their ends, c [m], above 0; at most a + b.

    Returns
    -------
    float or array
        Angle between the sides, γ [rad].

    References
    ----------
    [TAPEGEOMETRY] : the cosine rule.

    Examples
    --------
    >>> float(np.degrees(corner_angle(3.0, 4.0, 5.0)))
    90.0
    """
    for name, value in (("first", first), ("second", second), ("across", across)):
        within(name, value, 0.0, unit="m", open_low=True)
    a, b, c = (np.asarray(side, dtype=float) for side in (first, second, across))
    cosine = (a**2 + b**2 - c**2) / (2.0 * a * b)
    if np.any(np.abs(cosine) > 1.0):
        raise OutOfRangeError(
            "The three lengths make no triangle: one is longer than the others together. Measure again."
        )
    return np.asarray(np.arccos(cosine))


def three_four_five(length: Number, width: Number, *, unit: float = 0.1) -> Array:
    """The largest triangle of three, four and five units that fits on two sides of a corner.

    k = ⌊min(max(a, b)/4, min(a, b)/3)/u⌋·u

    Parameters
    ----------
    length : float or array
        One side [m], above 0.
    width : float or array
        The other side [m], above 0.
    unit : float
        Step of the multiplier, u [m], above 0: with 0.1 m every length is a whole decimetre.

    Returns
    -------
    float or array
        Multiplier, k [m]: measure 3 k along the shorter side, 4 k along the longer, 5 k across. 0 where
        not even the smallest fits.

    References
    ----------
    [TAPEGEOMETRY] : the right triangle of whole numbers.

    Examples
    --------
    >>> round(float(three_four_five(7.5, 4.2)), 1)
    1.4
    """
    within("length", length, 0.0, unit="m", open_low=True)
    within("width", width, 0.0, unit="m", open_low=True)
    within("unit", unit, 0.0, unit="m", open_low=True)
    room = np.minimum(np.maximum(length, width) / 4.0, np.minimum(length, width) / 3.0)
    return np.asarray(np.floor(room / unit + 1e-9) * unit)
