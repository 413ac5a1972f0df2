"""Where the sun stands: series of the Earth's path, nutation, parallax and refraction.

Azimuth counts from north clockwise. All angles in rad, all times in days unless named.
"""

from __future__ import annotations

from dataclasses import astuple, dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.data import sun_series

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

FIRST_DAY, LAST_DAY = 990_558.0, 3_912_880.0
"""Julian days of the years -2000 and 6000, between which the series hold."""
EPOCH = 2_451_545.0
"""Julian day of 1 January 2000, noon."""
CENTURY = 36_525.0
DAY = 86_400.0
TURN = 2.0 * np.pi
ARCSECOND = np.pi / 648_000.0
FLATTENING = 0.99664719
"""Polar over equatorial radius of the Earth."""
EQUATOR = 6_378_140.0
"""Radius of the Earth at the equator (m)."""
CROWDED_SAMPLES = 4
"""Moments a day from which the series are not summed for each of them."""
TERRESTRIAL_DELAY = 69.0
"""Terrestrial time less universal time in the years about 2020 (s)."""
SEEN_AT = np.radians(0.26667 + 0.5667)
"""How far below the horizon the middle of the sun is when its upper edge is seen to rise (rad)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SunPosition:
    """Where the sun stands at some moments; every entry is an array."""

    elevation: Array
    """Over the level horizon as seen, refraction included (rad)."""
    true_elevation: Array
    """Without refraction (rad)."""
    azimuth: Array
    """From north clockwise (rad)."""
    declination: Array
    """Geocentric (rad)."""
    hour_angle: Array
    """From noon, afternoon positive (rad)."""
    distance: Array
    """To the Earth (astronomical units)."""
    equation_of_time: Array
    """Solar less clock time (s)."""

    @property
    def zenith(self) -> Array:
        """From straight up, as seen (rad)."""
        return np.asarray(0.5 * np.pi - self.elevation)


@dataclass(frozen=True, slots=True)
class _Heaven:
    """The sun seen from the middle of the Earth."""

    longitude: Array
    latitude: Array
    distance: Array
    obliquity: Array
    nodding: Array
    """Nutation in longitude (rad)."""
    mean_longitude: Array


def julian_day(year: int, hour: ArrayLike) -> Array:
    """Julian day of an hour of a year.

    J = 2451544.5 + 365·y + leap days before the year + h/24, y = year − 2000

    Parameters
    ----------
    year : int
        Year of the Gregorian calendar, from 1600 to 2399.
    hour : float or array
        Hours since 1 January 0:00 universal time [h].

    Returns
    -------
    float or array
        Julian day [d].

    References
    ----------
    [REDA2004] : 3.1, Julian day.

    Examples
    --------
    >>> float(julian_day(2000, 12.0))
    2451545.0
    """
    within("year", year, 1600, 2399)
    within("hour", hour)
    before = year - 1
    leaps = before // 4 - before // 100 + before // 400 - (1999 // 4 - 1999 // 100 + 1999 // 400)
    start = EPOCH - 0.5 + 365 * (year - 2000) + leaps
    return np.asarray(start + np.asarray(hour, dtype=float) / 24.0)


def sun_position(
    day: ArrayLike,
    latitude: float,
    *,
    longitude: float,
    altitude: float = 0.0,
    pressure: float = 101_000.0,
    temperature: float = 10.0,
    delay: float = TERRESTRIAL_DELAY,
) -> SunPosition:
    """Position of the sun.

    sin e = sin φ·sin δ + cos φ·cos δ·cos H, with δ and H seen from the surface; refraction added

    Parameters
    ----------
    day : float or array
        Julian day, universal time [d], years -2000 to 6000.
    latitude : float
        Latitude, north positive, φ [rad], from -π/2 to π/2.
    longitude : float
        Longitude, east positive [rad], from -2π to 2π.
    altitude : float
        Height above the sea [m], from -500 to 9000.
    pressure : float
        Pressure of the air, for refraction [Pa], from 0 to 120000.
    temperature : float
        Temperature of the air, for refraction [°C], from -90 to 60.
    delay : float
        Terrestrial less universal time [s].

    Returns
    -------
    SunPosition
        Elevation, azimuth, declination, hour angle [rad], distance [-], equation of time [s].

    Notes
    -----
    The authors state ±0.0003° between the years -2000 and 6000. Refraction near the horizon changes with
    the weather by more than that.

    References
    ----------
    [REDA2004] : 3.1 to 3.14 and A.1.
    """
    within("Julian day", day, FIRST_DAY, LAST_DAY, unit="d")
    within("delay", delay, -1e5, 1e5, unit="s")
    moment = np.asarray(day, dtype=float)
    heaven = _heaven_of(moment + delay / DAY)
    return _seen(moment, heaven, latitude, longitude, (altitude, pressure, temperature))


def _seen(
    day: Array, heaven: _Heaven, latitude: float, longitude: float, air: tuple[float, float, float]
) -> SunPosition:
    altitude, pressure, temperature = air
    within("latitude", latitude, -0.5 * np.pi, 0.5 * np.pi, unit="rad")
    within("longitude", longitude, -TURN, TURN, unit="rad")
    within("altitude", altitude, -500.0, 9000.0, unit="m")
    ascension, declination = _equatorial(heaven)
    turned = heaven.nodding * np.cos(heaven.obliquity)
    hour_angle = _sidereal(day) + turned + longitude - ascension
    shift, seen_declination = _parallax(heaven.distance, declination, hour_angle, latitude, altitude)
    local = hour_angle - shift
    true = np.arcsin(
        np.sin(latitude) * np.sin(seen_declination)
        + np.cos(latitude) * np.cos(seen_declination) * np.cos(local)
    )
    azimuth = np.pi + np.arctan2(
        np.sin(local), np.cos(local) * np.sin(latitude) - np.tan(seen_declination) * np.cos(latitude)
    )
    return SunPosition(
        elevation=np.asarray(true + refraction(true, pressure=pressure, temperature=temperature)),
        true_elevation=np.asarray(true),
        azimuth=np.asarray(azimuth % TURN),
        declination=declination,
        hour_angle=_about_zero(local),
        distance=heaven.distance,
        equation_of_time=_about_zero(heaven.mean_longitude - ascension + turned) * DAY / TURN,
    )


def refraction(elevation: ArrayLike, *, pressure: float = 101_000.0, temperature: float = 10.0) -> Array:
    """How much the air lifts the sun.

    Δe = p/1010 · 283/(273 + t) · 1.02'/tan(e + 10.3/(e + 5.11)), p in hPa, e in degrees

    Parameters
    ----------
    elevation : float or array
        Elevation without air, e [rad], from -π/2 to π/2.
    pressure : float
        Pressure of the air, p [Pa], from 0 to 120000.
    temperature : float
        Temperature of the air, t [°C], from -90 to 60.

    Returns
    -------
    float or array
        Lift [rad]; nothing while the upper edge of the sun is below the horizon.

    References
    ----------
    [REDA2004] : equation 42.

    Examples
    --------
    >>> round(float(refraction(0.6959, pressure=82000.0, temperature=11.0)), 6)
    0.000285
    """
    within("elevation", elevation, -0.5 * np.pi, 0.5 * np.pi, unit="rad")
    within("pressure", pressure, 0.0, 120_000.0, unit="Pa")
    within("temperature", temperature, -90.0, 60.0, unit="°C")
    true = np.asarray(elevation, dtype=float)
    degrees = np.degrees(np.maximum(true, -SEEN_AT))
    air = pressure / 101_000.0 * 283.0 / (273.0 + temperature)
    lift = air * 1.02 / (60.0 * np.tan(np.radians(degrees + 10.3 / (degrees + 5.11))))
    return np.asarray(np.where(true >= -SEEN_AT, np.radians(lift), 0.0))


def _heaven_of(day: Array) -> _Heaven:
    """Of many moments in few days the series are summed once a day; between, cubics err under 1e-8 rad."""
    first_node, last_node = np.floor(np.min(day)) - 1.0, np.floor(np.max(day)) + 2.0
    nodes = np.arange(first_node, last_node + 1.0)
    if day.size < CROWDED_SAMPLES * nodes.size:
        return _heaven(day)
    rows = astuple(_heaven(nodes))
    step_index = np.floor(day - first_node).astype(int)
    u = day - first_node - step_index
    weights = (
        -u * (u - 1.0) * (u - 2.0) / 6.0,
        (u + 1.0) * (u - 1.0) * (u - 2.0) / 2.0,
        -(u + 1.0) * u * (u - 2.0) / 2.0,
        (u + 1.0) * u * (u - 1.0) / 6.0,
    )
    return _Heaven(*(sum(w * row[step_index + k - 1] for k, w in enumerate(weights)) for row in rows))


def _heaven(day: Array) -> _Heaven:
    """`day` in terrestrial time."""
    century = (day - EPOCH) / CENTURY
    millennium = century / 10.0
    distance = _path(sun_series.DISTANCE, millennium)
    nodding, tilting = _nutation(century)
    aberration = 20.4898 * ARCSECOND / distance
    return _Heaven(
        longitude=_path(sun_series.LONGITUDE, millennium) + np.pi + nodding - aberration,
        latitude=-_path(sun_series.LATITUDE, millennium),
        distance=distance,
        obliquity=_polynomial(sun_series.OBLIQUITY, millennium / 10.0) * ARCSECOND + tilting,
        nodding=nodding,
        mean_longitude=_mean_longitude(millennium),
    )


def _path(powers: Sequence[sun_series.Table], millennium: Array) -> Array:
    sums = [_waves(np.array(table), millennium) for table in powers]
    return _polynomial(sums, millennium) * 1e-8


def _waves(table: Array, millennium: Array) -> Array:
    amplitude, phase, rate = table.T
    return np.asarray(np.cos(phase + rate * millennium[..., None]) @ amplitude)


def _polynomial(factors: Sequence[float | Array], variable: Array) -> Array:
    total = np.zeros_like(variable)
    for factor in reversed(factors):
        total = total * variable + factor
    return total


def _nutation(century: Array) -> tuple[Array, Array]:
    """In longitude and obliquity (rad)."""
    arguments = np.stack([_polynomial(row, century) for row in sun_series.MOON_AND_SUN], axis=-1)
    angle = np.radians(arguments) @ np.array(sun_series.NUTATION_ARGUMENTS).T
    a, b, c, d = np.array(sun_series.NUTATION_AMPLITUDES).T
    grown = century[..., None]
    unit = 1e-4 * ARCSECOND
    longitude = np.sum((a + b * grown) * np.sin(angle), axis=-1) * unit
    obliquity = np.sum((c + d * grown) * np.cos(angle), axis=-1) * unit
    return longitude, obliquity


def _equatorial(heaven: _Heaven) -> tuple[Array, Array]:
    """Right ascension and declination."""
    sine, cosine = np.sin(heaven.obliquity), np.cos(heaven.obliquity)
    along = np.sin(heaven.longitude)
    ascension = np.arctan2(along * cosine - np.tan(heaven.latitude) * sine, np.cos(heaven.longitude))
    declination = np.arcsin(
        np.sin(heaven.latitude) * cosine + np.cos(heaven.latitude) * sine * along,
    )
    return ascension, declination


def _sidereal(day: Array) -> Array:
    start, turn, second, third = sun_series.SIDEREAL
    century = (day - EPOCH) / CENTURY
    # Whole turns are taken out first: 360 degrees a day would cost the last digits. The epoch is a whole day.
    whole = np.floor(day)
    spun = (turn - 360.0) * (day - EPOCH) + 360.0 * (day - whole)
    return np.asarray(np.radians(start + spun + second * century**2 + third * century**3))


def _mean_longitude(millennium: Array) -> Array:
    return np.asarray(np.radians(_polynomial(sun_series.MEAN_LONGITUDE, millennium) - 0.0057183))


def _parallax(
    distance: Array, declination: Array, hour_angle: Array, latitude: float, altitude: float
) -> tuple[Array, Array]:
    """Shift of the right ascension, and the declination, seen from the surface instead of the middle."""
    small = np.sin(8.794 * ARCSECOND / distance)
    reduced = np.arctan(FLATTENING * np.tan(latitude))
    outwards = np.cos(reduced) + altitude / EQUATOR * np.cos(latitude)
    upwards = FLATTENING * np.sin(reduced) + altitude / EQUATOR * np.sin(latitude)
    across = np.cos(declination) - outwards * small * np.cos(hour_angle)
    shift = np.arctan2(-outwards * small * np.sin(hour_angle), across)
    seen = np.arctan2((np.sin(declination) - upwards * small) * np.cos(shift), across)
    return shift, seen


def _about_zero(angle: Array) -> Array:
    """The same direction from -π to π."""
    return np.asarray((angle + np.pi) % TURN - np.pi)
