"""Freezing index and seasons from monthly means: D. W. Boyd, Normal freezing and thawing degree-days, 1973.

The work was not opened; its approximate index is quoted at www.yamz.net/term/ark/h7190. The seasons are
proved on a year that is one pure wave, whose crossings have a closed form.
"""

from __future__ import annotations

import math

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.climate import BOYD1973, ISO8601
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.weather import (
    cold_season,
    daily_means,
    freezing_index_simple,
    freezing_index_trapezoid,
    month_and_day,
    winter_begins,
    winter_ends,
)

_INDEX = Cite(
    work=BOYD1973, place="approximate index from monthly means, worked", provenance=Provenance.DERIVED
)
_WAVE = Cite(work=BOYD1973, place="a year that is one pure wave", provenance=Provenance.DERIVED)
_ORDINAL = Cite(work=ISO8601, place="ordinal date, ordinary year", provenance=Provenance.DERIVED)

_OCTOBER_TO_APRIL = (-11.0, -9.0, -3.0, 3.0, 8.0, 12.0, 15.0, 13.0, 9.0, 4.0, -2.0, -8.0)
_ENDS = (0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365)
_TURN = 2.0 * math.pi / 365.0


def _pure_wave(middle: float, swing: float, coldest: float) -> tuple[float, ...]:
    """Exact monthly means of middle − swing·cos(ω(d − coldest))."""
    until = [math.sin(_TURN * (day - coldest)) / _TURN for day in _ENDS]
    return tuple(middle - swing * (until[i + 1] - until[i]) / (_ENDS[i + 1] - _ENDS[i]) for i in range(12))


_YEAR = _pure_wave(5.0, 15.0, 20.0)

ROWS = (
    Row(
        id="BOYD1973-seven-months",
        cite=_INDEX,
        kind=Kind.DERIVED,
        call=freezing_index_simple,
        inputs={"mean": _OCTOBER_TO_APRIL},
        expected="996.25",
        unit="K d",
        note="30·2 + 31·8 + 31·11 + 28.25·9 + 31·3; with a February of 28 days 994",
    ),
    Row(
        id="BOYD1973-trapezoid-all-frozen",
        cite=_INDEX,
        kind=Kind.DERIVED,
        call=freezing_index_trapezoid,
        inputs={"mean": (-2.0,) * 12},
        expected="730.5",
        unit="K d",
        note="365.25·2",
    ),
    Row(
        id="BOYD1973-trapezoid-one-peak",
        cite=_INDEX,
        kind=Kind.DERIVED,
        call=freezing_index_trapezoid,
        inputs={"mean": (4.0, 4.0, 4.0, 4.0, 4.0, 4.0, -6.0, 4.0, 4.0, 4.0, 4.0, 4.0)},
        expected="110.7",
        unit="K d",
        note="triangles 0.6 of 30.5 d and of 31 d wide, 6 K high: 0.5·6·0.6·(30.5 + 31)",
    ),
    Row(
        id="BOYD1973-wave-day-1",
        cite=_WAVE,
        kind=Kind.DERIVED,
        call=daily_means,
        inputs={"mean": _YEAR},
        expected="-9.16264",
        pick=lambda course: float(course[0]),
        note="5 − 15·f·cos(ω·19.5), f = sin(ω/2)/(ω/2) for the mean over a day",
    ),
    Row(
        id="BOYD1973-wave-day-180",
        cite=_WAVE,
        kind=Kind.DERIVED,
        call=daily_means,
        inputs={"mean": _YEAR},
        expected="18.83942",
        pick=lambda course: float(course[179]),
        note="5 − 15·f·cos(ω·159.5)",
    ),
    Row(
        id="BOYD1973-wave-begins",
        cite=_WAVE,
        kind=Kind.DERIVED,
        call=winter_begins,
        inputs={"mean": _YEAR, "below": 5.0},
        expected="295.00",
        note="a quarter of 365 d before the coldest moment is 293.75: the first whole day below is the 295th",
    ),
    Row(
        id="BOYD1973-wave-ends",
        cite=_WAVE,
        kind=Kind.DERIVED,
        call=winter_ends,
        inputs={"mean": _YEAR, "below": 5.0},
        expected="111.00",
        note="a quarter of 365 d after the coldest moment is 111.25: the last day below is the 111th",
    ),
    Row(
        id="BOYD1973-wave-days",
        cite=_WAVE,
        kind=Kind.DERIVED,
        call=cold_season,
        inputs={"mean": _YEAR, "below": 5.0},
        expected="182",
        pick=lambda season: float(season.days),
        note="days 295 to 365 and 1 to 111",
    ),
    Row(
        id="ISO8601-month-of-day-60",
        cite=_ORDINAL,
        kind=Kind.DERIVED,
        call=month_and_day,
        inputs={"day": 60},
        expected="3",
        pick=lambda date: float(date[0]),
        note="31 + 28 days have gone: the 60th is 1 March",
    ),
    Row(
        id="ISO8601-day-of-day-304",
        cite=_ORDINAL,
        kind=Kind.DERIVED,
        call=month_and_day,
        inputs={"day": 304},
        expected="31",
        pick=lambda date: float(date[1]),
        note="273 days have gone at the end of September: the 304th is 31 October",
    ),
)
