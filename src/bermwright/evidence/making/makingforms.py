"""Domes and patterns by hand: courses, chains, rings, gores, and the lines in which shells meet.

Closed forms of circles, cylinders, cones and spheres, each evaluated by a second route than the function's
own. Areas and volumes are Pappus' or the caps' formulas; the egg is the standard one whose crown is twice its
invert and whose height is one and a half times its width.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.curves import DOCARMO1976, HUNTER2004
from bermwright.data.works.fitting import SEBERWILD1989
from bermwright.data.works.making import GILLY1797, MAKING_FORMS
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import compass, curves, developing

_DERIVED = Cite(work=MAKING_FORMS, place="closed form", provenance=Provenance.DERIVED)
_REVOLVED = Cite(work=DOCARMO1976, place="surfaces of revolution", provenance=Provenance.DERIVED)
_POINTED = Cite(
    work=HUNTER2004,
    place="pointed dome 4.2 m wide and high, courses of 125 mm",
    provenance=Provenance.DERIVED,
)
_FITTED = Cite(work=SEBERWILD1989, place="linear least squares", provenance=Provenance.DERIVED)
_EQUAL_PARTS = Cite(work=GILLY1797, place="page 244, the hip by equal parts", provenance=Provenance.READ)


def _half(curve: curves.PlaneCurve) -> dict[str, Any]:
    """The right half of a curve as a profile from the foot to the crown."""
    top = int(np.argmax(curve.z))
    return {"height": curve.z[top:][::-1], "radius": np.maximum(curve.x[top:][::-1], 0.0)}


def _round(turns: Any, across: float, up: float) -> dict[str, Any]:
    return {"height": up * np.sin(turns), "radius": np.maximum(across * np.cos(turns), 0.0)}


_QUARTER = np.linspace(0.0, 0.5 * np.pi, 20001)
_BALL = _round(_QUARTER, 2.0, 2.0)
_FIVE = _round(np.linspace(0.0, 0.5 * np.pi, 20001), 5.0, 5.0)
_LANCET = _half(curves.arc_chain(curves.pointed_arcs(4.2, 4.2), points=40000))
_CAP = _half(curves.segment(6.0, 1.2, points=20001))


def _egg(width: float = 1.0) -> dict[str, Any]:
    """The standard egg: crown circle of half the width, flanks of one and a half, invert of a quarter."""
    invert = np.linspace(-0.5 * np.pi, -np.arctan2(0.15, 0.2), 20001)
    flank = np.linspace(-np.arcsin(0.6), 0.0, 20001)
    crown = np.linspace(0.0, 0.5 * np.pi, 20001)[1:]
    parts = ((0.0, 0.25, 0.25, invert[:-1]), (-1.0, 1.0, 1.5, flank), (0.0, 1.0, 0.5, crown))
    x = np.concatenate([at + size * np.cos(turn) for at, _, size, turn in parts])
    z = np.concatenate([up + size * np.sin(turn) for _, up, size, turn in parts])
    return {"height": width * z, "radius": width * np.maximum(x, 0.0)}


_TURNS = np.radians(np.arange(0.0, 360.0, 45.0))
_LIKE = 2.0 + 0.02 * np.cos(_TURNS - np.radians(30.0)) + 0.01 * np.cos(2.0 * (_TURNS - np.radians(10.0)))
_WAVED = _LIKE + 0.003 * np.cos(3.0 * _TURNS)
_FLAT = np.full(8, 2.0) - np.eye(8)[3] * 2.0 * (1.0 - np.cos(np.radians(45.0)))
_MOVED = 0.3 * np.cos(_TURNS) + np.sqrt(4.0 - (0.3 * np.sin(_TURNS)) ** 2)
_DRAWN = [2.0, 1.95, 1.88, 1.79]


def _row(  # noqa: PLR0913, PLR0917  (one line of the tables below)
    name: str,
    call: Any,
    inputs: dict[str, Any],
    expected: str,
    unit: str,
    pick: Any,
    note: str,
    cite: Cite = _DERIVED,
) -> Row:
    return Row(
        id=f"MAKINGFORMS-{name}",
        cite=cite,
        kind=Kind.DERIVED,
        call=call,
        inputs=inputs,
        expected=expected,
        unit=unit,
        pick=pick,
        note=note,
    )


def _same(result: Any) -> Any:
    return result


_LAID = {**_LANCET, "course": 0.125}
_BRICKED = {**_BALL, "course": 0.1}
_COURSES = (
    ("RADIUS-345", compass.course_radius, {**_FIVE, "at": 4.0}, "3.0000", "m", _same, "3, 4, 5", _REVOLVED),
    (
        "COURSES-COUNT",
        compass.level_courses,
        _LAID,
        "33",
        "",
        lambda one: one.height.size,
        "floor(4.2/0.125)",
        _POINTED,
    ),
    (
        "COURSES-COUNT-EVEN",
        compass.level_courses,
        {"height": [0.0, 0.7], "radius": [1.0, 0.0], "course": 0.1},
        "7",
        "",
        lambda one: one.height.size,
        "0.7/0.1, which is a little under 7 in binary numbers",
        _POINTED,
    ),
    (
        "COURSES-RADIUS-1",
        compass.level_courses,
        _LAID,
        "2.004",
        "m",
        lambda one: one.radius[8],
        "root(R² - z²) - e",
        _POINTED,
    ),
    (
        "COURSES-RADIUS-3",
        compass.level_courses,
        _LAID,
        "1.158",
        "m",
        lambda one: one.radius[24],
        "root(R² - z²) - e",
        _POINTED,
    ),
    (
        "COURSES-RADIUS-TOP",
        compass.level_courses,
        _LAID,
        "0.250",
        "m",
        lambda one: one.radius[32],
        "root(R² - z²) - e",
        _POINTED,
    ),
    (
        "COURSES-STEP",
        compass.level_courses,
        _LAID,
        "0.084",
        "m",
        lambda one: one.step[24],
        "difference of two courses",
        _POINTED,
    ),
    (
        "COURSES-STEP-FIRST",
        compass.level_courses,
        _LAID,
        "0.000",
        "m",
        lambda one: one.step[0],
        "nothing below",
        _POINTED,
    ),
    (
        "COURSES-OVER-75",
        compass.level_courses,
        _LAID,
        "2.88",
        "m",
        lambda one: one.height[np.argmax(one.step > 0.075)],
        "the first step over 75 mm",
        _POINTED,
    ),
    (
        "COURSES-TUBE",
        compass.level_courses,
        _LAID,
        "355",
        "m",
        lambda one: 2.0 * np.pi * np.sum(one.radius + 0.19),
        "middle line of tubes 0.38 m wide",
        _POINTED,
    ),
    (
        "COURSES-LEVEL",
        compass.level_courses,
        _LAID,
        "0.0",
        "",
        lambda one: one.tilt[9],
        "level beds",
        _POINTED,
    ),
    (
        "TILTED-TILT",
        compass.tilted_courses,
        _BRICKED,
        "0.500",
        "",
        lambda one: one.tilt[10],
        "s/R",
        _REVOLVED,
    ),
    (
        "TILTED-RADIUS",
        compass.tilted_courses,
        _BRICKED,
        "1.7552",
        "m",
        lambda one: one.radius[10],
        "R cos(s/R)",
        _REVOLVED,
    ),
    (
        "TILTED-HEIGHT",
        compass.tilted_courses,
        _BRICKED,
        "0.9589",
        "m",
        lambda one: one.height[10],
        "R sin(s/R)",
        _REVOLVED,
    ),
    (
        "TILTED-STEP",
        compass.tilted_courses,
        _BRICKED,
        "0.0457",
        "m",
        lambda one: one.step[10],
        "2(cos 0.45 - cos 0.5)",
        _REVOLVED,
    ),
    (
        "TILTED-COUNT",
        compass.tilted_courses,
        _BRICKED,
        "31",
        "",
        lambda one: one.height.size,
        "floor(pi/0.1)",
        _REVOLVED,
    ),
    (
        "CHAIN-TABLE",
        compass.chain_from_pivot,
        {"height": 2.0, "radius": 1.70412, "pivot": 0.0},
        "2.628",
        "m",
        _same,
        "root(r² + z²)",
        _POINTED,
    ),
    (
        "CHAIN-LOW-PIVOT",
        compass.chain_from_pivot,
        {"height": 1.5, "radius": 1.5, "pivot": -0.5},
        "2.500",
        "m",
        _same,
        "3, 4, 5",
    ),
    (
        "CHAIN-HANGING",
        compass.chain_from_pivot,
        {"height": 0.2, "radius": 2.0, "pivot": 1.7},
        "2.500",
        "m",
        _same,
        "3, 4, 5",
    ),
    (
        "CHAIN-ANGLE",
        compass.chain_angle,
        {"height": 2.5, "radius": 2.0, "pivot": 1.0},
        "36.87",
        "deg",
        _same,
        "3, 4, 5",
    ),
    (
        "PIVOT-OUTSIDE",
        compass.pivot_clearance,
        {"offset": 3.15, "face": 2.1, "thickness": 0.4},
        "0.65",
        "m",
        _same,
        "3.15 - 2.5",
    ),
    (
        "PIVOT-INSIDE",
        compass.pivot_clearance,
        {"offset": -0.5, "face": 2.1, "thickness": 0.4},
        "1.60",
        "m",
        _same,
        "2.1 - 0.5",
    ),
    (
        "PIVOT-IN-WALL",
        compass.pivot_clearance,
        {"offset": 2.2, "face": 2.1, "thickness": 0.4},
        "-0.10",
        "m",
        _same,
        "2.1 - 2.2",
    ),
    (
        "ROD",
        compass.rod_level_at_wall,
        {"height": 3.0, "radius": 1.158, "offset": 3.15, "wall": 2.1},
        "0.7312",
        "m",
        _same,
        "similar triangles: 3·1.05/4.308",
    ),
)
_SIX = np.radians(np.arange(0.0, 360.0, 60.0))
_SIX_RADII = 2.0 + 0.02 * np.cos(_SIX + np.radians(30.0)) + 0.01 * np.cos(2.0 * _SIX)
_MORE_RINGS = (
    (
        "RING-TOWARD-BACK",
        compass.fit_ring,
        {"angle": _SIX, "radius": _SIX_RADII},
        "330.00",
        "deg",
        lambda one: one.toward,
        "as planted, 30 degrees before the first",
        _FITTED,
    ),
    (
        "RING-OVAL-OF-SIX",
        compass.fit_ring,
        {"angle": _SIX, "radius": _SIX_RADII},
        "0.0100",
        "m",
        lambda one: one.oval,
        "six readings tell an oval",
        _FITTED,
    ),
)
_MORE_COURSES = (
    (
        "COURSES-OVER-A-STEP",
        compass.level_courses,
        {"height": [0.5, 1.2], "radius": [1.0, 0.0], "course": 0.1},
        "7",
        "",
        lambda one: one.height.size,
        "0.7/0.1 from a foot at 0.5 m",
    ),
    (
        "TILTED-COUNT-EVEN",
        compass.tilted_courses,
        {"height": [0.0, 0.7], "radius": [1.0, 1.0], "course": 0.1},
        "7",
        "",
        lambda one: one.height.size,
        "0.7/0.1 up a plumb wall",
    ),
    (
        "LEAD-BETWEEN",
        compass.course_of_lead,
        {"lengths": [6.0] * 20, "fast": 3.0, "slow": 2.41, "lead": 1},
        "6",
        "",
        _same,
        "n >= v/(v - w) = 5.08",
    ),
    (
        "DOME-LARGE",
        developing.reach_of_dome,
        {"offset": 1.2, "radius": 2.0},
        "1.600",
        "m",
        _same,
        "3, 4, 5",
    ),
)
_RINGS = (
    ("SHARE", compass.work_shares, {"rates": [3.0, 2.0]}, "0.600", "", lambda one: one[0], "3/5"),
    ("SHIFT", compass.start_shift, {"radius": 2.0, "lap": 0.5}, "0.250", "", _same, "0.5/2"),
    (
        "LEAD-1",
        compass.course_of_lead,
        {"lengths": [6.0] * 20, "fast": 3.0, "slow": 2.4, "lead": 1},
        "5",
        "",
        _same,
        "n >= v/(v - w)",
    ),
    (
        "LEAD-2",
        compass.course_of_lead,
        {"lengths": [6.0] * 20, "fast": 3.0, "slow": 2.4, "lead": 2},
        "10",
        "",
        _same,
        "n >= 2 v/(v - w)",
    ),
    (
        "LEAD-NEVER",
        compass.course_of_lead,
        {"lengths": [6.0] * 20, "fast": 3.0, "slow": 3.0, "lead": 1},
        "0",
        "",
        _same,
        "equal crews",
    ),
    (
        "OPENING-60",
        compass.opening_angle,
        {"radius": 1.0, "width": 1.0},
        "60.00",
        "deg",
        _same,
        "equilateral triangle",
    ),
    (
        "OPENING-DOOR",
        compass.opening_angle,
        {"radius": 2.1, "width": 0.9},
        "24.747",
        "deg",
        _same,
        "2 arcsin(0.9/4.2)",
    ),
    (
        "FREE",
        compass.free_length,
        {"radius": 1.0, "widths": [1.0, 1.0]},
        "4.1888",
        "m",
        _same,
        "2 pi (1 - 2/6)",
    ),
    ("FREE-WIDE", compass.free_length, {"radius": 3.0, "widths": [3.0]}, "15.708", "m", _same, "6 pi·5/6"),
    ("HEAD", compass.round_head_width, {"height": 0.3, "width": 1.0}, "0.800", "m", _same, "3, 4, 5"),
    (
        "HEAD-BELOW",
        compass.round_head_width,
        {"height": -0.3, "width": 1.0},
        "1.000",
        "m",
        _same,
        "upright sides",
    ),
    (
        "HEAD-ABOVE",
        compass.round_head_width,
        {"height": 0.6, "width": 1.0},
        "0.000",
        "m",
        _same,
        "over the head",
    ),
    (
        "BRICKS",
        compass.bricks_in_ring,
        {"length": 6.2832, "brick": 0.2, "joint": 0.01},
        "29",
        "",
        _same,
        "floor(29.92)",
    ),
    (
        "BRICKS-EVEN",
        compass.bricks_in_ring,
        {"length": 2.1, "brick": 0.2, "joint": 0.01},
        "10",
        "",
        _same,
        "2.1/0.21",
    ),
    (
        "JOINT",
        compass.ring_joint,
        {"length": 6.2832, "brick": 0.2, "count": 29.0},
        "0.01666",
        "m",
        _same,
        "6.2832/29 - 0.2",
    ),
    (
        "TAPER",
        compass.brick_taper,
        {"thickness": 0.1, "tilt": 0.0, "count": 29.0},
        "0.02167",
        "m",
        _same,
        "2 pi 0.1/29",
    ),
    (
        "TAPER-TILTED",
        compass.brick_taper,
        {"thickness": 0.1, "tilt": np.pi / 3.0, "count": 29.0},
        "0.01083",
        "m",
        _same,
        "half of it at 60 degrees",
    ),
    ("CAP-SURFACE", compass.dome_surface, _CAP, "32.798", "m2", _same, "2 pi R h", _REVOLVED),
    ("CAP-VOLUME", compass.dome_volume, _CAP, "17.869", "m3", _same, "pi h²(3R - h)/3", _REVOLVED),
    (
        "PROLATE-SURFACE",
        compass.dome_surface,
        _round(_QUARTER, 2.5, 4.0),
        "55.681",
        "m2",
        _same,
        "half ellipsoid",
        _REVOLVED,
    ),
    (
        "PROLATE-VOLUME",
        compass.dome_volume,
        _round(_QUARTER, 2.5, 4.0),
        "52.360",
        "m3",
        _same,
        "2/3 pi a² c",
        _REVOLVED,
    ),
    (
        "POINTED-SURFACE",
        compass.dome_surface,
        _LANCET,
        "42.191",
        "m2",
        _same,
        "2 pi R(h - e arcsin(h/R))",
        _POINTED,
    ),
    (
        "POINTED-VOLUME",
        compass.dome_volume,
        _LANCET,
        "33.166",
        "m3",
        _same,
        "pi integral (root(R² - z²) - e)² dz",
        _POINTED,
    ),
    ("EGG-SURFACE", compass.dome_surface, _egg(), "4.14532", "m2", _same, "arcs revolved", _REVOLVED),
    ("EGG-VOLUME", compass.dome_volume, _egg(), "0.75280", "m3", _same, "arcs revolved", _REVOLVED),
    ("EGG-LARGE", compass.dome_volume, _egg(4.2), "55.77", "m3", _same, "4.2³ of it", _REVOLVED),
)
_SEEN = {"angle": _TURNS, "radius": _LIKE}
_BACK = {"design": _DRAWN, "built": 2.03, "greatest": 0.1, "change": 0.02}
_BUILT = (
    ("RING-MEAN", compass.fit_ring, _SEEN, "2.0000", "m", lambda one: one.radius, "as planted", _FITTED),
    ("RING-SHIFT", compass.fit_ring, _SEEN, "0.0200", "m", lambda one: one.shift, "as planted", _FITTED),
    ("RING-TOWARD", compass.fit_ring, _SEEN, "30.00", "deg", lambda one: one.toward, "as planted", _FITTED),
    ("RING-OVAL", compass.fit_ring, _SEEN, "0.0100", "m", lambda one: one.oval, "as planted", _FITTED),
    (
        "RING-SPREAD",
        compass.fit_ring,
        {"angle": _TURNS, "radius": _WAVED},
        "0.00346",
        "m",
        lambda one: one.spread,
        "root(8·0.003²/2/(8 - 5))",
        _FITTED,
    ),
    (
        "RING-FEW-OVAL",
        compass.fit_ring,
        {"angle": _TURNS[::2], "radius": _LIKE[::2]},
        "0.0000",
        "m",
        lambda one: one.oval,
        "four readings tell no oval",
        _FITTED,
    ),
    (
        "ROUND",
        compass.ring_roundness,
        {"angle": _TURNS, "radius": np.full(8, 2.0)},
        "1.0000",
        "",
        lambda one: one.share[5],
        "a circle",
        _REVOLVED,
    ),
    (
        "ROUND-STRAIGHT",
        compass.ring_roundness,
        {"angle": _TURNS, "radius": _FLAT},
        "0.0000",
        "",
        lambda one: one.share[3],
        "three readings on one line",
        _REVOLVED,
    ),
    (
        "ROUND-FLATTEST",
        compass.ring_roundness,
        {"angle": _TURNS, "radius": _FLAT},
        "3",
        "",
        lambda one: one.flattest,
        "three readings on one line",
        _REVOLVED,
    ),
    (
        "ROUND-MOVED",
        compass.ring_roundness,
        {"angle": _TURNS, "radius": _MOVED},
        "0.99435",
        "",
        lambda one: one.share[2],
        "a circle of 2 m, its middle moved by 0.3 m: mean of the readings over 2",
        _REVOLVED,
    ),
    ("BACK-FIRST", compass.recover, _BACK, "1.960", "m", lambda one: one[1], "0.05 + 0.02 off 2.03"),
    ("BACK-SECOND", compass.recover, _BACK, "1.880", "m", lambda one: one[2], "on the drawing again"),
    (
        "BACK-INWARD",
        compass.recover,
        {**_BACK, "built": 1.96},
        "1.93",
        "m",
        lambda one: one[1],
        "0.05 - 0.02 off 1.96",
    ),
    (
        "BACK-NO-STEP-OUT",
        compass.recover,
        {**_BACK, "built": 1.90, "change": 0.2},
        "1.90",
        "m",
        lambda one: one[1],
        "never a step outwards",
    ),
    (
        "BACK-LIMIT",
        compass.recover,
        {**_BACK, "built": 2.10, "change": 0.2},
        "2.00",
        "m",
        lambda one: one[1],
        "0.1 at most",
    ),
    (
        "BACK-OWN-STEP",
        compass.recover,
        {**_BACK, "greatest": 0.01},
        "1.820",
        "m",
        lambda one: one[3],
        "no more than the drawing's own steps: 30 mm stay",
    ),
)
_SHEETS = (
    (
        "CONE-INNER",
        developing.cone_pattern,
        {"small": 0.1, "large": 0.3, "slant": 0.4},
        "0.200",
        "m",
        lambda one: one.inner,
        "0.1·0.4/0.2",
    ),
    (
        "CONE-OUTER",
        developing.cone_pattern,
        {"small": 0.1, "large": 0.3, "slant": 0.4},
        "0.600",
        "m",
        lambda one: one.outer,
        "0.3·0.4/0.2",
    ),
    (
        "CONE-ANGLE",
        developing.cone_pattern,
        {"small": 0.1, "large": 0.3, "slant": 0.4},
        "180.0",
        "deg",
        lambda one: one.angle,
        "0.6 m of ring on a radius of 0.2 m",
    ),
    (
        "STRIPS",
        developing.strips_needed,
        {"width": 6.0, "roll": 1.5, "lap": 0.15},
        "5",
        "",
        _same,
        "ceil(5.85/1.35)",
    ),
    (
        "STRIPS-EVEN",
        developing.strips_needed,
        {"width": 0.7, "roll": 0.2, "lap": 0.1},
        "6",
        "",
        _same,
        "0.6/0.1",
    ),
    (
        "STRIPS-ONE",
        developing.strips_needed,
        {"width": 0.1, "roll": 1.5, "lap": 0.15},
        "1",
        "",
        _same,
        "one covers it",
    ),
    ("GORE-WIDTH", developing.gore_half_width, {"radius": 1.0, "gores": 12.0}, "0.2618", "m", _same, "pi/12"),
    (
        "GORE-WIDTH-60",
        developing.gore_half_width,
        {"radius": 2.0 * np.cos(np.radians(60.0)), "gores": 8.0},
        "0.3927",
        "m",
        _same,
        "pi R cos 60°/n on a ball of 2 m",
    ),
    (
        "GORE-AREA",
        developing.gore_area,
        {**_BALL, "gores": 12.0},
        "2.0944",
        "m2",
        _same,
        "2 pi R²/12",
        _REVOLVED,
    ),
    (
        "GORE-AREA-POINTED",
        developing.gore_area,
        {**_LANCET, "gores": 16.0},
        "2.63692",
        "m2",
        _same,
        "2 pi R(h - e arcsin(h/R))/16",
        _POINTED,
    ),
    (
        "HIP-45",
        developing.hip_run,
        {"run": 1.0, "turn": np.pi / 4.0},
        "1.4142",
        "m",
        _same,
        "root 2: equal parts",
        _EQUAL_PARTS,
    ),
    (
        "HIP-OBLONG",
        developing.hip_run,
        {"run": 2.0, "turn": np.arctan2(1.5, 2.0)},
        "2.500",
        "m",
        _same,
        "a plan of 4 by 3 m: half its diagonal",
        _EQUAL_PARTS,
    ),
    (
        "VAULT-SQUARE",
        developing.reach_of_vault,
        {"offset": 0.5, "half_width": 1.6, "turn": np.pi / 2.0},
        "1.600",
        "m",
        _same,
        "half width of a round vault of 2 m at 1.2 m",
    ),
    (
        "VAULT-SKEW",
        developing.reach_of_vault,
        {"offset": 0.5, "half_width": 1.6, "turn": np.pi / 3.0},
        "2.1362",
        "m",
        _same,
        "(1.6 + 0.25)/sin 60°",
    ),
    ("DOME", developing.reach_of_dome, {"offset": 0.6, "radius": 1.0}, "0.800", "m", _same, "3, 4, 5"),
)
_PIPE = {**_BALL, "turn": np.radians([0.0, 90.0, 180.0]), "pipe": 0.1, "at": 0.4, "lean": np.pi / 6.0}
_ROUND_PIPE, _VAULT_PIPE = {**_PIPE, "is_round": True}, {**_PIPE, "is_round": False}
_PIPES = (
    (
        "PIPE-DOME-OUT",
        developing.pipe_cut,
        _ROUND_PIPE,
        "1.7495",
        "m",
        lambda one: one.along[0],
        "root of the quadratic",
    ),
    (
        "PIPE-DOME-SIDE",
        developing.pipe_cut,
        _ROUND_PIPE,
        "1.7672",
        "m",
        lambda one: one.along[1],
        "root of the quadratic",
    ),
    (
        "PIPE-BELOW-FOOT",
        developing.pipe_cut,
        {**_PIPE, "turn": 0.0, "at": 1.7, "lean": np.radians(80.0), "is_round": False},
        "0.2870",
        "m",
        lambda one: one.along[0],
        "leaves under the springing, where the foot is: (2 - 1.7 - 0.1 cos 80°)/sin 80°",
    ),
    ("PIPE-DOME-Y", developing.pipe_cut, _ROUND_PIPE, "0.1000", "m", lambda one: one.y[1], "a sin t"),
    (
        "PIPE-DOME-X",
        developing.pipe_cut,
        _ROUND_PIPE,
        "1.3614",
        "m",
        lambda one: one.x[0],
        "root of the quadratic",
    ),
    (
        "PIPE-VAULT-IN",
        developing.pipe_cut,
        _VAULT_PIPE,
        "1.7848",
        "m",
        lambda one: one.along[2],
        "root of the quadratic",
    ),
    (
        "PIPE-VAULT-Z",
        developing.pipe_cut,
        _VAULT_PIPE,
        "1.4651",
        "m",
        lambda one: one.z[0],
        "root of the quadratic",
    ),
    (
        "PIPE-VAULT-SIDE",
        developing.pipe_cut,
        _VAULT_PIPE,
        "1.7698",
        "m",
        lambda one: one.along[1],
        "root of the quadratic",
    ),
)
_EXCESS = (
    ("GORE-EXCESS-12", 12.0, "0.01692"),
    ("GORE-EXCESS-6", 6.0, "0.06537"),
)

ROWS = (
    *(_row(*one) for one in (*_COURSES, *_MORE_COURSES, *_MORE_RINGS, *_RINGS, *_BUILT, *_SHEETS, *_PIPES)),
    *(
        Row(
            id=f"MAKINGFORMS-{name}",
            cite=_REVOLVED,
            kind=Kind.INDEPENDENT,
            call=developing.gore_edge_excess,
            inputs={**_BALL, "gores": gores},
            expected=expected,
            note="2/pi·E(-(pi/n)²) - 1, scipy.special.ellipe",
        )
        for name, gores, expected in _EXCESS
    ),
)
