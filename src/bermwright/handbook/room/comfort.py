"""Whether people are warm enough and not too warm: two standards and their plain counts."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

MET = 58.15
"""Warmth of a square metre of a sitting body (W/m2)."""
CLO = 0.155
"""m2K/W."""
LIGHT = 0.078
"""Up to this the standard counts clothes as light (m2K/W)."""
KELVIN = 273.0
"""As the standard's own program adds it."""
SWEEPS = 60
RUNNING = 0.8
"""Weight of yesterday's running mean."""
COOLEST_RUNNING, WARMEST_RUNNING = 10.0, 30.0


def operative_temperature(air: ArrayLike, radiant: ArrayLike) -> Array:
    """What a body in still air feels: between the air and the faces around it.

    T_op = (T_air + T_rad)/2

    Parameters
    ----------
    air : float or array
        Air temperature [°C], -60 to 100.
    radiant : float or array
        Mean temperature of the faces around [°C], -60 to 100.

    Returns
    -------
    float or array
        Operative temperature [°C].

    Notes
    -----
    For air slower than 0.2 m/s and less than 4 K between both.

    References
    ----------
    [ISO7730] : operative temperature, simple form.

    Examples
    --------
    >>> round(float(operative_temperature(20.0, radiant=16.0)))
    18
    """
    within("air temperature", air, -60.0, 100.0, unit="°C")
    within("radiant temperature", radiant, -60.0, 100.0, unit="°C")
    return np.asarray(0.5 * (np.asarray(air, dtype=float) + np.asarray(radiant, dtype=float)))


def comfort_vote(
    air: ArrayLike, radiant: ArrayLike, *, speed: ArrayLike, vapour_pressure: ArrayLike,
    activity: ArrayLike, clothing: ArrayLike,
) -> Array:  # fmt: skip
    """How warm a group of people votes on average, from -3 cold to +3 hot.

    PMV = (0.303·e^(−0.036 M) + 0.028)·(M − heat lost by skin, breath, radiation and air)

    Parameters
    ----------
    air : float or array
        Air temperature [°C], 5 to 40.
    radiant : float or array
        Mean radiant temperature [°C], 5 to 45.
    speed : float or array
        Speed of the air [m/s], 0 to 1.
    vapour_pressure : float or array
        Of the room's air [Pa], 0 to 4000.
    activity : float or array
        In met, 1 is sitting still [-], 0.7 to 4.
    clothing : float or array
        In clo, 1 is a suit [-], 0 to 2.

    Returns
    -------
    float or array
        Predicted mean vote [-].

    Notes
    -----
    The standard holds from 10 to 30 °C and from 0.8 met; beyond it is an extrapolation.

    References
    ----------
    [ISO7730] : equation 1 to 4 and annex D.

    Examples
    --------
    >>> found = comfort_vote(
    ...     22.0, radiant=22.0, speed=0.1, vapour_pressure=1586.0, activity=1.2, clothing=0.5
    ... )
    >>> round(float(found), 3)
    -0.753
    """
    within("air temperature", air, 5.0, 40.0, unit="°C")
    within("radiant temperature", radiant, 5.0, 45.0, unit="°C")
    within("air speed", speed, 0.0, 1.0, unit="m/s")
    within("vapour pressure", vapour_pressure, 0.0, 4000.0, unit="Pa")
    within("activity", activity, 0.7, 4.0)
    within("clothing", clothing, 0.0, 2.0)
    t_air, t_rad = np.asarray(air, dtype=float), np.asarray(radiant, dtype=float)
    pressure, made = np.asarray(vapour_pressure, dtype=float), MET * np.asarray(activity, dtype=float)
    resistance = CLO * np.asarray(clothing, dtype=float)
    wider = np.where(resistance <= LIGHT, 1.0 + 1.29 * resistance, 1.05 + 0.645 * resistance)
    skin, film = _clothes(t_air, t_rad, np.asarray(speed, dtype=float), (made, resistance, wider))
    radiates = 3.96e-8 * wider * ((skin + KELVIN) ** 4 - (t_rad + KELVIN) ** 4)
    dry = 0.0014 * made * (34.0 - t_air) + radiates + wider * film * (skin - t_air)
    weight = 0.303 * np.exp(-0.036 * made) + 0.028
    return np.asarray(weight * (made - _moist_loss(made, pressure) - dry))


def _moist_loss(made: Array, pressure: Array) -> Array:
    """Heat that leaves by moisture: through the skin, by sweat, by breath (W/m2)."""
    through = 3.05e-3 * (5733.0 - 6.99 * made - pressure)
    sweat = np.maximum(0.42 * (made - MET), 0.0)
    breath = 1.7e-5 * made * (5867.0 - pressure)
    return np.asarray(through + sweat + breath)


def _clothes(
    air: Array, radiant: Array, speed: Array, body: tuple[Array, Array, Array]
) -> tuple[Array, Array]:
    """Surface of the clothes (°C) and its film (W/m2K), by Newton's steps."""
    made, resistance, wider = body
    guess = 0.5 * (air + 33.0)
    for _sweep in range(SWEEPS):
        film = _air_film(guess, air, speed)
        around = 3.96e-8 * wider * ((guess + KELVIN) ** 4 - (radiant + KELVIN) ** 4)
        leaves = around + wider * film * (guess - air)
        newton_step = 1.0 + resistance * wider * (4.0 * 3.96e-8 * (guess + KELVIN) ** 3 + film)
        guess = guess - (guess - 35.7 + 0.028 * made + resistance * leaves) / newton_step
    return guess, _air_film(guess, air, speed)


def _air_film(surface: Array, air: Array, speed: Array) -> Array:
    """Film of the air around a body, still or moving (W/m2K)."""
    return np.maximum(2.38 * np.abs(surface - air) ** 0.25, 12.1 * np.sqrt(speed))


def share_uneasy(vote: ArrayLike) -> Array:
    """Share of people who are dissatisfied at a mean vote.

    PPD = 1 − 0.95·e^(−0.03353 PMV⁴ − 0.2179 PMV²)

    Parameters
    ----------
    vote : float or array
        Predicted mean vote [-], -5 to 5.

    Returns
    -------
    float or array
        Share dissatisfied [-], at least 0.05.

    References
    ----------
    [ISO7730] : equation 5.

    Examples
    --------
    >>> round(float(share_uneasy(0.0)), 2)
    0.05
    """
    within("mean vote", vote, -5.0, 5.0)
    mean = np.asarray(vote, dtype=float)
    return np.asarray(1.0 - 0.95 * np.exp(-0.03353 * mean**4 - 0.2179 * mean**2))


def running_mean(daily: ArrayLike) -> Array:
    """Outdoor temperature as the last days are remembered, over a year that repeats itself.

    T_rm,n = 0.2·T_n−1 + 0.8·T_rm,n−1

    Parameters
    ----------
    daily : array
        Daily means, at least 30 of them [°C], -70 to 60.

    Returns
    -------
    array
        Running mean of each day [°C].

    References
    ----------
    [EN16798] : running mean outdoor temperature, weight 0.8.
    """
    days = np.asarray(daily, dtype=float)
    within("number of days", days.size, 30.0)
    within("daily mean", days, -70.0, 60.0, unit="°C")
    ages = np.arange(days.size)
    weights = (1.0 - RUNNING) * RUNNING**ages / (1.0 - RUNNING**days.size)
    return np.asarray([weights @ np.roll(days[::-1], day) for day in range(days.size)])


def adaptive_comfort(running: ArrayLike) -> Array:
    """The indoor temperature people like who may open windows and change clothes.

    T_c = 0.33·T_rm + 18.8

    Parameters
    ----------
    running : float or array
        Running mean outdoors, T_rm [°C], 10 to 30.

    Returns
    -------
    float or array
        Operative temperature of comfort [°C]; category II reaches from 4 K below to 3 K above.

    References
    ----------
    [EN16798] : adaptive comfort in buildings without mechanical cooling.

    Examples
    --------
    >>> round(float(adaptive_comfort(20.0)), 1)
    25.4
    """
    within("running mean", running, COOLEST_RUNNING, WARMEST_RUNNING, unit="°C")
    return np.asarray(0.33 * np.asarray(running, dtype=float) + 18.8)


def comfort_band(running: ArrayLike) -> tuple[Array, Array]:
    """Lower and upper limit of comfort of category II, the year round.

    T_rm ≥ 10: T_c − 4 and T_c + 3; below 10 °C the limits of heated dwellings hold, 20 and 25 °C

    Parameters
    ----------
    running : float or array
        Running mean outdoors [°C], -70 to 60; above 30 °C it counts as 30.

    Returns
    -------
    tuple of arrays
        Lower and upper limit of the operative temperature [°C].

    References
    ----------
    [EN16798] : category II, adaptive and heated.
    """
    within("running mean", running, -70.0, 60.0, unit="°C")
    outside = np.asarray(running, dtype=float)
    liked = adaptive_comfort(np.clip(outside, COOLEST_RUNNING, WARMEST_RUNNING))
    cold = outside < COOLEST_RUNNING
    return np.asarray(np.where(cold, 20.0, liked - 4.0)), np.asarray(np.where(cold, 25.0, liked + 3.0))
