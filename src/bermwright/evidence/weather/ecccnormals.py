"""Degree-days counted from daily means at Brandon, Manitoba, 1981-2010, against the monthly formulas.

Environment Canada, Canadian climate normals 1981-2010. The same table prints monthly means and the
yearly degree-days below 0 °C (1759.3), so it judges what the monthly formulas lose. Brandon prints no
spread of daily means; that of Estevan, 270 km away on the same prairie, stands in.
"""

from __future__ import annotations

from bermwright.base.sources import Cite, Provenance
from bermwright.data.climates import ESTEVAN
from bermwright.data.works.climate import ECCCNORMALS
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.weather import (
    FreezingIndex,
    freezing_index,
    freezing_index_normal_days,
    freezing_index_simple,
    freezing_index_trapezoid,
)

BRANDON = (-16.6, -13.6, -6.2, 4.0, 10.6, 15.9, 18.5, 17.7, 11.8, 4.1, -5.6, -14.0)
_COUNTED = Cite(work=ECCCNORMALS, place="Brandon A, degree-days below 0 °C, year", provenance=Provenance.READ)
_MEANS = Cite(
    work=ECCCNORMALS, place="Brandon A, monthly means, evaluated by hand", provenance=Provenance.DERIVED
)


def _value(result: FreezingIndex) -> float:
    return result.value


ROWS = (
    Row(
        id="ECCCNORMALS-brandon-normal-days",
        cite=_COUNTED,
        kind=Kind.PUBLISHED,
        call=freezing_index_normal_days,
        inputs={"mean": BRANDON, "spread": ESTEVAN.daily_spread},
        expected="1759.3",
        unit="K d",
        rel=0.01,
        note="the spread of daily means is Estevan's; 0.8 % more than what was counted day by day",
    ),
    Row(
        id="ECCCNORMALS-brandon-best-method",
        cite=_COUNTED,
        kind=Kind.PUBLISHED,
        call=freezing_index,
        inputs={"mean": BRANDON, "spread": ESTEVAN.daily_spread},
        expected="1759.3",
        unit="K d",
        pick=_value,
        rel=0.01,
        note="as ECCCNORMALS-brandon-normal-days",
    ),
    Row(
        id="ECCCNORMALS-brandon-simple-reads-low",
        cite=_COUNTED,
        kind=Kind.PUBLISHED,
        call=freezing_index_simple,
        inputs={"mean": BRANDON},
        expected="1759.3",
        unit="K d",
        rel=0.04,
        note="monthly means lose the frosty days of mild months: 3.8 % too low here, marked low",
    ),
    Row(
        id="ECCCNORMALS-brandon-simple",
        cite=_MEANS,
        kind=Kind.DERIVED,
        call=freezing_index_simple,
        inputs={"mean": BRANDON},
        expected="1693.0",
        unit="K d",
        note="31·16.6 + 28.25·13.6 + 31·6.2 + 30·5.6 + 31·14.0",
    ),
    Row(
        id="ECCCNORMALS-brandon-unknown-spread",
        cite=_MEANS,
        kind=Kind.DERIVED,
        call=freezing_index,
        inputs={"mean": BRANDON},
        expected="1693.0",
        unit="K d",
        pick=_value,
        note="without a spread the simple index, marked low",
    ),
    Row(
        id="ECCCNORMALS-brandon-trapezoid",
        cite=_MEANS,
        kind=Kind.DERIVED,
        call=freezing_index_trapezoid,
        inputs={"mean": BRANDON},
        expected="1620.6",
        unit="K d",
        note="area below 0 °C of straight lines through the middles of the months, February 28.25 days",
    ),
)
