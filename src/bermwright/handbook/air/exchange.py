"""What moves air through a house, and how much of it people and a stove need."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.air.properties import GRAVITY, HEAT, air_density

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

OUTDOOR_CARBON = 420e-6
"""Carbon dioxide outdoors, share of the air by volume."""
TEST_PRESSURE = 50.0
"""Pa: the door fan's."""
OXYGEN = 0.2314
"""Share of the air's mass."""


def stack_pressure(height: ArrayLike, inside: ArrayLike, outside: ArrayLike) -> Array:
    """Pressure by which warm air rises in a house or a flue.

    Δp = g·H·(ρ_out − ρ_in)

    Parameters
    ----------
    height : float or array
        Between the lower and the upper opening, H [m], from 0.
    inside : float or array
        Of the air or smoke inside [°C], from -60 to 400.
    outside : float or array
        Of the air outside [°C], from -60 to 400.

    Returns
    -------
    float or array
        Pressure [Pa]; negative where air falls (summer, a cool buried house).

    References
    ----------
    [USATM1976] : ideal gas; hydrostatics.

    Examples
    --------
    >>> round(float(stack_pressure(1.5, inside=22.0, outside=-2.0)), 3)
    1.557
    """
    within("height", height, 0.0, unit="m")
    lift = air_density(outside) - air_density(inside)
    return np.asarray(GRAVITY * np.asarray(height, dtype=float) * lift)


def opening_flow(area: ArrayLike, pressure: ArrayLike, *, discharge: float = 0.6) -> Array:
    """Air through an opening.

    V̇ = C_d·A·√(2·|Δp|/1.2)

    Parameters
    ----------
    area : float or array
        Free area, A [m2], from 0.
    pressure : float or array
        Across it, Δp [Pa]; the flow has its sign.
    discharge : float
        C_d [-], from 0.1 to 1; 0.6 for a plain hole.

    Returns
    -------
    float or array
        Flow [m3/s].

    References
    ----------
    [HUSAGERD] : ch. 4, flow through openings.

    Examples
    --------
    >>> round(float(opening_flow(0.01, pressure=4.0)), 5)
    0.01549
    """
    within("area", area, 0.0, unit="m2")
    within("pressure", pressure, -10_000.0, 10_000.0, unit="Pa")
    within("discharge coefficient", discharge, 0.1, 1.0)
    drop = np.asarray(pressure, dtype=float)
    return np.asarray(discharge * np.asarray(area) * np.sign(drop) * np.sqrt(2.0 * np.abs(drop) / 1.2))


def openings_in_row(first: ArrayLike, second: ArrayLike) -> Array:
    """Free area that two openings in a row are worth.

    1/A² = 1/A_1² + 1/A_2²

    Parameters
    ----------
    first : float or array
        Free area, A_1 [m2], over 0.
    second : float or array
        Free area, A_2 [m2], over 0.

    Returns
    -------
    float or array
        Area [m2].

    References
    ----------
    [HUSAGERD] : ch. 4, openings in series.

    Examples
    --------
    >>> round(float(openings_in_row(0.03, second=0.04)), 3)
    0.024
    """
    within("area", first, 0.0, unit="m2", open_low=True)
    within("area", second, 0.0, unit="m2", open_low=True)
    one, other = np.asarray(first, dtype=float), np.asarray(second, dtype=float)
    return np.asarray((one**-2.0 + other**-2.0) ** -0.5)


def leakage_flow(
    changes: ArrayLike, volume: ArrayLike, pressure: ArrayLike, *, exponent: float = 0.65
) -> Array:
    """Air that leaks through a house at a pressure, from its door-fan number.

    V̇ = n_50·V·(Δp/50)^n

    Parameters
    ----------
    changes : float or array
        Air changes at 50 Pa, n_50 [1/s], from 0.
    volume : float or array
        Of the house, V [m3], from 0.
    pressure : float or array
        Δp [Pa], from 0.
    exponent : float
        n [-], from 0.5 to 1.

    Returns
    -------
    float or array
        Flow [m3/s].

    References
    ----------
    [HUSAGERD] : ch. 4, leakage.

    Examples
    --------
    >>> round(float(leakage_flow(0.0001667, volume=80.0, pressure=4.0)), 6)
    0.002582
    """
    within("air changes", changes, 0.0, unit="1/s")
    within("volume", volume, 0.0, unit="m3")
    within("pressure", pressure, 0.0, unit="Pa")
    within("exponent", exponent, 0.5, 1.0)
    pushed = (np.asarray(pressure, dtype=float) / TEST_PRESSURE) ** exponent
    return np.asarray(np.asarray(changes, dtype=float) * np.asarray(volume) * pushed)


def leakage_area(
    changes: ArrayLike, volume: ArrayLike, *, pressure: float = 4.0, exponent: float = 0.65
) -> Array:
    """Hole that leaks as much as a whole house does.

    A = V̇(Δp)/√(2·Δp/1.2)

    Parameters
    ----------
    changes : float or array
        Air changes at 50 Pa, n_50 [1/s], from 0.
    volume : float or array
        Of the house, V [m3], from 0.
    pressure : float
        At which it is told, Δp [Pa], over 0.
    exponent : float
        n [-], from 0.5 to 1.

    Returns
    -------
    float or array
        Area [m2].

    References
    ----------
    [HUSAGERD] : ch. 4, leakage.

    Examples
    --------
    >>> round(float(leakage_area(0.0001667, volume=80.0)), 3)
    0.001
    """
    within("pressure", pressure, 0.0, unit="Pa", open_low=True)
    through = leakage_flow(changes, volume, pressure, exponent=exponent)
    return np.asarray(through / math.sqrt(2.0 * pressure / 1.2))


def underpressure(
    extracted: ArrayLike, changes: ArrayLike, volume: ArrayLike, *, exponent: float = 0.65
) -> Array:
    """Pressure to which a house falls when air is drawn out and comes in only through its leaks.

    Δp = 50·(V̇/(n_50·V))^(1/n)

    Parameters
    ----------
    extracted : float or array
        Drawn out by fans and stove, V̇ [m3/s], from 0.
    changes : float or array
        Air changes at 50 Pa, n_50 [1/s], over 0.
    volume : float or array
        Of the house, V [m3], over 0.
    exponent : float
        n [-], from 0.5 to 1.

    Returns
    -------
    float or array
        Below outdoors [Pa].

    References
    ----------
    [HUSAGERD] : ch. 4, leakage, turned round.

    Examples
    --------
    >>> round(float(underpressure(0.002582, changes=0.0001667, volume=80.0)), 3)
    3.999
    """
    within("air drawn out", extracted, 0.0, unit="m3/s")
    within("air changes", changes, 0.0, unit="1/s", open_low=True)
    within("volume", volume, 0.0, unit="m3", open_low=True)
    within("exponent", exponent, 0.5, 1.0)
    share = np.asarray(extracted, dtype=float) / (np.asarray(changes, dtype=float) * np.asarray(volume))
    return np.asarray(TEST_PRESSURE * share ** (1.0 / exponent))


def carbon_dioxide(produced: ArrayLike, flow: ArrayLike, *, outdoors: float = OUTDOOR_CARBON) -> Array:
    """Carbon dioxide of a room after some hours.

    C = C_0 + G/V̇

    Parameters
    ----------
    produced : float or array
        By all people, G [m3/s], from 0.
    flow : float or array
        Fresh air, V̇ [m3/s], from 0; without any it has no bound.
    outdoors : float
        C_0 [-], share by volume, from 0 to 0.01.

    Returns
    -------
    float or array
        Share by volume [-]; infinite without air.

    References
    ----------
    [EN16798] : steady concentration.

    Examples
    --------
    >>> round(float(carbon_dioxide(1e-5, flow=0.008333)), 5)
    0.00162
    """
    within("carbon dioxide", produced, 0.0, unit="m3/s")
    within("fresh air", flow, 0.0, unit="m3/s")
    within("outdoors", outdoors, 0.0, 0.01)
    made, air = np.asarray(produced, dtype=float), np.asarray(flow, dtype=float)
    still = air == 0.0
    share = np.where(still, np.where(made > 0.0, np.inf, 0.0), made / np.where(still, 1.0, air))
    return np.asarray(outdoors + share)


def air_for(produced: ArrayLike, allowed: ArrayLike, *, outdoors: float = OUTDOOR_CARBON) -> Array:
    """Fresh air that keeps carbon dioxide under a share.

    V̇ = G/(C − C_0)

    Parameters
    ----------
    produced : float or array
        By all people, G [m3/s], from 0.
    allowed : float or array
        C [-], share by volume, over C_0.
    outdoors : float
        C_0 [-], share by volume, from 0 to 0.01.

    Returns
    -------
    float or array
        Flow [m3/s].

    References
    ----------
    [EN16798] : steady concentration.

    Examples
    --------
    >>> round(float(air_for(5e-6, allowed=0.001)), 6)
    0.008621
    """
    within("carbon dioxide", produced, 0.0, unit="m3/s")
    within("outdoors", outdoors, 0.0, 0.01)
    above = np.asarray(allowed, dtype=float) - outdoors
    within("allowed above outdoors", above, 0.0, open_low=True)
    return np.asarray(np.asarray(produced, dtype=float) / above)


def whole_house_rate(area: ArrayLike, bedrooms: ArrayLike) -> Array:
    """Fresh air of a dwelling by its floor and its bedrooms.

    V̇ = 0.15·A + 3.5·(N + 1) l/s

    Parameters
    ----------
    area : float or array
        Of the floor, A [m2], from 0.
    bedrooms : float or array
        N [-], from 0.

    Returns
    -------
    float or array
        Flow [m3/s].

    References
    ----------
    [ASHRAE622] : total ventilation rate of 2013.

    Examples
    --------
    >>> round(float(whole_house_rate(30.0, bedrooms=1.0)), 4)
    0.0115
    """
    within("floor", area, 0.0, unit="m2")
    within("bedrooms", bedrooms, 0.0)
    litres = 0.15 * np.asarray(area, dtype=float) + 3.5 * (np.asarray(bedrooms, dtype=float) + 1.0)
    return np.asarray(1e-3 * litres)


def wood_air(carbon: float = 0.50, hydrogen: float = 0.06, oxygen: float = 0.43) -> float:
    """Air that a kilogram of dry wood needs to burn, none left over.

    L = (32/12.011·C + 16/2.016·H − O)/0.2314, molar masses rounded as usual

    Parameters
    ----------
    carbon : float
        Share of the dry mass, C [-], from 0.4 to 0.6.
    hydrogen : float
        H [-], from 0.04 to 0.08.
    oxygen : float
        O [-], from 0.35 to 0.5.

    Returns
    -------
    float
        Air [kg/kg].

    References
    ----------
    [STOICHIOMETRY] : oxygen by molar masses.

    Examples
    --------
    >>> round(float(wood_air()), 3)
    5.956
    """
    within("carbon", carbon, 0.4, 0.6)
    within("hydrogen", hydrogen, 0.04, 0.08)
    within("oxygen", oxygen, 0.35, 0.5)
    return (31.998 / 12.011 * carbon + 15.999 / 2.016 * hydrogen - oxygen) / OXYGEN


def stove_air(burned: ArrayLike, excess: ArrayLike, *, temperature: float = 20.0) -> Array:
    """Room air that a stove draws.

    V̇ = ṁ·λ·L/ρ(T)

    Parameters
    ----------
    burned : float or array
        Dry wood, ṁ [kg/s], from 0.
    excess : float or array
        Air over the least that burns it, λ [-], from 1 to 10: 2 a good closed stove, 5 and more an open fire.
    temperature : float
        Of the room, T [°C], from -60 to 400.

    Returns
    -------
    float or array
        Flow [m3/s].

    References
    ----------
    [STOICHIOMETRY] : air for wood of C 0.50, H 0.06, O 0.43.

    Examples
    --------
    >>> round(float(stove_air(0.0005556, excess=2.0)), 6)
    0.005496
    """
    within("wood burned", burned, 0.0, unit="kg/s")
    within("excess air", excess, 1.0, 10.0)
    need = np.asarray(burned, dtype=float) * np.asarray(excess, dtype=float) * wood_air()
    return np.asarray(need / air_density(temperature))


def warming_power(flow: ArrayLike, outside: ArrayLike, inside: ArrayLike) -> Array:
    """Heat that fresh air needs to become as warm as the room.

    P = ρ(20 °C)·c·V̇·(T_in − T_out)

    Parameters
    ----------
    flow : float or array
        At the temperature of the room, V̇ [m3/s], from 0.
    outside : float or array
        Of the air that comes in [°C], from -60 to 60.
    inside : float or array
        Of the room [°C], from -60 to 60.

    Returns
    -------
    float or array
        Heat [W].

    Notes
    -----
    Divided by ρ·c·V̇ the same tells what a path behind a stove or under glass of that power adds in kelvin.

    References
    ----------
    [INCROPERA] : energy of a stream.

    Examples
    --------
    >>> round(float(warming_power(0.0055, outside=-20.0, inside=20.0)), 1)
    266.5
    """
    within("flow", flow, 0.0, unit="m3/s")
    within("temperature", outside, -60.0, 60.0, unit="°C")
    within("temperature", inside, -60.0, 60.0, unit="°C")
    warmed = np.asarray(inside, dtype=float) - np.asarray(outside, dtype=float)
    return np.asarray(air_density(20.0) * HEAT * np.asarray(flow, dtype=float) * warmed)


def air_warmed(power: ArrayLike, flow: ArrayLike, outside: ArrayLike) -> Array:
    """How warm fresh air comes in past a stove, or through a path behind glass that the sun warms.

    T = T_out + P/(ρ(20 °C)·c·V̇)

    Parameters
    ----------
    power : float or array
        Heat that the path gives to the air, P [W], from 0.
    flow : float or array
        At the temperature of the room, V̇ [m3/s], over 0.
    outside : float or array
        Of the air outdoors, T_out [°C], from -60 to 60.

    Returns
    -------
    float or array
        Temperature of the air [°C].

    Notes
    -----
    The path gives what sun or stove have; at night a solar path gives nothing and must be shut, or it cools.

    References
    ----------
    [INCROPERA] : energy of a stream.

    Examples
    --------
    >>> round(float(air_warmed(400.0, flow=0.01667, outside=-10.0)), 3)
    9.809
    """
    within("heat", power, 0.0, unit="W")
    within("flow", flow, 0.0, unit="m3/s", open_low=True)
    within("temperature", outside, -60.0, 60.0, unit="°C")
    carried = air_density(20.0) * HEAT * np.asarray(flow, dtype=float)
    return np.asarray(np.asarray(outside, dtype=float) + np.asarray(power, dtype=float) / carried)
