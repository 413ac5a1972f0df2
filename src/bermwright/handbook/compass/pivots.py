"""Chain and rod: their lengths, how they stand, and whether a pivot is free of the wall."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


def chain_from_pivot(height: ArrayLike, radius: ArrayLike, pivot: ArrayLike) -> Array:
    """Length of the chain from a pivot on the axis to a course, over or under the pivot.

    c = sqrt(r^2 + (z - p)^2)

    Parameters
    ----------
    height : float or array
        Height of the course's bed over the springing, z [m].
    radius : float or array
        Radius of the course there, r [m]; from 0.
    pivot : float or array
        Height of the pivot over the springing, p [m]; below 0 it lies under it.

    Returns
    -------
    float or array
        Length [m].

    References
    ----------
    [HUNTER2004] compasses for domes.

    Examples
    --------
    >>> round(float(chain_from_pivot(2.0, 1.704, 0.0)), 3)
    2.627
    """
    within("radius", radius, 0.0, unit="m")
    return np.asarray(np.hypot(radius, np.asarray(height, dtype=float) - np.asarray(pivot, dtype=float)))


def chain_angle(height: ArrayLike, radius: ArrayLike, pivot: ArrayLike) -> Array:
    """Angle of that chain over the horizontal.

    tan a = (z - p)/r

    Parameters
    ----------
    height : float or array
        Height of the course's bed over the springing, z [m].
    radius : float or array
        Radius of the course there, r [m]; above 0.
    pivot : float or array
        Height of the pivot over the springing, p [m].

    Returns
    -------
    float or array
        Angle [rad]; below 0 where the chain hangs down.

    References
    ----------
    [HUNTER2004] compasses for domes.

    Examples
    --------
    >>> round(float(np.degrees(chain_angle(3.0, 4.0, 0.0))), 2)
    36.87
    """
    within("radius", radius, 0.0, unit="m", open_low=True)
    rise = np.asarray(height, dtype=float) - np.asarray(pivot, dtype=float)
    return np.asarray(np.arctan2(rise, np.asarray(radius, dtype=float)))


def pivot_clearance(offset: ArrayLike, face: ArrayLike, thickness: ArrayLike) -> Array:
    """How far a pivot lies from the wall; below 0 it lies in it.

    max(r - |e|, |e| - r - t)

    Parameters
    ----------
    offset : float or array
        Distance of the pivot from the axis, e [m]; its sign does not count.
    face : float or array
        Radius of the inner face at the pivot's height, r [m]; from 0.
    thickness : float or array
        Thickness of the wall there, t [m]; above 0.

    Returns
    -------
    float or array
        Distance to the nearer face [m]; positive in the room and outside, negative in the wall.

    References
    ----------
    [HUNTER2004] compasses for domes.

    Examples
    --------
    >>> float(pivot_clearance(3.15, 2.1, 0.4)), round(float(pivot_clearance(2.2, 2.1, 0.4)), 3)
    (0.65, -0.1)
    """
    within("face", face, 0.0, unit="m")
    within("thickness", thickness, 0.0, unit="m", open_low=True)
    away = np.abs(np.asarray(offset, dtype=float))
    inner = np.asarray(face, dtype=float)
    return np.asarray(np.maximum(inner - away, away - inner - np.asarray(thickness, dtype=float)))


def rod_level_at_wall(height: ArrayLike, radius: ArrayLike, offset: ArrayLike, wall: ArrayLike) -> Array:
    """Height at which a rod from a pivot outside passes a face of the wall on its way to a course.

    z_w = z (e - w)/(e + r), heights counted from the pivot

    Parameters
    ----------
    height : float or array
        Height of the course over the pivot, z [m]; from 0.
    radius : float or array
        Radius of the course, on the other side of the axis than the pivot, r [m]; from 0.
    offset : float or array
        Distance of the pivot from the axis, e [m]; above 0.
    wall : float or array
        Distance of that face from the axis, w [m]; from 0 to the offset.

    Returns
    -------
    float or array
        Height over the pivot [m]; below the head of a doorway the rod passes through it.

    References
    ----------
    [HUNTER2004] compasses for domes.

    Examples
    --------
    >>> round(float(rod_level_at_wall(3.0, 1.158, 3.15, 2.1)), 3)
    0.731
    """
    within("height", height, 0.0, unit="m")
    within("radius", radius, 0.0, unit="m")
    within("offset", offset, 0.0, unit="m", open_low=True)
    away = np.asarray(offset, dtype=float)
    within("wall/offset", np.asarray(wall, dtype=float) / away, 0.0, 1.0)
    share = (away - np.asarray(wall, dtype=float)) / (away + np.asarray(radius, dtype=float))
    return np.asarray(np.asarray(height, dtype=float) * share)
