"""Curves fitted to points, and chains of arcs: closed forms that must come back out of the fit.

Points are taken from curves whose measures are known in closed form, with planted errors of known size.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.fitting import ARCHES_BY_ARCS, BURNHAM2002, HUBER1981, ROUSSEEUW1987, SEBERWILD1989
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import curves, fitting

if TYPE_CHECKING:
    from collections.abc import Iterator

_DERIVED = Cite(work=ARCHES_BY_ARCS, place="closed form", provenance=Provenance.DERIVED)
_BURNHAM = Cite(work=BURNHAM2002, place="sections 2.4 and 2.9", provenance=Provenance.MEMORY)
_ROUSSEEUW = Cite(work=ROUSSEEUW1987, place="section 5.1", provenance=Provenance.MEMORY)
_HALF, _RISE = 2.5, 5.0 / 3.0
_HYPOTENUSE = float(np.hypot(_HALF, _RISE))
_SIDE = _HYPOTENUSE * (_HYPOTENUSE - _HALF + _RISE) / (2.0 * _HALF)
_BOSSUT = curves.arc_chain(curves.three_centred_arcs(2.0 * _HALF, _RISE, _SIDE))
_ARCH = curves.segment(4.0, 2.0)
_POINTED = curves.arc_chain(curves.pointed_arcs(4.2, 4.2))
_FLAT_ARCH = curves.parabola(4.0, 0.6)
_EGG = curves.arc_chain(
    curves.egg_arcs(4.0, 3.4, base_centre=0.5, flank_radius=4.0, crown_radius=1.2), points=200
)
_TALL = curves.arc_chain(curves.three_centred_arcs(4.0, 3.0, 4.0), points=200)


def _leaning(start: float = 170.0) -> curves.PlaneCurve:
    """Two arcs of 2 m and 3 m with one tangent, the joint 30 degrees left of the top: unlike halves."""
    joint = np.radians(120.0)
    left = curves.Arc(x=0.0, z=0.0, radius=2.0, start=np.radians(start), end=joint)
    right = curves.Arc(x=-np.cos(joint), z=-np.sin(joint), radius=3.0, start=joint, end=np.radians(20.0))
    return curves.arc_chain((left, right), points=200)


_LEANING, _DRAWN_IN = _leaning(), _leaning(200.0)


def _unlike() -> curves.PlaneCurve:
    """Arcs of 2, 3.5 and 2.5 m, each going on from the last, from 175 over 140 and 70 to 15 degrees."""
    left, right = np.radians(140.0), np.radians(70.0)
    middle = (-1.5 * np.cos(left), -1.5 * np.sin(left))
    return curves.arc_chain(
        (
            curves.Arc(x=0.0, z=0.0, radius=2.0, start=np.radians(175.0), end=left),
            curves.Arc(x=middle[0], z=middle[1], radius=3.5, start=left, end=right),
            curves.Arc(
                x=middle[0] + np.cos(right), z=middle[1] + np.sin(right), radius=2.5, start=right,
                end=np.radians(15.0),
            ),
        ),
        points=200,
    )  # fmt: skip


def _level() -> curves.PlaneCurve:
    """Two arcs of 2 m and 3 m whose ends lie level, and as far to the left as to the right."""
    joint, last = np.radians(120.0), np.arcsin((1.0 + np.sin(np.radians(120.0))) / 3.0)
    middle = 0.5 * (2.0 * np.cos(np.radians(150.0)) - np.cos(joint) + 3.0 * np.cos(last))
    left = curves.Arc(x=-middle, z=0.0, radius=2.0, start=np.radians(150.0), end=joint)
    right = curves.Arc(x=-middle - np.cos(joint), z=-np.sin(joint), radius=3.0, start=joint, end=last)
    return curves.arc_chain((left, right), points=200)


def _at_even_places(curve: curves.PlaneCurve) -> curves.PlaneCurve:
    """The same curve by points that lie as far to the left as to the right."""
    x = np.linspace(curve.x[0], curve.x[-1], 401)
    names = ("z", "s", "angle", "curvature")
    return replace(curve, x=x, **{name: np.interp(x, curve.x, getattr(curve, name)) for name in names})


_UNLIKE, _LEVEL = _unlike(), _level()
_TEN = curves.arc_chain((curves.Arc(x=0.0, z=0.0, radius=2.0, start=np.pi, end=0.0),), points=9)


def _family(name: str) -> fitting.Family:
    return next(one for one in fitting.FAMILIES if one.name == name)


def _points(x: Any, z: Any, planted: dict[int, float] | None = None) -> dict[str, Any]:
    """Points of a curve, some of them moved up by a known amount."""
    heights = np.asarray(z, dtype=float).copy()
    for at, error in (planted or {}).items():
        heights[at] += error
    return {"x": np.asarray(x, dtype=float), "z": heights}


_ACROSS = np.linspace(-2.5, 2.5, 21)
_CHAIN = _points(_ACROSS, curves.catenary_height(_ACROSS, 5.0, 4.0))
_MOVED = _points(_ACROSS, curves.catenary_height(_ACROSS, 5.0, 4.0), {6: 0.15})
_ROUND = {angle: np.radians(angle) for angle in range(15, 166, 10)}
_CIRCLE = _points(
    [-2.0 * np.cos(turn) for turn in _ROUND.values()], [2.0 * np.sin(turn) for turn in _ROUND.values()]
)
_ELLIPSE = _points(
    [-2.4 * np.cos(turn) for turn in _ROUND.values()], [1.4 * np.sin(turn) for turn in _ROUND.values()]
)
_LINE = np.linspace(-1.0, 1.0, 9)
_FLAT = _points(_LINE, 0.05 * (1.0 - _LINE**2), dict(enumerate([0.001, -0.001] * 4)))
_WAVED = _points(_LINE, 1.0 - _LINE**2, dict(enumerate([0.01, -0.01] * 4)))

_EGGS = _points(_EGG.x[::8], _EGG.z[::8])

_FITS = (
    ("CATENARY-SPAN", "catenary", _CHAIN, lambda fit: fit.span, "5.000", "m"),
    ("CATENARY-RISE", "catenary", _CHAIN, lambda fit: fit.rise, "4.000", "m"),
    ("CATENARY-SHIFTED", "catenary", {**_CHAIN, "x": _CHAIN["x"] + 0.04}, lambda fit: fit.shift, "0.040",
     "m"),
    ("OUTLIER-NAMED", "catenary", _MOVED, lambda fit: fit.outliers[0], "6", ""),
    ("OUTLIER-LEFT-OUT", "catenary", _MOVED, lambda fit: fit.rise, "4.000", "m"),
    ("CIRCLE-AS-ELLIPSE", "ellipse", _CIRCLE, lambda fit: fit.span / fit.rise, "2.000", ""),
    ("SEMICIRCLE", "semicircle", _CIRCLE, lambda fit: fit.rise, "2.000", "m"),
    ("SEGMENT-RISE", "segment", _points([-2.0, -1.2, 0.0, 1.2, 2.0], [0.0, 0.54012, 0.8, 0.54012, 0.0]),
     lambda fit: fit.rise, "0.800", "m"),
    ("ELLIPSE-RISE", "ellipse", _ELLIPSE, lambda fit: fit.rise, "1.400", "m"),
    ("PARABOLA-RISE", "parabola", _points(_LINE, 1.0 - _LINE**2), lambda fit: fit.rise, "1.000", "m"),
    ("POINTED-RISE", "pointed", _points(_POINTED.x[::40], _POINTED.z[::40]), lambda fit: fit.rise, "4.20",
     "m"),
    ("THREE-CENTRED-SIDE", "three-centred", _points(_BOSSUT.x[::20], _BOSSUT.z[::20]),
     lambda fit: fit.details["side_radius"] / _HALF, "0.522", ""),
    ("TALL-SIDE", "three-centred", _points(_TALL.x[::8], _TALL.z[::8]),
     lambda fit: fit.details["side_radius"], "4.0", "m"),
    ("EGG-FLANK", "egg", _EGGS, lambda fit: fit.details["flank_radius"], "4.0", "m"),
    ("EGG-BASE", "egg", _EGGS, lambda fit: fit.details["base_centre"], "0.50", "m"),
    ("EGG-CROWN", "egg", _EGGS, lambda fit: fit.details["crown_radius"], "1.20", "m"),
    ("LARGEST", "semicircle", _points([-2.0, -1.2, 0.0, 1.2, 2.0], [0.0, 1.6, 2.01, 1.6, 0.0]),
     lambda fit: 1000.0 * fit.largest, "8", ""),
)  # fmt: skip

_LEAST = (
    ("ELLIPSE", curves.ellipse(4.0, 1.5), 3, lambda one: 1000.0 * one.deviation, "5.214"),
    ("FLAT-ELLIPSE", curves.ellipse(5.0, 1.2), 3, lambda one: 1000.0 * one.deviation, "12.188"),
    ("UNLIKE", _UNLIKE, 2, lambda one: 1000.0 * one.deviation, "56.74"),
    ("UNLIKE-RADIUS", _UNLIKE, 2, lambda one: one.arcs[0].radius, "3.1257"),
    ("UNLIKE-HEADING", _UNLIKE, 2, lambda one: np.degrees(one.arcs[0].start), "166.70"),
)
_ARCS = (
    ("BOSSUT-SIDE", _BOSSUT, 3, lambda one: one.arcs[0].radius / _HALF, "0.522", ""),
    ("BOSSUT-CROWN", _BOSSUT, 3, lambda one: one.arcs[1].radius / _HALF, "1.384", ""),
    ("BOSSUT-CENTRE", _BOSSUT, 3, lambda one: one.arcs[2].x / _HALF, "0.478", ""),
    ("BOSSUT-BEGINS", _BOSSUT, 3, lambda one: np.degrees(one.arcs[0].start), "180.0", ""),
    ("BOSSUT-JOINT", _BOSSUT, 3, lambda one: np.degrees(one.arcs[0].end), "123.7", ""),
    ("BOSSUT-CROWN-BEGINS", _BOSSUT, 3, lambda one: np.degrees(one.arcs[1].start), "123.7", ""),
    ("LEVEL-LEFT", _LEVEL, 2, lambda one: one.arcs[0].radius, "2.00", "m"),
    ("LEVEL-EVEN-PLACES", _at_even_places(_LEVEL), 2, lambda one: one.arcs[0].radius, "2.00", "m"),
    ("DRAWN-IN", _DRAWN_IN, 2, lambda one: one.arcs[0].radius, "2.00", "m"),
    ("TEN-POINTS", _TEN, 1, lambda one: 1000.0 * one.deviation, "25.81", ""),
    ("POINTED-RADIUS", _POINTED, 2, lambda one: one.arcs[0].radius, "5.25", "m"),
    ("POINTED-CENTRE", _POINTED, 2, lambda one: one.arcs[0].x, "3.15", "m"),
    ("ONE-ARC", curves.segment(4.0, 0.5, points=61), 1, lambda one: one.arcs[0].radius, "4.25", "m"),
    ("ONE-ARC-OFF", _FLAT_ARCH, 1, lambda one: 1000.0 * one.deviation, "8.4", ""),
    ("LEANING-LEFT", _LEANING, 2, lambda one: one.arcs[0].radius, "2.00", "m"),
    ("LEANING-RIGHT", _LEANING, 2, lambda one: one.arcs[1].radius, "3.00", "m"),
    ("LEANING-CENTRE", _LEANING, 2, lambda one: one.arcs[1].z, "-0.87", "m"),
    ("LEANING-BEGINS", _LEANING, 2, lambda one: np.degrees(one.arcs[0].start), "170.0", ""),
    ("FIVE-OF-EGG", _EGG, 5, lambda one: one.arcs[1].radius, "4.0", "m"),
    ("EGG-BEGINS", _EGG, 5, lambda one: np.degrees(one.arcs[0].start) % 360.0, "194.0", ""),
)


def _first_off(chains: Iterator[fitting.ArcFit]) -> float:
    return 1000.0 * next(chains).deviation


def _second_off(chains: Iterator[fitting.ArcFit]) -> float:
    next(chains)
    return _first_off(chains)


_SCAN = "one arc through both feet: its centre by golden section, the curve against 200 000 of its points"
_GROWN = (
    ("TALL-CHAIN", curves.catenary(4.0, 3.6), _first_off, "470.42", _SCAN),
    ("TALL-ELLIPSE", curves.ellipse(2.0, 1.9), _first_off, "203.50", _SCAN),
    ("SECOND", curves.ellipse(4.0, 1.5), _second_off, "5.214", "three arcs; by simplex, as above"),
)

ROWS = (
    *(
        Row(
            id=f"ARCHESBYARCS-FIT-{name}", cite=_DERIVED, kind=Kind.DERIVED, call=fitting.fit_family,
            inputs={**points, "family": _family(family)}, expected=expected, unit=unit, pick=pick,
            note="points of the closed form, with the planted error",
        )
        for name, family, points, pick, expected, unit in _FITS
    ),
    *(
        Row(
            id=f"ARCHESBYARCS-CHAIN-{name}", cite=_DERIVED, kind=Kind.DERIVED, call=fitting.tangent_arcs,
            inputs={"curve": curve, "arcs": arcs}, expected=expected, unit=unit, pick=pick,
            note="radii of the construction by the diagonal, and of arcs that are arcs already",
        )
        for name, curve, arcs, pick, expected, unit in _ARCS
    ),
    *(
        Row(
            id=f"ARCHESBYARCS-LEAST-{name}", cite=_DERIVED, kind=Kind.INDEPENDENT, call=fitting.tangent_arcs,
            inputs={"curve": curve, "arcs": arcs}, expected=expected, pick=pick, rel=2e-3,
            note="least largest distance by simplex (Nelder, Mead) over the free measures of the chain; "
                 "60 points are compared, not all",
        )
        for name, curve, arcs, pick, expected in _LEAST
    ),
    *(
        Row(
            id=f"ARCHESBYARCS-GROWN-{name}", cite=_DERIVED, kind=Kind.INDEPENDENT,
            call=fitting.chains_of_arcs, inputs={"curve": curve}, expected=expected, rel=2e-3,
            pick=pick, note=note,
        )
        for name, curve, pick, expected, note in _GROWN
    ),
    Row(
        id="HUBER1981-SPREAD", cite=Cite(work=HUBER1981, place="chapter 7", provenance=Provenance.MEMORY),
        kind=Kind.DERIVED, call=fitting.fit_family, inputs={**_WAVED, "family": _family("parabola")},
        expected="0.0073", unit="m", pick=lambda fit: fit.spread, rel=0.05,
        note="errors of 10 mm straight up, square to a parabola whose slope runs to 2: the mean of "
             "0.01/root(1 + 4x²) squared, less what three free measures take up",
    ),
    Row(
        id="SEBERWILD1989-INTERVAL",
        cite=Cite(work=SEBERWILD1989, place="section 5.1", provenance=Provenance.MEMORY),
        kind=Kind.INDEPENDENT, call=fitting.fit_family, inputs={**_FLAT, "family": _family("parabola")},
        expected="0.0014", unit="m", pick=lambda fit: fit.errors["rise"], rel=0.02,
        note="numpy.polyfit of the same points, errors straight up, height at the middle",
    ),
    *(
        Row(
            id=f"BURNHAM2002-{name}", cite=_BURNHAM, kind=Kind.DERIVED, call=fitting.likelihoods,
            inputs={"mean_squares": squares, "parameters": parameters, "points": points},
            expected=expected, pick=lambda weights: weights[0], note=note,
        )
        for name, squares, parameters, points, expected, note in (
            ("EVEN", [4e-4, 4e-4], [3, 3], 12, "0.500", "equal fits"),
            ("RATIO", [4e-4, 4.4e-4], [3, 3], 12, "0.639", "1/(1 + 1.1^-6)"),
            ("COUNTED", [4e-4, 4e-4], [3, 4], 12, "0.958626", "D = 10 + 60/6 - 8 - 40/7; 1/(1 + exp(-D/2))"),
            ("FLOOR", [1e-12, 1.1e-8], [3, 3], 12, "0.639", "below 0.1 mm nothing is told: 1/(1 + 1.1^-6)"),
            ("TOO-FEW", [4e-4, 1e-4], [3, 5], 7, "1.000", "the second has no point to spare"),
            ("NONE", [4e-4], [5], 6, "0.000", "nothing can be told"),
        )
    ),
    *(
        Row(
            id=f"ROUSSEEUW1987-OUTLIERS-{name}", cite=_ROUSSEEUW, kind=Kind.DERIVED, call=fitting.outliers,
            inputs={"residuals": residuals, "span": 5.0, "parameters": 3}, expected=expected,
            pick=lambda found: float(found.sum()), note=note,
        )
        for name, residuals, expected, note in (
            ("SPREAD", [0.01, -0.01, 0.01, -0.01, 0.01, 0.1325, -0.1340], "1", "0.1334"),
            ("SPAN", [0.001, -0.001, 0.001, 0.001, 0.001, 0.0199, -0.0201], "1", "0.004 · 5 = 0.0200"),
            ("TOO-FEW", [0.0, 0.0, 0.0, 0.0, 1.0], "0", "two points to spare"),
            ("ENOUGH", [0.0, 0.0, 0.0, 0.0, 0.0, 1.0], "1", "three points to spare"),
        )
    ),
    Row(
        id="ARCHESBYARCS-DISTANCE-CIRCLE", cite=_DERIVED, kind=Kind.DERIVED, call=fitting.distance_to_curve,
        inputs={"x": 1.8, "z": 1.6, "curve_x": _ARCH.x, "curve_z": _ARCH.z},
        expected="0.4083", unit="m", note="root(1.8² + 1.6²) - 2",
    ),
    Row(
        id="ARCHESBYARCS-DISTANCE-INSIDE", cite=_DERIVED, kind=Kind.DERIVED, call=fitting.distance_to_curve,
        inputs={"x": -0.6, "z": 0.8, "curve_x": _ARCH.x, "curve_z": _ARCH.z},
        expected="-1.0000", unit="m", note="a point on half the radius",
    ),
    Row(
        id="ARCHESBYARCS-DISTANCE-BESIDE-A-FOOT", cite=_DERIVED, kind=Kind.DERIVED,
        call=fitting.distance_to_curve, inputs={"x": 2.5, "z": -0.4, "curve_x": [-2.0, -2.0, 2.0, 2.0],
        "curve_z": [0.0, 1.0, 1.0, 0.0]}, expected="0.500", unit="m",
        note="the upright side runs on downward",
    ),
)  # fmt: skip
