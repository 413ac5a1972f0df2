"""Lateral-torsional buckling: a deep rib that tips sideways where its inner edge is compressed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

FULL_STRENGTH_UP_TO = 0.75
ELASTIC_FROM = 1.4


def effective_length(span: ArrayLike, *, factor: ArrayLike, depth: ArrayLike, loaded_edge: str) -> Array:
    """Length over which a beam may tip sideways.

    l_ef = factor·l + 2·h (load on the compressed edge) or − 0.5·h (load on the tension edge)

    Parameters
    ----------
    span : float or array
        Distance between points held sideways [m], > 0.
    factor : float or array
        Shape of the moment: 1.0 constant, 0.9 uniform load, 0.8 force at mid-span [-], above 0 to 1.
    depth : float or array
        Depth of the beam [m], > 0.
    loaded_edge : str
        "compressed", "tension" or "middle" [-].

    Returns
    -------
    array
        Effective length [m].

    References
    ----------
    [EN1995] table 6.1.

    Examples
    --------
    >>> round(float(effective_length(2.0, factor=0.9, depth=0.2, loaded_edge="compressed")), 2)
    2.2
    """
    within("span", span, 0.0, unit="m", open_low=True)
    within("factor", factor, 0.0, 1.0, open_low=True)
    within("depth", depth, 0.0, unit="m", open_low=True)
    lever = {"compressed": 2.0, "middle": 0.0, "tension": -0.5}
    if loaded_edge not in lever:
        raise OutOfRangeError(f"The loaded edge is compressed, middle or tension, not {loaded_edge}.")
    length = np.asarray(factor, dtype=np.float64) * np.asarray(span, dtype=np.float64) + lever[
        loaded_edge
    ] * np.asarray(depth, dtype=np.float64)
    within("effective length", length, 0.0, unit="m", open_low=True)
    return length


def critical_bending_stress(
    width: ArrayLike, depth: ArrayLike, *, effective_length: ArrayLike, modulus_low: ArrayLike
) -> Array:
    """Elastic bending stress at which a softwood rectangle tips sideways.

    σ_m,crit = 0.78·b²·E_0.05/(h·l_ef)

    Parameters
    ----------
    width : float or array
        Width b [m], > 0.
    depth : float or array
        Depth h [m], > 0.
    effective_length : float or array
        Effective length [m], > 0.
    modulus_low : float or array
        Five-percentile modulus along the grain [Pa], > 0.

    Returns
    -------
    array
        Critical bending stress [Pa].

    Notes
    -----
    For one solid rectangle. Layers nailed side by side are softer: use the general form with the
    section of loose layers.

    References
    ----------
    [EN1995] eq. 6.32.

    Examples
    --------
    >>> stress = critical_bending_stress(0.05, 0.2, effective_length=2.0, modulus_low=7.4e9)
    >>> round(float(stress) / 1e6, 2)
    36.08
    """
    within("width", width, 0.0, unit="m", open_low=True)
    within("depth", depth, 0.0, unit="m", open_low=True)
    within("effective length", effective_length, 0.0, unit="m", open_low=True)
    within("modulus", modulus_low, 0.0, unit="Pa", open_low=True)
    b = np.asarray(width, dtype=np.float64)
    return (
        0.78
        * b**2
        * np.asarray(modulus_low, dtype=np.float64)
        / (np.asarray(depth, dtype=np.float64) * np.asarray(effective_length, dtype=np.float64))
    )


def critical_bending_stress_general(
    inertia_flat: ArrayLike,
    torsion: ArrayLike,
    *,
    section_modulus: ArrayLike,
    effective_length: ArrayLike,
    modulus_low: ArrayLike,
    shear_modulus_low: ArrayLike,
) -> Array:
    """Elastic bending stress at which any section tips sideways.

    σ_m,crit = π·√(E_0.05·I_z·G_0.05·I_tor)/(l_ef·W_y)

    Parameters
    ----------
    inertia_flat : float or array
        Second moment of area sideways [m4], > 0.
    torsion : float or array
        Torsion constant [m4], > 0.
    section_modulus : float or array
        Section modulus in the plane of bending [m3], > 0.
    effective_length : float or array
        Effective length [m], > 0.
    modulus_low : float or array
        Five-percentile modulus along the grain [Pa], > 0.
    shear_modulus_low : float or array
        Five-percentile shear modulus [Pa], > 0.

    Returns
    -------
    array
        Critical bending stress [Pa].

    References
    ----------
    [EN1995] eq. 6.31.

    Examples
    --------
    >>> stress = critical_bending_stress_general(
    ...     2.083e-6,
    ...     7.02e-6,
    ...     section_modulus=3.333e-4,
    ...     effective_length=2.0,
    ...     modulus_low=7.4e9,
    ...     shear_modulus_low=4.625e8,
    ... )
    >>> round(float(stress) / 1e6, 1)
    33.3
    """
    stiffness = _positive_product(inertia_flat, modulus_low) * _positive_product(torsion, shear_modulus_low)
    within("section modulus", section_modulus, 0.0, unit="m3", open_low=True)
    within("effective length", effective_length, 0.0, unit="m", open_low=True)
    return (
        np.pi
        * np.sqrt(stiffness)
        / (np.asarray(effective_length, dtype=np.float64) * np.asarray(section_modulus, dtype=np.float64))
    )


def critical_moment_held_edge(
    inertia_flat: ArrayLike,
    torsion: ArrayLike,
    *,
    depth: ArrayLike,
    length: ArrayLike,
    modulus_low: ArrayLike,
    shear_modulus_low: ArrayLike,
) -> Array:
    """Elastic moment at which a rib tips inwards about its held outer edge.

    M_cr = (π²·E_0.05·I_z·a²/l² + G_0.05·I_tor)/(2·a), a = h/2

    Parameters
    ----------
    inertia_flat : float or array
        Second moment of area sideways [m4], > 0.
    torsion : float or array
        Torsion constant [m4], > 0.
    depth : float or array
        Depth h of the rib [m], > 0.
    length : float or array
        Distance between places where the rib cannot twist [m], > 0.
    modulus_low : float or array
        Five-percentile modulus along the grain [Pa], > 0.
    shear_modulus_low : float or array
        Five-percentile shear modulus [Pa], > 0.

    Returns
    -------
    array
        Critical moment, constant along the length, inner edge compressed [Nm].

    Notes
    -----
    The lagging holds the outer edge everywhere but lets it turn. Twist θ = sin(πx/l) moves the middle
    by a·θ; bending energy E·I_z·(aθ'')² + torsion G·I_tor·θ'² against the work 2·M·a·θ'². Where the
    outer edge is the compressed one the spacing of the planks rules instead.

    References
    ----------
    [EN1993] BB.3.3.1, rectangle without warping, re-derived.

    Examples
    --------
    >>> moment = critical_moment_held_edge(
    ...     2.1e-6, 7e-6, depth=0.2, length=3.0, modulus_low=7.4e9, shear_modulus_low=4.6e8
    ... )
    >>> round(float(moment))
    16952
    """
    within("depth", depth, 0.0, unit="m", open_low=True)
    within("length", length, 0.0, unit="m", open_low=True)
    arm = np.asarray(depth, dtype=np.float64) / 2
    bending = (
        np.pi**2
        * _positive_product(inertia_flat, modulus_low)
        * arm**2
        / np.asarray(length, dtype=np.float64) ** 2
    )
    return (bending + _positive_product(torsion, shear_modulus_low)) / (2 * arm)


def relative_slenderness_bending(strength: ArrayLike, critical: ArrayLike) -> Array:
    """Slenderness of a beam that may tip sideways.

    λ_rel,m = √(f_m,k/σ_m,crit)

    Parameters
    ----------
    strength : float or array
        Characteristic bending strength [Pa], > 0.
    critical : float or array
        Critical bending stress [Pa], > 0.

    Returns
    -------
    array
        Relative slenderness in bending [-].

    References
    ----------
    [EN1995] eq. 6.30.

    Examples
    --------
    >>> round(float(relative_slenderness_bending(24e6, 36.08e6)), 3)
    0.816
    """
    within("bending strength", strength, 0.0, unit="Pa", open_low=True)
    within("critical bending stress", critical, 0.0, unit="Pa", open_low=True)
    return np.sqrt(np.asarray(strength, dtype=np.float64) / np.asarray(critical, dtype=np.float64))


def sideways_factor(relative_slenderness: ArrayLike) -> Array:
    """Share of its bending strength that a beam keeps when it may tip sideways.

    k_crit = 1 up to λ = 0.75; 1.56 − 0.75·λ up to 1.4; 1/λ² beyond

    Parameters
    ----------
    relative_slenderness : float or array
        Relative slenderness in bending [-], ≥ 0.

    Returns
    -------
    array
        Factor on the bending strength [-].

    References
    ----------
    [EN1995] eq. 6.34; [PORTEOUS2007] equation 4.11.

    Examples
    --------
    >>> [round(float(k), 3) for k in sideways_factor([0.5, 1.0, 2.0])]
    [1.0, 0.81, 0.25]
    """
    within("relative slenderness", relative_slenderness, 0.0)
    relative = np.asarray(relative_slenderness, dtype=np.float64)
    slender = 1 / np.maximum(relative, FULL_STRENGTH_UP_TO) ** 2
    middle = np.where(relative > ELASTIC_FROM, slender, 1.56 - 0.75 * relative)
    return np.where(relative > FULL_STRENGTH_UP_TO, middle, 1.0)


def sideways_ratio(
    bending: ArrayLike,
    compression: ArrayLike,
    *,
    bending_strength: ArrayLike,
    compression_strength: ArrayLike,
    k_crit: ArrayLike,
    k_c_flat: ArrayLike,
) -> Array:
    """Use of a rib that is bent and compressed and may tip sideways.

    (σ_m/(k_crit·f_m))² + σ_c/(k_c,z·f_c)

    Parameters
    ----------
    bending : float or array
        Bending stress, its size [Pa], ≥ 0.
    compression : float or array
        Compressive stress, its size [Pa], ≥ 0.
    bending_strength : float or array
        Design strength in bending [Pa], > 0.
    compression_strength : float or array
        Design strength in compression along the grain [Pa], > 0.
    k_crit : float or array
        Factor for tipping [-], above 0 to 1.
    k_c_flat : float or array
        Buckling factor sideways [-], above 0 to 1.

    Returns
    -------
    array
        Demand over capacity [-].

    References
    ----------
    [EN1995] eq. 6.35.

    Examples
    --------
    >>> ratio = sideways_ratio(
    ...     5e6, 2e6, bending_strength=10e6, compression_strength=10e6, k_crit=0.8, k_c_flat=0.5
    ... )
    >>> round(float(ratio), 3)
    0.791
    """
    within("bending stress", bending, 0.0, unit="Pa")
    within("compressive stress", compression, 0.0, unit="Pa")
    within("bending strength", bending_strength, 0.0, unit="Pa", open_low=True)
    within("compression strength", compression_strength, 0.0, unit="Pa", open_low=True)
    within("factor for tipping", k_crit, 0.0, 1.0, open_low=True)
    within("buckling factor", k_c_flat, 0.0, 1.0, open_low=True)
    bent = np.asarray(bending, dtype=np.float64) / (
        np.asarray(k_crit, dtype=np.float64) * np.asarray(bending_strength, dtype=np.float64)
    )
    return bent**2 + np.asarray(compression, dtype=np.float64) / (
        np.asarray(k_c_flat, dtype=np.float64) * np.asarray(compression_strength, dtype=np.float64)
    )


def _positive_product(geometry: ArrayLike, modulus: ArrayLike) -> Array:
    within("property of the section", geometry, 0.0, unit="m4", open_low=True)
    within("modulus", modulus, 0.0, unit="Pa", open_low=True)
    return np.asarray(geometry, dtype=np.float64) * np.asarray(modulus, dtype=np.float64)
