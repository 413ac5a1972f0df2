"""Timber: results printed in textbooks and verification tests, and closed forms of mechanics."""

from __future__ import annotations

from operator import attrgetter
from typing import Any

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.timber import BENOIT2008, EN1993, PORTEOUS2007, TIMOSHENKO, XCEC5
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import timber

_XC = Cite(work=XCEC5, place="C24 and C18, partial factor 1.3", provenance=Provenance.READ)
_STRENGTHS = tuple(
    Row(
        id=f"XCEC5-{name}",
        cite=_XC,
        kind=Kind.PUBLISHED,
        call=timber.design_strength,
        inputs={"characteristic": characteristic, "k_mod": k_mod, "gamma": 1.3},
        expected=expected,
        unit="MPa",
    )
    for name, characteristic, k_mod, expected in [
        ("bending", 24e6, 0.8, "14.769"),
        ("compression", 21e6, 0.8, "12.923"),
        ("shear-old-edition", 2.5e6, 0.8, "1.5385"),
        ("across-wet", 2.2e6, 0.5, "0.8462"),
    ]
)

_COLUMN = Cite(work=PORTEOUS2007, place="example 5.7.3", provenance=Provenance.READ)
_COLUMN_ROWS = (
    Row(
        id="PORTEOUS2007-5.7.3-slenderness",
        cite=_COLUMN,
        kind=Kind.PUBLISHED,
        call=timber.slenderness,
        inputs={"length": 3.75, "inertia": 0.2 * 0.1**3 / 12, "area": 0.02},
        expected="129.9",
    ),
    *(
        Row(
            id=f"PORTEOUS2007-5.7.3-{name}",
            cite=Cite(work=PORTEOUS2007, place="example 5.7.3, inputs", provenance=Provenance.DERIVED),
            kind=Kind.DERIVED,
            call=timber.buckling_and_bending,
            inputs={
                "compression": 1.9875e6,
                "bending": 1.490625e6,
                "flat_bending": 1.1925e6,
                "compression_strength": 21e6 * 0.8 / 1.3,
                "bending_strength": 24e6 * 0.8 / 1.3,
                "flat_strength": 24e6 * 0.8 / 1.3 * (150 / 100) ** 0.2,
                "k_c": k_c,
                "k_c_flat": k_c_flat,
            },
            expected=expected,
            note="39.75 kN on 100 by 200 mm, eccentric 25 and 10 mm, both planes worked out by hand",
        )
        for name, k_c, k_c_flat, expected in [
            ("6.24", 0.61411, 0.18794, "0.9634"),
            ("6.23", 0.61411, 1.0, "0.4035"),
        ]
    ),
)

_BEAM = Cite(work=BENOIT2008, place="example 2.3.1", provenance=Provenance.READ)
_BEAM_ROWS = tuple(
    Row(
        id=f"BENOIT2008-2.3.1-{load:.0f}",
        cite=_BEAM,
        kind=Kind.PUBLISHED,
        call=timber.simple_beam_deflection,
        inputs={
            "load": load,
            "span": 4.5,
            "bending_stiffness": 11e9 * 0.075 * 0.2**3 / 12,
            "shear_stiffness": 690e6 * 0.075 * 0.2,
        },
        expected=expected,
        unit="mm",
        note="shear deflection included",
    )
    for load, expected in [(750.0, "7.501"), (1000.0, "10.001")]
)

_MECHANICS = Cite(work=TIMOSHENKO, place="bending and torsion of a rectangle", provenance=Provenance.DERIVED)


def _section(
    name: str, found: str, inputs: dict[str, Any], expected: str, unit: str, rel: float | None = None
) -> Row:
    return Row(
        id=f"section-{name}-{found}",
        cite=_MECHANICS,
        kind=Kind.DERIVED,
        call=timber.laminated_section if "layers" in inputs else timber.rectangular_section,
        inputs=inputs,
        expected=expected,
        unit=unit,
        pick=attrgetter(found),
        rel=rel,
        note="b·h, b·h²/6, b·h³/12; torsion by the series of de Saint-Venant"
        if rel
        else "b·h, b·h²/6, b·h³/12; torsion by the closed form, by hand",
    )


_BOARD = {"width": 0.032, "depth": 0.195}
_RIB = {"layers": 4, "thickness": 0.032, "depth": 0.195}
_SECTIONS = (
    _section("board", "area", _BOARD, "6240.0", "mm2"),
    _section("board", "modulus", _BOARD, "202800", "mm3"),
    _section("board", "inertia", _BOARD, "19773000", "mm4"),
    _section("board", "inertia_flat", _BOARD, "532480", "mm4"),
    _section("board", "torsion", _BOARD, "1.9096e6", "mm4", rel=0.002),
    _section("square", "torsion", {"width": 0.1, "depth": 0.1}, "1.4058e7", "mm4", rel=0.002),
    _section("lying", "torsion", {"width": 0.2, "depth": 0.1}, "4.5737e7", "mm4", rel=0.001),
    _section("square-formula", "torsion", {"width": 0.1, "depth": 0.1}, "1.40833e7", "mm4"),
    _section("lying-formula", "torsion", {"width": 0.2, "depth": 0.1}, "4.57760e7", "mm4"),
    _section("rib", "width", _RIB, "128.00", "mm"),
    _section("rib", "depth", _RIB, "195.00", "mm"),
    _section("rib", "area", _RIB, "24960", "mm2"),
    _section("rib", "modulus", _RIB, "811200", "mm3"),
    _section("rib", "inertia", _RIB, "79092000", "mm4"),
    _section("rib", "inertia_flat", _RIB, "2129920", "mm4"),
    _section("rib", "torsion", _RIB, "7.6384e6", "mm4", rel=0.002),
    _section("rib-at-joint", "modulus", {**_RIB, "layers": 3}, "608400", "mm3"),
)

_HELD = Cite(work=EN1993, place="BB.3.3.1, re-derived by energy", provenance=Provenance.DERIVED)
_HELD_ROWS = tuple(
    Row(
        id=f"EN1993-held-edge-{length}",
        cite=_HELD,
        kind=Kind.DERIVED,
        call=timber.critical_moment_held_edge,
        inputs={
            "inertia_flat": 2.12992e-6,
            "torsion": 7.638929e-6,
            "depth": 0.195,
            "length": length,
            "modulus_low": 6e9,
            "shear_modulus_low": 560e6 * 6 / 9,
        },
        expected=expected,
        unit="kN m",
        note="(π²·E·I_z·a²/l² + G·I_tor)/(2·a) in N and mm",
    )
    for length, expected in [(1.5, "17.358"), (0.5, "39.220")]
)

_BAYS = Cite(work=TIMOSHENKO, place="three-moment equation, equal bays", provenance=Provenance.DERIVED)
_BAY_VALUES = {
    1: {"moment": "1350.0", "shear": "9000.0", "support": "9000.0", "deflection_times_stiffness": "50.625"},
    2: {"moment": "1350.0", "shear": "11250", "support": "22500", "deflection_times_stiffness": "21.058"},
    3: {"moment": "1080.0", "shear": "10800", "support": "19800", "deflection_times_stiffness": "26.766"},
}
_PLANKS = tuple(
    Row(
        id=f"planks-{spans}-{which}",
        cite=_BAYS,
        kind=Kind.DERIVED,
        call=timber.plank_demand,
        inputs={"pressure": 30e3, "spacing": 0.6, "spans": spans},
        expected=expected,
        pick=attrgetter(which),
        note="30 kPa on bays of 0.6 m; greatest deflection where the slope is nought",
    )
    for spans, values in _BAY_VALUES.items()
    for which, expected in values.items()
)
_PLANKS_UNSAID = (
    Row(
        id="planks-unsaid",
        cite=_BAYS,
        kind=Kind.DERIVED,
        call=timber.plank_demand,
        inputs={"pressure": 30e3, "spacing": 0.6},
        expected="9000.0",
        pick=attrgetter("support"),
        note="one bay where nothing is said",
    ),
)

ROWS: tuple[Row, ...] = (
    *_STRENGTHS,
    *_COLUMN_ROWS,
    *_BEAM_ROWS,
    *_SECTIONS,
    *_HELD_ROWS,
    *_PLANKS,
    *_PLANKS_UNSAID,
)
