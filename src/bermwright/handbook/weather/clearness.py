"""How clear the sky is: from hours of sunshine or the range of the day, month by month and day by day."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

DULLEST = 0.05
"""Least clearness of a day."""
TINY = 1e-6


def clearness_by_sunshine(share: ArrayLike) -> Array:
    """Clearness of a month by its hours of sunshine.

    K = 0.25 + 0.50·s

    Parameters
    ----------
    share : float or array
        Hours of sunshine over the hours from sunrise to sunset, s [-], from 0 to 1.

    Returns
    -------
    float or array
        Sunshine on level ground over that before the air, K [-].

    Notes
    -----
    The coefficients are for places without their own; single places lie within about 0.05 of them.

    References
    ----------
    [FAO56] : equation 35, Ångström formula.

    Examples
    --------
    >>> round(float(clearness_by_sunshine(0.0)), 2)
    0.25
    """
    within("share of sunshine", share, 0.0, 1.0)
    return np.asarray(0.25 + 0.50 * np.asarray(share, dtype=float))


def clearness_by_range(daily_range: ArrayLike, *, coastal: bool = False) -> Array:
    """Clearness of a month by how far the day is warmer than the night.

    K = 0.16·√ΔT inland, 0.19·√ΔT on a coast, at most 0.75

    Parameters
    ----------
    daily_range : float or array
        Mean daily highest less mean daily lowest temperature, ΔT [K], from 0 to 40.
    coastal : bool
        Whether the sea keeps the days from warming.

    Returns
    -------
    float or array
        Sunshine on level ground over that before the air, K [-].

    Notes
    -----
    Too low on summits and passes, where the wind keeps the days from warming. Used where no hours of
    sunshine are known.

    References
    ----------
    [FAO56] : equation 50, after Hargreaves and Samani.

    Examples
    --------
    >>> round(float(clearness_by_range(9.0)), 2)
    0.48
    """
    within("daily range", daily_range, 0.0, 40.0, unit="K")
    factor = 0.19 if coastal else 0.16
    return np.asarray(np.minimum(factor * np.sqrt(np.asarray(daily_range, dtype=float)), 0.75))


def clearest_day(mean: ArrayLike) -> Array:
    """Clearness of the clearest day of a month.

    K_max = 0.6313 + 0.267·K − 11.9·(K − 0.75)⁸

    Parameters
    ----------
    mean : float or array
        Mean clearness of the month, K [-], from 0.1 to 0.8.

    Returns
    -------
    float or array
        Highest daily clearness [-].

    References
    ----------
    [HOLLANDS1983] : as given in [DUFFIE2013], equation 2.9.8.

    Examples
    --------
    >>> round(float(clearest_day(0.3)), 4)
    0.6914
    """
    within("clearness", mean, 0.1, 0.8)
    k = np.asarray(mean, dtype=float)
    return np.asarray(0.6313 + 0.267 * k - 11.9 * (k - 0.75) ** 8)


def day_clearness(mean: ArrayLike, rank: ArrayLike) -> Array:
    """Clearness of a day by its rank among the days of its month.

    F(K) = [e^(γ·K_min) − e^(γ·K)]/[e^(γ·K_min) − e^(γ·K_max)] = rank,
    γ = −1.498 + [1.184·ξ − 27.182·e^(−1.5·ξ)]/(K_max − K_min), ξ = (K_max − K_min)/(K_max − K)

    Parameters
    ----------
    mean : float or array
        Mean clearness of the month, K [-], from 0.1 to 0.8.
    rank : float or array
        Share of the month's days that are duller [-], from 0 to 1.

    Returns
    -------
    float or array
        Clearness of the day [-], from 0.05 upwards.

    References
    ----------
    [BENDT1981] : distribution, with the fit of γ of Herzog as in [DUFFIE2013], equations 2.9.6 and 2.9.7.

    Examples
    --------
    >>> round(float(day_clearness(0.3, rank=0.1)), 4)
    0.0866
    """
    within("rank", rank, 0.0, 1.0)
    k = np.asarray(mean, dtype=float)
    top = clearest_day(k)
    wide = top - DULLEST
    xi = wide / (top - k)  # a clearest day lies 0.04 or more over every mean in the range
    gamma = -1.498 + (1.184 * xi - 27.182 * np.exp(-1.5 * xi)) / wide
    gamma = np.where(np.abs(gamma) < TINY, TINY, gamma)
    low, high = np.exp(gamma * DULLEST), np.exp(gamma * top)
    return np.asarray(np.log(low - np.asarray(rank, dtype=float) * (low - high)) / gamma)
