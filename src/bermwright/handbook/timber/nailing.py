"""Where nails may stand: distances, thickness against splitting, and rows that share unevenly."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.timber.nails import DENSEST_WITHOUT_HOLES, DENSEST_WOOD

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

MM = 1e-3
LARGEST_NAIL = 0.008
THICK_NAIL = 0.005
"""Diameter (m) from which nails need more distance."""
DENSE_TIMBER = 420.0
"""Characteristic density (kg/m3) above which nails need more distance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NailDistances:
    """Least distances of nails (m): a1, a2, a3,t, a3,c, a4,t, a4,c of the standard."""

    along: Array
    across: Array
    loaded_end: Array
    free_end: Array
    loaded_edge: Array
    free_edge: Array


def nail_distances(
    diameter: ArrayLike, *, angle: ArrayLike = 0.0, density: float = 350.0, predrilled: bool = False
) -> NailDistances:
    """Least spacings and distances to ends and edges.

    multiples of d that depend on the angle α of the force to the grain, by table

    Parameters
    ----------
    diameter : float or array
        Diameter of the nail [m], above 0 to 0.008.
    angle : float or array
        Angle α of the force to the grain [rad], 0 to π/2.
    density : float
        Characteristic density [kg/m3], above 0 to 500 without holes, to 1200 predrilled.
    predrilled : bool
        Whether holes are drilled first [-].

    Returns
    -------
    NailDistances
        Least distances [m].

    Notes
    -----
    Nails from both sides may overlap in the middle timber when it is more than 4 d thicker than the
    penetration.

    References
    ----------
    [EN1995] table 8.2; [LVLHANDBOOK] table 5.1.

    Examples
    --------
    >>> nails = nail_distances(0.0031)
    >>> round(float(nails.along), 4), round(float(nails.loaded_end), 4)
    (0.031, 0.0465)
    """
    within("nail diameter", diameter, 0.0, LARGEST_NAIL, unit="m", open_low=True)
    within("angle to the grain", angle, 0.0, np.pi / 2 * (1 + 1e-12), unit="rad")
    within(
        "density", density, 0.0, DENSEST_WOOD if predrilled else DENSEST_WITHOUT_HOLES,
        unit="kg/m3", open_low=True,
    )  # fmt: skip
    d = np.asarray(diameter, dtype=np.float64)
    cosine, sine = np.cos(angle), np.sin(angle)
    thick = d >= THICK_NAIL
    one = np.ones_like(cosine)
    if predrilled:
        along, across = 4 + cosine, 3 + sine
        loaded_end, free_end = 7 + 5 * cosine, 7.0
        loaded_edge, free_edge = np.where(thick, 3 + 4 * sine, 3 + 2 * sine), 3.0
    elif density <= DENSE_TIMBER:
        along, across = np.where(thick, 5 + 7 * cosine, 5 + 5 * cosine), 5 * one
        loaded_end, free_end = 10 + 5 * cosine, 10.0
        loaded_edge, free_edge = np.where(thick, 5 + 5 * sine, 5 + 2 * sine), 5.0
    else:
        along, across = 7 + 8 * cosine, 7 * one
        loaded_end, free_end = 15 + 5 * cosine, 15.0
        loaded_edge, free_edge = np.where(thick, 7 + 5 * sine, 7 + 2 * sine), 7.0
    return NailDistances(
        along=along * d,
        across=across * d,
        loaded_end=loaded_end * d,
        free_end=free_end * d,
        loaded_edge=loaded_edge * d,
        free_edge=free_edge * d,
    )


def splitting_thickness(diameter: ArrayLike, density: ArrayLike, *, sensitive: bool = False) -> Array:
    """Least thickness of a board that does not split without drilled holes.

    t = max(7·d, (13·d − 30)·ρ_k/400) in mm; woods that split easily max(14·d, (13·d − 30)·ρ_k/200)

    Parameters
    ----------
    diameter : float or array
        Diameter of the nail [m], above 0 to 0.008.
    density : float or array
        Characteristic density [kg/m3], above 0 to 500.
    sensitive : bool
        Whether the wood splits easily, as fir, douglas fir and often spruce do [-].

    Returns
    -------
    array
        Least thickness [m].

    References
    ----------
    [EN1995] eq. 8.18 and 8.19.

    Examples
    --------
    >>> round(float(splitting_thickness(0.004, 350.0)), 3)
    0.028
    """
    within("nail diameter", diameter, 0.0, LARGEST_NAIL, unit="m", open_low=True)
    within("density", density, 0.0, DENSEST_WITHOUT_HOLES, unit="kg/m3", open_low=True)
    d = np.asarray(diameter, dtype=np.float64) / MM
    diameters, divisor = (14.0, 200.0) if sensitive else (7.0, 400.0)
    return np.maximum(diameters * d, (13 * d - 30) * np.asarray(density, dtype=np.float64) / divisor) * MM


def pointside_penetration(diameter: ArrayLike) -> Array:
    """Least penetration of a smooth nail on the point side.

    8·d

    Parameters
    ----------
    diameter : float or array
        Diameter of the nail [m], above 0 to 0.008.

    Returns
    -------
    array
        Least penetration [m].

    References
    ----------
    [EN1995] 8.3.1.2 (1); [PORTEOUS2007] example at info-dqp-1.

    Examples
    --------
    >>> round(float(pointside_penetration(0.0034)), 4)
    0.0272
    """
    within("nail diameter", diameter, 0.0, LARGEST_NAIL, unit="m", open_low=True)
    return 8 * np.asarray(diameter, dtype=np.float64)


def effective_nails(
    number: ArrayLike, spacing: ArrayLike, *, diameter: ArrayLike, predrilled: bool = False
) -> Array:
    """Nails that count in a row along the grain loaded along the grain.

    n_ef = n^k_ef; k_ef from 0.7 at 7·d and 0.85 at 10·d to 1 at 14·d (0.5 at 4·d predrilled)

    Parameters
    ----------
    number : float or array
        Number of nails in the row [-], ≥ 1.
    spacing : float or array
        Spacing in the row [m], at least 7·d (4·d predrilled).
    diameter : float or array
        Diameter of the nail [m], above 0 to 0.008.
    predrilled : bool
        Whether holes are drilled first [-].

    Returns
    -------
    array
        Effective number [-].

    Notes
    -----
    Rows staggered across the grain by at least one diameter count in full.

    References
    ----------
    [EN1995] eq. 8.17 and table 8.1.

    Examples
    --------
    >>> round(float(effective_nails(4, 0.04, diameter=0.004)), 2)
    3.25
    """
    within("number of nails", number, 1.0)
    within("nail diameter", diameter, 0.0, LARGEST_NAIL, unit="m", open_low=True)
    relative = np.asarray(spacing, dtype=np.float64) / np.asarray(diameter, dtype=np.float64)
    closest = 4.0 if predrilled else 7.0
    within("spacing in diameters", relative, closest * (1 - 1e-12))
    exponent = np.interp(relative, [4.0, 7.0, 10.0, 14.0], [0.5, 0.7, 0.85, 1.0])
    return np.asarray(number, dtype=np.float64) ** exponent
