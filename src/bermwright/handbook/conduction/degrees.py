"""Cold added up over a year, and the heat it takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.weather import cold_below
from bermwright.handbook.weather.frost import DAYS_OF_MONTHS, SECONDS_A_DAY, _twelve

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


def heating_degrees(mean: ArrayLike, spread: ArrayLike, *, base: float) -> Array:
    """Cold of an average year below the temperature at which a house needs no heat any more.

    Σ cold_below(m_i, s_i, t_i, base) over the twelve months

    Parameters
    ----------
    mean : array
        Twelve monthly means, m [°C], from -90 to 60.
    spread : array
        Twelve standard deviations of the daily means, s [K], from 0 to 30; zeros where not known.
    base : float
        Base temperature [°C], from -90 to 60.

    Returns
    -------
    float or array
        Heating degrees [K s]; divide by 86 400 for degree-days.

    References
    ----------
    [THOM1954] : degree-days from monthly mean and spread.
    """
    _twelve(mean, spread)
    cold = cold_below(mean, spread, DAYS_OF_MONTHS * SECONDS_A_DAY, base=base)
    return np.asarray(np.sum(cold, axis=-1))


def degree_heat(conductance: ArrayLike, degrees: ArrayLike) -> Array:
    """Heat that a house loses in a season.

    Q = H·Σ ΔT·t

    Parameters
    ----------
    conductance : float or array
        Of the whole house, air included, H [W/K], from 0.
    degrees : float or array
        Heating degrees [K s], from 0.

    Returns
    -------
    float or array
        Heat before sun, people and lamps are taken off [J].

    References
    ----------
    [ISO6946] : definition of the transmittance; the product is elementary.

    Examples
    --------
    >>> round(float(degree_heat(60.0, degrees=506000000.0)))
    30360000000
    """
    within("conductance", conductance, 0.0, unit="W/K")
    within("heating degrees", degrees, 0.0, unit="K s")
    return np.asarray(np.asarray(conductance, dtype=float) * np.asarray(degrees, dtype=float))
