"""Area and room of a dome from its profile."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


def dome_surface(height: ArrayLike, radius: ArrayLike) -> float:
    """Area of a dome's face from its profile.

    S = 2 pi integral r ds, frustum by frustum: pi (r1 + r2) l

    Parameters
    ----------
    height : array
        Heights of the profile's points, from the foot to the crown, close together [m].
    radius : array
        Their distances from the axis [m]; from 0.

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    [DOCARMO1976] surfaces of revolution.

    Examples
    --------
    >>> round(dome_surface([0.0, 4.0], [3.0, 0.0]), 3)
    47.124
    """
    z, r = np.asarray(height, dtype=float), np.asarray(radius, dtype=float)
    within("radius of the profile", r, 0.0, unit="m")
    return float(np.pi * np.sum((r[1:] + r[:-1]) * np.hypot(np.diff(z), np.diff(r))))


def dome_volume(height: ArrayLike, radius: ArrayLike) -> float:
    """Room under a dome from its profile.

    V = pi integral r^2 dz, frustum by frustum: pi/3 (r1^2 + r1 r2 + r2^2) dz

    Parameters
    ----------
    height : array
        Heights of the profile's points, from the foot to the crown, close together [m].
    radius : array
        Their distances from the axis [m]; from 0.

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    [DOCARMO1976] surfaces of revolution.

    Examples
    --------
    >>> round(dome_volume([0.0, 4.0], [3.0, 0.0]), 3)
    37.699
    """
    z, r = np.asarray(height, dtype=float), np.asarray(radius, dtype=float)
    within("radius of the profile", r, 0.0, unit="m")
    return float(np.pi / 3.0 * np.sum((r[1:] ** 2 + r[1:] * r[:-1] + r[:-1] ** 2) * np.diff(z)))
