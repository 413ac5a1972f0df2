"""Weather by the hour: formulas by hand, and made years against real ones.

A year is made from the months of the Fichtelberg, as a German test reference year gives them, and then
compared with that same year counted hour by hour; Fairbanks is made from its hours of sunshine and
compared with the sunshine that satellites saw there.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.climates import ESTEVAN, MonthlyNormals, normals
from bermwright.data.works.climate import BOYD1973, THOM1954
from bermwright.data.works.weather import (
    BENDT1981,
    BERDAHL1984,
    DEBOOR1978,
    ERBS1983,
    FAO56,
    HOCK2003,
    HOLLANDS1983,
    ISO2533,
    ISO15927,
    REALYEARS,
    STURM2010,
    UNSWORTH1975,
    WMO8,
)
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.weather import (
    WeatherYear,
    clearest_day,
    clearness_by_range,
    clearness_by_sunshine,
    coldest_days,
    daily,
    day_clearness,
    degree_days,
    design_day,
    dew_point_of,
    diurnal_shape,
    freezing_index_of,
    month_clearness,
    monthly,
    sky_emissivity,
    sky_temperature,
    smooth_hours,
    snow_depth_of,
    snow_pack,
    standard_pressure,
    synthesise,
    vapour_pressure_at,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from numpy.typing import NDArray

    from bermwright.base.sources import Work

    Array = NDArray[np.float64]

_RAD = math.pi / 180.0


@cache
def _scattered(seed: int, size: int) -> Array:
    """Normal numbers of a congruential sequence, the same on every machine."""
    state, even = seed, []
    for _ in range(2 * size):
        state = (6_364_136_223_846_793_005 * state + 1_442_695_040_888_963_407) % 2**64
        even.append(((state >> 11) + 0.5) / 2**53)
    first, second = np.array(even[:size]), np.array(even[size:])
    return np.asarray(np.sqrt(-2.0 * np.log(first)) * np.cos(2.0 * np.pi * second))


class _Draw:
    """A draw that is the same for every year: its three series come round and round."""

    def __init__(self) -> None:
        self._calls = 0

    def standard_normal(self, size: int) -> Array:
        """Numbers scattered normally."""
        self._calls = self._calls % 3 + 1
        return _scattered(self._calls, size)


class _Flat:
    """A draw without any scatter: every day is its month's."""

    def standard_normal(self, size: int) -> Array:
        """Nothing but zeros."""
        return np.zeros(size)


def _first(result: Any) -> float:
    return float(np.ravel(result)[0])


def _at(place: int) -> Callable[[Any], float]:
    def pick(result: Any) -> float:
        return float(np.ravel(result)[place])

    return pick


def _row(  # noqa: PLR0913, PLR0917  (one row of a table)
    name: str,
    work: Work,
    call: Callable[..., Any],
    inputs: Mapping[str, Any],
    expected: str,
    note: str,
    pick: Callable[[Any], float] = _first,
    rel: float | None = None,
    kind: Kind = Kind.DERIVED,
    unit: str = "",
) -> Row:
    provenance = Provenance.READ if kind is not Kind.DERIVED else Provenance.DERIVED
    return Row(
        id=name,
        cite=Cite(work=work, place="evaluated" if kind is Kind.DERIVED else "counted", provenance=provenance),
        kind=kind,
        call=call,
        inputs=inputs,
        expected=expected,
        pick=pick,
        note=note,
        rel=rel,
        unit=unit,
    )


# ---------------------------------------------------------------- single formulas
_SHAPE = (
    "-.2743",
    "-.3232",
    "-.3682",
    "-.4116",
    "-.4462",
    "-.4513",
    "-.4025",
    "-.2895",
    "-.1271",
    ".0514",
    ".2125",
    ".3396",
    ".4328",
    ".4959",
    ".5245",
    ".5067",
    ".4357",
    ".3223",
    ".1926",
    ".0738",
    "-.0209",
    "-.0950",
    "-.1590",
    "-.2190",
)
_RANKS = (
    (0.3, 0.1, "0.086604"),
    (0.3, 0.5, "0.269985"),
    (0.3, 0.9, "0.572132"),
    (0.5, 0.1, "0.202336"),
    (0.5, 0.5, "0.540750"),
    (0.5, 0.9, "0.728181"),
    (0.7, 0.1, "0.549356"),
    (0.7, 0.9, "0.805848"),
)
_SKIES = ((-20.0, -25.0, "-48.82"), (0.0, -5.0, "-24.67"), (15.0, 10.0, "-2.85"))
_DAYS = np.zeros(365)
_DAYS[100] = 10.0
_DAYS.setflags(write=False)
_COLD = (-5.0, -5.0, 1.0, 5.0, -10.0, 20.0)
_FALLS = (10.0, 20.0, 10.0, 0.0, 8.0, 0.0)


def _day_mean(day: int) -> Callable[[Any], float]:
    def pick(result: Any) -> float:
        return float(np.mean(result[24 * day : 24 * day + 24]))

    return pick


_FORMULAS = (
    *(
        _row(f"ERBS1983-{hour}", ERBS1983, diurnal_shape, {"hour": float(hour)}, text, "four cosines by hand")
        for hour, text in enumerate(_SHAPE, start=1)
    ),
    *(
        _row(
            f"BENDT1981-{k:g}-{rank:g}",
            BENDT1981,
            day_clearness,
            {"mean": k, "rank": rank},
            text,
            "distribution turned round by hand, K_max and γ as in Duffie and Beckman 2.9.6 to 2.9.8",
        )
        for k, rank, text in _RANKS
    ),
    _row("HOLLANDS1983-low", HOLLANDS1983, clearest_day, {"mean": 0.3}, "0.691390", "by hand"),
    _row("HOLLANDS1983-high", HOLLANDS1983, clearest_day, {"mean": 0.7}, "0.818200", "by hand"),
    _row("FAO56-dull", FAO56, clearness_by_sunshine, {"share": 0.0}, "0.25", "no sunshine"),
    _row("FAO56-bright", FAO56, clearness_by_sunshine, {"share": 1.0}, "0.75", "sunshine all day"),
    _row("FAO56-range", FAO56, clearness_by_range, {"daily_range": 9.0}, "0.48", "0.16·3"),
    _row(
        "FAO56-range-coast",
        FAO56,
        clearness_by_range,
        {"daily_range": 9.0, "coastal": True},
        "0.57",
        "0.19·3",
    ),
    _row("FAO56-range-wide", FAO56, clearness_by_range, {"daily_range": 36.0}, "0.75", "held at a clear sky"),
    _row(
        "WMO8-vapour-10", WMO8, vapour_pressure_at, {"dew_point": 10.0}, "1226.03", "611.2·exp(176.2/253.12)"
    ),
    _row(
        "WMO8-vapour-cold",
        WMO8,
        vapour_pressure_at,
        {"dew_point": -20.0},
        "125.965",
        "611.2·exp(−352.4/223.12)",
    ),
    _row("WMO8-dew-1000", WMO8, dew_point_of, {"vapour_pressure": 1000.0}, "6.98843", "turned round"),
    _row("WMO8-dew-100", WMO8, dew_point_of, {"vapour_pressure": 100.0}, "-22.65071", "turned round"),
    _row(
        "ISO2533-1500",
        ISO2533,
        standard_pressure,
        {"altitude": 1500.0},
        "84556.0",
        "101325·(1 − 9.75/288.15)^5.25588",
    ),
    _row("ISO2533-0", ISO2533, standard_pressure, {"altitude": 0.0}, "101325.0", "sea level"),
    *(
        _row(
            f"BERDAHL1984-{t:g}",
            BERDAHL1984,
            sky_temperature,
            {"temperature": t, "dew_point": d},
            text,
            "clear sky by hand",
        )
        for t, d, text in _SKIES
    ),
    _row(
        "BERDAHL1984-emissivity",
        BERDAHL1984,
        sky_emissivity,
        {"dew_point": -25.0},
        "0.616625",
        "0.711 − 0.14 + 0.045625",
    ),
    _row(
        "UNSWORTH1975-clouded",
        UNSWORTH1975,
        sky_emissivity,
        {"dew_point": -25.0, "cloud": 0.6},
        "0.809846",
        "(1 − 0.504)·0.616625 + 0.504",
    ),
    _row(
        "DEBOOR1978-mean-kept",
        DEBOOR1978,
        smooth_hours,
        {"days": _DAYS},
        "10.0000",
        "a spline of sums keeps the mean of each day",
        _day_mean(100),
    ),
    _row(
        "DEBOOR1978-next-kept",
        DEBOOR1978,
        smooth_hours,
        {"days": _DAYS},
        "0.0000",
        "the day after keeps its own",
        _day_mean(101),
    ),
    _row(
        "DEBOOR1978-even",
        DEBOOR1978,
        smooth_hours,
        {"days": np.full(365, 7.0)},
        "7.0000",
        "even days give even hours",
        _at(5000),
    ),
    _row(
        "HOCK2003-third-day",
        HOCK2003,
        snow_pack,
        {"temperature": _COLD, "precipitation": _FALLS},
        "32.0",
        "from the warmest day on: 10 + 20 + 10·(2.5 − 1)/2.5 − 4·1",
        _at(2),
    ),
    _row(
        "HOCK2003-thaw",
        HOCK2003,
        snow_pack,
        {"temperature": _COLD, "precipitation": _FALLS},
        "12.0",
        "less 4·5",
        _at(3),
    ),
    _row(
        "HOCK2003-fresh",
        HOCK2003,
        snow_pack,
        {"temperature": _COLD, "precipitation": _FALLS},
        "20.0",
        "and 8 of new snow",
        _at(4),
    ),
    _row(
        "HOCK2003-melted",
        HOCK2003,
        snow_pack,
        {"temperature": _COLD, "precipitation": _FALLS},
        "0.0",
        "the warmest day melts all",
        _at(5),
    ),
    _row("STURM2010-depth", STURM2010, snow_depth_of, {"pack": 100.0}, "0.4", "100/250"),
    _row(
        "THOM1954-design",
        THOM1954,
        design_day,
        {"mean": (0.0,) * 11 + (-10.0,), "spread": (3.0,) * 11 + (5.0,)},
        "-21.6317",
        "−10 − 5·2.326348",
    ),
    _row(
        "THOM1954-design-share",
        THOM1954,
        design_day,
        {"mean": (0.0,) * 12, "spread": (3.0,) * 12, "share": 0.05},
        "-4.93456",
        "−3·1.644854",
    ),
)


# ---------------------------------------------------------------- a year by hand
def _stepped() -> WeatherYear:
    """0 °C all year, but ten days of -12 °C over New Year, the two coldest of -20 °C."""
    days = np.zeros(365)
    days[360:], days[:5] = -12.0, -12.0
    days[364], days[0] = -20.0, -20.0
    even = np.ones(8760)
    return WeatherYear(
        place="x",
        source="x",
        made=True,
        latitude=0.0,
        longitude=0.0,
        altitude=0.0,
        zone=0.0,
        temperature=np.repeat(days, 24),
        dew_point=-30.0 * even,
        global_horizontal=0.0 * even,
        direct_normal=0.0 * even,
        diffuse_horizontal=0.0 * even,
        wind=even,
        pressure=101_325.0 * even,
        sky_temperature=-40.0 * even,
        snow_cover=0.0 * even,
        snow_depth=0.0 * even,
    )


_STEPPED = _stepped()
_COUNT = np.arange(8760.0)
_COUNT.setflags(write=False)
_YEAR = (
    _row("ISO15927-coldest", ISO15927, coldest_days, {"weather": _STEPPED}, "-20.0", "the coldest day"),
    _row(
        "ISO15927-coldest-4",
        ISO15927,
        coldest_days,
        {"weather": _STEPPED, "days": 4},
        "-16.0",
        "two days of −20 and two of −12, over New Year",
    ),
    _row(
        "BOYD1973-counted",
        BOYD1973,
        freezing_index_of,
        {"weather": _STEPPED},
        "136.0",
        "8·12 + 2·20",
        unit="K d",
    ),
    _row(
        "THOM1954-counted", THOM1954, degree_days, {"weather": _STEPPED}, "6706.0", "365·18 + 136", unit="K d"
    ),
    _row(
        "THOM1954-counted-10",
        THOM1954,
        degree_days,
        {"weather": _STEPPED, "base": 10.0},
        "3786.0",
        "365·10 + 136",
        unit="K d",
    ),
    _row("ISO15927-daily", ISO15927, daily, {"row": _COUNT}, "35.5", "mean of 24 to 47", _at(1)),
    _row("ISO15927-monthly", ISO15927, monthly, {"row": _COUNT}, "1079.5", "mean of 744 to 1415", _at(1)),
)


# ---------------------------------------------------------------- made years
FICHTELBERG = MonthlyNormals(
    name="Fichtelberg",
    country="Germany",
    latitude=50.433,
    longitude=12.95,
    elevation=1213.0,
    period="1988-2007",
    kind="test reference year 2010",
    cite=Cite(work=REALYEARS, place="TRY2010_11_Jahr.dat, counted", provenance=Provenance.READ),
    mean=(-3.32, -3.55, -1.34, 2.3, 7.44, 9.82, 12.16, 12.43, 8.1, 4.35, -0.57, -2.83),
    maximum=(-1.49, -1.09, 1.44, 5.07, 10.87, 13.0, 15.52, 16.03, 10.57, 6.92, 1.5, -0.83),
    minimum=(-5.29, -6.12, -3.79, -0.51, 4.06, 6.97, 9.06, 9.03, 5.89, 2.22, -2.81, -4.9),
    precipitation=(90.0,) * 12,
    daily_spread=(3.21, 3.65, 3.61, 3.88, 3.76, 3.64, 3.86, 3.08, 3.11, 3.74, 3.94, 4.12),
    vapour_pressure=(
        402.78,
        391.12,
        483.41,
        588.18,
        834.91,
        1025.29,
        1107.41,
        1102.59,
        966.74,
        757.64,
        540.86,
        491.16,
    ),
)
FAIRBANKS = normals("Fairbanks AK")


def _spread_in(month: int) -> Callable[[WeatherYear], float]:
    def pick(year: WeatherYear) -> float:
        days = np.split(daily(year.temperature), np.cumsum((31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30)))
        return float(np.std(days[month]))

    return pick


def _month_of(row: str, month: int, scale: float = 1.0) -> Callable[[WeatherYear], float]:
    def pick(year: WeatherYear) -> float:
        return float(monthly(getattr(year, row))[month]) * scale

    return pick


def _sum_of(row: str) -> Callable[[WeatherYear], float]:
    def pick(year: WeatherYear) -> float:
        return float(np.sum(getattr(year, row))) / 1000.0

    return pick


def _heating(year: WeatherYear) -> float:
    return float(np.sum(np.maximum(18.0 - daily(year.temperature), 0.0)))


def _freezing(year: WeatherYear) -> float:
    return float(np.sum(np.maximum(-daily(year.temperature), 0.0)))


def _diffuse(year: WeatherYear) -> float:
    return float(np.sum(year.diffuse_horizontal) / np.sum(year.global_horizontal))


def _hour(row: str, place: int) -> Callable[[WeatherYear], float]:
    def pick(year: WeatherYear) -> float:
        return float(getattr(year, row)[place])

    return pick


def _alike(year: WeatherYear) -> float:
    """Likeness of neighbouring days."""
    days = daily(year.temperature)[:31]
    return float(np.corrcoef(days[1:], days[:-1])[0, 1])


def _synth(  # noqa: PLR0913, PLR0917  (one row of a table)
    name: str,
    expected: str,
    note: str,
    pick: Callable[[WeatherYear], float],
    rel: float | None = None,
    place: MonthlyNormals = FICHTELBERG,
    work: Work = REALYEARS,
    kind: Kind = Kind.INDEPENDENT,
    chance: object = None,
    **given: Any,
) -> Row:
    inputs = {"place": place, "chance": chance or _Draw(), **given}
    return _row(f"{work.key}-{name}", work, synthesise, inputs, expected, note, pick, rel, kind)


def _share(year: WeatherYear) -> float:
    return float(np.std(year.wind) / np.mean(year.wind))


def _light_of(month: int) -> Callable[[WeatherYear], float]:
    def pick(year: WeatherYear) -> float:
        length = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)[month]
        return float(monthly(year.global_horizontal)[month] * length * 24.0 / 1000.0)

    return pick


def _month_mean_wind(year: WeatherYear) -> float:
    return float(np.mean(year.wind))


def _of(name: str) -> Callable[[WeatherYear], float]:
    def pick(year: WeatherYear) -> float:
        return float(getattr(year, name))

    return pick


def _swing(day: int) -> Callable[[WeatherYear], float]:
    def pick(year: WeatherYear) -> float:
        return float(np.ptp(year.temperature[24 * day : 24 * day + 24]))

    return pick


def _white_days(month: int) -> Callable[[WeatherYear], float]:
    def pick(year: WeatherYear) -> float:
        length = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)[month]
        return float(monthly(year.snow_cover)[month] * length)

    return pick


LEH, TROMSO, OYMYAKON, SODANKYLA = (normals(name) for name in ("Leh", "Tromsø", "Oymyakon", "Sodankylä"))
YAKUTSK = normals("Yakutsk")
_SECOND = (
    (FICHTELBERG, "temperature", 290, "-0.26729"),
    (FICHTELBERG, "temperature", 2000, "-9.4531"),
    (FICHTELBERG, "temperature", 4190, "8.6608"),
    (FICHTELBERG, "temperature", 8170, "2.6518"),
    (FICHTELBERG, "dew_point", 290, "-1.8166"),
    (FICHTELBERG, "dew_point", 2000, "-10.583"),
    (FICHTELBERG, "dew_point", 4190, "1.7983"),
    (FICHTELBERG, "dew_point", 8170, "1.9369"),
    (FICHTELBERG, "global_horizontal", 290, "0.0"),
    (FICHTELBERG, "global_horizontal", 2000, "148.68"),
    (FICHTELBERG, "global_horizontal", 4190, "659.33"),
    (FICHTELBERG, "global_horizontal", 8170, "80.254"),
    (FICHTELBERG, "direct_normal", 290, "0.0"),
    (FICHTELBERG, "direct_normal", 2000, "16.387"),
    (FICHTELBERG, "direct_normal", 4190, "535.92"),
    (FICHTELBERG, "direct_normal", 8170, "7.0243"),
    (FICHTELBERG, "diffuse_horizontal", 290, "0.0"),
    (FICHTELBERG, "diffuse_horizontal", 2000, "142.43"),
    (FICHTELBERG, "diffuse_horizontal", 4190, "238.01"),
    (FICHTELBERG, "diffuse_horizontal", 8170, "78.511"),
    (FICHTELBERG, "wind", 290, "2.9176"),
    (FICHTELBERG, "wind", 2000, "4.1865"),
    (FICHTELBERG, "wind", 4190, "6.2385"),
    (FICHTELBERG, "wind", 8170, "1.3768"),
    (FICHTELBERG, "sky_temperature", 290, "-3.5904"),
    (FICHTELBERG, "sky_temperature", 2000, "-15.804"),
    (FICHTELBERG, "sky_temperature", 4190, "-7.6940"),
    (FICHTELBERG, "sky_temperature", 8170, "-0.46626"),
    (FICHTELBERG, "snow_depth", 290, "0.21599"),
    (FICHTELBERG, "snow_depth", 2000, "0.74786"),
    (FICHTELBERG, "snow_depth", 4190, "0.0"),
    (FICHTELBERG, "snow_depth", 8170, "0.14822"),
    (ESTEVAN, "temperature", 303, "-1.092"),
    (ESTEVAN, "temperature", 2600, "0.6289"),
    (ESTEVAN, "temperature", 5004, "25.97"),
    (ESTEVAN, "temperature", 7300, "-9.592"),
    (ESTEVAN, "dew_point", 303, "-14.66"),
    (ESTEVAN, "dew_point", 2600, "-3.597"),
    (ESTEVAN, "dew_point", 5004, "12.56"),
    (ESTEVAN, "dew_point", 7300, "-11.05"),
    (ESTEVAN, "global_horizontal", 303, "43.89"),
    (ESTEVAN, "global_horizontal", 2600, "466.2"),
    (ESTEVAN, "global_horizontal", 5004, "883.6"),
    (ESTEVAN, "global_horizontal", 7300, "0.0"),
    (ESTEVAN, "snow_depth", 303, "0.02845"),
    (ESTEVAN, "snow_depth", 2600, "0.0"),
    (ESTEVAN, "snow_depth", 5004, "0.0"),
    (ESTEVAN, "snow_depth", 7300, "0.02000"),
    (LEH, "temperature", 300, "-0.093964"),
    (LEH, "temperature", 2000, "-8.5104"),
    (LEH, "temperature", 5004, "24.146"),
    (LEH, "dew_point", 300, "-12.167"),
    (LEH, "dew_point", 2000, "-15.582"),
    (LEH, "dew_point", 5004, "4.1387"),
    (LEH, "direct_normal", 300, "343.32"),
    (LEH, "direct_normal", 2000, "360.15"),
    (LEH, "direct_normal", 5004, "883.08"),
    (LEH, "sky_temperature", 300, "-15.150"),
    (LEH, "sky_temperature", 2000, "-28.646"),
    (LEH, "sky_temperature", 5004, "2.9658"),
    (LEH, "snow_depth", 300, "0.026619"),
    (LEH, "snow_depth", 2000, "0.0"),
    (LEH, "snow_depth", 5004, "0.0"),
    (TROMSO, "temperature", 300, "1.476"),
    (TROMSO, "temperature", 1000, "1.554"),
    (TROMSO, "temperature", 2000, "-8.536"),
    (TROMSO, "temperature", 4150, "6.541"),
    (TROMSO, "temperature", 7000, "2.029"),
    (TROMSO, "temperature", 8170, "2.146"),
    (TROMSO, "global_horizontal", 300, "0.0"),
    (TROMSO, "global_horizontal", 1000, "0.0"),
    (TROMSO, "global_horizontal", 2000, "123.8"),
    (TROMSO, "global_horizontal", 4150, "39.92"),
    (TROMSO, "global_horizontal", 7000, "0.0"),
    (TROMSO, "global_horizontal", 8170, "0.0"),
    (TROMSO, "snow_depth", 300, "0.1742"),
    (TROMSO, "snow_depth", 1000, "0.4627"),
    (TROMSO, "snow_depth", 2000, "0.8776"),
    (TROMSO, "snow_depth", 4150, "0.0"),
    (TROMSO, "snow_depth", 7000, "0.03288"),
    (TROMSO, "snow_depth", 8170, "0.1114"),
    (OYMYAKON, "temperature", 10, "-42.81"),
    (OYMYAKON, "temperature", 8600, "-49.34"),
    (OYMYAKON, "dew_point", 10, "-45.40"),
    (OYMYAKON, "dew_point", 8600, "-50.53"),
    (SODANKYLA, "temperature", 302, "-2.6"),
    (SODANKYLA, "temperature", 8150, "-10.4"),
    (SODANKYLA, "temperature", 8630, "-12.98"),
    (ESTEVAN, "global_horizontal", 1601, "19.67"),
    (ESTEVAN, "global_horizontal", 1782, "43.16"),
    (YAKUTSK, "global_horizontal", 203, "68.25"),
    (YAKUTSK, "global_horizontal", 204, "82.72"),
)
"""Hours of made years by a second implementation."""

_DERIVED: dict[str, Any] = {"kind": Kind.DERIVED, "work": ISO15927}
_YEARS = (
    _synth("january", "-3.3200", "the month keeps its mean", _month_of("temperature", 0), **_DERIVED),
    _synth("july", "12.1600", "the month keeps its mean", _month_of("temperature", 6), **_DERIVED),
    _synth(
        "spread-january",
        "3.21",
        "standard deviation of its daily means, fitted in four rounds",
        _spread_in(0),
        0.01,
        **_DERIVED,
    ),
    _synth(
        "spread-july",
        "3.86",
        "standard deviation of its daily means, fitted in four rounds",
        _spread_in(6),
        0.04,
        **_DERIVED,
    ),
    _synth(
        "vapour-january",
        "402.8",
        "the month keeps its vapour pressure",
        _month_of("vapour_pressure", 0),
        **_DERIVED,
    ),
    _synth(
        "vapour-july",
        "1107.4",
        "the month keeps its vapour pressure",
        _month_of("vapour_pressure", 6),
        **_DERIVED,
    ),
    _synth("wind", "3.0000", "the mean that is assumed", _month_mean_wind, **_DERIVED),
    _synth("wind-given", "5.5000", "the mean that is given", _month_mean_wind, wind=5.5, **_DERIVED),
    _synth("wind-scatter", "0.5227", "√(4/π − 1) of a Rayleigh distribution", _share, 0.03, **_DERIVED),
    _synth("zone", "-25200.0", "102.96° west is seven hours", _of("zone"), place=ESTEVAN, **_DERIVED),
    _synth("latitude", "0.858877", "49.21°", _of("latitude"), place=ESTEVAN, **_DERIVED),
    _synth("longitude", "-1.796991", "−102.96°", _of("longitude"), place=ESTEVAN, **_DERIVED),
    _synth(
        "pressure", "87576.7", "101325·(1 − 0.0065·1213/288.15)^5.25588", _hour("pressure", 0), **_DERIVED
    ),
    _synth(
        "light-january",
        "24.24",
        "0.31190 by the range of the day, times 77.72 kWh/m² before the air by pvlib",
        _light_of(0),
        0.004,
        **_DERIVED,
    ),
    _synth(
        "light-july",
        "139.11",
        "0.40666 by the range of the day, times 342.08 kWh/m² before the air by pvlib",
        _light_of(6),
        0.004,
        **_DERIVED,
    ),
    _synth(
        "swing-january", "3.80", "mean highest less mean lowest", _swing(15), 0.02, chance=_Flat(), **_DERIVED
    ),
    _synth(
        "swing-july", "6.46", "mean highest less mean lowest", _swing(195), 0.03, chance=_Flat(), **_DERIVED
    ),
    _synth(
        "white-january", "30.0", "30.3 days with snow, whole days", _white_days(0), place=ESTEVAN, **_DERIVED
    ),
    _synth(
        "white-october", "5.0", "4.7 days with snow, whole days", _white_days(9), place=ESTEVAN, **_DERIVED
    ),
    _synth("heating", "5189", "degree-days below 18 °C counted in the real year", _heating, 0.005),
    _synth(
        "freezing",
        "476",
        "degree-days below 0 °C counted in the real year; single draws lie within 5 %",
        _freezing,
        0.06,
    ),
    _synth(
        "light",
        "985.1",
        "kWh/m² in the real year; without hours of sunshine a summit is hard to tell",
        _sum_of("global_horizontal"),
        0.06,
    ),
    _synth(
        "from-the-sky",
        "0.572",
        "share of the sky in the real year; the made clouds are smooth within a day",
        _diffuse,
        0.12,
    ),
    _synth(
        "fairbanks",
        "959",
        "kWh/m² by satellite in another year; made from hours of sunshine 1991-2020",
        _sum_of("global_horizontal"),
        0.06,
        place=FAIRBANKS,
    ),
    _synth(
        "fairbanks-june", "179.8", "kWh/m² by satellite in another year", _light_of(5), 0.05, place=FAIRBANKS
    ),
    _row(
        "FAO56-month-sunshine",
        FAO56,
        month_clearness,
        {"place": ESTEVAN},
        "0.4667",
        "0.25 + 0.5·115/265.3, hours of daylight by the declination at noon",
        _at(0),
        1e-3,
    ),
    _row(
        "FAO56-month-all-bright",
        FAO56,
        month_clearness,
        {"place": replace(ESTEVAN, sunshine=(800.0,) * 12)},
        "0.75",
        "more hours of sunshine than a month has of light count as all of them",
        _at(0),
    ),
    _row(
        "FAO56-month-range", FAO56, month_clearness, {"place": FICHTELBERG}, "0.311897", "0.16·√3.80", _at(0)
    ),
    _row(
        "FAO56-month-dark",
        FAO56,
        month_clearness,
        {"place": normals("Tromsø")},
        "0.45",
        "no sun in December",
        _at(11),
    ),
    _row(
        "FAO56-month-coast",
        FAO56,
        month_clearness,
        {"place": replace(FICHTELBERG, climate="coast")},
        "0.370378",
        "0.19·√3.80",
        _at(0),
    ),
)

_HUMID = (
    _synth(
        "dry",
        "0.62081",
        "saturation at 1.7983 °C over that at 8.6608 °C, both by the second implementation",
        lambda year: float(year.humidity[4190]),
        **_DERIVED,
    ),
    _row(
        "FAO56-month-dull",
        FAO56,
        month_clearness,
        {
            "place": replace(
                FICHTELBERG, maximum=tuple(x + 0.5 for x in FICHTELBERG.mean), minimum=FICHTELBERG.mean
            )
        },
        "0.1500",
        "0.16·√0.5 is less than the dullest month",
        _at(0),
    ),
)
_HOURS = tuple(
    _synth(
        f"second-{place.name.split()[0]}-{what}-{hour}",
        expected,
        "a second implementation in plain loops, the sun by pvlib 0.16.1, fed with the same draw",
        _hour(what, hour),
        place=place,
    )
    for place, what, hour, expected in _SECOND
)

ROWS = (*_FORMULAS, *_YEAR, *_YEARS, *_HOURS, *_HUMID)
