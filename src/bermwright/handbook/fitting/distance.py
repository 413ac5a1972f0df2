"""How far points lie from a curve."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

RUN_ON = 0.25
"""Share of the distance between its ends by which a curve runs on straight beyond both of them."""


def distance_to_curve(x: ArrayLike, z: ArrayLike, curve_x: ArrayLike, curve_z: ArrayLike) -> Array:
    """Distance of points from a curve, square to it; positive outside, seen from the room.

    d = min over the chords of |P - (A + t (B - A))|, 0 <= t <= 1

    Parameters
    ----------
    x : float or array
        Distances of the points from mid-span, + to the right [m].
    z : float or array
        Their heights [m].
    curve_x : array
        The curve from its left end over the crown to its right end [m]; at least 2 points.
    curve_z : array
        Heights of those points [m].

    Returns
    -------
    float or array
        Distances, one a point [m].

    Notes
    -----
    Beyond its ends the curve runs on straight, so that a point beside a foot is measured square to it.

    References
    ----------
    [DOCARMO1976] chapter 1, parallel curves.

    Examples
    --------
    >>> float(distance_to_curve(0.0, 2.1, [-2.0, 0.0, 2.0], [2.0, 2.0, 2.0]).round(3))
    0.1
    """
    line = _run_on(np.asarray(curve_x, dtype=float), np.asarray(curve_z, dtype=float))
    px, pz = np.broadcast_arrays(np.asarray(x, dtype=float), np.asarray(z, dtype=float))
    first, along = line[:, :-1, None], np.diff(line, axis=1)[:, :, None]
    to_point = np.stack([px.ravel(), pz.ravel()])[:, None, :] - first
    # A point that stands twice (a kink) makes a chord of no length, which is never the nearest alone.
    square = np.maximum(np.sum(along**2, axis=0), 1e-300)
    share = np.clip(np.sum(to_point * along, axis=0) / square, 0.0, 1.0)
    apart = np.hypot(*(to_point - share * along))
    nearest = np.argmin(apart, axis=0)
    column = np.arange(nearest.size)
    outside = (along[0] * to_point[1] - along[1] * to_point[0])[nearest, column]
    return np.asarray(np.copysign(apart[nearest, column], outside).reshape(px.shape))


def _run_on(x: Array, z: Array) -> Array:
    """The curve with a straight piece added at both ends."""
    within("number of points", x.size, 2)
    reach = RUN_ON * float(np.hypot(x[-1] - x[0], z[-1] - z[0]))
    line = np.stack([x, z])
    ends = []
    for end, inner in ((0, 1), (-1, -2)):
        away = line[:, end] - line[:, inner]
        ends.append(line[:, end] + reach * away / max(float(np.hypot(*away)), 1e-300))
    return np.column_stack([ends[0], line, ends[1]])
