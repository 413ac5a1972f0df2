"""Offsets of a curve for the workshop floor: heights at distances, and distances at heights."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.curves import catenary_length

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


class Offsets(NamedTuple):
    """x of the curve's left and right side at each height (m from mid-span)."""

    left: Array
    right: Array


def ordinates_by_distance(x: ArrayLike, z: ArrayLike, distance: ArrayLike) -> Array:
    """Height of a curve at distances from mid-span: for the flat part near the crown.

    z(x), straight between the points; where the curve leans out over its feet, its upper branch.

    Parameters
    ----------
    x : array
        Distances of the curve's points from mid-span, from the left foot to the right [m].
    z : array
        Their heights [m].
    distance : float or array
        Distances from mid-span, + to the right [m]; within the width of the curve.

    Returns
    -------
    float or array
        Heights [m].

    References
    ----------
    [DOYLE1958] laying out a curve.

    Examples
    --------
    >>> float(ordinates_by_distance([-2.0, 0.0, 2.0], [0.0, 2.0, 0.0], 0.5))
    1.5
    """
    px, pz = np.asarray(x, dtype=float), np.asarray(z, dtype=float)
    widest_left, widest_right = int(np.argmin(px)), int(np.argmax(px))
    within("distance", distance, float(px[widest_left]), float(px[widest_right]), unit="m")
    upper = slice(widest_left, widest_right + 1)
    return np.asarray(np.interp(np.asarray(distance, dtype=float), px[upper], pz[upper]))


def ordinates_by_height(x: ArrayLike, z: ArrayLike, height: ArrayLike) -> Offsets:
    """Distances of a curve from mid-span at heights: for the steep part near the springing.

    x(z) on either side, straight between the points.

    Parameters
    ----------
    x : array
        Distances of the curve's points from mid-span, from the left foot to the right [m].
    z : array
        Their heights [m]; rising to one crown, then falling.
    height : float or array
        Heights [m]; from the higher foot to the crown.

    Returns
    -------
    Offsets
        x of the left and the right side [m].

    References
    ----------
    [DOYLE1958] laying out a curve.

    Examples
    --------
    >>> float(ordinates_by_height([-2.0, 0.0, 2.0], [0.0, 2.0, 0.0], 1.5).right)
    0.5
    """
    px, pz = np.asarray(x, dtype=float), np.asarray(z, dtype=float)
    within("height", height, float(max(pz[0], pz[-1])), float(np.max(pz)), unit="m")
    top = int(np.argmax(pz))
    at = np.asarray(height, dtype=float)
    return Offsets(
        left=np.asarray(np.interp(at, pz[: top + 1], px[: top + 1])),
        right=np.asarray(np.interp(at, pz[top:][::-1], px[top:][::-1])),
    )


def string_length(span: ArrayLike, rise: ArrayLike) -> Array:
    """Length of the string or chain that hangs in a catenary of a given span and rise.

    L = 2 c sinh(a/c)

    Parameters
    ----------
    span : float or array
        Distance between the nails [m]; above 0.
    rise : float or array
        Sag of the string [m]; above 0, up to 50 spans.

    Returns
    -------
    float or array
        Length between the nails [m].

    Notes
    -----
    A chain traces the centreline. Inner and outer faces are curves parallel to it, not the same chain
    hung over another span.

    References
    ----------
    [ROUTH1891] chapter X.

    Examples
    --------
    >>> [round(float(string_length(1.0, rise)), 3) for rise in (0.5, 0.75, 1.0)]
    [1.496, 1.918, 2.371]
    """
    return catenary_length(span, rise)
