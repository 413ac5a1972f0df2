"""Position of the sun: the worked example of NREL/TP-560-34302, and the same series run in pvlib.

The rows at the far ends of the range (years -1974 and 5998) are there because the high powers of time and
the parallax of high southern places cannot be seen in the example.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.sun import PVLIB, REDA2004, SPENCER1971
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.sun import (
    SunDay,
    SunPath,
    SunPosition,
    declination,
    julian_day,
    path_of,
    refraction,
    sun_day,
    sun_path,
    sun_position,
)

if TYPE_CHECKING:
    from collections.abc import Callable

_EXAMPLE = Cite(work=REDA2004, place="worked example, table A5.1", provenance=Provenance.READ)
_RUN = Cite(work=PVLIB, place="spa.py, run for this moment", provenance=Provenance.READ)
_RAD = math.pi / 180.0
_GOLDEN = {
    "day": 2_452_930.312847222,
    "latitude": 39.742476 * _RAD,
    "longitude": -105.1786 * _RAD,
    "altitude": 1830.14,
    "pressure": 82_000.0,
    "temperature": 11.0,
    "delay": 67.0,
}
_SOUTH: dict[str, Any] = {"latitude": -62.0 * _RAD, "longitude": 140.0 * _RAD, "altitude": 0.0}
_LATE, _EARLY = 3_912_000.25, 1_000_000.75


def _elevation(result: SunPosition) -> float:
    return float(result.elevation) / _RAD


def _true(result: SunPosition) -> float:
    return float(result.true_elevation) / _RAD


def _zenith(result: SunPosition) -> float:
    return float(result.zenith) / _RAD


def _azimuth(result: SunPosition) -> float:
    return float(result.azimuth) / _RAD


def _declination(result: SunPosition) -> float:
    return float(result.declination) / _RAD


def _hour_angle(result: SunPosition) -> float:
    return float(result.hour_angle) / _RAD


def _distance(result: SunPosition) -> float:
    return float(result.distance)


def _minutes(result: SunPosition) -> float:
    return float(result.equation_of_time) / 60.0


def _degrees(result: float) -> float:
    return float(result) / _RAD


def _row(
    name: str, expected: str, pick: Callable[[SunPosition], float], *, example: bool = False, **changed: float
) -> Row:
    return Row(
        id=f"REDA2004-{name}",
        cite=_EXAMPLE if example else _RUN,
        kind=Kind.PUBLISHED if example else Kind.INDEPENDENT,
        call=sun_position,
        inputs={**_GOLDEN, **changed},
        expected=expected,
        pick=pick,
        note="" if example else "pvlib 0.16.1, spa.py",
    )


def _noon_elevation(result: SunDay) -> float:
    return float(result.noon_elevation) / _RAD


def _hours(result: SunDay) -> float:
    return float(result.length) / 3600.0


def _rise(result: SunDay) -> float:
    return float(result.rise) / 3600.0


def _set(result: SunDay) -> float:
    return float(result.set) / 3600.0


def _day(name: str, expected: str, note: str, pick: Callable[[SunDay], float], **inputs: float) -> Row:
    return Row(
        id=f"REDA2004-day-{name}",
        cite=Cite(work=REDA2004, place="A.2, sunrise", provenance=Provenance.DERIVED),
        kind=Kind.DERIVED,
        call=sun_day,
        inputs=inputs,
        expected=expected,
        pick=pick,
        note=note,
    )


def _solstice(name: str, latitude: float, sun: float, expected: str) -> Row:
    return Row(
        id=f"REDA2004-solstice-{name}",
        cite=Cite(work=PVLIB, place="sunrise and sunset of 2023 by spa.py", provenance=Provenance.READ),
        kind=Kind.INDEPENDENT,
        call=sun_day,
        inputs={"latitude": latitude * _RAD, "declination": sun * _RAD},
        expected=expected,
        pick=_hours,
        rel=0.01,
        note="pvlib takes the declination of rise and of set, here it is that of the whole day",
    )


def _spencer(day: float, expected: str) -> Row:
    return Row(
        id=f"SPENCER1971-day-{day:g}",
        cite=Cite(work=SPENCER1971, place="declination, evaluated by pvlib", provenance=Provenance.READ),
        kind=Kind.INDEPENDENT,
        call=declination,
        inputs={"day": day},
        expected=expected,
        pick=_degrees,
        note="pvlib 0.16.1, declination_spencer71",
    )


def _noon_of_the_year(result: SunPath) -> float:
    return float(result.elevation[171 * 24 + 11]) / _RAD


def _noon_azimuth(result: SunPath) -> float:
    return float(result.azimuth[171 * 24 + 11]) / _RAD


def _noon_strength(result: SunPath) -> float:
    return float(result.extraterrestrial[171 * 24 + 11])


def _path_row(name: str, expected: str, pick: Callable[[SunPath], float]) -> Row:
    return Row(
        id=f"REDA2004-path-{name}",
        cite=_RUN,
        kind=Kind.INDEPENDENT,
        call=sun_path,
        inputs={
            "latitude": 59.9 * _RAD,
            "longitude": 10.7 * _RAD,
            "zone": 3600.0,
            "altitude": 90.0,
            "pressure": 100_000.0,
            "year": 2023,
        },
        expected=expected,
        pick=pick,
        note="pvlib 0.16.1 at 2023-06-21 10:30 UTC, delta_t 69 s, 10 °C",
    )


_MOMENT = sun_position(2_452_930.312847222, 39.742476 * _RAD, longitude=-105.1786 * _RAD)

ROWS = (
    _row("zenith", "50.11162", _zenith, example=True),
    _row("azimuth", "194.34024", _azimuth, example=True),
    _row("declination", "-9.31434", _declination, example=True),
    _row("distance", "0.9965422974", _distance, example=True),
    _row("equation-of-time", "14.641511", _minutes, example=True),
    _row("true-elevation", "39.87204590", _true),
    _row("elevation", "39.88837798", _elevation),
    _row("azimuth-run", "194.340241", _azimuth),
    _row("hour-angle", "11.106271", _hour_angle),
    _row("south-elevation", "1.8921723", _true, **_SOUTH),
    _row("south-azimuth", "106.422999", _azimuth, **_SOUTH),
    _row("late-elevation", "61.1504515", _true, day=_LATE),
    _row("late-azimuth", "140.976318", _azimuth, day=_LATE),
    _row("late-declination", "15.769608097", _declination, day=_LATE),
    _row("late-distance", "1.0117755292", _distance, day=_LATE),
    _row("late-time", "-13.524550", _minutes, day=_LATE),
    _row("early-elevation", "27.30026017", _true, day=_EARLY, **_SOUTH),
    _row("early-azimuth", "299.022403", _azimuth, day=_EARLY, **_SOUTH),
    _row("early-declination", "-11.689387598", _declination, day=_EARLY),
    _row("early-hour-angle", "167.333063", _hour_angle, day=_EARLY),
    _row("early-time", "9.474370", _minutes, day=_EARLY),
    Row(
        id="REDA2004-refraction",
        cite=_EXAMPLE,
        kind=Kind.PUBLISHED,
        call=refraction,
        inputs={"elevation": 39.872046 * _RAD, "pressure": 82_000.0, "temperature": 11.0},
        expected="0.016332",
        pick=_degrees,
    ),
    Row(
        id="REDA2004-refraction-low",
        cite=_RUN,
        kind=Kind.INDEPENDENT,
        call=refraction,
        inputs={"elevation": 1.892172345 * _RAD, "pressure": 82_000.0, "temperature": 11.0},
        expected="0.234038566",
        pick=_degrees,
        note="pvlib 0.16.1, spa.py",
    ),
    Row(
        id="REDA2004-refraction-below",
        cite=_EXAMPLE,
        kind=Kind.DERIVED,
        call=refraction,
        inputs={"elevation": -0.84 * _RAD},
        expected="0.0",
        pick=_degrees,
        note="equation 42 holds down to -(0.26667 + 0.5667) degrees, lower the sun is not lifted",
    ),
    Row(
        id="REDA2004-refraction-just-risen",
        cite=_EXAMPLE,
        kind=Kind.DERIVED,
        call=refraction,
        inputs={"elevation": -0.83 * _RAD, "pressure": 101_000.0, "temperature": 10.0},
        expected="0.6177",
        pick=_degrees,
        note="1.02/(60·tan(−0.83 + 10.3/4.28)) degrees",
    ),
    Row(
        id="REDA2004-julian-example",
        cite=_EXAMPLE,
        kind=Kind.PUBLISHED,
        call=julian_day,
        inputs={"year": 2003, "hour": 289 * 24.0 + 19.0 + 30.0 / 60.0 + 30.0 / 3600.0},
        expected="2452930.312847",
    ),
    Row(
        id="REDA2004-julian-1987",
        cite=Cite(work=REDA2004, place="table A4.1", provenance=Provenance.MEMORY),
        kind=Kind.DERIVED,
        call=julian_day,
        inputs={"year": 1987, "hour": 0.0},
        expected="2446796.5",
        note="thirteen years of 365 days and three leap days before 1 January 2000, 2451544.5",
    ),
    Row(
        id="REDA2004-julian-century",
        cite=Cite(work=REDA2004, place="table A4.1", provenance=Provenance.MEMORY),
        kind=Kind.DERIVED,
        call=julian_day,
        inputs={"year": 2101, "hour": 0.0},
        expected="2488434.5",
        note="2451544.5 + 101·365 + 25: 2000 has a leap day and 2100 none",
    ),
    Row(
        id="REDA2004-julian-2001",
        cite=Cite(work=REDA2004, place="3.1", provenance=Provenance.DERIVED),
        kind=Kind.DERIVED,
        call=julian_day,
        inputs={"year": 2001, "hour": 0.0},
        expected="2451910.5",
        note="2451544.5 + 366: the year 2000 has a leap day",
    ),
    Row(
        id="REDA2004-refraction-usual",
        cite=Cite(work=REDA2004, place="equation 42", provenance=Provenance.DERIVED),
        kind=Kind.DERIVED,
        call=refraction,
        inputs={"elevation": 1.0 * _RAD},
        expected="0.362398",
        pick=_degrees,
        note="1.02/(60·tan(1 + 10.3/6.11)) degrees at 1010 hPa and 10 °C",
    ),
    Row(
        id="REDA2004-usual-air",
        cite=_RUN,
        kind=Kind.INDEPENDENT,
        call=sun_position,
        inputs={"day": 2_461_055.895833333, "latitude": 59.9 * _RAD, "longitude": 10.7 * _RAD},
        expected="5.736444",
        pick=_elevation,
        note="pvlib 0.16.1 at 2026-01-15 09:30 UTC, 1010 hPa, 10 °C, delta_t 69 s",
    ),
    Row(
        id="REDA2004-path-usual",
        cite=_RUN,
        kind=Kind.INDEPENDENT,
        call=sun_path,
        inputs={"latitude": 59.9 * _RAD, "longitude": 10.7 * _RAD, "zone": 3600.0},
        expected="5.736920",
        pick=lambda result: float(result.elevation[14 * 24 + 10]) / _RAD,
        note="pvlib 0.16.1 at 2026-01-15 09:30 UTC, 1013.25 hPa",
    ),
    _path_row("elevation", "52.552900", _noon_of_the_year),
    _path_row("azimuth", "161.346932", _noon_azimuth),
    _path_row("strength", "1317.850866", _noon_strength),
    Row(
        id="REDA2004-path-of",
        cite=_RUN,
        kind=Kind.DERIVED,
        call=path_of,
        inputs={"found": _MOMENT},
        expected="1370.461",
        pick=lambda result: float(result.extraterrestrial),
        note="1361/0.9965422974²",
    ),
    _spencer(1.0, "-23.0586"),
    _spencer(42.0, "-14.2893"),
    _spencer(80.0, "-0.0659"),
    _spencer(172.0, "23.4520"),
    _spencer(266.0, "0.2488"),
    _spencer(307.0, "-14.8303"),
    _spencer(355.0, "-23.4199"),
    _day(
        "geometry",
        "8.57245",
        "cos ω = −tan 50°·tan(−20°): 2·64.2934°/15",
        _hours,
        latitude=50.0 * _RAD,
        declination=-20.0 * _RAD,
        seen_at=0.0,
    ),
    _day(
        "seen",
        "8.77534",
        "with sin a of 0.83337°: 2·65.8151°/15",
        _hours,
        latitude=50.0 * _RAD,
        declination=-20.0 * _RAD,
    ),
    _day("rise", "7.61233", "12 h less half of it", _rise, latitude=50.0 * _RAD, declination=-20.0 * _RAD),
    _day("set", "16.38767", "12 h and half of it", _set, latitude=50.0 * _RAD, declination=-20.0 * _RAD),
    _day(
        "noon",
        "20.0000",
        "90° − |50° + 20°|",
        _noon_elevation,
        latitude=50.0 * _RAD,
        declination=-20.0 * _RAD,
    ),
    _day(
        "south",
        "14.30543",
        "2·107.2907°/15",
        _hours,
        latitude=-35.0 * _RAD,
        declination=-23.0 * _RAD,
        seen_at=0.0,
    ),
    _day(
        "south-noon",
        "78.0000",
        "90° − |−35° + 23°|",
        _noon_elevation,
        latitude=-35.0 * _RAD,
        declination=-23.0 * _RAD,
    ),
    _day("north", "21.51780", "2·161.3835°/15", _hours, latitude=65.0 * _RAD, declination=23.0 * _RAD),
    _day("polar-night", "0.0", "cos ω over 1", _hours, latitude=80.0 * _RAD, declination=-20.0 * _RAD),
    _day("polar-day", "24.0", "cos ω under −1", _hours, latitude=80.0 * _RAD, declination=20.0 * _RAD),
    _solstice("fairbanks-december", 64.84, -23.4367, "3.690"),
    _solstice("yellowknife-december", 62.45, -23.4367, "4.955"),
    _solstice("winnipeg-december", 49.9, -23.4367, "8.089"),
    _solstice("fairbanks-june", 64.84, 23.4367, "21.839"),
    _solstice("yakutsk-june", 62.03, 23.4367, "19.764"),
)
