"""The cold to build for: coldest days and freezing index of a year, and a design day from normals."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.weather.frost import SECONDS_A_DAY, _twelve
from bermwright.handbook.weather.year import WeatherYear, daily

if TYPE_CHECKING:
    from numpy.typing import ArrayLike


def coldest_days(weather: WeatherYear, days: int = 1) -> float:
    """Mean temperature of the coldest run of days of a year.

    min over all runs of n neighbouring days of their mean

    Parameters
    ----------
    weather : WeatherYear
        A year by the hour.
    days : int
        Length of the run, n [d], from 1 to 60.

    Returns
    -------
    float
        Mean temperature of the run [°C].

    References
    ----------
    [ISO15927] : part 5, the coldest run of days for design heat loads.
    """
    within("days", days, 1, 60, unit="d")
    means = daily(weather.temperature)
    around = np.concatenate([means, means[: days - 1]])
    sums = np.cumsum(np.concatenate([[0.0], around]))
    return float(np.min(sums[days:] - sums[:-days]) / days)


def freezing_index_of(weather: WeatherYear) -> float:
    """Freezing index of a year by its daily means.

    F = Σ max(0, −T_d)·86400

    Parameters
    ----------
    weather : WeatherYear
        A year by the hour.

    Returns
    -------
    float
        Freezing index [K s]; divide by 86400 for degree-days.

    References
    ----------
    [BOYD1973] : definition, counted from daily means.
    """
    return float(np.sum(np.maximum(-daily(weather.temperature), 0.0)) * SECONDS_A_DAY)


def degree_days(weather: WeatherYear, base: float = 18.0) -> float:
    """Heating degree-days of a year by its daily means.

    Σ max(0, b − T_d)·86400

    Parameters
    ----------
    weather : WeatherYear
        A year by the hour.
    base : float
        Temperature above which nobody heats, b [°C], from -30 to 40.

    Returns
    -------
    float
        Degree-days [K s]; divide by 86400.

    References
    ----------
    [THOM1954] : degree-days.
    """
    within("base", base, -30.0, 40.0, unit="°C")
    return float(np.sum(np.maximum(base - daily(weather.temperature), 0.0)) * SECONDS_A_DAY)


def design_day(mean: ArrayLike, spread: ArrayLike, *, share: float = 0.01) -> float:
    """Daily mean that is undercut on a small share of the days of the coldest month.

    min over the months of m + s·Φ⁻¹(p)

    Parameters
    ----------
    mean : array
        Twelve monthly means, m [°C], from -90 to 60.
    spread : array
        Twelve standard deviations of the daily means, s [K], from 0 to 30.
    share : float
        Share of that month's days that are colder, p [-], from 0.0005 to 0.5.

    Returns
    -------
    float
        Daily mean [°C].

    Notes
    -----
    Of an average year. The coldest night of a lifetime lies 10 to 20 K lower: look at the record.

    References
    ----------
    [THOM1954] : daily means scattered normally about the month's mean.
    """
    from scipy.special import ndtri

    _twelve(mean, spread)
    within("mean temperature", mean, -90.0, 60.0, unit="°C")
    within("spread of daily means", spread, 0.0, 30.0, unit="K")
    within("share", share, 0.0005, 0.5)
    return float(np.min(np.asarray(mean, dtype=float) + np.asarray(spread, dtype=float) * ndtri(share)))
