"""Nails counted and weighed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array

ROUNDING = 1e-9
"""A length that is a whole number of spacings but for rounding has no further nail."""


def nail_mass(diameter: Number, length: Number, *, density: Number) -> Array:
    """Mass of one round wire nail, its head left out.

    m = π/4·d²·l·ρ

    Parameters
    ----------
    diameter : float or array
        Diameter of the wire, d [m], above 0 to 0.02.
    length : float or array
        Length of the nail, l [m], above 0 to 0.5.
    density : float or array
        Density of the metal, ρ [kg/m3], above 0.

    Returns
    -------
    float or array
        Mass, m [kg]; heads add some 2 %.

    References
    ----------
    [NAILTABLE] : numbers to the pound that it reproduces.

    Examples
    --------
    >>> round(float(nail_mass(0.0041148, length=0.0889, density=7850.0)), 5)
    0.00928
    """
    within("diameter of the nail", diameter, 0.0, 0.02, unit="m", open_low=True)
    within("length of the nail", length, 0.0, 0.5, unit="m", open_low=True)
    within("density", density, 0.0, unit="kg/m3", open_low=True)
    area = 0.25 * np.pi * np.asarray(diameter, dtype=float) ** 2
    return np.asarray(area * length * density)


def nails_along(length: Number, *, spacing: Number, rows: Number) -> Array:
    """Nails that hold two boards together along a length, one at each end of it.

    n = r·(⌈l/s⌉ + 1)

    Parameters
    ----------
    length : float or array
        Length that is nailed, l [m], from 0.
    spacing : float or array
        Greatest distance between two nails of a row, s [m], above 0.
    rows : float or array
        Number of rows, r [-], from 0.

    Returns
    -------
    float or array
        Number of nails, n [-].

    References
    ----------
    [CARPENTRYV4] : counting nails by spacing.

    Examples
    --------
    >>> round(float(nails_along(1.0, spacing=0.1, rows=2.0)))
    22
    """
    within("length", length, 0.0, unit="m")
    within("spacing", spacing, 0.0, unit="m", open_low=True)
    within("rows", rows, 0.0)
    gaps = np.ceil(np.asarray(length, dtype=float) / spacing - ROUNDING)
    return np.asarray(rows * (gaps + 1.0))
