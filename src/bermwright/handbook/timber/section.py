"""Properties of a board and of a rib nailed together from boards standing side by side."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A section bent in the plane of its depth."""

    width: Array
    depth: Array
    area: Array
    modulus: Array
    """Section modulus W in the plane of bending (m3)."""
    inertia: Array
    """Second moment of area in the plane of bending (m4)."""
    inertia_flat: Array
    """Second moment of area sideways (m4)."""
    torsion: Array
    """Torsion constant (m4)."""


def rectangular_section(width: ArrayLike, depth: ArrayLike) -> Section:
    """Properties of a rectangular section.

    A = b·h, W = b·h²/6, I = b·h³/12, I_z = h·b³/12, I_tor = h·b³·(1/3 − 0.21·(b/h)·(1 − (b/h)⁴/12))

    Parameters
    ----------
    width : float or array
        Width b across the plane of bending [m], > 0.
    depth : float or array
        Depth h in the plane of bending [m], > 0.

    Returns
    -------
    Section
        Area [m2], section modulus [m3], second moments and torsion constant [m4].

    Notes
    -----
    In the torsion constant b is the smaller side; the closed form is within 0.2 % of the series.

    References
    ----------
    [TIMOSHENKO] torsion of a rectangle.

    Examples
    --------
    >>> round(float(rectangular_section(0.128, 0.195).modulus) * 1e6, 1)
    811.2
    """
    within("width", width, 0.0, unit="m", open_low=True)
    within("depth", depth, 0.0, unit="m", open_low=True)
    b, h = np.broadcast_arrays(np.asarray(width, dtype=np.float64), np.asarray(depth, dtype=np.float64))
    return Section(
        width=b,
        depth=h,
        area=b * h,
        modulus=b * h**2 / 6,
        inertia=b * h**3 / 12,
        inertia_flat=h * b**3 / 12,
        torsion=_torsion(np.minimum(b, h), np.maximum(b, h)),
    )


def laminated_section(layers: ArrayLike, *, thickness: ArrayLike, depth: ArrayLike) -> Section:
    """Properties of several boards standing side by side in one rib.

    A, W and I as one board of width n·t; I_z = n·I_z,board, I_tor = n·I_tor,board

    Parameters
    ----------
    layers : float or array
        Number n of uncut layers at the place looked at [-], ≥ 1.
    thickness : float or array
        Thickness t of one layer [m], > 0.
    depth : float or array
        Depth h of the rib [m], > 0.

    Returns
    -------
    Section
        Area [m2], section modulus [m3], second moments and torsion constant [m4].

    Notes
    -----
    In the plane of the rib the layers bend side by side and need no nails to act as one; sideways and
    in torsion they are taken as loose, which is the lower bound. At a butt joint give n − 1.

    References
    ----------
    [EN1995] annex B with γ = 0 sideways.

    Examples
    --------
    >>> whole, cut = laminated_section([4, 3], thickness=0.032, depth=0.195).modulus * 1e6
    >>> round(float(whole), 1), round(float(cut), 1)
    (811.2, 608.4)
    """
    within("number of layers", layers, 1.0)
    n = np.asarray(layers, dtype=np.float64)
    board = rectangular_section(thickness, depth)
    width = n * board.width
    return Section(
        width=width,
        depth=np.broadcast_to(board.depth, np.shape(width)),
        area=n * board.area,
        modulus=n * board.modulus,
        inertia=n * board.inertia,
        inertia_flat=n * board.inertia_flat,
        torsion=n * board.torsion,
    )


def _torsion(small: Array, large: Array) -> Array:
    ratio = small / large
    return large * small**3 * (1 / 3 - 0.21 * ratio * (1 - ratio**4 / 12))
