"""Nails to the pound: printed tables of common nails, against area times length times density."""

from __future__ import annotations

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.rates import CARPENTRYV4, NAILTABLE
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.boards import nail_mass, nails_along, strips_across

_POUND = 0.45359237
_INCH = 0.0254
_STEEL = 7850.0
_TABLE = Cite(work=NAILTABLE, place="common nails, number to the pound", provenance=Provenance.READ)
_WIRE = Cite(work=NAILTABLE, place="the same nails as plain wire", provenance=Provenance.DERIVED)
_COUNT = Cite(work=CARPENTRYV4, place="counting by spacing, worked", provenance=Provenance.DERIVED)


def _to_the_pound(mass: float) -> float:
    return _POUND / float(mass)


def _to_the_kilogram(mass: float) -> float:
    return 1.0 / float(mass)


def _nail(name: str, expected: str, note: str, diameter: float, length: float, rel: float | None) -> Row:
    return Row(
        id=f"NAILTABLE-{name}",
        cite=_TABLE if rel else _WIRE,
        kind=Kind.PUBLISHED if rel else Kind.DERIVED,
        call=nail_mass,
        inputs={"diameter": diameter, "length": length, "density": _STEEL},
        expected=expected,
        pick=_to_the_pound if rel else _to_the_kilogram,
        rel=rel,
        note=note,
    )


def _along(name: str, expected: str, note: str, length: float, spacing: float, rows: float) -> Row:
    return Row(
        id=f"CARPENTRYV4-{name}",
        cite=_COUNT,
        kind=Kind.DERIVED,
        call=nails_along,
        inputs={"length": length, "spacing": spacing, "rows": rows},
        expected=expected,
        note=note,
    )


def _strips(name: str, expected: str, note: str, width: float, roll: float, lap: float) -> Row:
    return Row(
        id=f"CARPENTRYV4-{name}",
        cite=_COUNT,
        kind=Kind.DERIVED,
        call=strips_across,
        inputs={"width": width, "roll": roll, "lap": lap},
        expected=expected,
        note=note,
    )


_HEADS = "the heads, left out here, make the printed number smaller"

ROWS = (
    _nail("16d", "50", _HEADS, 0.162 * _INCH, 3.5 * _INCH, 0.03),
    _nail("20d", "30", _HEADS, 0.192 * _INCH, 4.0 * _INCH, 0.03),
    _nail("65-by-2.8", "318.3", "4/(π·d²·l·ρ)", 0.0028, 0.065, None),
    _nail("100-by-4", "101.4", "4/(π·d²·l·ρ)", 0.004, 0.100, None),
    _along("nails-along-a-piece", "22.00", "ten gaps of 0.1 m, eleven nails, two rows", 1.0, 0.1, 2.0),
    _along("nails-with-a-rest", "9.00", "0.75/0.1 rounds up to eight gaps", 0.75, 0.1, 1.0),
    _strips("strips-of-7.5-m", "4", "(7.5 − 0.15)/(2.0 − 0.15) = 3.97", 7.5, 2.0, 0.15),
    _strips("strips-just-fit", "3", "2.0 + 2·1.8 = 5.6", 5.6, 2.0, 0.2),
    _strips("strips-just-too-wide", "4", "(5.7 − 0.2)/1.8 = 3.06", 5.7, 2.0, 0.2),
    _strips("strips-narrow", "1.00", "narrower than the roll", 0.1, 2.0, 0.2),
)
