"""Which kind of weather file a text is, and its lines taken apart."""

from __future__ import annotations

import csv
import re
from typing import TYPE_CHECKING

import numpy as np

from bermwright.formats.weather.hours import Rows, Station, WeatherFileError, in_order, year_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from bermwright.handbook.weather import WeatherYear

EPW_HEAD, EPW_FIELDS = 8, 30
EPW_COLUMNS = (
    # name, column, mark of a gap (values from it on), factor to SI, offset
    ("temperature", 6, 99.9, 1.0), ("dew_point", 7, 99.9, 1.0), ("humidity", 8, 999.0, 0.01),
    ("pressure", 9, 999_999.0, 1.0), ("infrared", 12, 9999.0, 1.0), ("global_horizontal", 13, 9999.0, 1.0),
    ("direct_normal", 14, 9999.0, 1.0), ("diffuse_horizontal", 15, 9999.0, 1.0), ("wind", 21, 999.0, 1.0),
    ("cloud", 23, 99.0, 0.1), ("snow_depth", 30, 999.0, 0.01), ("albedo", 32, 0.99, 1.0),
)  # fmt: skip
"""Columns of the EnergyPlus weather format; the first two rows of the table are °C and stay so."""
TMY3_COLUMNS = (
    ("temperature", "Dry-bulb (C)", 1.0), ("dew_point", "Dew-point (C)", 1.0), ("humidity", "RHum (%)", 0.01),
    ("pressure", "Pressure (mbar)", 100.0), ("global_horizontal", "GHI (W/m^2)", 1.0),
    ("direct_normal", "DNI (W/m^2)", 1.0), ("diffuse_horizontal", "DHI (W/m^2)", 1.0),
    ("wind", "Wspd (m/s)", 1.0), ("cloud", "OpqCld (tenths)", 0.1), ("albedo", "Alb (unitless)", 1.0),
)  # fmt: skip
TMY3_GAP = -99.0
"""TMY3 marks gaps by -9900, -999 or -99; no true value of these columns lies so low."""
PLAIN_COLUMNS: Mapping[str, tuple[str, float]] = {
    "temperature_degC": ("temperature", 1.0),
    "dew_point_degC": ("dew_point", 1.0),
    "humidity_pct": ("humidity", 0.01),
    "pressure_hPa": ("pressure", 100.0),
    "global_W_m2": ("global_horizontal", 1.0),
    "direct_normal_W_m2": ("direct_normal", 1.0),
    "diffuse_W_m2": ("diffuse_horizontal", 1.0),
    "infrared_W_m2": ("infrared", 1.0),
    "wind_m_s": ("wind", 1.0),
    "cloud_tenths": ("cloud", 0.1),
    "snow_depth_cm": ("snow_depth", 0.01),
}
"""Columns of the plain CSV, by what stands over them."""
PLAIN_HEAD = ("latitude_deg", "longitude_deg", "zone_h", "altitude_m")


def read_weather(text: str, name: str) -> WeatherYear:
    """A weather file's text as a year of 8760 hours; `name` is what messages call it.

    Raises `WeatherFileError` for anything that is no whole year.
    """
    lines = text.removeprefix("\ufeff").splitlines()
    if not any(line.strip() for line in lines):
        raise WeatherFileError(f"{name}: the file is empty.")
    if lines[0].upper().startswith("LOCATION,"):
        return _epw(lines, name)
    if len(lines) > 1 and lines[1].startswith("Date (MM/DD/YYYY)"):
        return _tmy3(lines, name)
    if any(line.startswith("month,day,hour") for line in lines):
        return _plain(lines, name)
    raise WeatherFileError(
        f"{name}: this is no EPW file (LOCATION, first), no TMY3 file and no plain CSV with a line "
        "month,day,hour,temperature_degC,... (docs/theory/weather.md shows one)."
    )


def _numbers(name: str, line: int, cells: Sequence[str]) -> list[float]:
    try:
        return [float(cell) if cell.strip() else np.nan for cell in cells]
    except ValueError:
        bad = next(cell for cell in cells if cell.strip() and not _is_number(cell))
        raise WeatherFileError(
            f'{name}: line {line} has "{bad.strip()[:30]}" where a number is due.'
        ) from None


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True


def _station(name: str, place: str, kind: str, given: Sequence[str]) -> Station:
    """Latitude, longitude, zone and altitude, as they stand in the head."""
    latitude, longitude, zone, altitude = _numbers(name, 1, given)
    limits = ((latitude, 90.0, "latitude"), (longitude, 180.0, "longitude"), (zone, 14.0, "time zone"))
    for value, most, what in limits:
        if not abs(value) <= most:
            raise WeatherFileError(f"{name}: the {what} in its head is {value:g}.")
    if not -500.0 <= altitude <= 9000.0:
        raise WeatherFileError(f"{name}: the altitude in its head is {altitude:g} m.")
    return Station(
        place=place.strip()[:80] or "a place without a name",
        latitude=latitude,
        longitude=longitude,
        zone=zone,
        altitude=altitude,
        kind=kind,
    )


# ---------------------------------------------------------------- EPW
def _epw(lines: Sequence[str], name: str) -> WeatherYear:
    head = next(csv.reader([lines[0]]))
    if len(head) < 10:
        raise WeatherFileError(f"{name}: the LOCATION line has {len(head)} of 10 fields.")
    station = _station(name, head[1], "EPW file", (head[6], head[7], head[8], head[9]))
    _once_an_hour(lines, name)
    rows = Rows(name=name)
    for number, cells in _data(lines, EPW_HEAD):
        if len(cells) < EPW_FIELDS:
            raise WeatherFileError(f"{name}: line {number} has {len(cells)} fields; an EPW line has 35.")
        when = _numbers(name, number, cells[1:4])
        rows.add(_moment(name, number, when), _epw_values(name, number, cells))
    columns, said = in_order(rows, [column[0] for column in EPW_COLUMNS])
    return year_of(station, name, columns, said)


def _epw_values(name: str, number: int, cells: Sequence[str]) -> list[float]:
    found = []
    for _, column, gap, factor in EPW_COLUMNS:
        value = _numbers(name, number, cells[column : column + 1])[0] if column < len(cells) else np.nan
        # An albedo of 0.99 marks a gap, and so does 999 in it.
        found.append(np.nan if not value < gap else value * factor)
    return found


def _once_an_hour(lines: Sequence[str], name: str) -> None:
    periods = next((line for line in lines[:EPW_HEAD] if line.upper().startswith("DATA PERIODS")), "")
    cells = periods.split(",")
    if len(cells) > 2 and cells[2].strip() not in {"1", ""}:
        raise WeatherFileError(
            f"{name}: it has {cells[2].strip()} values an hour. Average them to hours first."
        )


def _data(lines: Sequence[str], head: int) -> Iterator[tuple[int, list[str]]]:
    for number, line in enumerate(lines[head:], start=head + 1):
        if line.strip():
            yield number, next(csv.reader([line]))


def _moment(name: str, number: int, when: Sequence[float]) -> tuple[int, int, int]:
    if not all(np.isfinite(part) and float(part).is_integer() for part in when):
        raise WeatherFileError(f"{name}: line {number} has no whole month, day and hour.")
    month, day, hour = (int(part) for part in when)
    return month, day, hour


# ---------------------------------------------------------------- TMY3
def _tmy3(lines: Sequence[str], name: str) -> WeatherYear:
    head = next(csv.reader([lines[0]]))
    if len(head) < 7:
        raise WeatherFileError(f"{name}: the first line has {len(head)} of the seven fields of TMY3.")
    station = _station(name, head[1].title(), "TMY3 file", (head[4], head[5], head[3], head[6]))
    titles = next(csv.reader([lines[1]]))
    places = [titles.index(title) if title in titles else -1 for _, title, _ in TMY3_COLUMNS]
    rows = Rows(name=name)
    for number, cells in _data(lines, 2):
        match = re.fullmatch(r"(\d\d)/(\d\d)/\d{4}", cells[0])
        clock = re.fullmatch(r"(\d\d):(\d\d)", cells[1]) if len(cells) > 1 else None
        if not match or not clock or clock[2] != "00":
            raise WeatherFileError(f"{name}: line {number} does not begin with MM/DD/YYYY,HH:00.")
        rows.add((int(match[1]), int(match[2]), int(clock[1])), _tmy3_values(name, number, cells, places))
    columns, said = in_order(rows, [column[0] for column in TMY3_COLUMNS])
    return year_of(station, name, columns, said)


def _tmy3_values(name: str, number: int, cells: Sequence[str], places: Sequence[int]) -> list[float]:
    found = []
    for (what, _, factor), place in zip(TMY3_COLUMNS, places, strict=True):
        value = _numbers(name, number, cells[place : place + 1])[0] if 0 <= place < len(cells) else np.nan
        gap = not value > TMY3_GAP or (what == "albedo" and value < 0.0)
        found.append(np.nan if gap else value * factor)
    return found


# ---------------------------------------------------------------- plain CSV
def _plain(lines: Sequence[str], name: str) -> WeatherYear:
    start = next(number for number, line in enumerate(lines) if line.startswith("month,day,hour"))
    head = _plain_head(lines[:start])
    lacking = [key for key in PLAIN_HEAD if key not in head]
    if lacking:
        raise WeatherFileError(f'{name}: the head lacks a line such as "# {lacking[0]} = 62.9".')
    station = _station(name, head.get("place", ""), "plain weather file", [head[key] for key in PLAIN_HEAD])
    titles = [title.strip() for title in lines[start].split(",")]
    unknown = [title for title in titles[3:] if title not in PLAIN_COLUMNS]
    if unknown:
        raise WeatherFileError(
            f'{name}: no column is called "{unknown[0]}". Known: {", ".join(PLAIN_COLUMNS)}.'
        )
    rows = Rows(name=name)
    factors = [PLAIN_COLUMNS[title][1] for title in titles[3:]]
    for number, cells in _data(lines, start + 1):
        if len(cells) != len(titles):
            raise WeatherFileError(f"{name}: line {number} has {len(cells)} of {len(titles)} values.")
        numbers = _numbers(name, number, cells)
        values = [value * factor for value, factor in zip(numbers[3:], factors, strict=True)]
        rows.add(_moment(name, number, numbers[:3]), values)
    columns, said = in_order(rows, [PLAIN_COLUMNS[title][0] for title in titles[3:]])
    return year_of(station, name, columns, said)


def _plain_head(lines: Sequence[str]) -> dict[str, str]:
    pairs = (line.lstrip("# ").partition("=") for line in lines if "=" in line)
    return {key.strip(): value.strip() for key, _, value in pairs}
