"""Water vapour, air pressure and the long-wave sky: what else a weather year needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

LOWEST, HIGHEST = -95.0, 70.0
"""°C."""
KELVIN = 273.15
SEA_LEVEL = 101_325.0
"""Pa."""


def vapour_pressure_at(dew_point: ArrayLike) -> Array:
    """Pressure of water vapour at its dew point.

    e = 611.2·exp(17.62·t/(243.12 + t))

    Parameters
    ----------
    dew_point : float or array
        Dew point over water, t [°C], from -95 to 70; the air's own temperature gives saturation.

    Returns
    -------
    float or array
        Vapour pressure, e [Pa].

    Notes
    -----
    Over water also below 0 °C, as weather services count the relative humidity.

    References
    ----------
    [WMO8] : annex 4.B, over water.

    Examples
    --------
    >>> round(float(vapour_pressure_at(10.0)))
    1226
    """
    within("dew point", dew_point, LOWEST, HIGHEST, unit="°C")
    t = np.asarray(dew_point, dtype=float)
    return np.asarray(611.2 * np.exp(17.62 * t / (243.12 + t)))


def dew_point_of(vapour_pressure: ArrayLike) -> Array:
    """Dew point of a vapour pressure.

    t = 243.12·u/(17.62 − u), u = ln(e/611.2)

    Parameters
    ----------
    vapour_pressure : float or array
        Vapour pressure, e [Pa], from 0.01 to 35000.

    Returns
    -------
    float or array
        Dew point over water, t [°C].

    References
    ----------
    [WMO8] : annex 4.B, over water.

    Examples
    --------
    >>> round(float(dew_point_of(1000.0)), 3)
    6.988
    """
    within("vapour pressure", vapour_pressure, 0.01, 35_000.0, unit="Pa")
    u = np.log(np.asarray(vapour_pressure, dtype=float) / 611.2)
    return np.asarray(243.12 * u / (17.62 - u))


def standard_pressure(altitude: ArrayLike) -> Array:
    """Pressure of the standard atmosphere.

    p = 101325·(1 − 0.0065·h/288.15)^5.25588

    Parameters
    ----------
    altitude : float or array
        Height above the sea, h [m], from -500 to 9000.

    Returns
    -------
    float or array
        Pressure [Pa].

    References
    ----------
    [ISO2533] : lowest layer.

    Examples
    --------
    >>> round(float(standard_pressure(1500.0)))
    84556
    """
    within("altitude", altitude, -500.0, 9000.0, unit="m")
    return np.asarray(SEA_LEVEL * (1.0 - 0.0065 * np.asarray(altitude, dtype=float) / 288.15) ** 5.25588)


def sky_emissivity(dew_point: ArrayLike, cloud: ArrayLike = 0.0) -> Array:
    """How strongly the sky radiates, against a black body at the temperature of the air.

    ε₀ = 0.711 + 0.56·(t/100) + 0.73·(t/100)², ε = (1 − 0.84·c)·ε₀ + 0.84·c

    Parameters
    ----------
    dew_point : float or array
        Dew point, t [°C], from -95 to 70.
    cloud : float or array
        Share of the sky that is clouded, c [-], from 0 to 1.

    Returns
    -------
    float or array
        Emissivity [-].

    References
    ----------
    [BERDAHL1984] : clear sky by the dew point.
    [UNSWORTH1975] : clouded sky.

    Examples
    --------
    >>> round(float(sky_emissivity(-25.0)), 4)
    0.6166
    """
    within("dew point", dew_point, LOWEST, HIGHEST, unit="°C")
    within("cloud", cloud, 0.0, 1.0)
    share = np.asarray(dew_point, dtype=float) / 100.0
    clear = 0.711 + 0.56 * share + 0.73 * share**2
    covered = 0.84 * np.asarray(cloud, dtype=float)
    return np.asarray((1.0 - covered) * clear + covered)


def sky_temperature(temperature: ArrayLike, dew_point: ArrayLike, cloud: ArrayLike = 0.0) -> Array:
    """Temperature of a black sky that sends down as much long-wave heat.

    T_sky = T·ε^(1/4), T in kelvins

    Parameters
    ----------
    temperature : float or array
        Temperature of the air [°C], from -95 to 70.
    dew_point : float or array
        Dew point [°C], from -95 to 70.
    cloud : float or array
        Share of the sky that is clouded [-], from 0 to 1.

    Returns
    -------
    float or array
        Sky temperature [°C].

    References
    ----------
    [BERDAHL1984] : definition and clear sky.
    [UNSWORTH1975] : clouded sky.

    Examples
    --------
    >>> round(float(sky_temperature(-20.0, dew_point=-25.0)), 2)
    -48.82
    """
    within("temperature", temperature, LOWEST, HIGHEST, unit="°C")
    kelvins = np.asarray(temperature, dtype=float) + KELVIN
    return np.asarray(kelvins * sky_emissivity(dew_point, cloud) ** 0.25 - KELVIN)
