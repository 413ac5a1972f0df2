"""Bricks in a ring: how many, how wide the joints gape, how much a brick would have to taper."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


def bricks_in_ring(length: ArrayLike, brick: ArrayLike, joint: ArrayLike) -> Array:
    """Whole bricks that fit into a length of ring with at least a given joint.

    n = floor(L/(b + j))

    Parameters
    ----------
    length : float or array
        Length of the ring at its inner face, L [m]; from 0.
    brick : float or array
        Length of a brick along the ring, b [m]; above 0.
    joint : float or array
        Least joint at the inner face, j [m]; from 0.

    Returns
    -------
    float or array
        Number of bricks [-].

    References
    ----------
    [MAKINGFORMS] bricks in a ring.

    Examples
    --------
    >>> float(bricks_in_ring(2.0 * np.pi, 0.2, 0.01))
    29.0
    """
    within("length", length, 0.0, unit="m")
    within("brick", brick, 0.0, unit="m", open_low=True)
    within("joint", joint, 0.0, unit="m")
    pitch = np.asarray(brick, dtype=float) + np.asarray(joint, dtype=float)
    return np.asarray(np.floor(np.asarray(length, dtype=float) / pitch + 1e-9))


def ring_joint(length: ArrayLike, brick: ArrayLike, count: ArrayLike) -> Array:
    """Joint between bricks that share a length of ring evenly.

    j = L/n - b

    Parameters
    ----------
    length : float or array
        Length of the ring at that face, L [m]; above 0.
    brick : float or array
        Length of a brick along the ring at that face, b [m]; above 0.
    count : float or array
        Number of bricks, n [-]; from 1.

    Returns
    -------
    float or array
        Width of a joint [m]; below 0 the bricks do not fit.

    References
    ----------
    [MAKINGFORMS] bricks in a ring.

    Examples
    --------
    >>> round(float(ring_joint(2.0 * np.pi, 0.2, 29.0)), 4)
    0.0167
    """
    within("length", length, 0.0, unit="m", open_low=True)
    within("brick", brick, 0.0, unit="m", open_low=True)
    within("count", count, 1.0)
    return np.asarray(np.asarray(length, dtype=float) / np.asarray(count, dtype=float) - brick)


def brick_taper(thickness: ArrayLike, tilt: ArrayLike, count: ArrayLike) -> Array:
    """How much wider a brick's share of the ring is at its outer face than at its inner one.

    w = 2 pi t cos(b)/n

    Parameters
    ----------
    thickness : float or array
        Thickness of the shell along the bed, t [m]; above 0.
    tilt : float or array
        Tilt of the bed, b [rad]; from 0 to below a right angle.
    count : float or array
        Bricks of a whole ring, n [-]; from 1.

    Returns
    -------
    float or array
        Wedge of a head joint, or taper of a cut brick [m].

    Notes
    -----
    The radius does not count: a whole ring grows by 2 pi for every metre outwards.

    References
    ----------
    [MAKINGFORMS] bricks in a ring.

    Examples
    --------
    >>> round(float(brick_taper(0.1, 0.0, 29.0)), 4)
    0.0217
    """
    within("thickness", thickness, 0.0, unit="m", open_low=True)
    within("tilt", tilt, 0.0, 0.5 * np.pi, unit="rad")
    within("count", count, 1.0)
    outward = np.asarray(thickness, dtype=float) * np.cos(np.asarray(tilt, dtype=float))
    return np.asarray(2.0 * np.pi * outward / np.asarray(count, dtype=float))
