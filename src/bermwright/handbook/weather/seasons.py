"""When the cold season begins and ends, from twelve monthly means.

Days are numbered 1 (1 January) to 365 (31 December); there are no leap days here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.weather.frost import COLDEST, HOTTEST, MONTHS, _twelve

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

DAYS_A_YEAR = 365
MONTH_ENDS = np.array([0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365])
"""Days gone at the end of each month of an ordinary year."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ColdSeason:
    """The part of the year around the coldest day in which the daily mean stays below a limit."""

    begins: int | None
    """First day below the limit; None when no day is, or every day is."""
    ends: int | None
    """Last day below the limit."""
    days: int
    """How many days; 0 when no day is below the limit, 365 when every day is."""


def daily_means(mean: ArrayLike) -> Array:
    """Smooth yearly course of the daily mean that gives each month its own mean.

    T(d) = a_0 + Σ_(k=1..5) a_k·cos(k·ω·d) + Σ_(k=1..6) b_k·sin(k·ω·d), with mean of T over month i = m_i

    Parameters
    ----------
    mean : array
        Twelve monthly means, m [°C], from -90 to 60.

    Returns
    -------
    array
        (365,) temperature at the middle of each day of an ordinary year [°C].

    Notes
    -----
    Twelve waves meet twelve means exactly; a year that is one pure wave comes back as that wave. It is
    an average course: single years and days scatter widely around it.

    References
    ----------
    [BOYD1973] : normal daily course drawn from monthly normals; the waves are a choice of this handbook.
    """
    _twelve(mean)
    within("mean temperature", mean, COLDEST, HOTTEST, unit="°C")
    months = (_waves_until(MONTH_ENDS[1:]) - _waves_until(MONTH_ENDS[:-1])) / np.diff(MONTH_ENDS)[:, None]
    weights = np.linalg.solve(months, np.asarray(mean, dtype=float))
    days = np.arange(DAYS_A_YEAR + 1)
    # A day's mean, not its noon value: the difference of the integral over one day.
    return np.asarray(np.diff(_waves_until(days) @ weights))


def cold_season(mean: ArrayLike, *, below: float) -> ColdSeason:
    """The days around the coldest one on which the smooth daily mean stays below a limit.

    begins = first, ends = last day of the unbroken run with T(d) < b that holds the coldest day

    Parameters
    ----------
    mean : array
        Twelve monthly means, m [°C], from -90 to 60. Give the mean daily minima to find the frosty nights.
    below : float
        The limit, b [°C], from -90 to 60.

    Returns
    -------
    ColdSeason
        First and last day of the year and the number of days [d].

    Notes
    -----
    The average year. A single autumn is often two or three weeks earlier.

    References
    ----------
    [BOYD1973] : normal daily course drawn from monthly normals.
    """
    within("limit", below, COLDEST, HOTTEST, unit="°C")
    course = daily_means(mean)
    cold = course < below
    if not np.any(cold):
        return ColdSeason(begins=None, ends=None, days=0)
    if np.all(cold):
        return ColdSeason(begins=None, ends=None, days=DAYS_A_YEAR)
    coldest = int(np.argmin(course))
    from_coldest = np.roll(cold, -coldest)
    later = int(np.argmin(from_coldest))
    earlier = int(np.argmin(from_coldest[::-1]))
    return ColdSeason(
        begins=(coldest - earlier) % DAYS_A_YEAR + 1,
        ends=(coldest + later - 1) % DAYS_A_YEAR + 1,
        days=earlier + later,
    )


def winter_begins(mean: ArrayLike, *, below: float) -> int | None:
    """First day of the cold season.

    begins of `cold_season`

    Parameters
    ----------
    mean : array
        Twelve monthly means, m [°C], from -90 to 60.
    below : float
        The limit, b [°C], from -90 to 60.

    Returns
    -------
    int or None
        Day of the year, 1 is 1 January [d]; None when no day is below the limit, or every day is.

    References
    ----------
    [BOYD1973] : normal daily course drawn from monthly normals.
    """
    return cold_season(mean, below=below).begins


def winter_ends(mean: ArrayLike, *, below: float) -> int | None:
    """Last day of the cold season.

    ends of `cold_season`

    Parameters
    ----------
    mean : array
        Twelve monthly means, m [°C], from -90 to 60.
    below : float
        The limit, b [°C], from -90 to 60.

    Returns
    -------
    int or None
        Day of the year, 1 is 1 January [d]; None when no day is below the limit, or every day is.

    References
    ----------
    [BOYD1973] : normal daily course drawn from monthly normals.
    """
    return cold_season(mean, below=below).ends


def month_and_day(day: int) -> tuple[int, int]:
    """Month and day of the month of a day of an ordinary year.

    month = how many months have ended before that day, plus 1

    Parameters
    ----------
    day : int
        Day of the year, 1 is 1 January [d], from 1 to 365.

    Returns
    -------
    tuple of int
        Month, January is 1 [-], and day of the month, from 1 [d].

    References
    ----------
    [ISO8601] : ordinal dates, ordinary year.

    Examples
    --------
    >>> month_and_day(60), month_and_day(365)
    ((3, 1), (12, 31))
    """
    within("day of the year", day, 1, DAYS_A_YEAR)
    month = int(np.searchsorted(MONTH_ENDS, day, side="left"))
    return month, int(day - MONTH_ENDS[month - 1])


def _waves_until(day: Array | NDArray[np.int_]) -> Array:
    """(n, 12) integral of the twelve waves up to `day`; only differences of it mean anything."""
    turn = 2.0 * np.pi / DAYS_A_YEAR
    slow = turn * np.arange(1, MONTHS // 2 + 1)
    angle = np.asarray(day, dtype=float)[:, None] * slow
    # The sixth cosine turns at the ends of the months and has no mean in any of them: left out.
    cosines = (np.sin(angle) / slow)[:, :-1]
    sines = -np.cos(angle) / slow
    return np.column_stack([np.asarray(day, dtype=float), cosines, sines])
