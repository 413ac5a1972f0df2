"""Logs, notches, posts, lintels, floors, bent boards and grades: printed results and closed forms."""

from __future__ import annotations

from operator import attrgetter
from typing import TYPE_CHECKING, Any

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.carpentry import (
    BROMS1964,
    DIN4074,
    NDS,
    TALY2010,
    TRADA1994,
    UFC310_05A,
    UKNA1995,
)
from bermwright.data.works.timber import EN1995, LAYEREDRIB, SWEDISHWOOD, TIMOSHENKO
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import carpentry

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.base.sources import Work


def _derived(  # noqa: PLR0913, PLR0917  (one row of the tables below, in the order of its columns)
    name: str,
    cite: Cite,
    call: Callable[..., Any],
    inputs: dict[str, Any],
    expected: str,
    unit: str,
    note: str,
    pick: str = "",
) -> Row:
    return Row(
        id=name, cite=cite, kind=Kind.DERIVED, call=call, inputs=inputs, expected=expected, unit=unit,
        note=note, pick=attrgetter(pick) if pick else lambda found: found,
    )  # fmt: skip


def _by(work: Work, place: str) -> Cite:
    return Cite(work=work, place=place, provenance=Provenance.DERIVED)


_CIRCLE = _by(TIMOSHENKO, "geometry of the circle, shear 4/3 of the mean")
_LOGS = (
    *(
        _derived(
            f"log-{part}", _CIRCLE, carpentry.round_section, {"diameter": 0.2}, expected, unit,
            "200 mm: π·d²/4, π·d³/32, π·d⁴/64", part,
        )
        for part, expected, unit in [
            ("area", "31415.9", "mm2"), ("modulus", "785398", "mm3"), ("inertia", "78539816", "mm4"),
        ]
    ),
    _derived(
        "log-shear", _CIRCLE, carpentry.round_shear_stress,
        {"force": 10e3, "diameter": 0.2, "crack_factor": 0.67}, "0.63345", "N/mm2",
        "4·10000/(3·0.67·31415.93)",
    ),
    *(
        _derived(
            f"log-taper-{share:.2f}", _by(NDS, "3.7.2, straight taper"), carpentry.tapered_diameter,
            {"thin": 0.18, "thick": 0.24, "share": share}, expected, "mm", "180 + s·60 mm",
        )
        for share, expected in [(0.0, "180.00"), (1 / 3, "200.00"), (1.0, "240.00")]
    ),
    *(
        _derived(
            f"log-seat-{cut * 1e3:.0f}", _CIRCLE, carpentry.seat_width, {"diameter": 0.2, "cut": cut},
            expected, "mm", "chord at a depth: 2·√(t·(d − t))",
        )
        for cut, expected in [(0.02, "120.00"), (0.1, "200.00")]
    ),
)  # fmt: skip

_NOTCHES = (
    Row(
        id="TRADA1994-F6",
        cite=Cite(work=TRADA1994, place="F6", provenance=Provenance.READ),
        kind=Kind.PUBLISHED,
        call=carpentry.notch_factor,
        inputs={"depth": 0.245, "left": 0.182, "distance": 0.024},
        expected="0.630",
    ),
    *(
        _derived(
            f"notch-{name}",
            _by(EN1995, "eq. 6.62, by hand"),
            carpentry.notch_factor,
            inputs,
            expected,
            "",
            "h and x in mm, k_n = 5",
        )
        for name, inputs, expected in [
            ("far", {"depth": 0.2, "left": 0.15, "distance": 0.1}, "0.45085"),
            ("sloped", {"depth": 0.2, "left": 0.15, "distance": 0.1, "incline": 3.0}, "0.63306"),
            ("fifth", {"depth": 0.22, "left": 0.176, "distance": 0.06}, "0.59098"),
            ("shallow", {"depth": 0.225, "left": 0.21, "distance": 0.0425}, "1.0000"),
            ("none", {"depth": 0.2, "left": 0.2, "distance": 0.0}, "1.0000"),
        ]
    ),
)

_STATICS = _by(TIMOSHENKO, "beam under a trapezoid of load, integrated in two million steps")
_POST_TABLE: dict[str, tuple[dict[str, float], tuple[str, str, str]]] = {
    "triangle": (
        {"bottom": 9e3, "top": 0.0, "height": 3.0, "above": 0.0, "span": 3.0},
        ("9000.0", "4500.0", "5196.2"),
    ),
    "trapezoid": (
        {"bottom": 8e3, "top": 2e3, "height": 1.5, "above": 0.3, "span": 2.4},
        ("4687.5", "2812.5", "2956.6"),
    ),
    "even": (
        {"bottom": 6e3, "top": 6e3, "height": 2.4, "above": 0.0, "span": 2.4},
        ("7200.0", "7200.0", "4320.0"),
    ),
    "low": (
        {"bottom": 12e3, "top": 0.0, "height": 1.0, "above": 0.4, "span": 2.2},
        ("4000.0", "2000.0", "2369.8"),
    ),
    "upside-down": (
        {"bottom": 2e3, "top": 8e3, "height": 1.5, "above": 0.3, "span": 2.4},
        ("3750.0", "3750.0", "3213.6"),
    ),
    "wet": (
        {"bottom": 9e3, "top": 2e3, "height": 2.0, "above": 0.5, "span": 3.0, "water": 6e3, "stands": 0.8},
        ("8064.4", "5335.6", "6635.9"),
    ),
    "wet-low": (
        {"bottom": 2e3, "top": 0.0, "height": 2.0, "above": 0.6, "span": 3.0, "water": 12e3, "stands": 0.5},
        ("3388.9", "1611.1", "2540.6"),
    ),
    "wet-foot": (
        {
            "bottom": 500.0,
            "top": 500.0,
            "height": 3.0,
            "above": 0.0,
            "span": 3.0,
            "water": 4e3,
            "stands": 0.8,
        },
        ("2207.8", "892.2", "796.1"),
    ),
    "wet-through": (
        {"bottom": 4e3, "top": 1e3, "height": 1.5, "above": 0.0, "span": 2.4, "water": 3e3, "stands": 1.5},
        ("4593.8", "1406.2", "1786.5"),
    ),
}
_POSTS = (
    *(
        _derived(
            f"post-{name}-{part}", _STATICS, carpentry.leaning_post, dict(inputs), expected, "",
            "N and N m", part,
        )
        for name, (inputs, values) in _POST_TABLE.items()
        for part, expected in zip(("foot", "head", "moment"), values, strict=True)
    ),
    *(
        _derived(
            f"fence-{part}", _by(TIMOSHENKO, "cantilever"), carpentry.standing_post,
            {"bottom": 8e3, "top": 2e3, "height": 1.5, "above": 0.3}, expected, "",
            "F = 7500 N; M = 7500·0.3 + 1.5²·(8000 + 4000)/6 by hand", part,
        )
        for part, expected in [("foot", "7500.0"), ("moment", "6750.0"), ("head", "0.0")]
    ),
    *(
        _derived(
            f"fence-wet-{part}", _by(TIMOSHENKO, "cantilever"), carpentry.standing_post,
            {"bottom": 8e3, "top": 2e3, "height": 1.5, "above": 0.3, "water": 4e3, "stands": 0.6}, expected,
            "", "1200 N more, 0.3 + 0.6/3 m up: 600 N m more than without water", part,
        )
        for part, expected in [("foot", "8700.0"), ("moment", "7350.0")]
    ),
    _derived(
        "BROMS1964-free", _by(BROMS1964, "equilibrium about the toe"), carpentry.free_post_holds,
        {"unit_weight": 18e3, "passive": 3.0, "width": 0.2, "depth": 1.5, "lever": 0.5}, "9112.5", "",
        "triangle of 3·3·18·1.5·0.2 kN/m over 1.5 m, its moment 9.1125 kNm over 2.0 m of lever, ·2",
    ),
    _derived(
        "BROMS1964-free-none", _by(BROMS1964, "equilibrium about the toe"), carpentry.free_post_holds,
        {"unit_weight": 18e3, "passive": 3.0, "width": 0.2, "depth": 0.0, "lever": 0.0}, "0.0", "",
        "a post that stands on the ground holds nothing",
    ),
    _derived(
        "BROMS1964-free-moment", _by(BROMS1964, "shear nil where 3/2·K_p·γ·b·f² = H"),
        carpentry.free_post_moment,
        {"force": 3e3, "unit_weight": 18e3, "passive": 3.0, "width": 0.2, "lever": 0.5}, "2360.7", "",
        "f = 0.4303 m; 3000·0.5 + 3000·0.4303 − 32400·0.4303³/6",
    ),
    _derived(
        "BROMS1964-held", _by(BROMS1964, "triangle of pressure"), carpentry.held_foot_holds,
        {"unit_weight": 18e3, "passive": 3.0, "width": 0.2, "depth": 0.6}, "5832.0", "",
        "area of the triangle 3·3·18·0.6·0.2 kN/m over 0.6 m",
    ),
)  # fmt: skip

_LB, _FT = 4.4482216, 0.3048
_LINTELS = (
    Row(
        id="UFC310-05A-load",
        cite=Cite(work=UFC310_05A, place="chapter 8, lintel over 4 ft", provenance=Provenance.READ),
        kind=Kind.PUBLISHED,
        call=carpentry.lintel_load,
        inputs={"span": 4 * _FT, "height": 3.0, "weight": 50 * _LB / _FT**2, "arches": True},
        expected="200",
        unit="lb",
        pick=attrgetter("total"),
    ),
    Row(
        id="UFC310-05A-moment",
        cite=Cite(work=UFC310_05A, place="257 less 62·4²/8 of the lintel itself", provenance=Provenance.READ),
        kind=Kind.PUBLISHED,
        call=carpentry.lintel_load,
        inputs={"span": 4 * _FT, "height": 3.0, "weight": 50 * _LB / _FT**2, "arches": True},
        expected="133",
        unit="lb ft",
        pick=attrgetter("moment"),
    ),
    Row(
        id="TALY2010-4.27",
        cite=Cite(work=TALY2010, place="983 lb over 6 ft", provenance=Provenance.READ),
        kind=Kind.PUBLISHED,
        call=carpentry.lintel_load,
        inputs={"span": 6 * _FT, "height": 2.0, "weight": 983 / 9 * _LB / _FT**2, "arches": True},
        expected="983",
        unit="lb ft",
        pick=attrgetter("moment"),
    ),
    *(
        _derived(
            f"lintel-{name}-{part}", _by(TIMOSHENKO, "beam, integrated in 400 000 steps"),
            carpentry.lintel_load, {"span": 1.2, "weight": 5e3, **inputs}, expected, "", "N and N m", part,
        )
        for name, inputs, part, expected in [
            ("low-wall", {"height": 0.3, "arches": True}, "total", "1350.0"),
            ("low-wall", {"height": 0.3, "arches": True}, "moment", "247.50"),
            ("low-wall", {"height": 0.3, "arches": True}, "reaction", "675.00"),
            ("arch", {"height": 2.0, "arches": True}, "moment", "360.00"),
            ("all", {"height": 2.0, "arches": False}, "total", "12000"),
            ("all", {"height": 2.0, "arches": False}, "moment", "1800.0"),
            ("all", {"height": 2.0, "arches": False}, "reaction", "6000.0"),
        ]
    ),
)  # fmt: skip

_UK = _by(UKNA1995, "NA.2.6.2, by hand")
_FLOORS = (
    _derived(
        "floor-frequency", _by(EN1995, "eq. 7.5: (1/2π)·√(π⁴·EI/(m·l⁴)) of a simple beam"),
        carpentry.floor_frequency, {"span": 4.0, "stiffness": 1e6, "mass": 50.0}, "13.884", "",
        "π/32·√20000",
    ),
    _derived(
        "UKNA1995-share", _UK, carpentry.joist_share, {"board_stiffness": 2e3, "spacing": 0.6}, "0.50258", "",
        "0.38 − 0.08·ln(14·2e9/1.296e11)",
    ),
    _derived(
        "UKNA1995-share-least", _UK, carpentry.joist_share, {"board_stiffness": 16e3, "spacing": 0.4},
        "0.30000", "", "never under 0.30",
    ),
    _derived(
        "UKNA1995-share-most", _UK, carpentry.joist_share, {"board_stiffness": 1.0, "spacing": 1.0},
        "1.0000", "", "never over 1",
    ),
    _derived(
        "UKNA1995-deflection", _UK, carpentry.foot_deflection,
        {"span": 3.2, "stiffness": 300e3, "share": 0.4}, "0.95573", "mm", "0.4·1.05·1000·3.2³/(48·300000)",
    ),
    *(
        _derived(
            f"UKNA1995-limit-{span:g}", _by(UKNA1995, "table NA.5, by hand"), carpentry.foot_deflection_limit,
            {"span": span}, expected, "mm", "1.8 mm, over 4 m 16500/l^1.1",
        )
        for span, expected in [(3.0, "1.8000"), (4.0, "1.8000"), (5.0, "1.4080"), (8.0, "0.83962")]
    ),
)  # fmt: skip

_TWO: dict[str, Any] = {
    "layers": 2,
    "width": 0.145,
    "thickness": 0.045,
    "modulus": 11e9,
    "slip": 17.4e6,
    "wave": 3.0,
}
_THREE = {**_TWO, "layers": 3}
_FIVE = {"layers": 5, "width": 0.145, "thickness": 0.022, "modulus": 11e9, "slip": 34.8e6, "wave": 2.5}
_EIGHT = {"layers": 8, "width": 0.1, "thickness": 0.02, "modulus": 9e9, "slip": 40e6, "wave": 3.0}
_ANNEX = _by(EN1995, "annex B, eq. B.1 to B.10, by hand")
_COSINES = _by(LAYEREDRIB, "the boards' shifts split into cosines over the stack, summed")
_STACK_VALUES: list[tuple[dict[str, Any], dict[str, str]]] = [
    (_TWO, {"stiffness": "46504", "pulled": "10.647", "bent": "0.26045", "flow": "10.647"}),
    (_THREE, {"stiffness": "88963", "pulled": "6.5729", "bent": "0.13615", "flow": "6.5729"}),
    (_THREE, {"efficiency": "0.18104"}),
    (_FIVE, {"stiffness": "40522", "pulled": "8.2332", "bent": "0.034927", "flow": "10.525"}),
    (_EIGHT, {"stiffness": "77850", "pulled": "4.6087", "bent": "0.0077072", "flow": "8.1836"}),
    ({**_TWO, "layers": 1}, {"efficiency": "1.0000", "bent": "1.0000", "flow": "0.0000"}),
]
_STACKS = tuple(
    _derived(
        f"stack-{inputs['layers']}-{part}",
        _ANNEX if inputs["layers"] in {2, 3} else _COSINES,
        carpentry.layered_stack,
        dict(inputs),
        expected,
        "",
        "γ-method" if inputs["layers"] in {2, 3} else "Σ c_m²·k·λ_m/(k·λ_m + E·A·β²)",
        part,
    )
    for inputs, values in _STACK_VALUES
    for part, expected in values.items()
)
_BENT = (
    *(
        Row(
            id=f"SWEDISHWOOD-curving-{expected}",
            cite=Cite(work=SWEDISHWOOD, place="bending a lamination", provenance=Provenance.DERIVED),
            kind=Kind.DERIVED,
            call=carpentry.curving_stress,
            inputs={"thickness": thick, "radius": radius, "modulus": modulus},
            expected=expected,
            unit="N/mm2",
            note="E·t/(2·R) with the inputs printed there",
        )
        for thick, radius, modulus, expected in [(0.033, 8.0, 13e9, "26.8"), (0.02, 3.0, 11e9, "36.7")]
    ),
    _derived(
        "curving-kept", _by(EN1995, "eq. 2.7, by hand"), carpentry.kept_stress,
        {"stress": 26.8e6, "k_def": 0.8}, "14.889", "N/mm2", "26.8/1.8",
    ),
)  # fmt: skip

_SOUND = {"knots": 0.15, "grain": 0.05, "rings": 0.003, "wane": 0.1, "cracks": 0.2}
_GRADE_VALUES: list[tuple[str, dict[str, Any], str]] = [
    ("sound", {}, "13"),
    ("knots-10", {"knots": 0.399}, "10"),
    ("knots-7", {"knots": 0.599}, "7"),
    ("knots-reject", {"knots": 0.601}, "0"),
    ("grain-10", {"grain": 0.071}, "10"),
    ("grain-reject", {"grain": 0.121}, "0"),
    ("rings-10", {"rings": 0.0059}, "10"),
    ("rings-reject", {"rings": 0.0061}, "0"),
    ("wane-10", {"wane": 0.249}, "10"),
    ("wane-reject", {"wane": 0.251}, "0"),
    ("cracks-10", {"cracks": 0.49}, "10"),
    ("rot", {"rotten": True}, "0"),
]
_GRADES = tuple(
    _derived(
        f"DIN4074-{name}", _by(DIN4074, "table 2 as carried over, read by hand"), carpentry.visual_grade,
        {**_SOUND, **changes}, expected, "", "the best grade of which no limit is passed", "number",
    )
    for name, changes, expected in _GRADE_VALUES
)  # fmt: skip

ROWS: tuple[Row, ...] = (
    *_LOGS,
    *_NOTCHES,
    *_POSTS,
    *_LINTELS,
    *_FLOORS,
    *_STACKS,
    *_BENT,
    *_GRADES,
)
