"""A year of weather by the hour: what every computation of heat and damp begins with."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.data.weather_limits import RANGES
from bermwright.handbook.sun import Split, SunPath, sun_path
from bermwright.handbook.weather.humidity import vapour_pressure_at
from bermwright.handbook.weather.seasons import MONTH_ENDS

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

HOURS = 8760
HOURS_A_DAY = 24


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WeatherYear:
    """An ordinary year of 8760 hours from 1 January 0:00 standard time, without gaps.

    Entry k of each row is the mean over the hour from k to k + 1. The arrays cannot be written to.
    """

    place: str
    source: str
    """Where it comes from, in words for the reader."""
    made: bool
    """Whether it was made from monthly normals instead of measured."""
    latitude: float
    """North positive (rad)."""
    longitude: float
    """East positive (rad)."""
    altitude: float
    """Above the sea (m)."""
    zone: float
    """Standard time less universal time (s); there is no summer time."""
    temperature: Array
    """°C."""
    dew_point: Array
    """°C, over water."""
    global_horizontal: Array
    """Sun and sky on level ground (W/m²)."""
    direct_normal: Array
    """Beam on a plane that faces the sun (W/m²)."""
    diffuse_horizontal: Array
    """Sky alone on level ground (W/m²)."""
    wind: Array
    """At 10 m over open ground (m/s)."""
    pressure: Array
    """Pa."""
    sky_temperature: Array
    """Of a black sky that sends down as much long-wave heat (°C)."""
    snow_cover: Array
    """Share of the ground that is white."""
    snow_depth: Array
    """m."""

    def __post_init__(self) -> None:
        within("latitude", self.latitude, -0.5 * np.pi, 0.5 * np.pi, unit="rad")
        within("longitude", self.longitude, -2.0 * np.pi, 2.0 * np.pi, unit="rad")
        within("altitude", self.altitude, -500.0, 9000.0, unit="m")
        within("zone", self.zone, -50_400.0, 50_400.0, unit="s")
        for field in fields(self):
            if field.name in RANGES:
                object.__setattr__(self, field.name, _row(field.name, getattr(self, field.name)))
        within(
            "dew point over the temperature of the air", self.dew_point - self.temperature, high=1.0, unit="K"
        )

    @property
    def vapour_pressure(self) -> Array:
        """Of the water in the air (Pa)."""
        return vapour_pressure_at(self.dew_point)

    @property
    def humidity(self) -> Array:
        """Relative humidity over water, at most 1 [-]."""
        return np.asarray(np.minimum(self.vapour_pressure / vapour_pressure_at(self.temperature), 1.0))

    @property
    def sunshine(self) -> Split:
        """Beam, sky and both, as the functions of the sun take them."""
        return Split(
            direct_normal=self.direct_normal,
            diffuse_horizontal=self.diffuse_horizontal,
            global_horizontal=self.global_horizontal,
        )

    @property
    def month(self) -> NDArray[np.int_]:
        """Month of each hour, January is 1."""
        return np.repeat(np.arange(1, 13), np.diff(MONTH_ENDS) * HOURS_A_DAY)

    @property
    def mean_temperature(self) -> float:
        """Mean of all hours (°C)."""
        return float(np.mean(self.temperature))

    def path(self) -> SunPath:
        """Path of the sun at the middle of each hour; keep it, it takes a while."""
        return sun_path(
            self.latitude,
            self.longitude,
            zone=self.zone,
            altitude=self.altitude,
            pressure=float(np.mean(self.pressure)),
        )


def daily(row: Array) -> Array:
    """Mean of each day.

    mean over 24 hours

    Parameters
    ----------
    row : array
        (8760,) hourly values [-], in any unit.

    Returns
    -------
    array
        (365,) daily means [-], in the same unit.

    References
    ----------
    [ISO15927] : part 1, means of single elements.
    """
    _full(row)
    return np.asarray(np.mean(np.reshape(row, (-1, HOURS_A_DAY)), axis=1))


def monthly(row: Array) -> Array:
    """Mean of each month.

    mean over the hours of the month

    Parameters
    ----------
    row : array
        (8760,) hourly values [-], in any unit.

    Returns
    -------
    array
        (12,) monthly means [-], in the same unit.

    References
    ----------
    [ISO15927] : part 1, means of single elements.
    """
    _full(row)
    sums = np.add.reduceat(np.asarray(row, dtype=float), MONTH_ENDS[:-1] * HOURS_A_DAY)
    return np.asarray(sums / (np.diff(MONTH_ENDS) * HOURS_A_DAY))


def _full(row: Array) -> None:
    if np.shape(row) != (HOURS,):
        raise OutOfRangeError(f"A year has {HOURS} hours; {np.size(row)} were given.")


def _row(name: str, given: Array) -> Array:
    row = np.array(given, dtype=float)
    _full(row)
    low, high, unit = RANGES[name]
    within(name.replace("_", " "), row, low, high, unit=unit)
    row.setflags(write=False)
    return row
