"""The course of a day, and how a day's mean becomes 24 hours without steps at midnight."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

DAYS, HOURS_A_DAY = 365, 24
SHAPE_RANGE = 0.9758
"""Highest less lowest hourly value of the shape below."""


def diurnal_shape(hour: ArrayLike) -> Array:
    """Course of the temperature over a day, as a share of its amplitude.

    0.4632·cos(a − 3.805) + 0.0984·cos(2a − 0.360) + 0.0168·cos(3a − 0.822) + 0.0138·cos(4a − 3.513),
    a = 2π·(t − 1)/24

    Parameters
    ----------
    hour : float or array
        Solar time, 1 to 24, t [h], from 0 to 25.

    Returns
    -------
    float or array
        Share [-]; its mean over a day is 0, its range 0.976, lowest at 6 h, highest at 15 h.

    References
    ----------
    [ERBS1983] : mean course of the air in 29 places, as given in [DUFFIE2013].

    Examples
    --------
    >>> round(float(diurnal_shape(1.0)), 4)
    -0.2743
    """
    within("hour", hour, 0.0, 25.0, unit="h")
    a = 2.0 * np.pi * (np.asarray(hour, dtype=float) - 1.0) / HOURS_A_DAY
    return np.asarray(
        0.4632 * np.cos(a - 3.805)
        + 0.0984 * np.cos(2.0 * a - 0.360)
        + 0.0168 * np.cos(3.0 * a - 0.822)
        + 0.0138 * np.cos(4.0 * a - 3.513)
    )


def smooth_hours(days: ArrayLike) -> Array:
    """Hours without steps that keep each day its mean.

    hour = S(t + 1 h) − S(t), S the closed cubic spline through the sums of the days

    Parameters
    ----------
    days : array
        (365,) daily means [-], in any unit.

    Returns
    -------
    array
        (8760,) hourly means [-], in the same unit; the last day runs into the first.

    References
    ----------
    [DEBOOR1978] : chapter 6, splines that keep areas.
    """
    from scipy.interpolate import CubicSpline

    means = np.asarray(days, dtype=float)
    if means.shape != (DAYS,):
        raise OutOfRangeError(f"A year has {DAYS} days; {means.size} were given.")
    within("daily means", means)
    centre = float(np.mean(means))
    sums = np.concatenate([[0.0], np.cumsum(means - centre)])
    sums[-1] = 0.0
    spline = CubicSpline(np.arange(DAYS + 1), sums, bc_type="periodic")
    ends = spline(np.arange(DAYS * HOURS_A_DAY + 1) / HOURS_A_DAY)
    return np.asarray(centre + np.diff(ends) * HOURS_A_DAY)
