"""How much cold a year has: the freezing index, from monthly means, three ways.

The index of an average year is not the index to build for: a cold winter is far colder.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

SECONDS_A_DAY = 86_400.0
DAYS_OF_MONTHS = np.array([31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
"""Mean length of each month (d); four years have 1461 days."""
MONTHS = 12
HOTTEST = 60.0
COLDEST = -90.0
"""°C: bounds of any monthly mean on Earth, with room to spare; a value outside is a slip of units."""
WIDEST_SPREAD = 30.0
"""K."""


class IndexMethod(StrEnum):
    """How a freezing index was counted."""

    NORMAL_DAYS = "normally distributed days"
    SIMPLE = "monthly means"


@dataclass(frozen=True, slots=True, kw_only=True)
class FreezingIndex:
    """A mean freezing index and how it was counted."""

    value: float
    """K·s below the base; divide by 86 400 for degree-days."""
    method: IndexMethod

    @property
    def reads_low(self) -> bool:
        """Whether the method is known to give too little, the more so the milder the winter."""
        return self.method is IndexMethod.SIMPLE


def cold_below(mean: ArrayLike, spread: ArrayLike, duration: ArrayLike, *, base: float = 0.0) -> Array:
    r"""Cold of a spell whose daily means scatter as a normal distribution.

    I = t·[s·φ(z) − (m − b)·Φ(−z)], z = (m − b)/s; for s = 0: t·max(0, b − m)

    Parameters
    ----------
    mean : float or array
        Mean of the daily means, m [°C], from -90 to 60.
    spread : float or array
        Standard deviation of the daily means, s [K], from 0 to 30.
    duration : float or array
        Length of the spell, t [s], from 0.
    base : float
        Temperature below which cold counts, b [°C], from -90 to 60.

    Returns
    -------
    float or array
        Integral over the spell of what the daily mean lies below the base [K s].

    Notes
    -----
    φ and Φ are density and distribution of the standard normal. Real cold months are skewed; against
    degree-days counted from daily means the yearly sum was within 1 % at one prairie station.

    References
    ----------
    [THOM1954] : the idea of degree-days from monthly mean and spread; the integral is elementary.

    Examples
    --------
    >>> round(float(cold_below(0.0, 5.0, 30 * 86400.0)) / 86400.0, 2)
    59.84
    """
    from scipy.special import ndtr

    within("mean temperature", mean, COLDEST, HOTTEST, unit="°C")
    within("spread of daily means", spread, 0.0, WIDEST_SPREAD, unit="K")
    within("duration", duration, 0.0, unit="s")
    within("base temperature", base, COLDEST, HOTTEST, unit="°C")
    above = np.asarray(mean, dtype=float) - base
    scatter = np.asarray(spread, dtype=float)
    steady = scatter == 0.0
    z = above / np.where(steady, np.inf, scatter)
    density = np.exp(-0.5 * z**2) / np.sqrt(2.0 * np.pi)
    scattered = scatter * density - above * ndtr(-z)
    return np.asarray(np.asarray(duration) * np.where(steady, np.maximum(0.0, -above), scattered))


def freezing_index_normal_days(mean: ArrayLike, spread: ArrayLike) -> Array:
    """Freezing index of an average year, daily means normally distributed within each month.

    F = Σ cold_below(m_i, s_i, t_i) over the twelve months

    Parameters
    ----------
    mean : array
        Twelve monthly means on the last axis, m [°C], from -90 to 60.
    spread : array
        Twelve standard deviations of the daily means on the last axis, s [K], from 0 to 30.

    Returns
    -------
    float or array
        Freezing index below 0 °C [K s].

    Notes
    -----
    The index of an average year, not of a cold one. February has 28.25 days.

    References
    ----------
    [THOM1954] : degree-days from monthly mean and spread.
    """
    _twelve(mean, spread)
    return np.asarray(np.sum(cold_below(mean, spread, DAYS_OF_MONTHS * SECONDS_A_DAY), axis=-1))


def freezing_index_simple(mean: ArrayLike) -> Array:
    """Freezing index of an average year, each month at its mean all the time.

    F = Σ t_i·max(0, −m_i) over the twelve months

    Parameters
    ----------
    mean : array
        Twelve monthly means on the last axis, m [°C], from -90 to 60.

    Returns
    -------
    float or array
        Freezing index below 0 °C [K s]; too low, the more so the milder the winter.

    Notes
    -----
    Frosty days in a month with a mean above zero are lost; 4 % too low at a hard prairie winter, a
    third too low on a mild snowy coast. February has 28.25 days.

    References
    ----------
    [BOYD1973] : approximate index from monthly means.
    """
    _twelve(mean)
    return freezing_index_normal_days(mean, np.zeros(MONTHS))


def freezing_index_trapezoid(mean: ArrayLike) -> Array:
    """Freezing index of an average year, straight lines through the middles of the months.

    F = Σ d·(c_i + c_j)/2 when both ends freeze, Σ d·c_i²/(2·(c_i − c_j)) when only one does, c = −m

    Parameters
    ----------
    mean : array
        Twelve monthly means on the last axis, m [°C], from -90 to 60.

    Returns
    -------
    float or array
        Freezing index below 0 °C [K s]; lower than the simple one, because the lines cut midwinter's peak.

    Notes
    -----
    d is the distance between the middles of two neighbouring months; December is joined to January.

    References
    ----------
    [BOYD1973] : approximate index from monthly means; straight lines are the usual variant.
    """
    _twelve(mean)
    within("mean temperature", mean, COLDEST, HOTTEST, unit="°C")
    cold = -np.asarray(mean, dtype=float)
    after = np.roll(cold, -1, axis=-1)
    apart = 0.5 * (DAYS_OF_MONTHS + np.roll(DAYS_OF_MONTHS, -1)) * SECONDS_A_DAY
    colder, milder = np.maximum(cold, after), np.minimum(cold, after)
    step = np.where(colder > milder, colder - milder, 1.0)
    one_end = np.maximum(colder, 0.0) ** 2 / (2.0 * step)
    both_ends = 0.5 * (colder + milder)
    return np.asarray(np.sum(apart * np.where(milder >= 0.0, both_ends, one_end), axis=-1))


def freezing_index(mean: ArrayLike, spread: ArrayLike | None = None) -> FreezingIndex:
    """Freezing index of an average year by the best method that the data allow.

    F = freezing_index_normal_days where the spread is known, else freezing_index_simple, marked low

    Parameters
    ----------
    mean : array
        Twelve monthly means, m [°C], from -90 to 60.
    spread : array or None
        Twelve standard deviations of the daily means, s [K], from 0 to 30; None when not known [-].

    Returns
    -------
    FreezingIndex
        Value [K s], method, and whether it is known to read low.

    References
    ----------
    [THOM1954] : degree-days from monthly mean and spread.
    [BOYD1973] : approximate index from monthly means.
    """
    if spread is None:
        return FreezingIndex(value=float(freezing_index_simple(mean)), method=IndexMethod.SIMPLE)
    return FreezingIndex(
        value=float(freezing_index_normal_days(mean, spread)), method=IndexMethod.NORMAL_DAYS
    )


def _twelve(*rows: ArrayLike) -> None:
    if any(np.shape(row)[-1:] != (MONTHS,) for row in rows):
        raise OutOfRangeError("Twelve monthly values are due, January to December.")
