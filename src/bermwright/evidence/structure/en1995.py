"""EN 1995-1-1: its equations evaluated by hand, in every range, in N and mm.

The standard was not opened: equations are from memory and each row is worked out independently of the
code from the equation in its note; rows of textbooks that print results stand in their own modules.
"""

from __future__ import annotations

import math
from functools import partial
from operator import attrgetter
from typing import TYPE_CHECKING, Any

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.timber import EN1995, LVLHANDBOOK, SWEDISHWOOD
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import timber

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

MM, MPA = 1e-3, 1e6


def _cite(place: str) -> Cite:
    return Cite(work=EN1995, place=place, provenance=Provenance.DERIVED)


def _row(  # noqa: PLR0913, PLR0917  (one row of the tables below)
    name: str,
    place: str,
    call: Callable[..., Any],
    inputs: Mapping[str, Any],
    expected: str,
    unit: str = "",
    pick: Callable[[Any], float] = float,
    note: str = "worked out by hand from the equation",
    cite: Cite | None = None,
) -> Row:
    return Row(
        id=f"EN1995-{name}",
        cite=cite or _cite(place),
        kind=Kind.PUBLISHED if cite else Kind.DERIVED,
        call=call,
        inputs=inputs,
        expected=expected,
        unit=unit,
        pick=pick,
        note=note,
    )


def _factors() -> list[Row]:
    table = [
        (1, "permanent", "0.6"),
        (1, "long-term", "0.7"),
        (2, "medium-term", "0.8"),
        (2, "short-term", "0.9"),
        (1, "instantaneous", "1.1"),
        (3, "permanent", "0.5"),
        (3, "long-term", "0.55"),
        (3, "medium-term", "0.65"),
        (3, "short-term", "0.7"),
        (3, "instantaneous", "0.9"),
    ]
    kmod = [
        _row(
            f"kmod-{service}-{duration}",
            "table 3.1",
            timber.modification_factor,
            {"service_class": service, "duration": duration},
            expected,
            note="table from memory",
        )
        for service, duration, expected in table
    ]
    kdef = [
        _row(
            f"kdef-{service}-{green}",
            "table 3.2",
            timber.deformation_factor,
            {"service_class": service, "green": green},
            expected,
            note="table from memory",
        )
        for service, green, expected in [
            (1, False, "0.6"),
            (2, False, "0.8"),
            (3, False, "2.0"),
            (2, True, "1.8"),
        ]
    ]
    kh = [
        _row(
            f"kh-{depth}", "eq. 3.1", timber.depth_factor, {"depth": depth * MM}, expected, note="(150/h)^0.2"
        )
        for depth, expected in [
            (145, "1.0068"),
            (100, "1.0845"),
            (75, "1.1487"),
            (30, "1.3000"),
            (195, "1.0000"),
        ]
    ]
    return [*kmod, *kdef, *kh]


_BOTH = {"bending_strength": 14 * MPA, "flat_strength": 15 * MPA}


def _combined() -> list[Row]:
    strong = {"bending": 6 * MPA, "flat_bending": 1 * MPA}
    weak = {"bending": 1 * MPA, "flat_bending": 6 * MPA}
    squeezed = {"compression": 3 * MPA, "compression_strength": 12 * MPA, **_BOTH}
    pulled = {"tension": 2 * MPA, "tension_strength": 9 * MPA, **_BOTH}
    same = {k: v for k, v in squeezed.items() if k != "flat_strength"}
    slender = {"k_c": 0.8, "k_c_flat": 0.9}
    return [
        _row("6.19", "eq. 6.19", timber.bending_and_compression, {**squeezed, **strong}, "0.53774"),
        _row("6.20", "eq. 6.20", timber.bending_and_compression, {**squeezed, **weak}, "0.51250"),
        _row("6.19-same", "eq. 6.19", timber.bending_and_compression, {**same, **strong}, "0.54107"),
        _row("6.17", "eq. 6.17", timber.bending_and_tension, {**pulled, **strong}, "0.69746"),
        _row("6.18", "eq. 6.18", timber.bending_and_tension, {**pulled, **weak}, "0.67222"),
        _row("6.23", "eq. 6.23", timber.buckling_and_bending, {**squeezed, **strong, **slender}, "0.78774"),
        _row(
            "6.24",
            "eq. 6.24",
            timber.buckling_and_bending,
            {**squeezed, **weak, "k_c": 0.8, "k_c_flat": 0.4},
            "1.0750",
            note="σ_c/(k_c,z·f_c) + 0.7·σ_m,y/f_m,y + σ_m,z/f_m,z = 0.625 + 0.05 + 0.4",
        ),
        _row(
            "6.24-plane", "eq. 6.24", timber.buckling_and_bending, {**squeezed, **weak, "k_c": 0.8}, "0.7000"
        ),
        _row(
            "6.13",
            "eq. 6.13",
            timber.shear_stress,
            {"force": 5e3, "width": 96 * MM, "depth": 195 * MM, "crack_factor": 0.67},
            "0.59797",
            "MPa",
            note="1.5·5000/(0.67·96·195)",
        ),
    ]


def _buckling() -> list[Row]:
    c24 = {"strength": 21 * MPA, "modulus_low": 7400 * MPA}
    values = [
        (50, "0.8478", "0.7961"),
        (60, "1.0174", "0.6764"),
        (80, "1.3565", "0.4496"),
        (100, "1.6957", "0.3052"),
        (120, "2.0348", "0.2181"),
        (150, "2.5435", "0.1430"),
    ]
    relative = [
        _row(f"6.21-{s}", "eq. 6.21", timber.relative_slenderness, {"slenderness": float(s), **c24}, r)
        for s, r, _ in values
    ]
    factor = [
        _row(
            f"6.25-{s}",
            "eq. 6.25 to 6.29",
            timber.buckling_factor,
            {"relative_slenderness": s / math.pi * math.sqrt(21 / 7400)},
            k,
        )
        for s, _, k in values
    ]
    return [
        *relative,
        *factor,
        _row("6.25-stocky", "6.3.2 (2)", timber.buckling_factor, {"relative_slenderness": 0.25}, "1.0000"),
        _row("6.25-edge", "6.3.2 (2)", timber.buckling_factor, {"relative_slenderness": 0.31}, "0.9978"),
        _row(
            "6.25-glued",
            "eq. 6.29",
            timber.buckling_factor,
            {"relative_slenderness": 0.5, "straightness": 0.1},
            "0.97424",
        ),
        _row(
            "6.21-force",
            "eq. 6.21",
            timber.relative_slenderness_of_force,
            {
                "area": 20000 * MM**2,
                "strength": 21 * MPA,
                "critical_force": math.pi**2 * 7400 * 20000 / 60**2,
            },
            "1.0174",
            note="N_cr = π²·E·A/λ² with λ = 60 gives the same as eq. 6.21",
        ),
    ]


def _sideways() -> list[Row]:
    lengths = [
        ("compressed", 0.9, "2.200", "0.9·2 + 2·0.2"),
        ("tension", 0.8, "1.500", "0.8·2 − 0.5·0.2"),
        ("middle", 1.0, "2.000", "1.0·2"),
    ]
    factors = [("0.5", 0.5, "1.0000"), ("1.0", 1.0, "0.8100"), ("1.3", 1.3, "0.5850"), ("2.0", 2.0, "0.2500")]
    edges = [
        ("0.76", 0.76, "0.9900"),
        ("0.74", 0.74, "1.0000"),
        ("1.41", 1.41, "0.5030"),
        ("1.39", 1.39, "0.5175"),
    ]
    return [
        *[
            _row(
                f"table-6.1-{edge}",
                "table 6.1",
                timber.effective_length,
                {"span": 2.0, "factor": factor, "depth": 0.2, "loaded_edge": edge},
                expected,
                "m",
                note=note,
            )
            for edge, factor, expected, note in lengths
        ],
        *[
            _row(
                f"6.34-{name}", "eq. 6.34", timber.sideways_factor, {"relative_slenderness": value}, expected
            )
            for name, value, expected in [*factors, *edges]
        ],
        _row(
            "6.32",
            "eq. 6.32",
            timber.critical_bending_stress,
            {"width": 0.05, "depth": 0.2, "effective_length": 2.0, "modulus_low": 7.4e9},
            "36.075",
            "MPa",
            note="0.78·50²·7400/(200·2000)",
        ),
        _row(
            "6.31",
            "eq. 6.31",
            timber.critical_bending_stress_general,
            {
                "inertia_flat": 2.083333e-6,
                "torsion": 7.02126e-6,
                "section_modulus": 3.333333e-4,
                "effective_length": 2.0,
                "modulus_low": 7.4e9,
                "shear_modulus_low": 7.4e9 / 16,
            },
            "33.343",
            "MPa",
            note="π·√(E·I_z·G·I_tor)/(l_ef·W_y)",
        ),
        _row(
            "6.30",
            "eq. 6.30",
            timber.relative_slenderness_bending,
            {"strength": 24 * MPA, "critical": 36.08 * MPA},
            "0.81559",
        ),
        _row(
            "6.35",
            "eq. 6.35",
            timber.sideways_ratio,
            {
                "bending": 5 * MPA,
                "compression": 2 * MPA,
                "bending_strength": 10 * MPA,
                "compression_strength": 10 * MPA,
                "k_crit": 0.8,
                "k_c_flat": 0.5,
            },
            "0.790625",
        ),
    ]


def _bearing() -> list[Row]:
    angles = [(30, 1.0, "4.3636"), (60, 1.25, "2.3762"), (90, 1.5, "2.2500"), (0, 1.0, "12.000")]
    contacts = [
        ("free", 0.1, 0.5, 0.4, "0.160"),
        ("end", 0.1, 0.5, 0.01, "0.140"),
        ("other-end", 0.1, 0.01, 0.5, "0.140"),
        ("short", 0.02, 0.5, 0.5, "0.060"),
    ]
    return [
        _row(
            "6.16-plain",
            "eq. 6.16",
            timber.bearing_strength_at_angle,
            {"angle": math.radians(45), "along": 12 * MPA, "across": 1.5 * MPA},
            "2.6667",
            "MPa",
        ),
        *[
            _row(
                f"6.16-{angle}",
                "eq. 6.16",
                timber.bearing_strength_at_angle,
                {"angle": math.radians(angle), "along": 12 * MPA, "across": 1.5 * MPA, "k_c90": k},
                expected,
                "MPa",
            )
            for angle, k, expected in angles
        ],
        *[
            _row(
                f"6.1.5-{name}",
                "6.1.5 (1)",
                timber.effective_contact_length,
                {"length": length, "left": left, "right": right},
                expected,
                "m",
                note="30 mm, but no more than the timber beyond or the contact itself, on each side",
            )
            for name, length, left, right, expected in contacts
        ],
    ]


_DISTANCES = ("along", "across", "loaded_end", "free_end", "loaded_edge", "free_edge")
_HANDBOOK = Cite(work=LVLHANDBOOK, place="table 5.1, wide and edge face columns", provenance=Provenance.READ)


def _distance_rows() -> list[Row]:
    """Multiples of d at forces along, at 60 degrees to and across the grain."""
    table: list[tuple[str, float, float, bool, int, tuple[str, ...]]] = [
        ("thin", 0.004, 350.0, False, 0, ("0.040", "0.020", "0.060", "0.040", "0.020", "0.020")),
        ("thin", 0.004, 350.0, False, 60, ("0.0300", "0.0200", "0.0500", "0.0400", "0.0269", "0.0200")),
        ("thick", 0.006, 350.0, False, 0, ("0.072", "0.030", "0.090", "0.060", "0.030", "0.030")),
        ("thick", 0.006, 350.0, False, 60, ("0.0510", "0.0300", "0.0750", "0.0600", "0.0560", "0.0300")),
        ("dense", 0.004, 450.0, False, 0, ("0.060", "0.028", "0.080", "0.060", "0.028", "0.028")),
        ("dense", 0.004, 450.0, False, 60, ("0.0440", "0.0280", "0.0700", "0.0600", "0.0349", "0.0280")),
        (
            "dense-thick",
            0.006,
            450.0,
            False,
            60,
            ("0.0660", "0.0420", "0.1050", "0.0900", "0.0680", "0.0420"),
        ),
        ("thick-from", 0.005, 350.0, False, 0, ("0.060", "0.025", "0.075", "0.050", "0.025", "0.025")),
        ("dense-from", 0.004, 425.0, False, 0, ("0.060", "0.028", "0.080", "0.060", "0.028", "0.028")),
        ("drilled", 0.004, 350.0, True, 0, ("0.020", "0.012", "0.048", "0.028", "0.012", "0.012")),
        ("drilled", 0.004, 350.0, True, 60, ("0.0180", "0.0155", "0.0380", "0.0280", "0.0189", "0.0120")),
        (
            "drilled-thick",
            0.006,
            350.0,
            True,
            60,
            ("0.0270", "0.0232", "0.0570", "0.0420", "0.0388", "0.0180"),
        ),
    ]
    return [
        _row(
            f"table-8.2-{name}-{angle}-{which}",
            "table 8.2",
            timber.nail_distances,
            {"diameter": d, "density": rho, "predrilled": drilled, "angle": math.radians(angle)},
            value,
            "m",
            pick=attrgetter(which),
            note="multiples of d as printed, times d",
            cite=_HANDBOOK,
        )
        for name, d, rho, drilled, angle, values in table
        for which, value in zip(_DISTANCES, values, strict=True)
    ]


def _mode(letter: str, found: timber.ShearModes) -> float:
    return float(found.modes[letter])


def _nails() -> list[Row]:
    shear = {
        "diameter": 0.004,
        "head_side": 0.045,
        "point_side": 0.055,
        "head_embedment": 18.93 * MPA,
        "point_embedment": 18.93 * MPA,
        "yield_moment": 6.617,
    }
    unequal = {**shear, "head_side": 0.030, "point_side": 0.050, "point_embedment": 25 * MPA}
    double = {
        "diameter": 0.004,
        "outer": 0.038,
        "inner": 0.038,
        "outer_embedment": 18.93 * MPA,
        "inner_embedment": 18.93 * MPA,
        "yield_moment": 6.617,
    }
    mixed = {**double, "inner_embedment": 25 * MPA}
    equal_modes = {"a": "3407.4", "b": "4164.6", "c": "1581.6", "d": "1342.3", "e": "1581.3", "f": "1151.2"}
    unequal_modes = {"a": "2271.6", "b": "5000.0", "c": "1611.7", "d": "1061.7", "e": "1790.8", "f": "1228.2"}
    double_modes = {"g": "2877.4", "h": "1438.7", "j": "1182.3", "k": "1151.2"}
    mixed_modes = {"g": "2877.4", "h": "1900.0", "j": "1238.3", "k": "1228.2"}
    sets: list[tuple[str, Callable[..., Any], dict[str, Any], dict[str, str]]] = [
        ("single", timber.single_shear, shear, equal_modes),
        ("single-unequal", timber.single_shear, unequal, unequal_modes),
        ("double", timber.double_shear, double, double_modes),
        ("double-unequal", timber.double_shear, mixed, mixed_modes),
    ]
    modes = [
        _row(
            f"8.6-{name}-{letter}",
            "eq. 8.6 and 8.7",
            call,
            inputs,
            value,
            "N",
            pick=partial(_mode, letter),
        )
        for name, call, inputs, values in sets
        for letter, value in values.items()
    ]
    least: list[tuple[str, Callable[..., Any], dict[str, Any], str]] = [
        ("8.6-least", timber.single_shear, shear, "1151.2"),
        ("8.6-least-unequal", timber.single_shear, unequal, "1061.7"),
        ("8.7-least", timber.double_shear, double, "1151.2"),
        ("8.6-rope", timber.single_shear, {**shear, "rope": 100.0}, "1251.2"),
        ("8.6-rope-limit", timber.single_shear, {**shear, "rope": 500.0}, "1323.9"),
        ("8.7-rope-limit", timber.double_shear, {**double, "rope": 500.0}, "1323.9"),
    ]
    return [
        *modes,
        *[
            _row(
                name,
                "eq. 8.6, 8.7 and 8.2.2 (2)",
                call,
                inputs,
                value,
                "N",
                pick=attrgetter("capacity"),
            )
            for name, call, inputs, value in least
        ],
        _row(
            "8.15-3.1",
            "eq. 8.15",
            timber.embedment_strength,
            {"density": 350.0, "diameter": 0.0031},
            "20.440",
            "MPa",
        ),
        _row(
            "8.15-4",
            "eq. 8.15",
            timber.embedment_strength,
            {"density": 350.0, "diameter": 0.004},
            "18.935",
            "MPa",
        ),
        _row(
            "8.16",
            "eq. 8.16",
            timber.embedment_strength,
            {"density": 350.0, "diameter": 0.004, "predrilled": True},
            "27.552",
            "MPa",
        ),
        _row(
            "8.16-dense",
            "eq. 8.16",
            timber.embedment_strength,
            {"density": 550.0, "diameter": 0.005, "predrilled": True},
            "42.845",
            "MPa",
        ),
        _row("8.14", "eq. 8.14", timber.yield_moment, {"diameter": 0.0031}, "3.4105", "N m"),
        _row("8.14-4", "eq. 8.14", timber.yield_moment, {"diameter": 0.004}, "6.6165", "N m"),
        _row(
            "8.14-square",
            "eq. 8.14",
            timber.yield_moment,
            {"diameter": 0.004, "square": True},
            "9.9248",
            "N m",
        ),
    ]


def _nailing() -> list[Row]:
    thickness = [
        (0.004, 350.0, False, "28.00"),
        (0.004, 350.0, True, "56.00"),
        (0.006, 420.0, False, "50.40"),
        (0.006, 420.0, True, "100.80"),
        (0.008, 380.0, False, "70.30"),
    ]
    rows = [
        (0.022, True, "2.2974"),
        (0.040, False, "3.2490"),
        (0.028, False, "2.6390"),
        (0.034, False, "2.9282"),
        (0.048, False, "3.6050"),
        (0.060, False, "4.0000"),
        (0.016, True, "2.0000"),
    ]
    return [
        *[
            _row(
                f"8.18-{d}-{sensitive}",
                "eq. 8.18 and 8.19",
                timber.splitting_thickness,
                {"diameter": d, "density": rho, "sensitive": sensitive},
                expected,
                "mm",
            )
            for d, rho, sensitive, expected in thickness
        ],
        *[
            _row(
                f"8.17-{spacing}",
                "eq. 8.17, table 8.1",
                timber.effective_nails,
                {"number": 4, "spacing": spacing, "diameter": 0.004, "predrilled": drilled},
                expected,
            )
            for spacing, drilled, expected in rows
        ],
        _row("8.3.1.2", "8.3.1.2 (1)", timber.pointside_penetration, {"diameter": 0.0034}, "27.20", "mm"),
    ]


def _slip() -> list[Row]:
    plain = [(0.0031, "709.32", "1160.1"), (0.004, "869.76", "1496.9"), (0.005, "1039.7", "1871.2")]
    moduli = [
        _row(
            f"7.1-{d}-{drilled}",
            "table 7.1",
            timber.nail_slip_modulus,
            {"density": 420.0, "diameter": d, "predrilled": drilled},
            bored if drilled else driven,
            "N/mm",
        )
        for d, driven, bored in plain
        for drilled in (False, True)
    ]
    flat = {"width": 0.145, "thickness": 0.045, "modulus": 11e9, "span": 3.0}
    nailed = [(2, 0.1, "0.18104", "46504"), (2, 0.05, "0.30658", "58328"), (4, 0.05, "0.46929", "70647")]
    composite = [
        _row(
            f"B.1-{rows}-{spacing}-{which}",
            "annex B, eq. B.1 to B.6",
            timber.composite_stiffness,
            {**flat, "slip_modulus": rows * 870e3, "spacing": spacing},
            value,
            unit,
            pick=attrgetter(which),
        )
        for rows, spacing, gamma, stiffness in nailed
        for which, value, unit in (("efficiency", gamma, ""), ("stiffness", stiffness, "N m2"))
    ]
    return [
        *moduli,
        *composite,
        _row("2.1", "eq. 2.1", timber.ultimate_slip_modulus, {"slip_modulus": 870e3}, "580.00", "N/mm"),
        _row("2.7", "eq. 2.7", timber.final_modulus, {"modulus": 9e9, "k_def": 0.8}, "5.0000", "GPa"),
        _row(
            "2.10",
            "eq. 2.10",
            timber.final_modulus,
            {"modulus": 9e9, "k_def": 0.8, "psi2": 0.2},
            "7.7586",
            "GPa",
        ),
        _row(
            "2.9",
            "eq. 2.9, 2.3.2.2 (3)",
            timber.final_slip_modulus,
            {"slip_modulus": 870e3, "k_def": 0.8},
            "334.62",
            "N/mm",
        ),
        _row(
            "2.12",
            "eq. 2.12",
            timber.final_slip_modulus,
            {"slip_modulus": 870e3, "k_def": 0.8, "psi2": 0.2},
            "659.09",
            "N/mm",
        ),
        _row(
            "2.2-dry",
            "eq. 2.2 to 2.4",
            timber.final_deflection,
            {"permanent": 4 * MM, "variable": 6 * MM, "k_def": 0.6, "psi2": 0.2},
            "13.12",
            "mm",
            note="4·1.6 + 6·1.12",
        ),
        _row(
            "2.2-roof",
            "eq. 2.2 to 2.4",
            timber.final_deflection,
            {"permanent": 4 * MM, "variable": 6 * MM, "k_def": 0.8, "psi2": 0.2},
            "14.16",
            "mm",
            note="4·1.8 + 6·1.16",
        ),
    ]


_CURVED = Cite(work=SWEDISHWOOD, place="factor for curved members, limit 240", provenance=Provenance.READ)


def _curved() -> list[Row]:
    ratios = [
        (100, "0.860"),
        (125, "0.885"),
        (150, "0.910"),
        (200, "0.960"),
        (239, "0.9990"),
        (242, "1.0000"),
    ]
    return [
        _row(
            f"6.49-{ratio}",
            "eq. 6.49",
            timber.curvature_factor,
            {"inner_radius": 0.03 * ratio, "thickness": 0.03},
            expected,
            cite=_CURVED,
            note="0.76 + 0.001·r/t",
        )
        for ratio, expected in ratios
    ]


ROWS: tuple[Row, ...] = (
    *_factors(),
    *_combined(),
    *_buckling(),
    *_sideways(),
    *_bearing(),
    *_distance_rows(),
    *_nails(),
    *_nailing(),
    *_slip(),
    *_curved(),
)
