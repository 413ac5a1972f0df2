"""Rows of a weather file put in their hours: order, leap days, gaps, and what follows from what."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import BermwrightError, OutOfRangeError
from bermwright.base.wording import MONTH_NAMES
from bermwright.handbook.sun import SunPath, erbs_split, sun_path
from bermwright.handbook.weather import (
    WeatherYear,
    dew_point_of,
    sky_temperature,
    standard_pressure,
    vapour_pressure_at,
)
from bermwright.handbook.weather.seasons import MONTH_ENDS

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

HOURS, HOURS_A_DAY = 8760, 24
LONGEST_GAP = 6
"""Hours that are bridged by a straight line."""
STEFAN_BOLTZMANN = 5.670374e-8
KELVIN = 273.15
BARE, WHITE = 0.2, 0.7
"""Albedo of bare and of snow-covered ground."""
DEEP_ENOUGH = 0.02
"""Depth of snow from which the ground is white (m)."""
DEEP_NIGHT = np.radians(-8.0)
NIGHT_SUN = 0.005
"""Share of the year's sunshine that may fall in the deep night before the clock is doubted."""
CLOCK_OFF = 0.7
"""Hours by which the middle of the sunshine may miss the noon before the clock is doubted."""


class WeatherFileError(BermwrightError):
    """A weather file that cannot be used; the message says why and what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """The head of a weather file."""

    place: str
    latitude: float
    """Degrees, north positive."""
    longitude: float
    """Degrees, east positive."""
    zone: float
    """Hours east of Greenwich, standard time."""
    altitude: float
    """m."""
    kind: str
    """What the file is, in words."""


@dataclass(slots=True)
class Rows:
    """What was read so far: one entry for each hour of the file, NaN where it has a gap."""

    name: str
    months: list[int] = field(default_factory=list)
    days: list[int] = field(default_factory=list)
    hours: list[int] = field(default_factory=list)
    """1 to 24: the hour that ends then."""
    values: list[Sequence[float]] = field(default_factory=list)

    def add(self, when: tuple[int, int, int], values: Sequence[float]) -> None:
        """One line of the file."""
        self.months.append(when[0])
        self.days.append(when[1])
        self.hours.append(when[2])
        self.values.append(values)


def in_order(rows: Rows, columns: Sequence[str]) -> tuple[dict[str, Array], list[str]]:
    """The columns over 8760 hours, and what was done to them."""
    table = np.array(rows.values, dtype=float).reshape(len(rows.values), -1)
    leap = np.array([month == 2 and day == 29 for month, day in zip(rows.months, rows.days, strict=True)])
    said = ["29 February is left out"] if leap.any() else []
    places = np.array([_place(rows, int(line)) for line in np.flatnonzero(~leap)], dtype=np.int_)
    _complete(rows.name, places)
    kept = table[~leap]
    return {name: kept[:, column] for column, name in enumerate(columns)}, said


def _place(rows: Rows, line: int) -> int:
    month, day, hour = rows.months[line], rows.days[line], rows.hours[line]
    if not 1 <= month <= len(MONTH_NAMES) or not 1 <= day <= MONTH_ENDS[month] - MONTH_ENDS[month - 1]:
        raise WeatherFileError(f"{rows.name}: hour number {line + 1} has no true date ({month}/{day}).")
    if not 1 <= hour <= HOURS_A_DAY:
        raise WeatherFileError(
            f"{rows.name}: hour number {line + 1} is hour {hour}. Hours are named by their end, 1 to 24; "
            "if yours begin with 0, add 1 to each."
        )
    return int((MONTH_ENDS[month - 1] + day - 1) * HOURS_A_DAY + hour - 1)


def _complete(name: str, places: NDArray[np.int_]) -> None:
    missing = np.setdiff1d(np.arange(HOURS), places)
    if missing.size:
        raise WeatherFileError(
            f"{name}: {missing.size} of {HOURS} hours are missing, the first is {_when(int(missing[0]))}. "
            "Get a whole year."
        )
    if places.size > HOURS:
        twice = places[np.flatnonzero(np.diff(np.sort(places)) == 0)[0]]
        raise WeatherFileError(
            f"{name}: {places.size} hours, but an ordinary year has {HOURS}; some stand there twice "
            f"(look near {_when(int(twice))}). Values for parts of hours must be averaged first."
        )
    if np.any(np.diff(places) < 0):
        at = int(places[np.flatnonzero(np.diff(places) < 0)[0] + 1])
        raise WeatherFileError(f"{name}: the hours are not in order; look near {_when(at)}.")


def _when(place: int) -> str:
    """An hour of the year in words."""
    day, hour = divmod(place, HOURS_A_DAY)
    month = int(np.searchsorted(MONTH_ENDS, day, side="right"))
    return f"{day - MONTH_ENDS[month - 1] + 1} {MONTH_NAMES[month - 1]}, {hour:02d}:00 to {hour + 1:02d}:00"


def bridged(name: str, what: str, row: Array, said: list[str]) -> Array:
    """Short gaps closed by straight lines; a long one is an error."""
    known = np.isfinite(row)
    if known.all():
        return row
    longest, start = _longest_gap(~known)
    if longest > LONGEST_GAP:
        raise WeatherFileError(
            f"{name}: {what} has a gap of {longest} hours from {_when(start)}; {LONGEST_GAP} can be bridged. "
            "Get a file without it."
        )
    said.append(f"{int(np.sum(~known))} missing hours of {what} are bridged")
    at = np.arange(row.size)
    return np.interp(at, at[known], row[known], period=row.size)


def _longest_gap(gaps: NDArray[np.bool_]) -> tuple[int, int]:
    """Length and start of the longest run."""
    edges = np.diff(np.concatenate([[0], gaps.astype(int), [0]]))
    starts, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
    longest = int(np.argmax(ends - starts))
    return int(ends[longest] - starts[longest]), int(starts[longest])


def year_of(station: Station, name: str, columns: Mapping[str, Array], said: list[str]) -> WeatherYear:
    """The whole year. `columns` in SI by the names of `WeatherYear`, and `humidity`, `cloud`, `albedo`."""
    try:
        return _year(station, name, columns, said)
    except OutOfRangeError as error:
        raise WeatherFileError(
            f"{name}: {error} Is it a slip of units, or a mark for a gap that was not known?"
        ) from error


def _year(station: Station, name: str, columns: Mapping[str, Array], said: list[str]) -> WeatherYear:
    path = sun_path(
        float(np.radians(station.latitude)), float(np.radians(station.longitude)), zone=station.zone * 3600.0
    )
    temperature = bridged(name, "the temperature", _due(name, columns, "temperature"), said)
    dew_point = np.minimum(_dew_point(name, columns, temperature, said), temperature)
    total, beam, sky = _sunshine(name, columns, path, said)
    _clock(name, total, path, station)
    depth, cover = _snow(columns, said)
    wind = columns.get("wind")
    if wind is None:
        raise WeatherFileError(f"{name}: there is no wind in it. Add a column, or take monthly normals.")
    pressure = _pressure(name, columns, station.altitude, said)
    sky_cold = _sky(columns, temperature, dew_point, said)
    blown = bridged(name, "the wind", wind, said)
    return WeatherYear(
        place=station.place,
        source=". ".join([f"{station.kind} of {station.place}", *said]),
        made=False,
        latitude=float(np.radians(station.latitude)),
        longitude=float(np.radians(station.longitude)),
        altitude=station.altitude,
        zone=station.zone * 3600.0,
        temperature=temperature,
        dew_point=dew_point,
        global_horizontal=total,
        direct_normal=beam,
        diffuse_horizontal=sky,
        wind=blown,
        pressure=pressure,
        sky_temperature=sky_cold,
        snow_cover=cover,
        snow_depth=depth,
    )


def _due(name: str, columns: Mapping[str, Array], what: str) -> Array:
    if what not in columns:
        raise WeatherFileError(f"{name}: there is no {what.replace('_', ' ')} in it.")
    return columns[what]


def _usable(columns: Mapping[str, Array], what: str) -> Array | None:
    """A column that has more values than gaps."""
    row = columns.get(what)
    return row if row is not None and np.mean(np.isfinite(row)) > 0.5 else None


def _dew_point(name: str, columns: Mapping[str, Array], temperature: Array, said: list[str]) -> Array:
    dew = _usable(columns, "dew_point")
    if dew is not None:
        return bridged(name, "the dew point", dew, said)
    humidity = _usable(columns, "humidity")
    if humidity is None:
        raise WeatherFileError(f"{name}: neither a dew point nor a relative humidity is in it.")
    damp = np.clip(bridged(name, "the humidity", humidity, said), 0.01, 1.0)
    return dew_point_of(damp * vapour_pressure_at(temperature))


def _sunshine(
    name: str, columns: Mapping[str, Array], path: SunPath, said: list[str]
) -> tuple[Array, Array, Array]:
    beam, sky = _usable(columns, "direct_normal"), _usable(columns, "diffuse_horizontal")
    total = _usable(columns, "global_horizontal")
    high = np.maximum(np.sin(path.elevation), 0.0)
    if beam is not None and sky is not None:
        beam = bridged(name, "the beam of the sun", beam, said)
        sky = bridged(name, "the light of the sky", sky, said)
        total = beam * high + sky if total is None else bridged(name, "the sunshine", total, said)
        return total, beam, sky
    if total is None:
        raise WeatherFileError(
            f"{name}: there is no sunshine in it. Global irradiance on level ground is the least."
        )
    total = bridged(name, "the sunshine", total, said)
    said.append("beam and sky are told apart by the clearness of each hour (Erbs 1982)")
    split = erbs_split(total, path.zenith, path.extraterrestrial)
    return total, np.minimum(split.direct_normal, path.extraterrestrial), split.diffuse_horizontal


def _clock(name: str, total: Array, path: SunPath, station: Station) -> None:
    """Sunshine in the night, or a noon that is not at noon."""
    year = float(np.sum(total))
    if year <= 0.0:
        raise WeatherFileError(f"{name}: the sun never shines in it.")
    night = float(np.sum(total[path.elevation < DEEP_NIGHT])) / year
    if night > NIGHT_SUN:
        raise WeatherFileError(
            f"{name}: {night:.0%} of the sunshine falls in the night of that place. Look at the signs of "
            "latitude and longitude, at the time zone, and whether the months are in order."
        )
    clock = np.arange(HOURS) % HOURS_A_DAY + 0.5 - station.zone + station.longitude / 15.0
    from_noon = clock % HOURS_A_DAY - 0.5 * HOURS_A_DAY
    hours = float(np.sum(total * from_noon)) / year
    if abs(hours) > CLOCK_OFF:
        side = "before" if hours < 0.0 else "after"
        raise WeatherFileError(
            f"{name}: the middle of the sunshine lies {abs(hours):.1f} h {side} noon. Hours are named by "
            "their end, in standard time without summer time."
        )


def _pressure(name: str, columns: Mapping[str, Array], altitude: float, said: list[str]) -> Array:
    row = _usable(columns, "pressure")
    if row is None:
        said.append("the pressure is that of the standard atmosphere")
        return np.full(HOURS, float(standard_pressure(altitude)))
    return bridged(name, "the pressure", row, said)


def _sky(columns: Mapping[str, Array], temperature: Array, dew_point: Array, said: list[str]) -> Array:
    infrared = _usable(columns, "infrared")
    if infrared is not None and np.isfinite(infrared).all() and np.min(infrared) > 0.0:
        return (infrared / STEFAN_BOLTZMANN) ** 0.25 - KELVIN
    cloud = _usable(columns, "cloud")
    if cloud is None:
        said.append("the long-wave sky is that of half a cover of cloud")
        cloud = np.full(HOURS, 0.5)
    return sky_temperature(
        temperature, dew_point, np.clip(np.where(np.isfinite(cloud), cloud, 0.5), 0.0, 1.0)
    )


def _snow(columns: Mapping[str, Array], said: list[str]) -> tuple[Array, Array]:
    depth = _usable(columns, "snow_depth")
    if depth is not None:
        held = np.where(np.isfinite(depth), depth, 0.0)
        return held, (held >= DEEP_ENOUGH).astype(float)
    albedo = _usable(columns, "albedo")
    if albedo is not None:
        known = np.where(np.isfinite(albedo), albedo, BARE)
        said.append("no depth of snow: it is not counted as insulation")
        return np.zeros(HOURS), np.clip((known - BARE) / (WHITE - BARE), 0.0, 1.0)
    said.append("no snow in the file: the ground counts as bare")
    return np.zeros(HOURS), np.zeros(HOURS)
