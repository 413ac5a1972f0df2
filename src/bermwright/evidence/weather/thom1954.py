"""Degree-days from mean and spread: H. C. S. Thom, Monthly Weather Review 82 (1954).

The work was not opened. The rows are the closed integral of a normal distribution below a base,
t·[s·φ(z) − (m − b)·Φ(−z)], worked with printed tables of φ and Φ.
"""

from __future__ import annotations

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.climate import THOM1954
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.weather import cold_below, freezing_index_normal_days

_INTEGRAL = Cite(
    work=THOM1954, place="integral of the normal distribution below a base", provenance=Provenance.DERIVED
)
_DAY = 86_400.0


def _row(name: str, expected: str, note: str, **inputs: float) -> Row:
    return Row(
        id=f"THOM1954-{name}",
        cite=_INTEGRAL,
        kind=Kind.DERIVED,
        call=cold_below,
        inputs=inputs,
        expected=expected,
        unit="K d",
        note=note,
    )


ROWS = (
    _row("mean-at-base", "59.84", "30·5/√(2π)", mean=0.0, spread=5.0, duration=30 * _DAY),
    _row("one-spread-below", "4.33326", "4·(0.241971 + 0.841345)", mean=-4.0, spread=4.0, duration=_DAY),
    _row("one-spread-above", "0.33326", "4·(0.241971 − 0.158655)", mean=4.0, spread=4.0, duration=_DAY),
    _row("two-spreads-above", "0.01698", "2·0.0539910 − 4·0.0227501", mean=4.0, spread=2.0, duration=_DAY),
    _row("steady-cold", "62.0", "31·(0 + 2)", mean=-2.0, spread=0.0, duration=31 * _DAY),
    _row("steady-warm", "0.0", "max(0, −3) = 0", mean=3.0, spread=0.0, duration=31 * _DAY),
    _row(
        "other-base",
        "4.33326",
        "as one spread below, base 18",
        mean=14.0,
        spread=4.0,
        duration=_DAY,
        base=18.0,
    ),
    Row(
        id="THOM1954-even-year",
        cite=_INTEGRAL,
        kind=Kind.DERIVED,
        call=freezing_index_normal_days,
        inputs={"mean": (0.0,) * 12, "spread": (5.0,) * 12},
        expected="728.57",
        unit="K d",
        note="365.25·5/√(2π)",
    ),
)
