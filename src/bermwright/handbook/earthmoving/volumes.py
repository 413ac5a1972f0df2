"""Volumes between measured sections."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array


def prismoidal_volume(first: Number, middle: Number, last: Number, *, length: Number) -> Array:
    """Volume of a body whose section area varies as a square along its length.

    V = L/6·(A_1 + 4·A_m + A_2)

    Parameters
    ----------
    first : float or array
        Section area at one end, A_1 [m2], from 0.
    middle : float or array
        Section area halfway, measured and not averaged, A_m [m2], from 0.
    last : float or array
        Section area at the other end, A_2 [m2], from 0.
    length : float or array
        Distance between the ends, L [m], from 0.

    Returns
    -------
    float or array
        Volume, V [m3].

    Notes
    -----
    Exact for pits and heaps with plane faces. Averaging the two ends alone gives too much, half as
    much again at a point.

    References
    ----------
    [FM5434] : earthwork volumes; the rule is Simpson's.

    Examples
    --------
    >>> round(float(prismoidal_volume(30.0, middle=56.0, last=90.0, length=2.0)), 1)
    114.7
    """
    for name, area in (("first", first), ("middle", middle), ("last", last)):
        within(f"{name} area", area, 0.0, unit="m2")
    within("length", length, 0.0, unit="m")
    total = np.asarray(first, dtype=float) + 4.0 * np.asarray(middle, dtype=float) + last
    return np.asarray(np.asarray(length, dtype=float) * total / 6.0)


def end_slope_area(height: Number, drop: Number, *, slope: Number) -> Array:
    """Soil that lies before an end wall under a plane slope, per metre of width.

    A = (h·d + h²/2)/tan β

    Parameters
    ----------
    height : float or array
        Height of the finished ground over the natural one at the wall, h [m], from 0.
    drop : float or array
        How far the finished ground there lies under the upper edge of the slope, d [m], from 0.
    slope : float or array
        Angle of the end slope, β [rad], above 0 to 1.5.

    Returns
    -------
    float or array
        Area in the plane along the axis, A [m2].

    Notes
    -----
    The finished ground runs on level along the axis until the slope, which starts at the highest point
    of the wall, cuts it off; it ends at the natural ground.

    References
    ----------
    [FM5434] : earthwork volumes; rectangle and triangle.

    Examples
    --------
    >>> round(float(end_slope_area(3.0, drop=1.0, slope=0.4636)))
    15
    """
    within("height", height, 0.0, unit="m")
    within("drop", drop, 0.0, unit="m")
    within("slope", slope, 0.0, 1.5, unit="rad", open_low=True)
    rise = np.asarray(height, dtype=float)
    return np.asarray((rise * drop + 0.5 * rise**2) / np.tan(slope))
