"""Soil pressure, soil weight, culverts, snow and people: printed tables and closed forms.

Coulomb's ratios are printed in Das' table 6.4 as quoted by a verification test (read). The culvert and
snow coefficients are from memory; their rows are worked out by hand from the equation.
"""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.actions import EN1991_1_3, EN1997
from bermwright.data.works.frames import DUNCAN1979, FILLINGMODEL2026
from bermwright.data.works.soils import DAS, DASTABLE, PETTERSSON2014
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import actions, soils

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.base.sources import Work

_BY_HAND = "worked out by hand from the equation"
_TABLE = Cite(work=DASTABLE, place="table 6.4, page 353", provenance=Provenance.READ)


def _derived(  # noqa: PLR0913, PLR0917  (one row of the tables below)
    name: str,
    work: Work,
    place: str,
    call: Callable[..., Any],
    inputs: Mapping[str, Any],
    expected: str,
    unit: str = "",
    pick: Callable[[Any], float] = float,
) -> Row:
    return Row(
        id=f"{work.key}-{name}",
        cite=Cite(work=work, place=place, provenance=Provenance.DERIVED),
        kind=Kind.DERIVED,
        call=call,
        inputs=inputs,
        expected=expected,
        unit=unit,
        pick=pick,
        note=_BY_HAND,
    )


def _printed(name: str, call: Callable[..., Any], angles: tuple[float, float, float], expected: str) -> Row:
    angle, wall, slope = (math.radians(one) for one in angles)
    return Row(
        id=f"DASTABLE-{name}-{angles[0]:.0f}-{angles[1]:.0f}-{angles[2]:.0f}",
        cite=_TABLE,
        kind=Kind.PUBLISHED,
        call=call,
        inputs={"angle": angle, "wall": wall, "slope": slope},
        expected=expected,
    )


def _pressures() -> list[Row]:
    level = {
        20: ("0.6580", "0.4903", "2.0396"),
        25: ("0.5774", "0.4059", "2.4639"),
        30: ("0.5000", "0.3333", "3.0000"),
        35: ("0.4264", "0.2710", "3.6902"),
        40: ("0.3572", "0.2174", "4.5989"),
    }
    calls = (soils.at_rest_ratio, soils.active_ratio, soils.passive_ratio)
    sloping = [
        (30, 10, "0.34952"),
        (30, 15, "0.37295"),
        (30, 20, "0.41421"),
        (35, 10, "0.28175"),
        (35, 20, "0.32164"),
    ]
    return [
        *[
            _derived(
                f"{call.__name__}-{angle}", DAS, "closed form", call, {"angle": math.radians(angle)}, value
            )
            for angle, values in level.items()
            for call, value in zip(calls, values, strict=True)
        ],
        *[
            _derived(
                f"sloping-{angle}-{slope}",
                DAS,
                "closed form, sloping backfill",
                soils.sloping_active_ratio,
                {"angle": math.radians(angle), "slope": math.radians(slope)},
                value,
            )
            for angle, slope, value in sloping
        ],
        _printed("active", soils.coulomb_active_ratio, (28, 0, 0), "0.3610"),
        _printed("active", soils.coulomb_active_ratio, (30, 5, 0), "0.3189"),
        _printed("passive", soils.coulomb_passive_ratio, (26, 0, 0), "2.561"),
        _printed("passive", soils.coulomb_passive_ratio, (30, 22, 0), "6.675"),
        _printed("passive", soils.coulomb_passive_ratio, (32, 17, 10), "10.492"),
        _printed("passive", soils.coulomb_passive_ratio, (40, 16, -10), "5.335"),
        _derived(
            "coulomb-sloping",
            DAS,
            "Coulomb's wedge",
            soils.coulomb_active_ratio,
            {"angle": math.radians(34), "wall": math.radians(12), "slope": math.radians(15)},
            "0.31318",
        ),
        _derived(
            "coulomb-plain",
            DAS,
            "Coulomb's wedge",
            soils.coulomb_active_ratio,
            {"angle": math.radians(32), "wall": math.radians(10)},
            "0.28525",
        ),
        _derived(
            "coulomb-passive-plain",
            DAS,
            "Coulomb's wedge",
            soils.coulomb_passive_ratio,
            {"angle": math.radians(30), "wall": math.radians(22)},
            "6.6748",
        ),
        *[
            _derived(
                f"design-friction-{angle}",
                EN1997,
                "2.4.6.2",
                soils.design_friction_angle,
                {"angle": math.radians(angle), "factor": factor},
                value,
                "deg",
            )
            for angle, factor, value in [(32, 1.25, "26.5603"), (36, 1.1, "33.4445")]
        ],
    ]


def _run(name: str, field: str, runs: tuple[soils.SoilRun, ...]) -> float:
    return float(getattr(next(run for run in runs if run.name == name), field))


def _soil_law() -> list[Row]:
    stiff = [
        (15e6, 0.0, 0.47, "4.7434"),
        (15e6, 19e3, 0.47, "7.4357"),
        (15e6, 38e3, 0.47, "10.516"),
        (10e6, 100e3, 0.6, "12.111"),
    ]
    slopes = [(0.47, 30, "14.8181"), (0.60, 60, "13.8979"), (0.307, 45, "27.9335")]
    largest = [("0.47", 0.47, "21.1336"), ("0.60", 0.60, "14.4775"), ("active-32", 0.3072585, "32.0000")]
    rough, slippery = (
        {"angle": math.radians(32)},
        {"angle": math.radians(32), "membrane_friction": math.radians(15)},
    )
    held = {"angle": math.radians(32), "membrane_friction": math.radians(33)}
    runs = [
        ("rough-low", rough, "low", "ratio", "0.30726"),
        ("rough-low", rough, "low", "spring", "0.0000"),
        ("rough-low", rough, "low", "active", "0.30726"),
        ("slippery-low", slippery, "low", "ratio", "0.47008"),
        ("known-rough-low", held, "low", "ratio", "0.30726"),
        ("expected", rough, "expected", "ratio", "0.47008"),
        ("expected", rough, "expected", "spring", "0.2500"),
        ("compacted", rough, "compacted", "ratio", "0.60008"),
        ("compacted", rough, "compacted", "spring", "0.0000"),
        ("heavy", rough, "heavy", "ratio", "1.0000"),
        ("heavy", rough, "heavy", "spring", "0.0000"),
    ]
    return [
        *[
            _derived(
                f"modulus-{modulus:.0f}-{vertical:.0f}",
                FILLINGMODEL2026,
                "stiffness with stress",
                soils.stress_modulus,
                {"modulus": modulus, "vertical": vertical, "ratio": ratio},
                value,
                "MPa",
            )
            for modulus, vertical, ratio, value in stiff
        ],
        *[
            _derived(
                f"wall-friction-{ratio}-{slope}",
                FILLINGMODEL2026,
                "equilibrium of a wedge of fill",
                soils.needed_wall_friction,
                {"ratio": ratio, "slope": math.radians(slope)},
                value,
                "deg",
            )
            for ratio, slope, value in slopes
        ],
        *[
            _derived(
                f"largest-wall-friction-{name}",
                FILLINGMODEL2026,
                "equilibrium of a wedge of fill; the active ratio needs the soil's own friction",
                soils.largest_needed_wall_friction,
                {"ratio": ratio},
                value,
                "deg",
            )
            for name, ratio, value in largest
        ],
        *[
            _derived(
                f"compacted-{angle}",
                FILLINGMODEL2026,
                "calibration of compacted fill",
                soils.compacted_ratio,
                {"angle": math.radians(angle)},
                value,
            )
            for angle, value in [(32, "0.60008"), (38, "0.51434")]
        ],
        *[
            _derived(
                f"run-{name}-{field}",
                FILLINGMODEL2026,
                "the runs of the soil law",
                soils.soil_runs,
                inputs,
                value,
                pick=partial(_run, run, field),
            )
            for name, inputs, run, field, value in runs
        ],
    ]


def _weights() -> list[Row]:
    soil = {"grain_gravity": 2.65, "void_ratio": 0.6}
    return [
        _derived("dry", DAS, "weight-volume", soils.moist_unit_weight, soil, "16.248", "kN/m3"),
        _derived(
            "moist", DAS, "weight-volume", soils.moist_unit_weight, {**soil, "water": 0.10}, "17.873", "kN/m3"
        ),
        _derived(
            "light-grains",
            DAS,
            "weight-volume",
            soils.saturated_unit_weight,
            {"grain_gravity": 2.0, "void_ratio": 1.0},
            "14.715",
            "kN/m3",
        ),
        _derived("saturated", DAS, "weight-volume", soils.saturated_unit_weight, soil, "19.927", "kN/m3"),
        _derived(
            "voids",
            DAS,
            "weight-volume",
            soils.void_ratio_of,
            {"dry": 16.25e3, "grain_gravity": 2.65},
            "0.59978",
        ),
        _derived(
            "buoyant",
            DAS,
            "effective stress",
            soils.buoyant_unit_weight,
            {"saturated": 21e3},
            "11.190",
            "kN/m3",
        ),
        _derived(
            "water", DAS, "effective stress", soils.hydrostatic_pressure, {"depth": 2.0}, "19.620", "kPa"
        ),
        _derived(
            "no-water", DAS, "effective stress", soils.hydrostatic_pressure, {"depth": -1.0}, "0.000", "kPa"
        ),
    ]


def _culverts() -> list[Row]:
    shapes = [
        (0.96, "0.67000"),
        (1.2, "0.71350"),
        (1.6896, "0.80266"),
        (2.0, "0.88867"),
        (2.2, "0.94408"),
        (2.424, "1.01000"),
        (2.6, "1.08333"),
    ]
    moments = [
        (10.0, "7.1415", "-5.7859"),
        (100.0, "5.1578", "-4.1328"),
        (729.0, "3.4463", "-2.7066"),
        (4990.0, "1.7891", "-1.3256"),
        (5100.0, "1.7854", "-1.3225"),
        (20000.0, "1.7854", "-1.3225"),
    ]
    vault = {"unit_weight": 19e3, "span": 4.8, "rise": 2.2}
    sci = "soil-culvert interaction, coefficients from memory"
    return [
        _derived(
            "flexibility",
            DUNCAN1979,
            sci,
            soils.flexibility_number,
            {"modulus": 7.8e6, "span": 4.8, "wall_stiffness": 1186e3},
            "727.33",
        ),
        *[
            _derived(f"shape-{rise}", DUNCAN1979, sci, soils.shape_factor, {"rise": rise, "span": 4.8}, value)
            for rise, value in shapes
        ],
        *[
            _derived(
                f"crown-{flexibility:.0f}",
                DUNCAN1979,
                sci,
                soils.moment_at_crown_level,
                {**vault, "flexibility": flexibility},
                level,
                "kN m/m",
            )
            for flexibility, level, _ in moments
        ],
        *[
            _derived(
                f"cover-{flexibility:.0f}",
                DUNCAN1979,
                sci,
                soils.moment_change_by_cover,
                {**vault, "flexibility": flexibility, "cover": 1.0},
                change,
                "kN m/m",
            )
            for flexibility, _, change in moments
        ],
        *[
            _derived(
                f"thrust-{cover}",
                DUNCAN1979,
                sci,
                soils.ring_thrust,
                {**vault, "cover": cover},
                value,
                "kN/m",
            )
            for cover, value in [(0.0, "40.128"), (1.0, "101.308")]
        ],
        *[
            _derived(
                f"arching-{angle}",
                PETTERSSON2014,
                "arching, from memory",
                soils.arching_factor,
                {"friction": math.radians(angle), "cover": cover, "span": span},
                value,
            )
            for angle, cover, span, value in [(32, 0.35, 4.8, "0.98310"), (38, 3.0, 4.0, "0.84098")]
        ],
    ]


_X = np.array([-2.0, -1.75, -1.7, -1.2, -0.6, 0.0, 0.6, 1.2, 1.7, 1.75, 2.0])
_ROUND = {"x": _X, "slope": np.arcsin(np.abs(_X) / 2.0), "width": 4.0, "rise": 2.0}
_ASIDE = {"x": np.array([-1.0, 0.0, 1.0, 2.0, 3.0]), "slope": np.zeros(5), "width": 4.0, "rise": 0.5}
_FLAT = {"x": _X, "slope": np.zeros(_X.size), "width": 4.0, "rise": 0.5}


def _at(index: int, found: Any) -> float:
    return float(found[index])


def _snow() -> list[Row]:
    pitched = [
        (0, "0.800"),
        (29.9, "0.800"),
        (31, "0.773333"),
        (45, "0.400000"),
        (59, "0.026667"),
        (61, "0.000"),
    ]
    peaks = [(0.05, "0.70"), (0.125, "1.45"), (0.17, "1.90"), (0.18, "2.00"), (0.5, "2.00")]
    # A half circle keeps snow where it is flatter than 60 degrees: the outermost places here are ±1.7 m,
    # so the triangles stand on 0 to 1.7 m with their peaks at 0.85 m.
    curved = [
        ("round", _ROUND, "even", 2, "0.800"),
        ("round", _ROUND, "even", 5, "0.800"),
        ("round", _ROUND, "even", 1, "0.000"),
        ("round", _ROUND, "right", 6, "1.411765"),
        ("round", _ROUND, "right", 7, "1.176471"),
        ("round", _ROUND, "right", 4, "0.705882"),
        ("round", _ROUND, "right", 3, "0.588235"),
        ("round", _ROUND, "right", 5, "0.000"),
        ("round", _ROUND, "right", 9, "0.000"),
        ("round", _ROUND, "left", 4, "1.411765"),
        ("round", _ROUND, "left", 7, "0.588235"),
        ("flat", _FLAT, "right", 7, "1.160000"),
        ("flat", _FLAT, "left", 7, "0.580000"),
        ("aside", _ASIDE, "right", 3, "1.450000"),
        ("aside", _ASIDE, "left", 3, "0.725000"),
        ("flat", _FLAT, "right", 8, "0.435000"),
    ]
    place = "5.3, coefficients from memory"
    return [
        *[
            _derived(
                f"pitched-{slope}",
                EN1991_1_3,
                place,
                actions.mu_pitched_roof,
                {"slope": math.radians(slope)},
                value,
            )
            for slope, value in pitched
        ],
        *[
            _derived(
                f"peak-{rise}",
                EN1991_1_3,
                place,
                actions.peak_mu_curved_roof,
                {"rise": 4.0 * rise, "width": 4.0},
                value,
            )
            for rise, value in peaks
        ],
        *[
            _derived(
                f"curved-{name}-{arrangement}-{index}",
                EN1991_1_3,
                place,
                actions.mu_curved_roof,
                {**roof, "arrangement": arrangement},
                value,
                pick=partial(_at, index),
            )
            for name, roof, arrangement, index, value in curved
        ],
    ]


def _people() -> list[Row]:
    track = [(0.3, "12.500"), (0.5, "8.4375"), (1.0, "4.1538")]
    return [
        *[
            _derived(
                f"track-{depth}",
                DAS,
                "2 to 1 method",
                actions.spread_pressure,
                {"force": 13.5e3, "length": 0.3, "width": 1.5, "depth": depth},
                value,
                "kPa",
            )
            for depth, value in track
        ],
        _derived(
            "person",
            DAS,
            "2 to 1 method",
            actions.spread_pressure,
            {"force": 1e3, "length": 0.15, "width": 0.3, "depth": 0.3},
            "3.7037",
            "kPa",
        ),
    ]


ROWS: tuple[Row, ...] = (
    *_pressures(),
    *_soil_law(),
    *_weights(),
    *_culverts(),
    *_snow(),
    *_people(),
)
