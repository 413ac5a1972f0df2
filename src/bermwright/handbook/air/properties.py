"""Air itself: density, pressure with height, and how it carries heat."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

ZERO = 273.15
"""K."""
COLDEST = -60.0
HOTTEST = 400.0
GAS = 287.05
"""Gas constant of dry air (J/kg K)."""
SEA_LEVEL = 101_325.0
"""Pa."""
HEAT = 1006.0
"""Heat capacity of air at constant pressure (J/kg K)."""
GRAVITY = 9.80665
"""m/s2."""


def pressure_at(height: ArrayLike) -> Array:
    """Mean pressure of the air at a height over the sea.

    P = 101 325·(1 − 2.25577e-5·z)^5.2559

    Parameters
    ----------
    height : float or array
        Over the sea, z [m], from -500 to 6000.

    Returns
    -------
    float or array
        Pressure [Pa].

    References
    ----------
    [USATM1976] : troposphere.

    Examples
    --------
    >>> round(float(pressure_at(0.0)))
    101325
    """
    within("height", height, -500.0, 6000.0, unit="m")
    return np.asarray(SEA_LEVEL * (1.0 - 2.25577e-5 * np.asarray(height, dtype=float)) ** 5.2559)


def air_density(temperature: ArrayLike, pressure: ArrayLike = SEA_LEVEL) -> Array:
    """Density of dry air.

    ρ = P/(287.05·(T + 273.15))

    Parameters
    ----------
    temperature : float or array
        T [°C], from -60 to 400.
    pressure : float or array
        P [Pa], from 30 000 to 110 000.

    Returns
    -------
    float or array
        Density [kg/m3].

    References
    ----------
    [USATM1976] : ideal gas.

    Examples
    --------
    >>> round(float(air_density(20.0)), 3)
    1.204
    """
    within("temperature", temperature, COLDEST, HOTTEST, unit="°C")
    within("pressure", pressure, 30_000.0, 110_000.0, unit="Pa")
    kelvin = np.asarray(temperature, dtype=float) + ZERO
    return np.asarray(np.asarray(pressure, dtype=float) / (GAS * kelvin))


def air_viscosity(temperature: ArrayLike) -> Array:
    """Dynamic viscosity of air.

    μ = 1.458e-6·K^1.5/(K + 110.4), K = T + 273.15

    Parameters
    ----------
    temperature : float or array
        T [°C], from -60 to 400.

    Returns
    -------
    float or array
        Viscosity [Pa s].

    References
    ----------
    [USATM1976] : Sutherland's equation.

    Examples
    --------
    >>> round(float(air_viscosity(15.0)), 8)
    1.789e-05
    """
    within("temperature", temperature, COLDEST, HOTTEST, unit="°C")
    kelvin = np.asarray(temperature, dtype=float) + ZERO
    return np.asarray(1.458e-6 * kelvin**1.5 / (kelvin + 110.4))


def air_conductivity(temperature: ArrayLike) -> Array:
    """Conductivity of air.

    k = 2.64638e-3·K^1.5/(K + 245.4·10^(−12/K)), K = T + 273.15

    Parameters
    ----------
    temperature : float or array
        T [°C], from -60 to 400.

    Returns
    -------
    float or array
        Conductivity [W/m K].

    References
    ----------
    [USATM1976] : conductivity of air.

    Examples
    --------
    >>> round(float(air_conductivity(15.0)), 5)
    0.02533
    """
    within("temperature", temperature, COLDEST, HOTTEST, unit="°C")
    kelvin = np.asarray(temperature, dtype=float) + ZERO
    return np.asarray(2.64638e-3 * kelvin**1.5 / (kelvin + 245.4 * 10.0 ** (-12.0 / kelvin)))
