"""How much wood is in a log, from the diameters that can be measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array

THICKEST = 4.0
"""m; no log is thicker."""
LONGEST = 40.0
"""m."""


def _measures(length: Number, **diameters: Number) -> None:
    within("length of the log", length, 0.0, LONGEST, unit="m")
    for name, value in diameters.items():
        within(f"{name} diameter", value, 0.0, THICKEST, unit="m")


def _area(diameter: Number) -> Array:
    return np.asarray(0.25 * np.pi * np.asarray(diameter, dtype=float) ** 2)


def smalian_volume(small: Number, large: Number, length: Number) -> Array:
    """Volume of a log from both ends.

    V = L·(A_s + A_l)/2

    Parameters
    ----------
    small : float or array
        Diameter of the thin end without bark [m], from 0 to 4.
    large : float or array
        Diameter of the thick end [m], from 0 to 4.
    length : float or array
        Length, L [m], from 0 to 40.

    Returns
    -------
    float or array
        Volume, V [m3]; too much for a strong taper, 7 % where the thick end is twice the thin one.

    References
    ----------
    [LOGVOLUME] : the rule and an example.

    Examples
    --------
    >>> round(float(smalian_volume(0.25, large=0.29, length=5.0)), 4)
    0.2878
    """
    _measures(length, small=small, large=large)
    return np.asarray(0.5 * length * (_area(small) + _area(large)))


def huber_volume(middle: Number, length: Number) -> Array:
    """Volume of a log from its middle.

    V = L·A_m

    Parameters
    ----------
    middle : float or array
        Diameter in the middle [m], from 0 to 4.
    length : float or array
        Length, L [m], from 0 to 40.

    Returns
    -------
    float or array
        Volume, V [m3]; a little too small for a strong taper.

    References
    ----------
    [LOGVOLUME] : the rule and an example.

    Examples
    --------
    >>> round(float(huber_volume(0.27, length=5.0)), 4)
    0.2863
    """
    _measures(length, middle=middle)
    return np.asarray(length * _area(middle))


def newton_volume(small: Number, middle: Number, large: Number, length: Number) -> Array:
    """Volume of a log from both ends and its middle.

    V = L·(A_s + 4·A_m + A_l)/6

    Parameters
    ----------
    small : float or array
        Diameter of the thin end [m], from 0 to 4.
    middle : float or array
        Diameter in the middle [m], from 0 to 4.
    large : float or array
        Diameter of the thick end [m], from 0 to 4.
    length : float or array
        Length, L [m], from 0 to 40.

    Returns
    -------
    float or array
        Volume, V [m3]; exact for cone and paraboloid.

    References
    ----------
    [LOGVOLUME] : the rule and an example.

    Examples
    --------
    >>> round(float(newton_volume(0.25, middle=0.27, large=0.29, length=5.0)), 4)
    0.2868
    """
    _measures(length, small=small, middle=middle, large=large)
    return np.asarray(length * (_area(small) + 4.0 * _area(middle) + _area(large)) / 6.0)


def cone_volume(small: Number, large: Number, length: Number) -> Array:
    """Volume of a log that tapers evenly.

    V = π·L/12·(d² + d·D + D²)

    Parameters
    ----------
    small : float or array
        Diameter of the thin end, d [m], from 0 to 4.
    large : float or array
        Diameter of the thick end, D [m], from 0 to 4.
    length : float or array
        Length, L [m], from 0 to 40.

    Returns
    -------
    float or array
        Volume, V [m3].

    References
    ----------
    [LOGVOLUME] : frustum of a cone.

    Examples
    --------
    >>> round(float(cone_volume(0.25, large=0.29, length=5.0)), 4)
    0.2868
    """
    _measures(length, small=small, large=large)
    thin, thick = np.asarray(small, dtype=float), np.asarray(large, dtype=float)
    return np.asarray(np.pi * length / 12.0 * (thin**2 + thin * thick + thick**2))


def quarter_girth_volume(girth: Number, length: Number) -> Array:
    """Volume of a log by the old rule of the string: the side of its square is a quarter of its girth.

    V = (G/4)²·L

    Parameters
    ----------
    girth : float or array
        Girth in the middle, G [m], from 0 to 12.6.
    length : float or array
        Length, L [m], from 0 to 40.

    Returns
    -------
    float or array
        Volume, V [m3]; 21.5 % less than the true one, as was meant for the sawmill's waste.

    References
    ----------
    [QUARTERGIRTH] : the rule and how low it is.

    Examples
    --------
    >>> round(float(quarter_girth_volume(0.9425, length=5.0)), 4)
    0.2776
    """
    within("girth", girth, 0.0, np.pi * THICKEST + 0.1, unit="m")
    _measures(length)
    return np.asarray((0.25 * np.asarray(girth, dtype=float)) ** 2 * length)
