"""What an opening with upright sides takes out of a ring."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


def opening_angle(radius: ArrayLike, width: ArrayLike) -> Array:
    """Angle at the axis that an opening with two parallel sides takes out of a ring.

    a = 2 arcsin(w/(2 r))

    Parameters
    ----------
    radius : float or array
        Radius of the ring, r [m]; above 0.
    width : float or array
        Width of the opening between its sides, w [m]; from 0 to twice the radius.

    Returns
    -------
    float or array
        Angle [rad].

    References
    ----------
    [MAKINGFORMS] openings in a ring.

    Examples
    --------
    >>> round(float(np.degrees(opening_angle(1.0, 1.0))), 9)
    60.0
    """
    within("radius", radius, 0.0, unit="m", open_low=True)
    within("width", width, 0.0, unit="m")
    share = np.asarray(width, dtype=float) / (2.0 * np.asarray(radius, dtype=float))
    within("width of the opening/width of the ring", share, 0.0, 1.0)
    return np.asarray(2.0 * np.arcsin(share))


def free_length(radius: ArrayLike, widths: ArrayLike) -> Array:
    """Length of a ring without its openings.

    L = 2 pi r - sum 2 r arcsin(w_i/(2 r))

    Parameters
    ----------
    radius : float or array
        Radius of the ring, r [m]; above 0.
    widths : array
        Widths of its openings, one to an entry of the last axis, w [m]; from 0 to twice the radius.

    Returns
    -------
    float or array
        Length [m].

    References
    ----------
    [MAKINGFORMS] openings in a ring.

    Examples
    --------
    >>> round(float(free_length(1.0, [1.0, 1.0])), 4)
    4.1888
    """
    ring = np.asarray(radius, dtype=float)
    taken = ring[..., None] * opening_angle(ring[..., None], widths)
    left = 2.0 * np.pi * ring - np.sum(taken, axis=-1)
    within("length that the openings leave", left, 0.0, unit="m")
    return np.asarray(left)


def round_head_width(height: ArrayLike, width: ArrayLike) -> Array:
    """Width of a round-headed opening at a height over the springing of its head.

    w(h) = 2 sqrt((w/2)^2 - h^2), w below the springing

    Parameters
    ----------
    height : float or array
        Height over the springing of the head, h [m]; below 0 the sides are upright.
    width : float or array
        Width between the sides, w [m]; above 0.

    Returns
    -------
    float or array
        Width [m]; 0 above the head.

    References
    ----------
    [MAKINGFORMS] openings in a ring.

    Examples
    --------
    >>> round(float(round_head_width(0.3, 1.0)), 9), float(round_head_width(-1.0, 1.0))
    (0.8, 1.0)
    """
    within("width", width, 0.0, unit="m", open_low=True)
    half = 0.5 * np.asarray(width, dtype=float)
    above = np.maximum(np.asarray(height, dtype=float), 0.0)
    return np.asarray(2.0 * np.sqrt(np.maximum(half**2 - above**2, 0.0)))
