"""Earth pressure, walls and buttresses: printed examples, closed forms, and trial wedges by another route.

The trial wedges cut the soil behind the wall along every straight line and solve each wedge for
equilibrium; the worst of them must be the closed form of Coulomb and of Mononobe and Okabe.
"""

from __future__ import annotations

import math

from bermwright.data.works.actions import EN1997
from bermwright.data.works.soils import DAS
from bermwright.data.works.supports import (
    HEYMAN1995,
    INGOLD1979,
    MASSWALL,
    OCHSENDORF2004,
    OKABE1926,
    WALLEXAMPLE,
)
from bermwright.evidence.rows import Kind, Row
from bermwright.evidence.rows import worked_row as _row
from bermwright.handbook import retaining

_WEDGES = "worst of all straight trial wedges in equilibrium, found by a one-dimensional search"
_ODE = "the same two equations by an adaptive integrator of scipy; the steps here leave 0.1 %"


def _shaken(angles: tuple[float, ...], shares: tuple[float, float]) -> dict[str, float]:
    angle, wall, slope, lean = (math.radians(one) for one in angles)
    return {
        "angle": angle, "wall": wall, "slope": slope, "lean": lean,
        "sideways": shares[0], "upward": shares[1],
    }  # fmt: skip


def _earthquakes() -> list[Row]:
    table = {
        30: ("0.3014", "0.3679", "0.4520", "0.5626"),
        35: ("0.2461", "0.3056", "0.3797", "0.4743"),
        40: ("0.1994", "0.2527", "0.3187", "0.4017"),
    }
    closed = [
        _row(
            f"active-{angle}-{count}", OKABE1926, "closed form, half the friction on the wall",
            retaining.earthquake_active_ratio, _shaken((angle, angle / 2, 0, 0), (0.1 * count, 0.0)), value,
        )
        for angle, values in table.items()
        for count, value in enumerate(values)
    ]  # fmt: skip
    active = [
        ((30, 15, 0, 0), (0.1, 0.0), "0.36790"),
        ((34, 12, 12, -6), (0.0, 0.0), "0.25360"),
        ((32, 16, 8, 6), (0.12, 0.06), "0.46874"),
        ((36, 12, -8, -5), (0.15, -0.075), "0.26419"),
        ((30, 10, 5, 10), (0.05, 0.02), "0.44734"),
    ]
    passive = [
        ((30, 0, 0, 0), (0.0, 0.0), "3.0000"),
        ((32, 10, 5, 0), (0.1, 0.05), "5.27825"),
        ((30, 8, -6, 7), (0.08, -0.04), "2.50207"),
        ((34, 0, 4, -5), (0.15, 0.05), "4.23794"),
    ]
    found = [
        _row(
            f"{name}-wedge-{number}", OKABE1926, "trial wedges", call, _shaken(angles, shares), value,
            kind=Kind.INDEPENDENT, note=_WEDGES,
        )
        for name, call, cases in (
            ("active", retaining.earthquake_active_ratio, active),
            ("passive", retaining.earthquake_passive_ratio, passive),
        )
        for number, (angles, shares, value) in enumerate(cases)
    ]  # fmt: skip
    return closed + found


def _ratios() -> list[Row]:
    angles = [math.radians(one) for one in (30, 20, 10, 8)]
    leaning = dict(zip(("angle", "wall", "slope", "lean"), angles, strict=True))
    rest = {"angle": math.radians(30), "slope": math.radians(20)}
    return [
        _row(
            "coulomb-leaning", DAS, "Coulomb's wedge", retaining.leaning_active_ratio, leaning, "0.41600",
            kind=Kind.INDEPENDENT, note=_WEDGES,
        ),
        _row("at-rest-sloping", EN1997, "9.5.2 (4)", retaining.sloping_at_rest_ratio, rest, "0.67101"),
    ]  # fmt: skip


def _pushes() -> list[Row]:
    soil = {"height": 3.0, "weight": 18e3, "ratio": 1.0 / 3.0, "surcharge": 10e3}
    wet = {"height": 3.0, "water": 1.0, "weight": 18e3, "saturated": 20e3, "ratio": 0.4, "surcharge": 6e3}
    deep = {"height": 2.0, "water": 2.0, "weight": 18e3, "saturated": 20e3, "ratio": 0.4}
    mass = {"height": 1.6, "weight": 18e3, "ratio": 0.4903}
    return [
        _row("push", DAS, "with surcharge", retaining.soil_push, soil, "37000", lambda r: float(r.force)),
        _row("push-arm", DAS, "with surcharge", retaining.soil_push, soil, "1.1351", lambda r: float(r.arm)),
        _row(
            "push", MASSWALL, "after Rankine", retaining.soil_push, mass, "11.30",
            lambda r: float(r.force), "kN/m", Kind.PUBLISHED, "",
        ),
        _row(
            "drowned", DAS, "ground water", retaining.wet_soil_push, deep, "27772", lambda r: float(r.force)
        ),
        _row("wet", DAS, "ground water", retaining.wet_soil_push, wet, "42943", lambda r: float(r.force)),
        _row("wet-arm", DAS, "ground water", retaining.wet_soil_push, wet, "1.0319", lambda r: float(r.arm)),
    ]  # fmt: skip


def _beside() -> list[Row]:
    tool = {"line_load": 30e3, "weight": 18e3}
    strip = {"load": 20e3, "near": 0.5, "width": 1.0, "depth": 1.0}
    return [
        _row("pressure", INGOLD1979, "residual", retaining.compaction_pressure, tool, "18541"),
        _row("depth", INGOLD1979, "residual", retaining.compaction_depth, {**tool, "ratio": 0.3}, "3.4335"),
        _row("strip", DAS, "strip load", retaining.strip_pressure, strip, "5826.4"),
    ]


def _walls() -> list[Row]:
    """The wall of the exercise: 0.4 m at the top, 0.8 m at the base, 1.6 m high, friction 0.7."""
    body = {"height": 1.6, "top": 0.4, "base": 0.8, "weight": 24e3}
    example = {"height": 3.0, "top": 1.8, "base": 2.6, "weight": 24e3}
    stand = {
        "down": 23.04e3, "along": 11.30e3, "holding": 11.264e3, "turning": 6.025e3, "width": 0.8,
        "resistance": 16.128e3,
    }  # fmt: skip
    grip = {"down": 100e3, "friction": 0.5, "grip": 12e3, "factor": 1.1}
    calls = retaining
    return [
        _row(
            "weight", WALLEXAMPLE, "area of the wall without its base block of 2.6 by 2 m, times 24 kN/m3",
            calls.wall_body, example, "158.4", lambda r: float(r.weight), "kN/m", Kind.PUBLISHED, "",
        ),
        *[
            _row(
                f"sliding-{number}", WALLEXAMPLE, place, calls.stand_of,
                {
                    "down": 283.2e3, "along": along, "holding": 0.0, "turning": 0.0, "width": 2.6,
                    "resistance": 283.2e3 * math.tan(math.radians(29.0)) / strength,
                },
                value, lambda r: 1.0 / float(r.sliding), kind=Kind.PUBLISHED,
                note="the push is worked out from Coulomb's ratios with the soil's friction on the wall",
            )
            for number, (place, along, strength, value) in enumerate(
                [
                    ("combination 1: 1.35 and 1.5", 124584.75, 1.0, "1.26003"),
                    ("combination 2: tan φ by 1.25, 1.0 and 1.3", 117995.64, 1.25, "1.06431"),
                ],
                start=1,
            )
        ],
        _row("weight", MASSWALL, "body", calls.wall_body, body, "23040", lambda r: float(r.weight)),
        _row("arm", MASSWALL, "body", calls.wall_body, body, "0.48889", lambda r: float(r.arm)),
        _row(
            "overturning", MASSWALL, "1/1.87", calls.stand_of, stand, "0.535",
            lambda r: float(r.overturning), note="the exercise's safety of 1.87, turned over",
        ),
        _row(
            "sliding", MASSWALL, "1/1.43", calls.stand_of, stand, "0.7006", lambda r: float(r.sliding),
            note="the exercise's safety of 1.43, turned over; worked out",
        ),
        _row(
            "eccentricity", MASSWALL, "of the base", calls.stand_of, stand, "0.1726",
            lambda r: float(r.eccentricity),
        ),
        _row(
            "eccentricity", DAS, "gravity walls", calls.eccentricity,
            {"down": 100e3, "moment": 35e3, "width": 1.2}, "0.2500",
        ),
        _row("resistance", EN1997, "6.5.3", calls.sliding_resistance, grip, "60573"),
        _row(
            "resistance-bare", EN1997, "6.5.3", calls.sliding_resistance,
            {"down": 100e3, "friction": 0.5}, "54630",
        ),
    ]  # fmt: skip


def _buttresses() -> list[Row]:
    body = {"height": 3.0, "depth": 0.9, "width": 0.5, "weight": 20e3}
    loaded = {**body, "down": 5e3, "inset": 0.2}
    low = {"height": 2.0, "depth": 0.6, "width": 0.5, "weight": 24e3, "down": 20e3, "inset": 0.1}
    bond = {"thrust": 12e3, "height": 2.0, "width": 0.4, "share": 1.2}
    place = "rectangular buttress"
    return [
        _row("kern-bare", HEYMAN1995, place, retaining.kern_thrust, body, "1350.0"),
        _row("kern", HEYMAN1995, place, retaining.kern_thrust, loaded, "2016.7"),
        _row("overturning-bare", HEYMAN1995, place, retaining.overturning_thrust, body, "4050.0"),
        _row("overturning", HEYMAN1995, place, retaining.overturning_thrust, loaded, "5216.7"),
        _row("bond", HEYMAN1995, "mean shear", retaining.bond_stress, bond, "18000"),
        _row(
            "bond-plain", HEYMAN1995, "mean shear", retaining.bond_stress,
            {"thrust": 12e3, "height": 2.0, "width": 0.4}, "15000",
        ),
        _row(
            "crack", OCHSENDORF2004, place, retaining.cracked_buttress_thrust, loaded, "3396.3",
            kind=Kind.INDEPENDENT, note=_ODE, rel=1e-3,
        ),
        _row(
            "crack-low", OCHSENDORF2004, place, retaining.cracked_buttress_thrust, low, "6471.15",
            kind=Kind.INDEPENDENT, note=_ODE, rel=1e-3,
        ),
    ]  # fmt: skip


ROWS: tuple[Row, ...] = (
    *_earthquakes(), *_ratios(), *_pushes(), *_beside(), *_walls(), *_buttresses(),
)  # fmt: skip
