"""What a stove gives off after one charge of wood: at once while it burns, the rest out of its mass."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

HOUR = 3600.0
LEFT_TINY = 1e-3
"""Share of a charge after which the rest is counted into the last hour."""
LONGEST = 400 * HOUR


def charge_heat(mass: ArrayLike, heating_value: ArrayLike, efficiency: ArrayLike) -> Array:
    """Heat that one charge of wood leaves in the house.

    H = η·m·q

    Parameters
    ----------
    mass : float or array
        Wood of one charge as burned, m [kg], from 0.
    heating_value : float or array
        Net heating value of that wood, q [J/kg], 0 to 2.2e7.
    efficiency : float or array
        Share that stays in the house, η [-], 0 to 1.

    Returns
    -------
    float or array
        Heat [J].

    References
    ----------
    [ENISO17225] : net heating value as received; the efficiency is by definition.

    Examples
    --------
    >>> round(float(charge_heat(6.0, heating_value=15000000.0, efficiency=0.8)))
    72000000
    """
    within("mass of a charge", mass, 0.0, unit="kg")
    within("heating value", heating_value, 0.0, 2.2e7, unit="J/kg")
    within("efficiency", efficiency, 0.0, 1.0)
    return np.asarray(
        np.asarray(mass, dtype=float)
        * np.asarray(heating_value, dtype=float)
        * np.asarray(efficiency, dtype=float)
    )


def released(time: ArrayLike, *, burn: float, direct: float, fade: float) -> Array:
    """Share of a charge's heat that the stove has given off by a time after lighting.

    r = d·b + (1 − d)·[b − (τ/B)·(1 − e^(−s/τ))·e^(−(t − s)/τ)], s = min(t, B), b = s/B

    Parameters
    ----------
    time : float or array
        Time after lighting, t [s], from 0.
    burn : float
        Burning time, B [s], above 0.
    direct : float
        Share given off at once while it burns, d [-], 0 to 1.
    fade : float
        Time in which the stored heat falls to 1/e, τ [s], above 0.

    Returns
    -------
    float or array
        Share of the heat given off [-], 0 to 1.

    Notes
    -----
    The fire burns evenly; what is stored leaves at a rate proportional to itself. Real fires peak early.

    References
    ----------
    [INCROPERA] : chapter 5, lumped capacitance; a store filled at an even rate that empties by its own level.

    Examples
    --------
    >>> round(float(released(3600.0, burn=7200.0, direct=0.25, fade=28800.0)), 4)
    0.1475
    """
    within("time", time, 0.0, unit="s")
    within("burning time", burn, 0.0, unit="s", open_low=True)
    within("direct share", direct, 0.0, 1.0)
    within("fading time", fade, 0.0, unit="s", open_low=True)
    at = np.asarray(time, dtype=float)
    burning = np.minimum(at, burn)
    burned = burning / burn
    stored = fade / burn * (1.0 - np.exp(-burning / fade)) * np.exp(-(at - burning) / fade)
    return np.asarray(direct * burned + (1.0 - direct) * (burned - stored))


def release_curve(heat: float, *, burn: float, direct: float, fade: float) -> Array:
    """Mean heat output of the stove in each hour after lighting one charge.

    P_k = H·(r(k + 1) − r(k))/Δt; what is left at the end counts into the last hour

    Parameters
    ----------
    heat : float
        Heat of the charge, H [J], from 0.
    burn : float
        Burning time [s], above 0.
    direct : float
        Share given off while it burns [-], 0 to 1.
    fade : float
        Time in which the stored heat falls to 1/e [s], above 0 to 100 h.

    Returns
    -------
    array
        Output of each hour [W]; the sum over the hours is the whole charge.

    References
    ----------
    [INCROPERA] : chapter 5, lumped capacitance; a store filled at an even rate that empties by its own level.
    """
    within("heat of a charge", heat, 0.0, unit="J")
    within("fading time", fade, 0.0, LONGEST, unit="s", open_low=True)
    within("burning time", burn, 0.0, LONGEST, unit="s", open_low=True)
    hours = int(np.ceil((burn - fade * np.log(LEFT_TINY)) / HOUR)) + 1
    share = released(np.arange(hours + 1) * HOUR, burn=burn, direct=direct, fade=fade)
    share[-1] = 1.0
    return np.asarray(heat * np.diff(share) / HOUR)


def mean_output(heat: ArrayLike, firings: ArrayLike) -> Array:
    """The most that a stove gives on average over a day, fired as often as somebody is there.

    P = n·H/day

    Parameters
    ----------
    heat : float or array
        Heat of one full charge, H [J], from 0.
    firings : float or array
        Charges a day, n [1/d], 0 to 48.

    Returns
    -------
    float or array
        Mean output [W].

    References
    ----------
    [INCROPERA] : chapter 5, lumped capacitance; what is stored in a day is given off in it.

    Examples
    --------
    >>> round(float(mean_output(43200000.0, firings=2.0)))
    1000
    """
    within("heat of a charge", heat, 0.0, unit="J")
    within("firings a day", firings, 0.0, 48.0)
    return np.asarray(np.asarray(heat, dtype=float) * np.asarray(firings, dtype=float) / (24.0 * HOUR))
