"""What a sawmill pays for: boards out of a log by three American rules, in cubic metres of boards."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array

INCH, FOOT = 0.0254, 0.3048
BOARD_FOOT = FOOT * FOOT * INCH
"""m3; a board one foot wide, one foot long and one inch thick."""
THICKEST = 1.6
"""m; no table goes further."""
SLAB = 4.0
"""Inches that Doyle takes off the diameter for slabs."""
SECTION = 4.0
"""Feet in which the International rule measures."""
TAPER = 0.5
"""Inches by which a log grows in each such section."""


def _in_inches(diameter: Number, length: Number) -> tuple[Array, Array]:
    within("diameter inside the bark", diameter, 0.0, THICKEST, unit="m")
    within("length of the log", length, 0.0, 20.0 * FOOT, unit="m")
    return np.asarray(diameter, dtype=float) / INCH, np.asarray(length, dtype=float) / FOOT


def doyle_volume(diameter: Number, length: Number) -> Array:
    """Boards out of a log by Doyle's rule.

    V = (D − 4)²·L/16 board feet, D in inches and L in feet; nothing below 4 inches

    Parameters
    ----------
    diameter : float or array
        Of the thin end inside the bark, D [m], from 0 to 1.6.
    length : float or array
        Length, L [m], from 0 to 6.1.

    Returns
    -------
    float or array
        Boards, V [m3]; far too low for thin logs (8 % of the wood at 6 inches).

    References
    ----------
    [DOYLETABLE] : the table.

    Examples
    --------
    >>> round(float(doyle_volume(0.2032, length=4.8768)), 5)
    0.03776
    """
    inches, feet = _in_inches(diameter, length)
    return np.asarray(np.maximum(inches - SLAB, 0.0) ** 2 * feet / 16.0 * BOARD_FOOT)


def scribner_volume(diameter: Number, length: Number) -> Array:
    """Boards out of a log by the formula of Scribner's rule.

    V = (0.79·D² − 2·D − 4)·L/16 board feet, D in inches and L in feet, not below 0

    Parameters
    ----------
    diameter : float or array
        Of the thin end inside the bark, D [m], from 0 to 1.6.
    length : float or array
        Length, L [m], from 0 to 6.1.

    Returns
    -------
    float or array
        Boards, V [m3].

    References
    ----------
    [LOGRULES] : the formula.

    Examples
    --------
    >>> round(float(scribner_volume(0.3048, length=4.8768)), 4)
    0.2024
    """
    inches, feet = _in_inches(diameter, length)
    boards = (0.79 * inches**2 - 2.0 * inches - 4.0) * feet / 16.0
    return np.asarray(np.maximum(boards, 0.0) * BOARD_FOOT)


def international_volume(diameter: Number, length: Number) -> Array:
    """Boards out of a log by the International rule with a saw cut of a quarter inch.

    V = Σ 0.905·(0.22·D_i² − 0.71·D_i) board feet over sections of 4 feet, D_i half an inch more in each

    Parameters
    ----------
    diameter : float or array
        Of the thin end inside the bark, D [m], from 0 to 1.6.
    length : float or array
        Length [m], from 0 to 6.1; what is left over after whole sections counts by its share.

    Returns
    -------
    float or array
        Boards, V [m3]; tables round to 5 board feet.

    References
    ----------
    [CLARK1906] : the rule; taper and rounding as told in [LOGRULES].

    Examples
    --------
    >>> round(float(international_volume(0.2032, length=4.8768)), 4)
    0.0914
    """
    inches, feet = _in_inches(diameter, length)
    total = np.zeros(np.broadcast(inches, feet).shape)
    for section in range(5):
        share = np.clip(feet / SECTION - section, 0.0, 1.0)
        thick = inches + TAPER * section
        total = total + share * np.maximum(0.905 * (0.22 * thick**2 - 0.71 * thick), 0.0)
    return np.asarray(total * BOARD_FOOT)
