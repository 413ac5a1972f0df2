"""Sheets for curved faces: strips over a vault, gores over a dome."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

FEWEST = 3
"""Fewer gores than these close nothing."""


def strips_needed(width: float, roll: float, lap: float) -> int:
    """Strips of a roll that cover a width, each lapped over the next.

    n = ceil((W - l)/(w - l))

    Parameters
    ----------
    width : float
        Width to be covered, W [m]; above 0.
    roll : float
        Width of the roll, w [m]; above the lap.
    lap : float
        Lap of one strip over the next, l [m]; from 0.

    Returns
    -------
    int
        Number of strips [-].

    References
    ----------
    [MAKINGFORMS] strips and gores.

    Examples
    --------
    >>> strips_needed(6.0, 1.5, 0.15), strips_needed(1.2, 1.5, 0.15)
    (5, 1)
    """
    within("width", width, 0.0, unit="m", open_low=True)
    within("lap", lap, 0.0, unit="m")
    within("roll", roll, lap, unit="m", open_low=True)
    return max(1, int(np.ceil((width - lap) / (roll - lap) - 1e-9)))


def gore_half_width(radius: ArrayLike, gores: ArrayLike) -> Array:
    """Half the width of one of several equal gores of a dome, without its lap.

    b = pi r/n: the gores' widths together are the length of the ring.

    Parameters
    ----------
    radius : float or array
        Radius of the ring, r [m]; from 0.
    gores : float or array
        Number of gores, n [-]; from 3.

    Returns
    -------
    float or array
        Half width [m].

    References
    ----------
    [MAKINGFORMS] strips and gores.

    Examples
    --------
    >>> round(float(gore_half_width(2.0, 12)), 4)
    0.5236
    """
    within("radius", radius, 0.0, unit="m")
    within("gores", gores, FEWEST)
    return np.asarray(np.pi * np.asarray(radius, dtype=float) / np.asarray(gores, dtype=float))


def gore_area(height: ArrayLike, radius: ArrayLike, gores: float) -> float:
    """Area of one gore laid flat, without its laps.

    A = integral 2 pi r/n ds

    Parameters
    ----------
    height : array
        Heights of the profile's points, from the foot to the crown, close together [m].
    radius : array
        Their distances from the axis, r [m]; from 0.
    gores : float
        Number of gores, n [-]; from 3.

    Returns
    -------
    float
        Area [m2]; the gores together have the area of the dome.

    References
    ----------
    [MAKINGFORMS] strips and gores.

    Examples
    --------
    >>> turn = np.linspace(0.0, 0.5 * np.pi, 2001)
    >>> round(gore_area(2.0 * np.sin(turn), 2.0 * np.cos(turn), 12), 4)
    2.0944
    """
    half = gore_half_width(radius, gores)
    along = np.hypot(np.diff(np.asarray(height, dtype=float)), np.diff(np.asarray(radius, dtype=float)))
    return float(np.sum((half[1:] + half[:-1]) * along))


def gore_edge_excess(height: ArrayLike, radius: ArrayLike, gores: float) -> float:
    """How much longer the edge of a flat gore is than its middle, which the face has to take up.

    e = integral sqrt(1 + (pi/n)^2 (dr/ds)^2) ds / S - 1

    Parameters
    ----------
    height : array
        Heights of the profile's points, from the foot to the crown, close together [m].
    radius : array
        Their distances from the axis [m]; from 0.
    gores : float
        Number of gores, n [-]; from 3.

    Returns
    -------
    float
        Share of the length [-]: what a sheet has to give, or how much it lies in folds.

    References
    ----------
    [DOCARMO1976] surfaces that cannot be laid flat.

    Examples
    --------
    >>> turn = np.linspace(0.0, 0.5 * np.pi, 2001)
    >>> round(gore_edge_excess(2.0 * np.sin(turn), 2.0 * np.cos(turn), 12), 4)
    0.0169
    """
    half = gore_half_width(radius, gores)
    along = np.hypot(np.diff(np.asarray(height, dtype=float)), np.diff(np.asarray(radius, dtype=float)))
    return float(np.sum(np.hypot(along, np.diff(half))) / np.sum(along) - 1.0)
