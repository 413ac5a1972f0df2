"""Soil in three states and volumes between sections: US Army field manual FM 5-434, 2000.

The opening of chapter 1 was seen (three states of soil); the rows are worked from the definitions.
"""

from __future__ import annotations

import math

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.rates import FM5434
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.earthmoving import (
    bank_volume,
    compacted_volume,
    end_slope_area,
    loose_volume,
    prismoidal_volume,
)

_STATES = Cite(work=FM5434, place="section 1-6, three states of soil, worked", provenance=Provenance.DERIVED)
_PRISM = Cite(
    work=FM5434, place="earthwork volumes; pit with plane faces, exact", provenance=Provenance.DERIVED
)


def _pit(name: str, expected: str, note: str, **areas: float) -> Row:
    return Row(
        id=f"FM5434-{name}",
        cite=_PRISM,
        kind=Kind.DERIVED,
        call=prismoidal_volume,
        inputs=areas,
        expected=expected,
        unit="m3",
        note=note,
    )


ROWS = (
    Row(
        id="FM5434-bank",
        cite=_STATES,
        kind=Kind.DERIVED,
        call=bank_volume,
        inputs={"compacted": 30.0, "compacted_over_bank": 0.9},
        expected="33.33",
        unit="m3",
        note="30/0.9",
    ),
    Row(
        id="FM5434-loose",
        cite=_STATES,
        kind=Kind.DERIVED,
        call=loose_volume,
        inputs={"bank": 100.0 / 3.0, "bulking": 0.25},
        expected="41.67",
        unit="m3",
        note="30/0.9·1.25; 30·1.25 = 37.5 is the usual mistake",
    ),
    Row(
        id="FM5434-compacted",
        cite=_STATES,
        kind=Kind.DERIVED,
        call=compacted_volume,
        inputs={"bank": 143.33, "compacted_over_bank": 0.8},
        expected="114.664",
        unit="m3",
        note="0.8·143.33",
    ),
    _pit(
        "pit-5-by-6",
        "114.667",
        "sides 1:1, bottom 5 by 6 m, 2 m deep: b·l·d + (b + l)·s·d² + 4/3·s²·d³; averaged ends give 120",
        first=30.0,
        middle=56.0,
        last=90.0,
        length=2.0,
    ),
    _pit(
        "pit-6-by-8",
        "129.375",
        "sides 1:1.5, bottom 6 by 8 m, 1.5 m deep: the same closed form",
        first=48.0,
        middle=84.5625,
        last=131.25,
        length=1.5,
    ),
    _pit(
        "pyramid",
        "8.0",
        "a third of base times height: 1/3·4·6; averaged ends give half as much again",
        first=4.0,
        middle=1.0,
        last=0.0,
        length=6.0,
    ),
    Row(
        id="FM5434-end-slope",
        cite=_PRISM,
        kind=Kind.DERIVED,
        call=end_slope_area,
        inputs={"height": 3.0, "drop": 1.0, "slope": math.atan(0.5)},
        expected="15.0",
        unit="m2",
        note="slope 1:2: rectangle 2 m by 3 m and triangle 6 m by 3 m",
    ),
)
