"""Mould on cold faces, and rot in damp wood."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.damp.vapour import COLDEST, HOTTEST, dew_point

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

DAMP_FACE = 0.8
"""Humidity at a face from which mould grows (ISO 13788)."""
WET_WOOD = 0.95
"""Humidity from which wood decays; below it the model has no decay."""


def surface_factor(surface: ArrayLike, inside: ArrayLike, outside: ArrayLike) -> Array:
    """How warm a cold place of the inner face is between outdoors (0) and room (1).

    f_Rsi = (T_si − T_e)/(T_i − T_e)

    Parameters
    ----------
    surface : float or array
        Of the coldest place, T_si [°C], from -80 to 90.
    inside : float or array
        Of the room, T_i [°C], from -80 to 90.
    outside : float or array
        Outdoors, T_e [°C], below T_i.

    Returns
    -------
    float or array
        Temperature factor [-].

    References
    ----------
    [ISO13788] : 3.1.

    Examples
    --------
    >>> round(float(surface_factor(12.62, inside=20.0, outside=-5.0)), 4)
    0.7048
    """
    for one in (surface, inside, outside):
        within("temperature", one, COLDEST, HOTTEST, unit="°C")
    span = np.asarray(inside, dtype=float) - np.asarray(outside, dtype=float)
    within("room above outdoors", span, 0.0, unit="K", open_low=True)
    return np.asarray((np.asarray(surface, dtype=float) - outside) / span)


def factor_with_film(factor: ArrayLike, film: ArrayLike, wanted: ArrayLike) -> Array:
    """The temperature factor of a face under another film of air, as behind a cupboard.

    f' = 1 − R'/(R/(1 − f) + R' − R)

    Parameters
    ----------
    factor : float or array
        With the film as reckoned, f [-], from 0 to 1.
    film : float or array
        That film, R [m2K/W], over 0.
    wanted : float or array
        The other film, R' [m2K/W], over 0; 0.25 for mould in corners and behind furniture.

    Returns
    -------
    float or array
        Temperature factor [-]; lower for a thicker film.

    Notes
    -----
    What lies behind the face is taken to carry heat as before, by a resistance of its own.

    References
    ----------
    [ISO13788] : 4.4.1, film of 0.25 for the risk of mould; the conversion is two resistances in a row.

    Examples
    --------
    >>> round(float(factor_with_film(0.85, film=0.13, wanted=0.25)), 4)
    0.7466
    """
    within("temperature factor", factor, 0.0, 1.0)
    within("film", film, 0.0, unit="m2K/W", open_low=True)
    within("film", wanted, 0.0, unit="m2K/W", open_low=True)
    loss = 1.0 - np.asarray(factor, dtype=float)
    before, after = np.asarray(film, dtype=float), np.asarray(wanted, dtype=float)
    kept = before * (1.0 - loss)
    return np.asarray(kept / (kept + after * loss))


def least_surface(pressure: ArrayLike, *, humidity: float = DAMP_FACE) -> Array:
    """Coldest face on which vapour of the room stays under a humidity.

    T_si,min = dew point of p_i/φ

    Parameters
    ----------
    pressure : float or array
        Vapour pressure of the room, p_i [Pa], from 0.1 to 50 000.
    humidity : float
        Humidity allowed at the face, φ [-], from 0.3 to 1; 0.8 for mould, 1 for dew.

    Returns
    -------
    float or array
        Temperature [°C].

    References
    ----------
    [ISO13788] : 5.2, surface humidity of 0.8.

    Examples
    --------
    >>> round(float(least_surface(1168.5)), 2)
    12.62
    """
    within("humidity at the face", humidity, 0.3, 1.0)
    within("vapour pressure", pressure, 0.1, 20_000.0, unit="Pa")
    return dew_point(np.asarray(pressure, dtype=float) / humidity)


def mould_begins(temperature: ArrayLike) -> Array:
    """Humidity at a wooden face from which mould grows, given weeks of time.

    φ = −0.0000267·T³ + 0.0016·T² − 0.0313·T + 1 up to 20 °C, 0.8 above, 1 at and below 0 °C

    Parameters
    ----------
    temperature : float or array
        Of the face, T [°C], from -80 to 50.

    Returns
    -------
    float or array
        Humidity [-].

    References
    ----------
    [HUKKA1999] : critical humidity of pine and spruce.

    Examples
    --------
    >>> round(float(mould_begins(-5.0)))
    1
    """
    within("temperature", temperature, COLDEST, 50.0, unit="°C")
    t = np.clip(np.asarray(temperature, dtype=float), 0.0, 20.0)
    # The curve meets 0.8 at 20 °C to a thousandth; above it the paper holds 0.8.
    return np.asarray(np.maximum(0.8, 1.0 - 0.0313 * t + 0.0016 * t**2 - 0.0000267 * t**3))


def wood_moisture(temperature: ArrayLike, humidity: ArrayLike) -> Array:
    """Water in wood that has lain in air for long, as a share of its dry weight.

    M = (18/W)·[K·φ/(1 − K·φ) + (K₁·K·φ + 2·K₁·K₂·K²·φ²)/(1 + K₁·K·φ + K₁·K₂·K²·φ²)]

    Parameters
    ----------
    temperature : float or array
        T [°C], from -1.1 to 100; colder wood counts as at -1.1.
    humidity : float or array
        Of the air around it, φ [-], from 0 to 1.

    Returns
    -------
    float or array
        Moisture content [-].

    Notes
    -----
    W, K, K₁ and K₂ are parabolas of the temperature. Bark, resin and species shift it by a few hundredths.

    References
    ----------
    [WOODHANDBOOK] : ch. 4, eq. 4-5.

    Examples
    --------
    >>> round(float(wood_moisture(21.111, humidity=0.25)), 4)
    0.0536
    """
    within("temperature", temperature, COLDEST, 100.0, unit="°C")
    within("humidity", humidity, 0.0, 1.0)
    t = np.maximum(np.asarray(temperature, dtype=float), -1.1)
    w = 349.0 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    kh = k * np.asarray(humidity, dtype=float)
    once, twice = k1 * kh, k1 * k2 * kh**2
    # The equation gives per cent: 1800/W; as a share 18/W.
    return np.asarray(18.0 / w * (kh / (1.0 - kh) + (once + 2.0 * twice) / (1.0 + once + twice)))


def rot_begins_after(temperature: ArrayLike, humidity: ArrayLike) -> Array:
    """How long softwood must lie that damp and warm before it begins to decay.

    t = (2.3·T + 3.5·φ − 2.4·T·φ)/(−42.9 + 0.14·T + 45·φ) months; never below 0.95 or 0 °C

    Parameters
    ----------
    temperature : float or array
        T [°C], from -80 to 30.
    humidity : float or array
        φ [-], from 0 to 1.

    Returns
    -------
    float or array
        Time of 30-day months [s]; infinite where it never begins.

    Notes
    -----
    Brown rot in pine sapwood in the laboratory. Wood in touch with soil or wetted by a leak decays sooner.

    References
    ----------
    [VIITANEN2010] : critical time for decay.

    Examples
    --------
    >>> round(float(rot_begins_after(20.0, humidity=0.98)))
    1548720
    """
    within("temperature", temperature, COLDEST, 30.0, unit="°C")
    within("humidity", humidity, 0.0, 1.0)
    t, f = np.asarray(temperature, dtype=float), np.asarray(humidity, dtype=float)
    below = -42.9 + 0.14 * t + 45.0 * f
    above = 2.3 * t + 3.5 * f - 2.4 * t * f
    grows = (f >= WET_WOOD) & (t > 0.0) & (below > 0.0)
    months = np.where(grows, above / np.where(grows, below, 1.0), np.inf)
    return np.asarray(months * 30.0 * 86_400.0)


def rot_dose(temperature: ArrayLike, humidity: ArrayLike, duration: ArrayLike) -> Array:
    """Share of the way to the beginning of decay that a year of damp months goes.

    α = Σ t_i/t_rot(T_i, φ_i)

    Parameters
    ----------
    temperature : array
        Of every spell, T [°C], from -80 to 30.
    humidity : array
        Of every spell, φ [-], from 0 to 1.
    duration : array
        Of every spell, t [s], from 0.

    Returns
    -------
    float or array
        Dose; from 1 on decay begins [-].

    Notes
    -----
    The model takes dose off again in dry or frozen spells; here none is taken off, on the careful side.

    References
    ----------
    [VIITANEN2010] : activation of decay.
    """
    within("duration", duration, 0.0, unit="s")
    return np.asarray(np.sum(np.asarray(duration) / rot_begins_after(temperature, humidity), axis=-1))
