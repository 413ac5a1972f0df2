"""What is left of a rib of nailed boards in a fire, and what it carries."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


class Residual(NamedTuple):
    """The rib that is left."""

    width: Array
    """All layers that are left, along the vault (m)."""
    depth: Array
    layers: Array
    """How many boards' thickness that is."""
    modulus: Array
    """Section modulus of the layer that carries most, over all (m3); 0 where nothing runs through."""
    area: Array
    """Area that runs through beside a butt joint (m2)."""


def residual_rib(
    layers: ArrayLike,
    board: ArrayLike,
    depth: ArrayLike,
    *,
    side: ArrayLike,
    inside: ArrayLike,
    peak: ArrayLike,
) -> Residual:
    """The rib of nailed layers that a fire inside leaves: burned from both sides and from the room.

    b = n t - 2 d, h = h0 - d', W = b h^2/6 / peak (n - 1)/n m/(m - 1), A = b h (m - 1)/m, m = b/t

    Parameters
    ----------
    layers : float or array
        Layers of the whole rib, n [-]; from 2.
    board : float or array
        Thickness of one layer, t [m]; above 0.
    depth : float or array
        Depth of the whole rib, h0 [m]; above 0.
    side : float or array
        Depth lost on each side, d [m]; from 0.
    inside : float or array
        Depth lost on the room side, d' [m]; from 0.
    peak : float or array
        Bending in the layer that carries most over its equal share, of the whole rib [-]; from 1.

    Returns
    -------
    Residual
        Sizes [m], section modulus [m3] and area [m2].

    Notes
    -----
    With fewer layers left one butt joint costs more: the peak grows as m/(m - 1) does. With one layer or
    less nothing runs through beside a joint.

    References
    ----------
    [EN1995-1-2] 4.2.2, the reduced section; the layers are bermwright's own reading of it.

    Examples
    --------
    >>> left = residual_rib(5, 0.045, 0.15, side=0.031, inside=0.031, peak=1.6)
    >>> [round(float(value), 4) for value in (left.width, left.depth, left.layers)]
    [0.163, 0.119, 3.6222]
    """
    n = np.asarray(layers, dtype=float)
    t = np.asarray(board, dtype=float)
    within("layers", n, 2.0)
    within("board", t, 0.0, unit="m", open_low=True)
    within("depth", depth, 0.0, unit="m", open_low=True)
    within("side", side, 0.0, unit="m")
    within("inside", inside, 0.0, unit="m")
    within("peak", peak, 1.0)
    width = np.maximum(n * t - 2.0 * np.asarray(side, dtype=float), 0.0)
    height = np.maximum(np.asarray(depth, dtype=float) - np.asarray(inside, dtype=float), 0.0)
    left = width / t
    through = np.maximum(left - 1.0, 0.0) / np.maximum(left, 1e-9)
    modulus = width * height**2 / 6.0 / np.asarray(peak, dtype=float) * through * n / (n - 1.0)
    return Residual(
        width=width,
        depth=height,
        layers=np.asarray(left),
        modulus=np.asarray(modulus),
        area=np.asarray(width * height * through),
    )


def fire_strength(strength: ArrayLike, factor: ArrayLike) -> Array:
    """Design strength in a fire.

    f_d,fi = k_fi f_k (k_mod,fi = 1 with the reduced section, gamma_M,fi = 1)

    Parameters
    ----------
    strength : float or array
        Characteristic strength, f_k [Pa]; above 0.
    factor : float or array
        From the 5 % to the 20 % value, k_fi [-]; from 1.

    Returns
    -------
    float or array
        Strength [Pa].

    References
    ----------
    [EN1995-1-2] 2.3, eq. 2.1 and 2.4.

    Examples
    --------
    >>> float(fire_strength(24e6, 1.25))
    30000000.0
    """
    within("strength", strength, 0.0, unit="Pa", open_low=True)
    within("factor", factor, 1.0)
    return np.asarray(np.asarray(factor, dtype=float) * np.asarray(strength, dtype=float))


def nail_extra_depth(rate: ArrayLike, wanted: ArrayLike, alone: ArrayLike) -> Array:
    """How much thicker than needed when cold the side boards of a nailed joint must be.

    a = 1.5 beta (t - t_alone)

    Parameters
    ----------
    rate : float or array
        Charring rate with corners and fissures, beta [m/s]; above 0.
    wanted : float or array
        Time that is wanted, t [s]; from 0 to 1800: beyond half an hour the work has no such rule.
    alone : float or array
        Time that the joint stands without more, t_alone [s]; from 0.

    Returns
    -------
    float or array
        Extra thickness, also of edge and end distances [m]; 0 where the joint stands long enough.

    References
    ----------
    [EN1995-1-2] 6.2.1.1, eq. 6.1 and table 6.1.

    Examples
    --------
    >>> round(1e3 * float(nail_extra_depth(0.8e-3 / 60.0, 1800.0, 900.0)), 1)
    18.0
    """
    within("rate", rate, 0.0, unit="m/s", open_low=True)
    within("wanted", wanted, 0.0, 1800.0, unit="s")
    within("alone", alone, 0.0, unit="s")
    missing = np.maximum(np.asarray(wanted, dtype=float) - np.asarray(alone, dtype=float), 0.0)
    return np.asarray(1.5 * np.asarray(rate, dtype=float) * missing)
