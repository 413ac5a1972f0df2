"""Strings and arches: E. J. Routh, A treatise on analytical statics 1 (1891), chapter X.

The work was not opened; its equations were derived again. The rows are closed forms worked apart from
this program, and for the curve under cover an integration with relative tolerance 1e-9.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.curves import ROUTH1891
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import curves, setout
from bermwright.handbook.curves import CoverLoad

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.handbook.curves import CoverCurve

_CHAPTER = Cite(work=ROUTH1891, place="chapter X", provenance=Provenance.DERIVED)
_LOW: dict[str, Any] = {"span": 6.0, "rise": 3.0}
_TALL: dict[str, Any] = {"span": 5.0, "rise": 4.0}


def _row(
    name: str,
    call: Callable[..., Any],
    expected: str,
    note: str,
    *,
    unit: str = "",
    pick: Any = None,
    **inputs: Any,
) -> Row:
    return Row(
        id=f"ROUTH1891-{name}",
        cite=_CHAPTER,
        kind=Kind.DERIVED,
        call=call,
        inputs=inputs,
        expected=expected,
        unit=unit,
        note=note,
        **({} if pick is None else {"pick": pick}),
    )


def _point(name: str, index: int) -> Callable[[Any], float]:
    return lambda curve: float(getattr(curve, name)[index])


_CATENARY = (
    _row("parameter", curves.catenary_parameter, "1.85628", "c (cosh(3/c) - 1) = 3", unit="m", **_LOW),
    _row("parameter-tall", curves.catenary_parameter, "1.1452", "c (cosh(2.5/c) - 1) = 4", unit="m", **_TALL),
    _row(
        "parameter-flat",
        curves.catenary_parameter,
        "6.3316",
        "span 5, rise 0.5, by bisection",
        unit="m",
        span=5.0,
        rise=0.5,
    ),
    _row("length", curves.catenary_length, "8.97500", "2 c sinh(a/c)", unit="m", **_LOW),
    _row("length-tall", curves.catenary_length, "10.032", "2 c sinh(a/c)", unit="m", **_TALL),
    _row("springing", curves.catenary_springing_angle, "67.527", "atan(sinh(a/c))", unit="deg", **_LOW),
    _row("springing-tall", curves.catenary_springing_angle, "77.14", "atan(sinh(a/c))", unit="deg", **_TALL),
    _row("area", curves.catenary_area, "12.4776", "2 a (c + h) - 2 c s", unit="m2", **_LOW),
    _row("area-tall", curves.catenary_area, "14.237", "2 a (c + h) - 2 c s", unit="m2", **_TALL),
    _row(
        "thrust",
        curves.catenary_forces,
        "1.85628",
        "H = w c",
        unit="kN/m",
        weight=1e3,
        pick=lambda forces: forces.crown,
        **_LOW,
    ),
    _row(
        "vertical",
        curves.catenary_forces,
        "4.48750",
        "V = w s",
        unit="kN/m",
        weight=1e3,
        pick=lambda forces: forces.vertical,
        **_LOW,
    ),
    _row(
        "axial-at-foot",
        curves.catenary_forces,
        "4.85628",
        "N = w (c + h)",
        unit="kN/m",
        weight=1e3,
        pick=lambda forces: forces.foot,
        **_LOW,
    ),
    _row("crown-radius", curves.catenary_radius, "1.1452", "c", unit="m", x=0.0, **_TALL),
    _row("springing-radius", curves.catenary_radius, "23.1164", "c cosh^2(a/c)", unit="m", x=2.5, **_TALL),
    _row("radius-at-1", curves.catenary_radius, "2.26418", "c cosh^2(1/c)", unit="m", x=1.0, **_TALL),
    _row(
        "length-to-parameter",
        curves.catenary_parameter_from_length,
        "1.85628",
        "C1 turned round",
        unit="m",
        span=6.0,
        length=8.975,
    ),
    _row(
        "length-to-rise", curves.catenary_rise, "3.0000", "C1 turned round", unit="m", span=6.0, length=8.975
    ),
    _row(
        "length-to-span", curves.catenary_span, "6.0000", "C1 turned round", unit="m", rise=3.0, length=8.975
    ),
    _row(
        "points-length",
        curves.catenary,
        "10.032",
        "2 c sinh(a/c)",
        unit="m",
        pick=lambda c: c.length,
        **_TALL,
    ),
    _row("points-foot", curves.catenary, "2.5000", "half the span", unit="m", pick=_point("x", -1), **_TALL),
    _row(
        "points-foot-height",
        curves.catenary,
        "0.0000",
        "on the springing line",
        unit="m",
        pick=_point("z", 0),
        **_TALL,
    ),
    _row("points-crown", curves.catenary, "4.0000", "the rise", unit="m", pick=lambda c: c.crown, **_TALL),
    _row(
        "points-angle",
        curves.catenary,
        "77.14",
        "atan(sinh(a/c)), up at the left foot",
        unit="deg",
        pick=_point("angle", 0),
        **_TALL,
    ),
    _row(
        "points-curvature",
        curves.catenary,
        "0.04326",
        "1/23.1164",
        unit="1/m",
        pick=_point("curvature", 0),
        **_TALL,
    ),
    _row(
        "points-curvature-crown",
        curves.catenary,
        "0.87320",
        "1/1.145212",
        unit="1/m",
        pick=_point("curvature", 400),
        **_TALL,
    ),
    _row(
        "points-arc-length",
        curves.catenary,
        "5.016",
        "half of it at the crown",
        unit="m",
        pick=_point("s", 400),
        **_TALL,
    ),
    _row(
        "points-angle-right",
        curves.catenary,
        "-77.14",
        "down at the right foot",
        unit="deg",
        pick=_point("angle", -1),
        **_TALL,
    ),
    _row("points-left", curves.catenary, "-2.5000", "half the span", unit="m", pick=_point("x", 0), **_TALL),
    _row(
        "points-start",
        curves.catenary,
        "0.0000",
        "arc length begins at the left foot",
        unit="m",
        pick=_point("s", 0),
        **_TALL,
    ),
)

_ORDINATES = tuple(
    _row(f"ordinate-{x:g}", curves.catenary_height, y, "y = h - c (cosh(x/c) - 1)", unit="m", x=x, **_TALL)
    for x, y in (
        (0.0, "4.000"),
        (0.25, "3.973"),
        (0.5, "3.889"),
        (0.75, "3.746"),
        (1.0, "3.535"),
        (1.25, "3.247"),
        (1.5, "2.869"),
        (1.75, "2.382"),
        (2.0, "1.762"),
        (2.25, "0.981"),
        (2.5, "0.000"),
    )
)

_STRINGS = tuple(
    _row(
        f"string-{rise:g}", setout.string_length, length, "L = 2 a sinh(s/2a)", unit="m", span=1.0, rise=rise
    )
    for rise, length in ((0.5, "1.496"), (2 / 3, "1.772"), (0.75, "1.918"), (0.8, "2.006"), (1.0, "2.371"))
)

_PARABOLA = (
    _row("parabola-thrust", curves.parabola_thrust, "1.5000", "w L^2/(8 f)", unit="kN/m", load=1e3, **_LOW),
    _row("parabola-radius", curves.parabola_crown_radius, "1.5000", "a^2/(2 h)", unit="m", **_LOW),
    _row("parabola-length", curves.parabola_length, "8.87366", "k (v + sinh v cosh v)", unit="m", **_LOW),
    _row("parabola-height", curves.parabola_height, "2.2500", "h (1 - 1/4)", unit="m", x=-1.5, **_LOW),
    _row(
        "parabola-points",
        curves.parabola,
        "8.87366",
        "k (v + sinh v cosh v)",
        unit="m",
        pick=lambda c: c.length,
        **_LOW,
    ),
    _row(
        "parabola-points-foot",
        curves.parabola,
        "0.000",
        "on the springing line",
        unit="m",
        pick=_point("z", -1),
        **_LOW,
    ),
    _row(
        "parabola-points-angle",
        curves.parabola,
        "63.435",
        "atan 2",
        unit="deg",
        pick=_point("angle", 0),
        **_LOW,
    ),
    _row(
        "parabola-points-curvature",
        curves.parabola,
        "0.059628",
        "(1/k)/(1 + 4)^1.5",
        unit="1/m",
        pick=_point("curvature", -1),
        **_LOW,
    ),
    _row("even-pressure", curves.even_pressure_proportion, "1.41", "1/sqrt(0.5)", ratio=0.5),
    _row("even-pressure-all-round", curves.even_pressure_proportion, "1.00", "a circle", ratio=1.0),
)


# ---------------------------------------------------------------- under cover
def _ridge(crown: float, x: Any) -> Any:
    return crown - 0.5 * np.abs(x)


def _level(height: float, x: Any) -> Any:
    return height + 0.0 * np.asarray(x)


def _hillside(x: Any) -> Any:
    return 0.7 + 0.14 * np.asarray(x)


_RIDGE: dict[str, Any] = {
    "span": 5.0,
    "ground": ((-20.0, -0.5, 0.0, 0.5, 20.0), (-9.7, 0.05, 0.3, 0.05, -9.7)),
    "load": CoverLoad(unit_weight=18e3, sideways=0.5, self_weight=0.8e3),
}
_PICKS: dict[str, tuple[str, Callable[[CoverCurve], float]]] = {
    "thrust": ("kN/m", lambda curve: curve.crown_thrust),
    "half-width": ("m", lambda curve: curve.line.half_width),
    "foot-thrust": ("kN/m", lambda curve: curve.right_foot[0]),
    "foot-vertical": ("kN/m", lambda curve: curve.left_foot[1]),
}
_TABLE = tuple(
    _row(
        f"cover-{rise:g}-{what}",
        curves.under_cover,
        expected,
        "integrated with rtol 1e-9",
        rise=rise,
        unit=_PICKS[what][0],
        pick=_PICKS[what][1],
        **_RIDGE,
    )
    for rise, values in (
        (1.5, ("7.93", "2.500", "5.14", "9.75")),
        (2.0, ("7.72", "2.500", "0.80", "12.22")),
        (2.4, ("7.77", "2.540", "-3.43", "11.68")),
        (2.7, ("7.90", "2.654", "-6.82", "8.79")),
        (2.9, ("8.04", "2.790", "-8.89", "4.56")),
    )
    for what, expected in zip(_PICKS, values, strict=True)
)


def _residual(curve: CoverCurve, *, rise: float, ground: Callable[[Any], Any], load: CoverLoad) -> float:
    """Moment about the left foot of all that acts between both feet, over the thrust: an arm (m).

    The soil face is laid out here once more as a polygon, square to the curve.
    """
    line = curve.line
    x = line.x - load.face * np.sin(line.angle)
    z = line.z + load.face * np.cos(line.angle)
    mx, mz = 0.5 * (x[1:] + x[:-1]), 0.5 * (z[1:] + z[:-1])
    pressure = load.unit_weight * np.maximum(ground(mx) + rise - mz, 0.0) + load.surcharge
    down, across = pressure * np.diff(x), load.sideways * pressure * np.diff(z)
    own = load.self_weight * np.diff(line.s)
    middle = 0.5 * (line.x[1:] + line.x[:-1])
    fx, fz = line.x[0], line.z[0]
    moment = np.sum(down * (mx - fx)) + np.sum(across * (mz - fz)) + np.sum(own * (middle - fx))
    inward, up = curve.right_foot
    moment += -up * (line.x[-1] - fx) - inward * (line.z[-1] - fz)
    return float(moment / curve.crown_thrust)


def _bending(curve: CoverCurve, *, rise: float, ground: Callable[[Any], Any], load: CoverLoad) -> float:
    """The same about the crown for what acts to its right: the bending there (m)."""
    line = curve.line
    top = int(np.argmin(np.abs(line.angle)))
    x = (line.x - load.face * np.sin(line.angle))[top:]
    z = (line.z + load.face * np.cos(line.angle))[top:]
    mx, mz = 0.5 * (x[1:] + x[:-1]), 0.5 * (z[1:] + z[:-1])
    pressure = load.unit_weight * np.maximum(ground(mx) + rise - mz, 0.0) + load.surcharge
    down, across = pressure * np.diff(x), load.sideways * pressure * np.diff(z)
    own = load.self_weight * np.diff(line.s[top:])
    middle = 0.5 * (line.x[top:][1:] + line.x[top:][:-1])
    cx, cz = line.x[top], line.z[top]
    outward, up = curve.right_foot
    moment = np.sum(down * (mx - cx)) + np.sum(across * (mz - cz)) + np.sum(own * (middle - cx))
    moment += -up * (line.x[-1] - cx) + outward * (cz - line.z[-1])
    return float(moment / curve.crown_thrust)


_UNEVEN: dict[str, Any] = {
    "hillside": {
        "ground": _hillside,
        "rise": 1.8,
        "load": CoverLoad(unit_weight=18e3, sideways=0.5, self_weight=0.8e3, surcharge=2e3, face=0.2),
    },
    "ridge": {
        "ground": partial(_ridge, 0.8),
        "rise": 1.8,
        "load": CoverLoad(unit_weight=19e3, sideways=0.45, self_weight=0.5e3, face=0.2),
    },
    "uneven-feet": {
        "ground": _hillside,
        "rise": 1.8,
        "load": CoverLoad(unit_weight=18e3, sideways=0.4, self_weight=0.8e3, face=0.1),
    },
}
_FEET: dict[str, Any] = {"uneven-feet": {"left_foot": 0.0, "right_foot": 0.3}}
_BALANCED = tuple(
    _row(
        f"cover-{name}-{what}",
        curves.under_cover,
        "0",
        "moments of soil, weight and feet, summed over a polygon, over the thrust",
        unit="mm",
        span=5.0,
        pick=partial(sums, **case),
        **case,
        **_FEET.get(name, {}),
    )
    for name, case in _UNEVEN.items()
    for what, sums in (("moments", _residual), ("crown-bending", _bending))
)

_BULGE = tuple(
    _row(
        f"cover-{rise:g}-undercut",
        curves.under_cover,
        expected,
        "largest half width less half the span",
        rise=rise,
        unit="m",
        pick=lambda curve: curve.undercut,
        **_RIDGE,
    )
    for rise, expected in ((2.7, "0.154"), (2.9, "0.290"))
)
_LIMITS = (
    _row(
        "cover-level",
        curves.under_cover,
        "30.826",
        "gamma k^2, no sideways push",
        unit="kN/m",
        span=6.0,
        rise=2.4,
        ground=partial(_level, 0.6),
        load=CoverLoad(unit_weight=18e3, sideways=0.0),
        pick=_PICKS["thrust"][1],
    ),
    _row(
        "cover-level-vertical",
        curves.under_cover,
        "69.240",
        "gamma k d0 sinh(a/k)",
        unit="kN/m",
        span=6.0,
        rise=2.4,
        ground=partial(_level, 0.6),
        load=CoverLoad(unit_weight=18e3, sideways=0.0),
        pick=_PICKS["foot-vertical"][1],
    ),
    _row(
        "cover-level-own-weight",
        curves.under_cover,
        "35.340",
        "H y'' = gamma y + w sqrt(1 + y'^2), shooting",
        unit="kN/m",
        span=6.0,
        rise=2.4,
        ground=partial(_level, 0.6),
        load=CoverLoad(unit_weight=18e3, sideways=0.0, self_weight=2e3),
        pick=_PICKS["thrust"][1],
    ),
    _row(
        "cover-level-own-weight-vertical",
        curves.under_cover,
        "77.823",
        "the same",
        unit="kN/m",
        span=6.0,
        rise=2.4,
        ground=partial(_level, 0.6),
        load=CoverLoad(unit_weight=18e3, sideways=0.0, self_weight=2e3),
        pick=_PICKS["foot-vertical"][1],
    ),
    _row(
        "cover-own-weight-alone",
        curves.under_cover,
        "1.85628",
        "the catenary: H = w c",
        unit="kN/m",
        span=6.0,
        rise=3.0,
        ground=partial(_level, 0.6),
        load=CoverLoad(unit_weight=0.0, sideways=0.5, self_weight=1e3),
        pick=_PICKS["thrust"][1],
    ),
    _row(
        "cover-plan-load-alone",
        curves.under_cover,
        "1.5000",
        "the parabola: H = w L^2/(8 f)",
        unit="kN/m",
        span=6.0,
        rise=3.0,
        ground=partial(_level, 0.6),
        load=CoverLoad(unit_weight=0.0, sideways=0.0, surcharge=1e3),
        pick=_PICKS["thrust"][1],
    ),
    _row(
        "cover-even-pressure",
        curves.under_cover,
        "1.4333",
        "the upper part of an ellipse of half axes 2.0270 and 2.8667, their ratio sqrt(K): H = q a^2/b",
        unit="kN/m",
        span=4.0,
        rise=2.4,
        ground=partial(_level, 0.6),
        load=CoverLoad(unit_weight=0.0, sideways=0.5, surcharge=1e3),
        pick=_PICKS["thrust"][1],
    ),
    _row(
        "cover-limit",
        curves.limiting_rise,
        "3.01",
        "integrated with rtol 1e-10, the edge of the thrusts that reach the feet bisected: 3.0125; "
        "a scan by 0.02 kN/m stops at 2.99",
        unit="m",
        **_RIDGE,
    ),
)

ROWS = (*_CATENARY, *_ORDINATES, *_STRINGS, *_PARABOLA, *_TABLE, *_BALANCED, *_BULGE, *_LIMITS)
