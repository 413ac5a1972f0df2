"""Logs: round sections, their taper, the flat they rest on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """A full round section."""

    area: Array
    modulus: Array
    """Section modulus W (m3)."""
    inertia: Array
    """Second moment of area (m4)."""


def round_section(diameter: ArrayLike) -> Round:
    """Properties of a round section.

    A = π·d²/4, W = π·d³/32, I = π·d⁴/64

    Parameters
    ----------
    diameter : float or array
        Diameter d [m], > 0.

    Returns
    -------
    Round
        Area [m2], section modulus [m3] and second moment of area [m4].

    References
    ----------
    [TIMOSHENKO] geometry of the circle.

    Examples
    --------
    >>> round(float(round_section(0.2).modulus) * 1e6, 1)
    785.4
    """
    within("diameter", diameter, 0.0, unit="m", open_low=True)
    d = np.asarray(diameter, dtype=np.float64)
    return Round(area=np.pi * d**2 / 4, modulus=np.pi * d**3 / 32, inertia=np.pi * d**4 / 64)


def round_shear_stress(force: ArrayLike, diameter: ArrayLike, *, crack_factor: ArrayLike) -> Array:
    """Largest shear stress of a log that has dried and cracked.

    τ = 4·V/(3·k_cr·A)

    Parameters
    ----------
    force : float or array
        Shear force, its size [N], ≥ 0.
    diameter : float or array
        Diameter [m], > 0.
    crack_factor : float or array
        Share of the width that is not cracked [-], above 0 to 1; 0.67 for solid timber.

    Returns
    -------
    array
        Shear stress [Pa].

    References
    ----------
    [TIMOSHENKO] shear of a circle; [EN1995] eq. 6.13a for the cracks.

    Examples
    --------
    >>> round(float(round_shear_stress(10e3, 0.2, crack_factor=0.67)) / 1e6, 3)
    0.633
    """
    within("shear force", force, 0.0, unit="N")
    within("crack factor", crack_factor, 0.0, 1.0, open_low=True)
    area = round_section(diameter).area
    cracked = np.asarray(crack_factor, dtype=np.float64) * area
    return 4 * np.asarray(force, dtype=np.float64) / (3 * cracked)


def tapered_diameter(thin: ArrayLike, thick: ArrayLike, *, share: ArrayLike) -> Array:
    """Diameter of a log at a share of its length from the thin end.

    d = d_min + s·(d_max − d_min)

    Parameters
    ----------
    thin : float or array
        Diameter of the thin end [m], > 0.
    thick : float or array
        Diameter of the thick end [m], at least that of the thin one.
    share : float or array
        Share s of the length, counted from the thin end [-], 0 to 1.

    Returns
    -------
    array
        Diameter there [m].

    Notes
    -----
    A tapered post held sideways at both ends buckles about like an even one of the diameter at a third
    of its length from the thin end; the thin end itself must still take the plain compression.

    References
    ----------
    [NDS] 3.7.2, all other support conditions.

    Examples
    --------
    >>> round(float(tapered_diameter(0.18, 0.24, share=1 / 3)), 3)
    0.2
    """
    within("diameter of the thin end", thin, 0.0, unit="m", open_low=True)
    small = np.asarray(thin, dtype=np.float64)
    more = np.asarray(thick, dtype=np.float64) - small
    within("thick end less thin end", more, 0.0, unit="m")
    within("share of the length", share, 0.0, 1.0)
    return small + np.asarray(share, dtype=np.float64) * more


def seat_width(diameter: ArrayLike, cut: ArrayLike) -> Array:
    """Width of the flat that a cut of some depth leaves on a log.

    b = 2·√(t·(d − t))

    Parameters
    ----------
    diameter : float or array
        Diameter d [m], > 0.
    cut : float or array
        Depth t of the cut [m], 0 to half the diameter.

    Returns
    -------
    array
        Width of the flat [m].

    References
    ----------
    [TIMOSHENKO] geometry of the circle.

    Examples
    --------
    >>> round(float(seat_width(0.2, 0.02)), 3)
    0.12
    """
    within("diameter", diameter, 0.0, unit="m", open_low=True)
    d, t = np.asarray(diameter, dtype=np.float64), np.asarray(cut, dtype=np.float64)
    within("depth of the cut over the diameter", t / d, 0.0, 0.5)
    return 2 * np.sqrt(t * (d - t))
