"""A year by the hour made from monthly normals: sunny and dull days, cold snaps and thaws, in one draw.

The months keep their means; days scatter as they are known to; the hours of a day follow the sun. Two
draws differ, and neither is a forecast.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.sun import (
    Split,
    SunPosition,
    clear_sky,
    erbs_split,
    extraterrestrial_normal,
    julian_day,
    path_of,
    sun_position,
)
from bermwright.handbook.weather.clearness import clearness_by_range, clearness_by_sunshine, day_clearness
from bermwright.handbook.weather.diurnal import SHAPE_RANGE, diurnal_shape, smooth_hours
from bermwright.handbook.weather.humidity import (
    dew_point_of,
    sky_temperature,
    standard_pressure,
    vapour_pressure_at,
)
from bermwright.handbook.weather.seasons import MONTH_ENDS, daily_means
from bermwright.handbook.weather.snow import snow_depth_of, snow_pack
from bermwright.handbook.weather.year import HOURS_A_DAY, WeatherYear

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from bermwright.data.climates import MonthlyNormals

    Array = NDArray[np.float64]

DAYS, HOURS, MONTHS = 365, 8760, 12
YEAR = 2026
"""Of the sun's calendar: halfway between two leap years."""
DAYS_ALIKE = 0.70
"""Likeness of a day's temperature to the day before: 0.58 to 0.78 in 17 real years, 0.69 in the middle."""
SKIES_ALIKE = 0.29
"""Likeness of the clearness of a day to that of the day before."""
WINDS_ALIKE = 0.92
"""Likeness of the wind of an hour to that of the hour before."""
USUAL_SPREAD = 3.5
"""Standard deviation of daily means where none is known (K); 2 to 3 on coasts, 5 to 8 in inland winters."""
USUAL_WIND = 3.0
"""Mean wind where nobody says otherwise (m/s)."""
DARK_CLEARNESS = 0.45
"""Clearness of months without sun, for the clouds alone."""
SMALL_LIGHT = 1.0
"""Least weight of a day's sun (Wh/m²), and hours of light under which a month is dark."""
LEAST_CLEAR = 0.15
SHORT_DAY = 4.0 * 3600.0
"""Length of the day under which the sun no longer makes a course of the temperature (s)."""
TINY = 1e-9
WHITE = 5.0
"""Water in the snow from which the ground counts as white (kg/m²)."""
THINNEST = 0.02
"""Depth of snow on a day that is known to be white (m)."""
BRACKET = 30.0
"""Widest scatter that is tried (K)."""
ROUNDS = 4
"""How often the scatter of the days is fitted to the known one."""
BRIGHTEST = 1.1
"""Of an hour, against the clear sky."""


@dataclass(frozen=True, slots=True)
class _Sky:
    """The sun of the year and the draw of clear and dull days."""

    sun: SunPosition
    light: Array
    """Hours from sunrise to sunset of each day (s)."""
    clearness: Array
    """(365,) of each day."""
    relative: Array
    """(365,) clearness over that of the month."""
    split: Split


class Chance(Protocol):
    """What draws: a numpy Generator, handed in so that the same state gives the same year."""

    def standard_normal(self, size: int) -> Array:
        """Numbers scattered normally about 0 with a standard deviation of 1."""


def synthesise(
    place: MonthlyNormals, chance: Chance, *, wind: float = USUAL_WIND, persistence: float = DAYS_ALIKE
) -> WeatherYear:
    """A year of hourly weather with the months of a place.

    T = course + scatter (T′ = φ·T′ + e) + amplitude·shape; K by `day_clearness`; hours by r, split by k_d

    Parameters
    ----------
    place : MonthlyNormals
        Monthly normals: temperatures, precipitation, and what else is known.
    chance : Chance
        Source of the draw; the same state gives the same year.
    wind : float
        Mean wind, which normals do not give [m/s], from 0 to 20.
    persistence : float
        Likeness of a day's temperature to the day before, φ [-], from 0 to 0.95.

    Returns
    -------
    WeatherYear
        8760 hours: temperatures [°C], sunshine [W/m2], wind [m/s], pressure [Pa], snow [m].

    Notes
    -----
    Monthly means of the temperature are kept exactly, the year's sunshine to 1 %, the scatter of daily
    means to 2 % in most months, vapour pressure to 6 %. In months with the sun at the horizon sunshine
    is up to a quarter low, because a clear sky gives no more. From hour to hour the clouds are smooth;
    cold and clear days are drawn apart, although in northern winters they go together.

    References
    ----------
    [RICHARDSON1981] : days that remember the day before.
    [BENDT1981] : clear and dull days of a month.
    [GRAHAM1988] : likeness of the clearness of neighbouring days, 0.29.
    [COLLARES1979] : hours of a day.
    [ERBS1982] : beam and sky.
    [ERBS1983] : course of the temperature over a day.
    """
    within("wind", wind, 0.0, 20.0, unit="m/s")
    within("persistence", persistence, 0.0, 0.95)
    scatter = _remembering(chance.standard_normal(DAYS), persistence)
    skies = _remembering(chance.standard_normal(DAYS), SKIES_ALIKE)
    gusts = _remembering(chance.standard_normal(HOURS), WINDS_ALIKE)
    sky = _sky(place, skies)
    days = _days(place, scatter)
    temperature = smooth_hours(days) + _course(place, sky)
    dew_point = _dew_point(place, smooth_hours(days), temperature)
    cover, depth = _snow(place, days)
    cloud = np.repeat(np.clip(1.0 - (sky.clearness - 0.25) / 0.5, 0.0, 1.0), HOURS_A_DAY)
    return WeatherYear(
        place=place.name,
        source=f"made from the months of {place.name}, {place.country} ({place.kind} {place.period}); "
        "wind assumed, not known",
        made=True,
        latitude=float(np.radians(place.latitude)),
        longitude=float(np.radians(place.longitude)),
        altitude=place.elevation,
        zone=_zone(place.longitude),
        temperature=temperature,
        dew_point=dew_point,
        global_horizontal=sky.split.global_horizontal,
        direct_normal=sky.split.direct_normal,
        diffuse_horizontal=sky.split.diffuse_horizontal,
        wind=_wind(gusts, wind),
        pressure=np.full(HOURS, float(standard_pressure(place.elevation))),
        sky_temperature=sky_temperature(temperature, dew_point, cloud),
        snow_cover=np.repeat(cover, HOURS_A_DAY),
        snow_depth=np.repeat(depth, HOURS_A_DAY),
    )


def month_clearness(place: MonthlyNormals) -> Array:
    """Clearness of each month of a place.

    by hours of sunshine where they are known, else by the range of the day

    Parameters
    ----------
    place : MonthlyNormals
        Monthly normals.

    Returns
    -------
    array
        (12,) clearness [-], from 0.15 to 0.75; 0.45 in a month without sun.

    References
    ----------
    [FAO56] : equations 35 and 50.
    """
    return _clearness(place, _sun_of(place)[1])


def _clearness(place: MonthlyNormals, light: Array) -> Array:
    """By the seconds of daylight of each day."""
    longest = _by_month(light, np.sum) / 3600.0
    if place.sunshine is not None:
        share = np.clip(np.array(place.sunshine) / np.maximum(longest, SMALL_LIGHT), 0.0, 1.0)
        found = clearness_by_sunshine(share)
    else:
        wide = np.array(place.maximum) - np.array(place.minimum)
        found = clearness_by_range(wide, coastal="coast" in place.climate)
    return np.where(longest < SMALL_LIGHT, DARK_CLEARNESS, np.maximum(found, LEAST_CLEAR))


# ---------------------------------------------------------------- sun
def _zone(longitude: float) -> float:
    return float(np.round(longitude / 15.0)) * 3600.0


def _sun_of(place: MonthlyNormals) -> tuple[SunPosition, Array]:
    """Position at the middle of each hour, and seconds of daylight of each day."""
    hours = np.arange(HOURS) + 0.5 - _zone(place.longitude) / 3600.0
    sun = sun_position(
        julian_day(YEAR, hours),
        float(np.radians(place.latitude)),
        longitude=float(np.radians(place.longitude)),
    )
    noon = np.reshape(sun.declination, (DAYS, HOURS_A_DAY))[:, HOURS_A_DAY // 2]
    tangent = np.tan(np.radians(place.latitude)) * np.tan(noon)
    return sun, np.asarray(np.arccos(np.clip(-tangent, -1.0, 1.0)) / np.pi * 86_400.0)


def _sky(place: MonthlyNormals, skies: Array) -> _Sky:
    from scipy.special import ndtr

    sun, light = _sun_of(place)
    before = extraterrestrial_normal(sun.distance)
    high = np.maximum(np.sin(sun.true_elevation), 0.0)
    energy = np.sum(np.reshape(before * high, (DAYS, HOURS_A_DAY)), axis=1)
    month = np.repeat(_clearness(place, light), np.diff(MONTH_ENDS))
    clearness = _kept(day_clearness(month, ndtr(skies)), month, energy)
    shares = _shares(sun, high)
    total = np.repeat(clearness * energy, HOURS_A_DAY) * shares
    top = clear_sky(path_of(sun).zenith, before, pressure=float(standard_pressure(place.elevation)))
    held = np.minimum(total, BRIGHTEST * top.global_horizontal + 5.0 * (high > 0.0))
    return _Sky(
        sun=sun,
        light=light,
        clearness=clearness,
        relative=clearness / month,
        split=erbs_split(held, path_of(sun).zenith, before),
    )


def _kept(drawn: Array, month: Array, energy: Array) -> Array:
    """The drawn clearness, each month scaled to its own; where the sun is, by its energy."""
    weight = np.maximum(energy, SMALL_LIGHT)
    for _ in range(ROUNDS):
        due, got = _by_month(month * weight, np.sum), _by_month(drawn * weight, np.sum)
        drawn = np.clip(drawn * np.repeat(due / got, np.diff(MONTH_ENDS)), 0.02, 0.85)
    return drawn


def _shares(sun: SunPosition, high: Array) -> Array:
    """Share of the day's sunshine in each hour; the sun's height stands for the half-day's cosines."""
    shift = np.sin(np.repeat(_half_day(high, sun), HOURS_A_DAY) - np.pi / 3.0)
    weight = high * ((0.409 + 0.5016 * shift) + (0.6609 - 0.4767 * shift) * np.cos(sun.hour_angle))
    sums = np.repeat(np.sum(np.reshape(weight, (DAYS, HOURS_A_DAY)), axis=1), HOURS_A_DAY)
    return np.asarray(weight / np.maximum(sums, TINY))


def _half_day(high: Array, sun: SunPosition) -> Array:
    """Hour angle of sunset of each day."""
    up = np.where(high > 0.0, np.abs(sun.hour_angle), 0.0)
    return np.asarray(np.max(np.reshape(up, (DAYS, HOURS_A_DAY)), axis=1))


# ---------------------------------------------------------------- temperature
def _remembering(fresh: Array, likeness: float) -> Array:
    """Standard normal numbers of which each is like the one before; the last runs into the first."""
    # A plain loop: the library of signals takes a hundred times as long to load as this takes to run.
    new = np.sqrt(1.0 - likeness**2) * np.concatenate([fresh, fresh])
    made, last = np.zeros(new.size), 0.0
    for place, value in enumerate(new.tolist()):
        last = value + likeness * last
        made[place] = last
    return made[fresh.size :]


def _days(place: MonthlyNormals, scatter: Array) -> Array:
    """Daily means with the months' means and the scatter of their days."""
    course = daily_means(place.mean)
    due = np.array(place.daily_spread if place.daily_spread is not None else (USUAL_SPREAD,) * MONTHS)
    strength = due.copy()
    days = course
    for _ in range(ROUNDS):
        drawn = scatter * np.maximum(daily_means(strength), 0.0)
        days = course + drawn - daily_means(_by_month(drawn, np.mean))
        strength = np.minimum(strength * due / _by_month(days, np.std), BRACKET)
    return days


def _course(place: MonthlyNormals, sky: _Sky) -> Array:
    """What the hours of a day differ from its mean: more on clear days, nothing without a sun."""
    wide = np.repeat(np.array(place.maximum) - np.array(place.minimum), np.diff(MONTH_ENDS)) / SHAPE_RANGE
    sunny = np.minimum(sky.light / SHORT_DAY, 1.0) * (0.5 + 0.5 * sky.relative)
    shape = diurnal_shape(np.arange(HOURS_A_DAY) + 0.5)
    return np.ravel((wide * sunny)[:, None] * shape)


def _by_month(days: Array, how: Callable[[Array], object]) -> Array:
    return np.array([how(part) for part in np.split(days, MONTH_ENDS[1:-1])], dtype=float)


# ---------------------------------------------------------------- damp, wind, snow
def _dew_point(place: MonthlyNormals, smooth: Array, temperature: Array) -> Array:
    """Each month's own distance under the day's mean, never over the air itself."""
    due = _vapour(place)
    below = np.array(place.mean) - dew_point_of(due)
    hours_of = np.diff(MONTH_ENDS) * HOURS_A_DAY
    dew = np.minimum(smooth - np.repeat(below, hours_of), temperature)
    for _ in range(ROUNDS):
        pressure = vapour_pressure_at(dew)
        got = np.array([np.mean(part) for part in np.split(pressure, MONTH_ENDS[1:-1] * HOURS_A_DAY)])
        scaled = pressure * np.repeat(due / got, hours_of)
        dew = np.minimum(dew_point_of(scaled), temperature)
    return dew


def _vapour(place: MonthlyNormals) -> Array:
    """Vapour pressure of each month: as given, by the humidity, or as if nights reached the dew point."""
    if place.vapour_pressure is not None:
        return np.array(place.vapour_pressure)
    if place.humidity is not None:
        return np.asarray(np.array(place.humidity) * vapour_pressure_at(place.mean))
    return vapour_pressure_at(place.minimum)


def _wind(gusts: Array, mean: float) -> Array:
    from scipy.special import log_ndtr

    drawn = np.sqrt(-log_ndtr(-gusts))
    return np.asarray(mean * drawn / np.mean(drawn))


def _snow(place: MonthlyNormals, days: Array) -> tuple[Array, Array]:
    """Share of white ground and depth of snow, day by day."""
    lengths = np.diff(MONTH_ENDS)
    fall = np.repeat(np.array(place.precipitation) / lengths, lengths)
    pack = snow_pack(days, fall)
    depth = snow_depth_of(pack)
    white = pack > WHITE if place.snow_days is None else _whitest(pack, days, place.snow_days)
    return white.astype(float), np.where(white, np.maximum(depth, THINNEST), 0.0)


def _whitest(pack: Array, days: Array, known: tuple[float, ...]) -> NDArray[np.bool_]:
    """As many white days as are known in each month: those with most snow, then the coldest."""
    white = np.zeros(DAYS, dtype=bool)
    for start, end, number in zip(MONTH_ENDS[:-1], MONTH_ENDS[1:], known, strict=True):
        order = np.lexsort((days[start:end], -pack[start:end]))
        white[start + order[: round(min(number, float(end - start)))]] = True
    return white
