"""Stresses at one section, and how much of the strength they use together."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.data.timber_classes import K_M

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


def shear_stress(force: ArrayLike, width: ArrayLike, *, depth: ArrayLike, crack_factor: ArrayLike) -> Array:
    """Largest shear stress of a rectangular section that has dried and cracked.

    τ = 1.5·V/(k_cr·b·h)

    Parameters
    ----------
    force : float or array
        Shear force, its size [N], ≥ 0.
    width : float or array
        Width of the uncut layers [m], > 0.
    depth : float or array
        Depth [m], > 0.
    crack_factor : float or array
        Share of the width that is not cracked [-], above 0 to 1; 0.67 for solid timber.

    Returns
    -------
    array
        Shear stress [Pa].

    References
    ----------
    [EN1995] eq. 6.13 and 6.13a.

    Examples
    --------
    >>> round(float(shear_stress(5000.0, 0.096, depth=0.195, crack_factor=0.67)) / 1e6, 3)
    0.598
    """
    within("shear force", force, 0.0, unit="N")
    within("width", width, 0.0, unit="m", open_low=True)
    within("depth", depth, 0.0, unit="m", open_low=True)
    within("crack factor", crack_factor, 0.0, 1.0, open_low=True)
    return (
        1.5
        * np.asarray(force, dtype=np.float64)
        / (
            np.asarray(crack_factor, dtype=np.float64)
            * np.asarray(width, dtype=np.float64)
            * np.asarray(depth, dtype=np.float64)
        )
    )


def bending_and_compression(
    compression: ArrayLike,
    bending: ArrayLike,
    *,
    compression_strength: ArrayLike,
    bending_strength: ArrayLike,
    flat_bending: ArrayLike = 0.0,
    flat_strength: ArrayLike | None = None,
    k_m: float = K_M.value,
) -> Array:
    """Use of a stocky section in bending and compression.

    (σ_c/f_c)² + the larger of σ_m,y/f_m,y + k_m·σ_m,z/f_m,z and k_m·σ_m,y/f_m,y + σ_m,z/f_m,z

    Parameters
    ----------
    compression : float or array
        Compressive stress, its size [Pa], ≥ 0.
    bending : float or array
        Bending stress in the plane of the rib, its size [Pa], ≥ 0.
    compression_strength : float or array
        Design strength in compression along the grain [Pa], > 0.
    bending_strength : float or array
        Design strength in bending [Pa], > 0.
    flat_bending : float or array
        Bending stress sideways, its size [Pa], ≥ 0.
    flat_strength : float or array
        Design strength in bending sideways [Pa], > 0; the same as in the plane where not given.
    k_m : float
        Share of the other axis' bending [-]; 0.7 for rectangles.

    Returns
    -------
    array
        Demand over capacity [-].

    Notes
    -----
    For relative slendernesses up to 0.3; beyond, `buckling_and_bending` rules.

    References
    ----------
    [EN1995] eq. 6.19 and 6.20.

    Examples
    --------
    >>> ratio = bending_and_compression(2e6, 5e6, compression_strength=10e6, bending_strength=10e6)
    >>> round(float(ratio), 3)
    0.54
    """
    _stresses(compression, bending, flat_bending)
    within("compression strength", compression_strength, 0.0, unit="Pa", open_low=True)
    share = np.asarray(compression, dtype=np.float64) / np.asarray(compression_strength, dtype=np.float64)
    strong, weak = _bending_shares(bending, bending_strength, flat_bending, flat_strength)
    return share**2 + np.maximum(strong + k_m * weak, k_m * strong + weak)


def bending_and_tension(
    tension: ArrayLike,
    bending: ArrayLike,
    *,
    tension_strength: ArrayLike,
    bending_strength: ArrayLike,
    flat_bending: ArrayLike = 0.0,
    flat_strength: ArrayLike | None = None,
    k_m: float = K_M.value,
) -> Array:
    """Use of a section in bending and tension.

    σ_t/f_t + the larger of σ_m,y/f_m,y + k_m·σ_m,z/f_m,z and k_m·σ_m,y/f_m,y + σ_m,z/f_m,z

    Parameters
    ----------
    tension : float or array
        Tensile stress, its size [Pa], ≥ 0.
    bending : float or array
        Bending stress in the plane of the rib, its size [Pa], ≥ 0.
    tension_strength : float or array
        Design strength in tension along the grain [Pa], > 0.
    bending_strength : float or array
        Design strength in bending [Pa], > 0.
    flat_bending : float or array
        Bending stress sideways, its size [Pa], ≥ 0.
    flat_strength : float or array
        Design strength in bending sideways [Pa], > 0; the same as in the plane where not given.
    k_m : float
        Share of the other axis' bending [-]; 0.7 for rectangles.

    Returns
    -------
    array
        Demand over capacity [-].

    References
    ----------
    [EN1995] eq. 6.17 and 6.18.

    Examples
    --------
    >>> round(float(bending_and_tension(1e6, 5e6, tension_strength=10e6, bending_strength=10e6)), 3)
    0.6
    """
    _stresses(tension, bending, flat_bending)
    within("tension strength", tension_strength, 0.0, unit="Pa", open_low=True)
    share = np.asarray(tension, dtype=np.float64) / np.asarray(tension_strength, dtype=np.float64)
    strong, weak = _bending_shares(bending, bending_strength, flat_bending, flat_strength)
    return share + np.maximum(strong + k_m * weak, k_m * strong + weak)


def buckling_and_bending(  # noqa: PLR0913  (two axes of bending and of buckling)
    compression: ArrayLike,
    bending: ArrayLike,
    *,
    compression_strength: ArrayLike,
    bending_strength: ArrayLike,
    k_c: ArrayLike,
    k_c_flat: ArrayLike = 1.0,
    flat_bending: ArrayLike = 0.0,
    flat_strength: ArrayLike | None = None,
) -> Array:
    """Use of a slender member in bending and compression.

    larger of σ_c/(k_c,y·f_c) + σ_m,y/f_m,y + k_m·σ_m,z/f_m,z and
    σ_c/(k_c,z·f_c) + k_m·σ_m,y/f_m,y + σ_m,z/f_m,z, with k_m = 0.7

    Parameters
    ----------
    compression : float or array
        Compressive stress, its size [Pa], ≥ 0.
    bending : float or array
        Bending stress in the plane of the rib, its size [Pa], ≥ 0.
    compression_strength : float or array
        Design strength in compression along the grain [Pa], > 0.
    bending_strength : float or array
        Design strength in bending [Pa], > 0.
    k_c : float or array
        Buckling factor in the plane of the rib [-], above 0 to 1.
    k_c_flat : float or array
        Buckling factor sideways [-], above 0 to 1.
    flat_bending : float or array
        Bending stress sideways, its size [Pa], ≥ 0.
    flat_strength : float or array
        Design strength in bending sideways [Pa], > 0; the same as in the plane where not given.

    Returns
    -------
    array
        Demand over capacity [-].

    Notes
    -----
    Bending from a second-order analysis already holds the in-plane effect: k_c = 1 then.

    References
    ----------
    [EN1995] eq. 6.23 and 6.24.

    Examples
    --------
    >>> ratio = buckling_and_bending(
    ...     2e6, 5e6, compression_strength=10e6, bending_strength=10e6, k_c=0.8, k_c_flat=0.3
    ... )
    >>> round(float(ratio), 3)
    1.017
    """
    _stresses(compression, bending, flat_bending)
    within("compression strength", compression_strength, 0.0, unit="Pa", open_low=True)
    within("buckling factor", k_c, 0.0, 1.0, open_low=True)
    within("sideways buckling factor", k_c_flat, 0.0, 1.0, open_low=True)
    share = np.asarray(compression, dtype=np.float64) / np.asarray(compression_strength, dtype=np.float64)
    strong, weak = _bending_shares(bending, bending_strength, flat_bending, flat_strength)
    in_plane = share / np.asarray(k_c, dtype=np.float64) + strong + K_M.value * weak
    sideways = share / np.asarray(k_c_flat, dtype=np.float64) + K_M.value * strong + weak
    return np.maximum(in_plane, sideways)


def _stresses(axial: ArrayLike, bending: ArrayLike, flat_bending: ArrayLike) -> None:
    within("axial stress", axial, 0.0, unit="Pa")
    within("bending stress", bending, 0.0, unit="Pa")
    within("sideways bending stress", flat_bending, 0.0, unit="Pa")


def _bending_shares(
    bending: ArrayLike, strength: ArrayLike, flat_bending: ArrayLike, flat_strength: ArrayLike | None
) -> tuple[Array, Array]:
    flat = strength if flat_strength is None else flat_strength
    within("bending strength", strength, 0.0, unit="Pa", open_low=True)
    within("sideways bending strength", flat, 0.0, unit="Pa", open_low=True)
    return np.asarray(bending, dtype=np.float64) / np.asarray(strength, dtype=np.float64), np.asarray(
        flat_bending, dtype=float
    ) / np.asarray(flat, dtype=np.float64)
