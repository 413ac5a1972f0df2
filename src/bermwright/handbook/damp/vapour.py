"""Moist air: how much vapour it holds, and when it lets go of it. °C, Pa, shares from 0 to 1."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

ZERO = 273.15
"""K."""
COLDEST = -80.0
HOTTEST = 90.0
STEAM = 461.5
"""Gas constant of water vapour (J/kg K)."""
LIGHTER = 0.621945
"""Weight of a molecule of water over the mean one of dry air."""
SEA_LEVEL = 101_325.0
"""Pa."""
AT_FREEZING = 610.5
"""Pa."""


def saturation_pressure(temperature: ArrayLike) -> Array:
    """Most vapour pressure that air holds: over water above 0 °C, over ice below.

    p = 610.5·exp(17.269·T/(237.3 + T)) for T ≥ 0, else 610.5·exp(21.875·T/(265.5 + T))

    Parameters
    ----------
    temperature : float or array
        T [°C], from -80 to 90.

    Returns
    -------
    float or array
        Saturation pressure [Pa].

    References
    ----------
    [ISO13788] : annex E.

    Examples
    --------
    >>> round(float(saturation_pressure(20.0)), 1)
    2337.0
    """
    within("temperature", temperature, COLDEST, HOTTEST, unit="°C")
    t = np.asarray(temperature, dtype=float)
    water = 17.269 * t / (237.3 + t)
    ice = 21.875 * t / (265.5 + t)
    return np.asarray(AT_FREEZING * np.exp(np.where(t >= 0.0, water, ice)))


def dew_point(pressure: ArrayLike) -> Array:
    """Temperature at which air with that much vapour begins to shed it: dew, or frost below 0 °C.

    T = 237.3·ln(p/610.5)/(17.269 − ln(p/610.5)) for p ≥ 610.5, else 265.5·…/(21.875 − …)

    Parameters
    ----------
    pressure : float or array
        Vapour pressure, p [Pa], from 0.1 to 70 000.

    Returns
    -------
    float or array
        Dew point [°C].

    References
    ----------
    [ISO13788] : annex E.

    Examples
    --------
    >>> round(float(dew_point(102.738)))
    -20
    """
    within("vapour pressure", pressure, 0.1, 70_000.0, unit="Pa")
    power = np.log(np.asarray(pressure, dtype=float) / AT_FREEZING)
    return np.asarray(
        np.where(power >= 0.0, 237.3 * power / (17.269 - power), 265.5 * power / (21.875 - power))
    )


def saturation_pressure_fine(temperature: ArrayLike) -> Array:
    """Most vapour pressure that air holds, by the equation of the air-conditioning handbook.

    ln p = Σ C_i·T^i + C·ln T, one set of numbers over ice, one over water

    Parameters
    ----------
    temperature : float or array
        T [°C], from -80 to 90.

    Returns
    -------
    float or array
        Saturation pressure [Pa].

    References
    ----------
    [ASHRAEHOF] : ch. 1, eq. 5 and 6 (Hyland and Wexler).

    Examples
    --------
    >>> round(float(saturation_pressure_fine(-20.0)), 1)
    103.3
    """
    within("temperature", temperature, COLDEST, HOTTEST, unit="°C")
    k = np.asarray(temperature, dtype=float) + ZERO
    ice = (
        -5674.5359 / k + 6.3925247 - 9.677843e-3 * k + 6.2215701e-7 * k**2 + 2.0747825e-9 * k**3
        - 9.484024e-13 * k**4 + 4.1635019 * np.log(k)
    )  # fmt: skip
    water = (
        -5800.2206 / k + 1.3914993 - 4.8640239e-2 * k + 4.1764768e-5 * k**2 - 1.4452093e-8 * k**3
        + 6.5459673 * np.log(k)
    )  # fmt: skip
    return np.asarray(np.exp(np.where(k < ZERO, ice, water)))


def humidity_ratio(pressure: ArrayLike, air: ArrayLike = SEA_LEVEL) -> Array:
    """Vapour for every kilogram of dry air.

    W = 0.621945·p/(P − p)

    Parameters
    ----------
    pressure : float or array
        Vapour pressure, p [Pa], from 0.
    air : float or array
        Pressure of the air, P [Pa], from 30 000 to 110 000.

    Returns
    -------
    float or array
        Humidity ratio [-].

    References
    ----------
    [ASHRAEHOF] : ch. 1, eq. 20.

    Examples
    --------
    >>> round(float(humidity_ratio(103.26)), 7)
    0.0006345
    """
    within("vapour pressure", pressure, 0.0, 70_000.0, unit="Pa")
    within("pressure of the air", air, 30_000.0, 110_000.0, unit="Pa")
    p = np.asarray(pressure, dtype=float)
    return np.asarray(LIGHTER * p / (np.asarray(air, dtype=float) - p))


def enthalpy(temperature: ArrayLike, ratio: ArrayLike) -> Array:
    """Heat in moist air, counted from dry air and water at 0 °C.

    h = 1006·T + W·(2 501 000 + 1860·T)

    Parameters
    ----------
    temperature : float or array
        T [°C], from -80 to 90.
    ratio : float or array
        Humidity ratio, W [-], from 0 to 1.

    Returns
    -------
    float or array
        Heat for every kilogram of dry air [J/kg].

    References
    ----------
    [ASHRAEHOF] : ch. 1, eq. 30.

    Examples
    --------
    >>> round(float(enthalpy(-20.0, ratio=0.0006373)))
    -18550
    """
    within("temperature", temperature, COLDEST, HOTTEST, unit="°C")
    within("humidity ratio", ratio, 0.0, 1.0)
    t = np.asarray(temperature, dtype=float)
    return np.asarray(1006.0 * t + np.asarray(ratio, dtype=float) * (2.501e6 + 1860.0 * t))


def vapour_content(pressure: ArrayLike, temperature: ArrayLike) -> Array:
    """Vapour in a cubic metre.

    v = p/(461.5·(T + 273.15))

    Parameters
    ----------
    pressure : float or array
        Vapour pressure, p [Pa], from 0.
    temperature : float or array
        T [°C], from -80 to 90.

    Returns
    -------
    float or array
        Vapour [kg/m3].

    References
    ----------
    [ISO13788] : definition of the humidity by volume.

    Examples
    --------
    >>> round(float(vapour_content(103.5, temperature=-20.0)), 7)
    0.0008859
    """
    within("vapour pressure", pressure, 0.0, 70_000.0, unit="Pa")
    within("temperature", temperature, COLDEST, HOTTEST, unit="°C")
    return np.asarray(np.asarray(pressure, dtype=float) / (STEAM * (np.asarray(temperature) + ZERO)))


def indoor_pressure(
    outdoor: ArrayLike, production: ArrayLike, flow: ArrayLike, *, temperature: ArrayLike
) -> Array:
    """Vapour pressure of a room that makes vapour and changes its air.

    p_i = p_e + G·461.5·(T_i + 273.15)/V̇

    Parameters
    ----------
    outdoor : float or array
        Vapour pressure outdoors, p_e [Pa], from 0.
    production : float or array
        Vapour made in the room, G [kg/s], from 0.
    flow : float or array
        Fresh air, V̇ [m3/s], from 0; without any the pressure has no bound.
    temperature : float or array
        Of the room, T_i [°C], from -80 to 90.

    Returns
    -------
    float or array
        Vapour pressure of the room [Pa], as if none of it were shed on cold faces; infinite without air.

    Notes
    -----
    Steady. Timber and earth inside even out the day, not the month.

    References
    ----------
    [ISO13788] : indoor humidity from production and ventilation.

    Examples
    --------
    >>> round(float(indoor_pressure(300.0, production=0.0001, flow=0.02, temperature=20.0)), 1)
    976.4
    """
    within("vapour pressure", outdoor, 0.0, 70_000.0, unit="Pa")
    within("production of vapour", production, 0.0, unit="kg/s")
    within("fresh air", flow, 0.0, unit="m3/s")
    within("temperature", temperature, COLDEST, HOTTEST, unit="°C")
    made = np.asarray(production, dtype=float) * STEAM * (np.asarray(temperature, dtype=float) + ZERO)
    air = np.asarray(flow, dtype=float)
    still = air == 0.0
    added = np.where(still, np.where(made > 0.0, np.inf, 0.0), made / np.where(still, 1.0, air))
    return np.asarray(np.asarray(outdoor, dtype=float) + added)


def class_excess(outdoor: ArrayLike, *, most: ArrayLike) -> Array:
    """How much more vapour a room holds than the outdoors, by the class of its use.

    Δv = Δv_0·min(1, max(0, 1 − T_e/20))

    Parameters
    ----------
    outdoor : float or array
        Monthly mean outdoors, T_e [°C], from -80 to 90.
    most : float or array
        Excess at 0 °C and below, Δv_0 [kg/m3], from 0: 2, 4, 6, 8 g/m3 are the upper ends of classes 1 to 4.

    Returns
    -------
    float or array
        Excess of vapour [kg/m3].

    References
    ----------
    [ISO13788] : annex A, humidity classes.

    Examples
    --------
    >>> round(float(class_excess(-10.0, most=0.004)), 3)
    0.004
    """
    within("temperature", outdoor, COLDEST, HOTTEST, unit="°C")
    within("excess", most, 0.0, unit="kg/m3")
    share = np.clip(1.0 - np.asarray(outdoor, dtype=float) / 20.0, 0.0, 1.0)
    return np.asarray(np.asarray(most, dtype=float) * share)
