"""Buckling: in the plane of the rib by compression, sideways by bending."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.data.timber_classes import STRAIGHTNESS

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

STOCKY = 0.3
"""Relative slenderness up to which buckling takes nothing away."""


def slenderness(length: ArrayLike, inertia: ArrayLike, *, area: ArrayLike) -> Array:
    """Slenderness of a member in compression.

    λ = l_ef/√(I/A)

    Parameters
    ----------
    length : float or array
        Buckling length [m], ≥ 0.
    inertia : float or array
        Second moment of area about the axis it buckles about [m4], > 0.
    area : float or array
        Area [m2], > 0.

    Returns
    -------
    array
        Slenderness [-].

    References
    ----------
    [EN1995] 6.3.2.

    Examples
    --------
    >>> round(float(slenderness(3.75, 0.1 * 0.2**3 / 12, area=0.02)), 2)
    64.95
    """
    within("buckling length", length, 0.0, unit="m")
    within("second moment of area", inertia, 0.0, unit="m4", open_low=True)
    within("area", area, 0.0, unit="m2", open_low=True)
    return np.asarray(length, dtype=np.float64) / np.sqrt(
        np.asarray(inertia, dtype=np.float64) / np.asarray(area, dtype=np.float64)
    )


def relative_slenderness(slenderness: ArrayLike, strength: ArrayLike, *, modulus_low: ArrayLike) -> Array:
    """Slenderness compared with that at which timber crushes as soon as it buckles.

    λ_rel = λ/π·√(f_c,0,k/E_0.05)

    Parameters
    ----------
    slenderness : float or array
        Slenderness [-], ≥ 0.
    strength : float or array
        Characteristic strength in compression along the grain [Pa], > 0.
    modulus_low : float or array
        Five-percentile modulus along the grain [Pa], > 0.

    Returns
    -------
    array
        Relative slenderness [-].

    References
    ----------
    [EN1995] eq. 6.21 and 6.22.

    Examples
    --------
    >>> round(float(relative_slenderness(60.0, 21e6, modulus_low=7.4e9)), 3)
    1.017
    """
    within("slenderness", slenderness, 0.0)
    within("compression strength", strength, 0.0, unit="Pa", open_low=True)
    within("modulus", modulus_low, 0.0, unit="Pa", open_low=True)
    return (
        np.asarray(slenderness, dtype=np.float64)
        / np.pi
        * np.sqrt(np.asarray(strength, dtype=np.float64) / np.asarray(modulus_low, dtype=np.float64))
    )


def relative_slenderness_of_force(
    area: ArrayLike, strength: ArrayLike, *, critical_force: ArrayLike
) -> Array:
    """Relative slenderness of a member whose elastic critical force is known, such as an arch.

    λ_rel = √(A·f_c,0,k/N_cr)

    Parameters
    ----------
    area : float or array
        Area [m2], > 0.
    strength : float or array
        Characteristic strength in compression along the grain [Pa], > 0.
    critical_force : float or array
        Elastic critical axial force, from five-percentile stiffnesses [N], > 0.

    Returns
    -------
    array
        Relative slenderness [-].

    Notes
    -----
    The same quantity as in eq. 6.21: for a strut N_cr = π²·E_0.05·I/l_ef².

    References
    ----------
    [EN1995] eq. 6.21 rewritten.

    Examples
    --------
    >>> round(float(relative_slenderness_of_force(0.02, 21e6, critical_force=406e3)), 3)
    1.017
    """
    within("area", area, 0.0, unit="m2", open_low=True)
    within("compression strength", strength, 0.0, unit="Pa", open_low=True)
    within("critical force", critical_force, 0.0, unit="N", open_low=True)
    return np.sqrt(
        np.asarray(area, dtype=np.float64)
        * np.asarray(strength, dtype=np.float64)
        / np.asarray(critical_force, dtype=np.float64)
    )


def buckling_factor(relative_slenderness: ArrayLike, *, straightness: float = STRAIGHTNESS.value) -> Array:
    """Share of its crushing strength that a member keeps when it can buckle.

    k_c = 1/(k + √(k² − λ_rel²)), k = 0.5·(1 + β_c·(λ_rel − 0.3) + λ_rel²)

    Parameters
    ----------
    relative_slenderness : float or array
        Relative slenderness [-], ≥ 0.
    straightness : float
        β_c [-]: 0.2 for solid timber, 0.1 for glued laminated timber.

    Returns
    -------
    array
        Buckling factor [-]; 1 up to a relative slenderness of 0.3.

    References
    ----------
    [EN1995] eq. 6.25 to 6.29.

    Examples
    --------
    >>> round(float(buckling_factor(1.0174)), 3)
    0.676
    """
    within("relative slenderness", relative_slenderness, 0.0)
    within("straightness", straightness, 0.0, 1.0)
    relative = np.maximum(np.asarray(relative_slenderness, dtype=np.float64), STOCKY)
    k = 0.5 * (1 + straightness * (relative - STOCKY) + relative**2)
    # Below the stocky limit k² falls short of λ²; there the strut crushes without buckling.
    root = np.sqrt(np.maximum(k**2 - relative**2, 0.0))
    return np.where(relative > STOCKY, 1 / (k + root), 1.0)


def curvature_factor(inner_radius: ArrayLike, thickness: ArrayLike) -> Array:
    """Loss of bending strength by bending boards to a curve.

    k_r = 0.76 + 0.001·r_in/t, 1 from r_in/t = 240 on

    Parameters
    ----------
    inner_radius : float or array
        Inner radius of the member [m], > 0.
    thickness : float or array
        Thickness of one bent layer [m], > 0.

    Returns
    -------
    array
        Factor on the bending strength [-].

    Notes
    -----
    For layers that are bent. Ribs of pieces sawn to the curve are not bent: 1 for them.

    References
    ----------
    [EN1995] eq. 6.49; [SWEDISHWOOD] for the limit 240.

    Examples
    --------
    >>> round(float(curvature_factor(3.0, 0.03)), 2)
    0.86
    """
    within("inner radius", inner_radius, 0.0, unit="m", open_low=True)
    within("thickness", thickness, 0.0, unit="m", open_low=True)
    ratio = np.asarray(inner_radius, dtype=np.float64) / np.asarray(thickness, dtype=np.float64)
    return np.where(ratio < 240.0, 0.76 + 0.001 * ratio, 1.0)  # noqa: PLR2004  (240: the equation's own limit)
