"""Arches and eggs from several centres: closed forms by two routes; egg of a sewer, proportions read."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.fitting import ARCHES_BY_ARCS
from bermwright.data.works.setout import EB1911
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import curves, setout

_ARCS = Cite(work=ARCHES_BY_ARCS, place="tangency of the arcs", provenance=Provenance.DERIVED)
_EGG = Cite(work=EB1911, place="article Hydraulics, section 111", provenance=Provenance.DERIVED)


def _row(name: str, call: Any, expected: str, inputs: dict[str, Any], note: str, **more: Any) -> Row:
    return Row(
        id=f"CENTRES-{name}",
        cite=more.pop("cite", _ARCS),
        kind=more.pop("kind", Kind.DERIVED),
        call=call,
        inputs=inputs,
        expected=expected,
        note=note,
        **more,
    )


_RISES = (0.5, 2.0 / 3.0, 0.75)
_SIXTY = tuple(
    _row(
        f"SIXTY-{part.upper()}-{rise:.2f}",
        setout.radii_by_sixty,
        expected,
        {"half_span": 1.0, "rise": rise},
        "arcs of 60° that touch",
        unit="m",
        pick=lambda radii, part=part: getattr(radii, part),
    )
    for rise, side, crown in zip(
        _RISES, ("0.31699", "0.54466", "0.65849"), ("1.68301", "1.45534", "1.34151"), strict=True
    )
    for part, expected in (("side", side), ("crown", crown))
)
_DIAGONAL = tuple(
    _row(
        f"DIAGONAL-{part.upper()}-{rise:.2f}",
        setout.radii_by_diagonal,
        expected,
        {"half_span": 1.0, "rise": rise},
        "c = √(a² + b²)",
        unit="m",
        pick=lambda radii, part=part: getattr(radii, part),
    )
    for rise, side, crown in zip(
        _RISES, ("0.34549", "0.52191", "0.62500"), ("1.80902", "1.38380", "1.25000"), strict=True
    )
    for part, expected in (("side", side), ("crown", crown))
)
_CROWNS = tuple(
    _row(
        f"CROWN-{rise:.2f}-{way}",
        setout.crown_radius,
        expected,
        {"half_span": 1.0, "rise": rise, "side": side},
        f"the other route: radii by the {way}",
        unit="m",
        kind=Kind.INDEPENDENT,
    )
    for rise, way, side, expected in (
        (0.5, "diagonal", 0.345491503, "1.80902"),
        (2.0 / 3.0, "diagonal", 0.521913763, "1.38380"),
        (0.75, "sixty", 0.658493649, "1.34151"),
    )
)
_WIDE = tuple(
    _row(
        f"WIDE-{part.upper()}",
        call,
        expected,
        inputs,
        "half span 2, rise 1: c = √5",
        unit="m",
        pick=pick,
    )
    for part, call, expected, inputs, pick in (
        (
            "SIDE",
            setout.radii_by_diagonal,
            "0.69098",
            {"half_span": 2.0, "rise": 1.0},
            lambda radii: radii.side,
        ),
        (
            "CROWN",
            setout.radii_by_diagonal,
            "3.61803",
            {"half_span": 2.0, "rise": 1.0},
            lambda radii: radii.crown,
        ),
        (
            "TANGENT",
            setout.crown_radius,
            "3.61803",
            {"half_span": 2.0, "rise": 1.0, "side": 0.690983006},
            float,
        ),
    )
)
_FOUR = {"half_span": 2.0, "rise": 1.4, "side": 0.8, "turn": math.radians(60.0)}
_FLAT_POINTED = tuple(
    _row(
        f"FOUR-{name}",
        setout.four_centred,
        expected,
        _FOUR,
        "joint and apex lie on the arc",
        unit=unit,
        pick=pick,
    )
    for name, expected, unit, pick in (
        ("RADIUS", "8.1575", "m", lambda arch: arch.crown),
        ("CENTRE-X", "-2.4787", "m", lambda arch: arch.centre_x),
        ("CENTRE-Z", "-6.3718", "m", lambda arch: arch.centre_z),
        ("JOINT-X", "1.6000", "m", lambda arch: arch.joint_x),
        ("JOINT-Z", "0.6928", "m", lambda arch: arch.joint_z),
        ("SLOPE", "17.69", "deg", lambda arch: arch.apex_slope),
    )
)
_FLANKS = (
    _row(
        "EGG-FLANK",
        setout.egg_flank,
        "1.5000",
        {"large": 0.5, "small": 0.25, "apart": 0.75},
        "width 1, height 1.5: R² = (R − r)² + ...",
        cite=_EGG,
        unit="m",
    ),
    _row(
        "EGG-SHARP",
        setout.egg_flank,
        "1.3333",
        {"large": 0.5, "small": 0.125, "apart": 0.875},
        "4/3 exactly",
        cite=_EGG,
        unit="m",
    ),
)


def _sections(arcs: tuple[curves.Arc, ...]) -> tuple[float, float]:
    """Area under a chain of arcs and its length, by sectors and triangles: no points between."""
    area = 0.0
    for arc in arcs:
        (x0, z0), (x1, z1) = arc.point(arc.start), arc.point(arc.end)
        turn = arc.start - arc.end
        area += 0.5 * (x1 * z0 - x0 * z1) + 0.5 * arc.radius**2 * (turn - math.sin(turn))
    return area, sum(arc.length for arc in arcs)


_WHOLE = {"span": 1.0, "rise": 1.0, "base_centre": 0.0, "flank_radius": 1.5, "crown_radius": 0.25}
_EGGS = (
    _row(
        "EGG-AREA",
        curves.egg_arcs,
        "0.75583",
        _WHOLE,
        "sectors and triangles; with its half circle 1.14853 D²",
        cite=_EGG,
        unit="m2",
        pick=lambda arcs: _sections(arcs)[0],
    ),
    _row(
        "EGG-LENGTH",
        curves.egg_arcs,
        "2.39415",
        _WHOLE,
        "sum of the arcs; with its half circle 3.96495 D",
        cite=_EGG,
        unit="m",
        pick=lambda arcs: _sections(arcs)[1],
    ),
    _row(
        "EGG-TURN",
        curves.egg_arcs,
        "36.87",
        _WHOLE,
        "arcsin 0.6",
        cite=_EGG,
        unit="deg",
        pick=lambda arcs: arcs[1].start - arcs[1].end,
    ),
    _row(
        "EGG-JOINT",
        curves.egg_arcs,
        "0.2000",
        _WHOLE,
        "tangent point 0.2 D from the axis",
        cite=_EGG,
        unit="m",
        pick=lambda arcs: arcs[2].point(arcs[2].end)[0],
    ),
)
_CHAIN = curves.arc_chain(curves.egg_arcs(**_WHOLE), points=4001)
_BY_POINTS = (
    _row(
        "EGG-AREA-POINTS",
        curves.enclosed_area,
        "0.75583",
        {"x": _CHAIN.x, "z": _CHAIN.z},
        "the second route: a polygon of 4001 points",
        cite=_EGG,
        unit="m2",
        kind=Kind.INDEPENDENT,
    ),
)
_BOSSUT = tuple(
    row
    for rise, length, area in zip(
        _RISES, ("2.44251", "2.65322", "2.76787"), ("0.79270", "1.05082", "1.18020"), strict=True
    )
    for arch in ({"span": 2.0, "rise": rise, "side_radius": float(setout.radii_by_diagonal(1.0, rise).side)},)
    for row in (
        _row(
            f"BOSSUT-LENGTH-{rise:.2f}",
            curves.three_centred_arcs,
            length,
            arch,
            "sum of the arcs",
            unit="m",
            pick=lambda arcs: _sections(arcs)[1],
        ),
        _row(
            f"BOSSUT-AREA-{rise:.2f}",
            curves.three_centred_arcs,
            area,
            arch,
            "sectors and triangles",
            unit="m2",
            pick=lambda arcs: _sections(arcs)[0],
        ),
    )
)


def _gap(radii: setout.TwoRadii) -> float:
    """Largest difference of ordinates from the ellipse of half span 1 and rise 2/3."""
    arcs = curves.three_centred_arcs(2.0, 2.0 / 3.0, float(radii.side))
    line = curves.arc_chain(arcs, points=8001)
    x = np.linspace(-0.9999, 0.9999, 20001)
    return float(np.max(np.abs(np.interp(x, line.x, line.z) - 2.0 / 3.0 * np.sqrt(1.0 - x**2))))


_ELLIPSE = (
    _row(
        "NO-ELLIPSE-DIAGONAL",
        setout.radii_by_diagonal,
        "0.0166",
        {"half_span": 1.0, "rise": 2.0 / 3.0},
        "largest ordinate gap to the ellipse, by scan",
        unit="m",
        pick=_gap,
    ),
    _row(
        "NO-ELLIPSE-SIXTY",
        setout.radii_by_sixty,
        "0.0244",
        {"half_span": 1.0, "rise": 2.0 / 3.0},
        "largest ordinate gap to the ellipse, by scan",
        unit="m",
        pick=_gap,
    ),
)

ROWS = (
    *_SIXTY,
    *_DIAGONAL,
    *_CROWNS,
    *_WIDE,
    *_FLAT_POINTED,
    *_FLANKS,
    *_EGGS,
    *_BY_POINTS,
    *_BOSSUT,
    *_ELLIPSE,
)
