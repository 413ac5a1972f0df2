"""Slopes: stability numbers, a test problem that many have solved, cover on sheets, and closed forms.

The stability numbers are Taylor's, from memory; the test problem's answers were read. A circle of which a
quarter lies in an upright bank has closed forms for weight, load, water and earthquake.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.slopes import ACADS1989, KOERNER2005, SLOPECLOSED, SMITH2006, TAYLOR1937
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import stability
from bermwright.handbook.stability.search import Columns, Earth

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.base.sources import Work

DEG = math.pi / 180.0
_KINDS = {
    Provenance.DERIVED: Kind.DERIVED,
    Provenance.READ: Kind.PUBLISHED,
    Provenance.MEMORY: Kind.PUBLISHED,
}


def _row(  # noqa: PLR0913, PLR0917  (one row of the tables below)
    name: str,
    work: Work,
    place: str,
    known: Provenance,
    call: Callable[..., Any],
    inputs: Mapping[str, Any],
    expected: str,
    unit: str = "",
    rel: float | None = None,
    note: str = "",
    pick: Callable[[Any], float] = lambda result: float(np.asarray(result).ravel()[0]),
) -> Row:
    return Row(
        id=f"{work.key}-{name}",
        cite=Cite(work=work, place=place, provenance=known),
        kind=_KINDS[known],
        call=call,
        inputs=inputs,
        expected=expected,
        unit=unit,
        rel=rel,
        note=note,
        pick=pick,
    )


_D, _R, _M = Provenance.DERIVED, Provenance.READ, Provenance.MEMORY


def _long_slopes() -> list[Row]:
    call, place = stability.infinite_slope_factor, "long slope"
    note = "[c + (γ − m γw) z cos²β tan φ]/(γ z sin β cos β)"
    slope: dict[str, Any] = {"slope": 20 * DEG, "friction": 30 * DEG, "depth": 0.8, "cohesion": 0.0}
    cases = [
        ("dry", {"unit_weight": 18e3, "wet_share": 0.0}, "1.586"),
        ("half", {"unit_weight": 19e3, "wet_share": 0.5}, "1.177"),
        ("seeping", {"unit_weight": 20e3, "wet_share": 1.0}, "0.808"),
        ("sticky", {"unit_weight": 20e3, "wet_share": 0.0, "cohesion": 2e3}, "1.9752"),
    ]
    rows = [
        _row(name, SLOPECLOSED, place, _D, call, {**slope, **more}, value, note=note)
        for name, more, value in cases
    ]
    for wet, limits in ((0.0, ("7.4", "15.1", "21.1")), (1.0, ("3.8", "7.8", "11.1"))):
        rows += [
            _row(
                f"steepest-{angle}-{wet:g}", SLOPECLOSED, place, _D, stability.steepest_infinite_slope,
                {"friction": angle * DEG, "factor": 1.5, "unit_weight": 20e3, "wet_share": wet},
                expected, "deg", note="tan β = tan φ (1 − m γw/γ)/F",
            )
            for angle, expected in zip((11, 22, 30), limits, strict=True)
        ]  # fmt: skip
    return rows


def _veneers() -> list[Row]:
    base: dict[str, Any] = {
        "length": 30.0, "thickness": 0.3, "slope": 18.4 * DEG, "unit_weight": 18e3,
        "friction": 30 * DEG, "interface": 22 * DEG,
    }  # fmt: skip
    long = {**base, "length": 3e5}
    short: dict[str, Any] = {**base, "length": 4.0, "factor": 1.5}
    wet: dict[str, Any] = {**base, "saturated_unit_weight": 21e3}
    far = "long slope: tan δ/tan β, with the water's share taken off"
    seep, drive = stability.seeping_veneer_factor, stability.machine_on_veneer_factor
    plain, pull = stability.veneer_factor, stability.veneer_tension
    runout = stability.runout_length
    steep = {**wet, "length": 2.0, "thickness": 0.5, "slope": 40 * DEG, "wet_share": 0.8}
    machine = {**base, "machine": 87.3e3}
    out = {"tension": 7e3, "slope": 18.4 * DEG, "cover": 0.3, "unit_weight": 16.5e3, "interface": 30 * DEG}
    level = {**out, "slope": 0.0, "cover": 0.5}
    return [
        _row("gravity", KOERNER2005, "standard example", _M, plain, base, "1.25"),
        _row("gravity-fine", KOERNER2005, "standard example", _D, plain, base, "1.254",
             note="its three equations"),
        _row("far", KOERNER2005, "standard example", _D, plain, long, "1.215", note=far),
        _row("net", KOERNER2005, "with a net of 10 kN/m", _M, plain, {**base, "tension": 10e3}, "1.57"),
        _row("net-fine", KOERNER2005, "with a net of 10 kN/m", _D, plain, {**base, "tension": 10e3}, "1.570",
             note="its three equations"),
        _row("pull-35", KOERNER2005, "net for 1.5", _D, pull, {**short, "slope": 35 * DEG}, "5.32", "kN/m",
             note="the same solved for T"),
        _row("pull-45", KOERNER2005, "net for 1.5", _D, pull, {**short, "slope": 45 * DEG}, "8.12", "kN/m",
             note="the same solved for T"),
        _row("seep-0", KOERNER2005, "dry", _D, seep, {**wet, "wet_share": 0.0}, "1.253",
             note="its three equations"),
        _row("seep-half", KOERNER2005, "half wet", _M, seep, {**wet, "wet_share": 0.5}, "0.93", rel=0.015,
             note="the book's γw is 10 kN/m3"),
        _row("seep-1", KOERNER2005, "full of water", _D, seep, {**wet, "wet_share": 1.0}, "0.672",
             note="its three equations"),
        _row("seep-far", KOERNER2005, "half wet, long", _D, seep, {**wet, "length": 3e5, "wet_share": 0.5},
             "0.9090", note=far),
        _row("seep-far-1", KOERNER2005, "wet, long", _D, seep, {**wet, "length": 3e5, "wet_share": 1.0},
             "0.6472", note=far),
        _row("seep-steep", KOERNER2005, "short, steep, wet", _D, seep, steep, "0.8678",
             note="both wedges in balance, by bisection"),
        _row("up", KOERNER2005, "machine 30 kPa going up", _M, drive, {**machine, "braking": 0.0}, "1.24"),
        _row("down", KOERNER2005, "machine braking 0.19 g", _M, drive, {**machine, "braking": 0.19}, "1.03",
             rel=0.01, note="the book rounds its intermediate weights"),
        _row("down-fine", KOERNER2005, "machine braking 0.19 g", _D, drive, {**machine, "braking": 0.19},
             "1.021", note="its three equations"),
        _row("runout", KOERNER2005, "anchor by runout", _M, runout, out, "1.9"),
        _row("runout-fine", KOERNER2005, "anchor by runout", _D, runout, out, "1.88",
             note="T(cos β − sin β tan δ)/(γ d tan δ)"),
        _row("runout-level", KOERNER2005, "anchor by runout", _D, runout, level, "1.4696",
             note="T/(γ d tan δ)"),
    ]  # fmt: skip


def _numbers() -> list[Row]:
    """F = 1 at Taylor's stability number c/(γ H)."""
    call, rows = stability.simple_slope_factor, []
    note = "a chart of the friction circle against Bishop's method on a grid of circles"
    for slope, friction, number, rel in (
        (75, 0, 0.219, 0.01), (60, 0, 0.191, 0.01), (45, 10, 0.108, 0.02), (45, 20, 0.062, 0.02),
        (60, 10, 0.138, 0.045), (30, 10, 0.075, 0.065),
    ):  # fmt: skip
        inputs = {
            "height": 10.0, "slope": slope * DEG, "unit_weight": 20e3, "cohesion": number * 200e3,
            "friction": friction * DEG, "firm": 0.0,
        }  # fmt: skip
        name = f"{slope}-{friction}"
        rows.append(_row(name, TAYLOR1937, "chart", _M, call, inputs, "1.00", rel=rel, note=note))
    quick = {
        "height": 10.0, "slope": 72.5 * DEG, "unit_weight": 20e3, "cohesion": 0.208 * 200e3, "friction": 0.0,
    }  # fmt: skip
    rows.append(
        _row("chart", SMITH2006, "stability number 0.208 at 72.5 degrees", _R, call, quick, "1.00", rel=0.03,
             note="read off a chart by the book")
    )  # fmt: skip
    test = {
        "height": 10.0, "slope": math.atan(0.5), "unit_weight": 20e3, "cohesion": 3e3,
        "friction": 19.6 * DEG, "firm": 5.0,
    }  # fmt: skip
    rows.append(_row("referee", ACADS1989, "referee", _R, call, test, "1.00", rel=0.02,
                     note="an exact method; Bishop's is a little lower"))  # fmt: skip
    rows.append(_row("mean", ACADS1989, "mean of 18 by Bishop's method", _R, call, test, "0.993", rel=0.01,
                     note="a mean of answers that differ by some hundredths"))  # fmt: skip
    ordinary = {**test, "method": "ordinary"}
    rows.append(_row("ordinary", ACADS1989, "conventional method", _M, call, ordinary, "0.945", rel=0.01,
                     note="from memory: some hundredths below Bishop's"))  # fmt: skip
    return rows


def _bank(height: float = 9.0) -> Columns:
    """An upright bank: its face at x = 0, soil to the left."""
    x = np.array([-3.0 * height, -height, -1e-9, 0.0, height])
    top = np.array([height, height, height, 0.0, 0.0])
    soil = Earth(unit_weight=20e3, wet_unit_weight=22e3, cohesion=25e3, friction=0.0)
    return Columns.plain(x, top, soil)


def _even() -> dict[str, Any]:
    """A slope of 20 degrees in sand of 30."""
    x = np.linspace(-30.0, 30.0, 241)
    soil = Earth(unit_weight=19e3, wet_unit_weight=20e3, cohesion=0.0, friction=30 * DEG)
    ground = Columns.plain(x, np.interp(x, [-12.0, 12.0], [24.0 * math.tan(20 * DEG), 0.0]), soil)
    return {"columns": ground, "least_depth": 0.2}


def _hollowed() -> Columns:
    """The same with a room 2 m wide and 1 m high in it, and 30 kPa of walls instead of its soil."""
    bank = _bank()
    edges = np.array([-4.0 - 1e-9, -4.0, -2.0, -2.0 + 1e-9])
    x = np.union1d(bank.x, edges)
    inside = (x >= -4.0) & (x <= -2.0)
    names = ("top", "split", "water", "head", "load")
    arrays = {name: np.interp(x, bank.x, getattr(bank, name)) for name in names}
    floor = np.full_like(x, 7.0)
    return replace(
        bank, x=x, **arrays, floor=floor, roof=np.where(inside, 8.0, 7.0), inside=np.where(inside, 30e3, 0.0)
    )


def _layered() -> Columns:
    """The lower 3 m of the bank are a heavier, stronger soil."""
    bank = _bank()
    below = Earth(unit_weight=23e3, wet_unit_weight=24e3, cohesion=50e3, friction=0.0)
    return replace(bank, split=np.full_like(bank.x, 3.0), below=below)


def _sandy(head: float) -> Columns:
    """The same bank with friction, and water to 3 m."""
    bank = _bank()
    soil = replace(bank.above, friction=30 * DEG)
    return replace(
        bank, above=soil, below=soil, water=np.full_like(bank.x, 3.0), head=np.full_like(bank.x, head)
    )


def _circles() -> list[Row]:
    """Quarter circle of radius H: weight's moment γ H³/3, resistance π/2 c H²."""
    call, work, place = stability.circle_factors, SLOPECLOSED, "quarter circle in an upright bank"
    arc: dict[str, Any] = {"start": -9.0, "end": 0.0, "bulge": (1.0 - math.sqrt(0.5)) / math.sqrt(2.0)}
    loaded = replace(_bank(), load=np.full(5, 10e3))
    tapered = replace(_bank(), load=np.array([10e3, 10e3, 0.0, 0.0, 0.0]))
    wet = replace(_bank(), water=np.full(5, 3.0))
    mirror = {**arc, "columns": _bank(), "method": "ordinary"}
    hollow = {**arc, "columns": _hollowed()}
    cases: list[tuple[str, Mapping[str, Any], str, str]] = [
        ("bishop", {**arc, "columns": _bank()}, "0.6545", "3π c/(2 γ H)"),
        ("ordinary", mirror, "0.6545", "3π c/(2 γ H)"),
        ("quake", {**arc, "columns": _bank(), "quake": 0.2}, "0.5454", "the same over 1 + kh"),
        ("loaded", {**arc, "columns": loaded}, "0.6042", "moment of the load: q H²/2"),
        ("wet", {**arc, "columns": wet}, "0.6449", "water to h: 2 kN/m3 more over (H h² − h³/3)/2"),
        ("hollow", hollow, "0.6465", "6 m³ of soil's moment less, 6 m³ times 30 kPa/m more"),
        ("tapered", {**arc, "columns": tapered}, "0.6200", "moment of the load: q H²/3"),
        ("layered", {**arc, "columns": _layered()}, "0.9831", "two arcs and two weights"),
    ]
    rows = [
        _row(name, work, place, _D, call, inputs, value, note=f"{note}; 36 slices", rel=0.0025)
        for name, inputs, value, note in cases
    ]
    for name, head, value in (("ordinary-water", 1.0, "1.6557"), ("ordinary-running", 0.5, "1.7330")):
        inputs = {**arc, "columns": _sandy(head), "method": "ordinary"}
        rows.append(
            _row(
                name,
                work,
                place,
                _D,
                call,
                inputs,
                value,
                rel=0.0025,
                note="integrals by quadrature; 36 slices",
            )
        )
    for depth, out in ((8.9, "0"), (9.1, "1")):
        inputs = {**arc, "columns": _bank(), "least_depth": depth}
        rows.append(
            _row(f"shallow-{depth:g}", work, place, _D, call, inputs, out, note="9 m deep at its face",
                 pick=lambda factors: float(np.isnan(factors).sum()))
        )  # fmt: skip
    soil = Earth(unit_weight=20e3, wet_unit_weight=22e3, cohesion=25e3, friction=0.0)
    level = Columns.plain(np.array([-20.0, 20.0]), np.zeros(2), soil)
    half = {"columns": level, "start": -4.0, "end": 4.0, "bulge": 0.5, "method": "ordinary", "quake": 0.2}
    rows.append(
        _row("half-circle", work, "half circle in level ground, earthquake alone", _D, call, half, "7.3631",
             rel=0.0025, note="3π c/(2 kh γ R); 36 slices")
    )  # fmt: skip
    found: dict[str, Any] = {"columns": _bank(), "right": True, "between": (-20.0, 0.0)}
    least = stability.critical_circle
    number = 25.0 / (20.0 * 9.0 * 0.261)
    rows.append(
        _row("search", TAYLOR1937, "upright bank, N = 0.261", _M, least, found, f"{number:.3f}", rel=0.02,
             note="a chart against a grid of circles", pick=lambda circle: float(circle.factor))
    )  # fmt: skip
    rows.append(
        _row("endless", SLOPECLOSED, "even slope without cohesion", _D, least, _even(), "1.586", rel=0.02,
             note="tan φ/tan β; a circle comes near it from above", pick=lambda circle: float(circle.factor))
    )  # fmt: skip
    turned = {**found, "columns": _bank().mirrored(), "right": False, "between": (-2.0, 20.0)}
    rows.append(
        _row("search-left", TAYLOR1937, "upright bank, N = 0.261", _M, least, turned, f"{number:.3f}",
             rel=0.02, note="a chart against a grid of circles", pick=lambda circle: float(circle.factor))
    )  # fmt: skip
    rows.append(
        _row("search-left-place", TAYLOR1937, "upright bank, chord at 47.6 degrees", _M, least, turned,
             "8.218", rel=0.03, note="9 m/tan 47.6° behind the face, to the right of it; a grid of circles",
             pick=lambda circle: float(circle.start))
    )  # fmt: skip
    return rows


def _planes() -> list[Row]:
    """One slice on a plane: F = (c b + W cos²α tan φ − u b tan φ …)/(W sin α cos α)."""
    one: dict[str, Any] = {
        "weight": (40e3,), "angle": (25 * DEG,), "width": (2.0,), "cohesion": 3e3, "friction": 28 * DEG,
        "pore": 4e3,
    }  # fmt: skip
    dry = {**one, "pore": 0.0}
    plane, work = "one block on a plane", SLOPECLOSED
    closed = "F W sin α cos α + (W − u b) sin²α tan φ = c b + (W − u b) tan φ at u = 0"
    two: dict[str, Any] = {
        "weight": (40e3, 30e3), "angle": (50 * DEG, -10 * DEG), "width": (1.0, 1.5), "cohesion": 2e3,
        "friction": 30 * DEG,
    }  # fmt: skip
    by_hand = "roots of the same equation by bisection"
    call = {"ordinary": stability.ordinary_factor, "bishop": stability.bishop_factor}
    path = stability.wedge_path_factor
    rows = [_row(f"plane-{name}", work, plane, _D, f, dry, "1.5319", note=closed) for name, f in call.items()]
    rows += [
        _row("plane-path", work, plane, _D, path, dry, "1.5319", note=closed),
        _row("plane-ordinary-wet", work, plane, _D, call["ordinary"], one, "1.2542", note="by hand"),
        _row("plane-bishop-wet", work, plane, _D, call["bishop"], one, "1.2542", note=by_hand),
        _row("plane-path-wet", work, plane, _D, path, one, "1.2542", note=by_hand),
        _row("plane-path-pushed", work, plane, _D, path, {**one, "sideways": (5e3,)}, "0.9367", note=by_hand),
        _row("plane-bishop-pushed", work, plane, _D, call["bishop"], {**one, "driving": (5e3,)}, "0.9113",
             note=by_hand),
        _row("plane-ordinary-pushed", work, plane, _D, call["ordinary"], {**one, "driving": (5e3,)}, "0.9679",
             note="by hand"),
        _row("two-path", work, "two blocks", _D, path, two, "1.5156", note=by_hand),
        _row("two-bishop", work, "two blocks", _D, call["bishop"], two, "1.9965", note=by_hand),
        _row("two-ordinary", work, "two blocks", _D, call["ordinary"], two, "1.4965", note="by hand"),
    ]  # fmt: skip
    return rows


ROWS: tuple[Row, ...] = (*_long_slopes(), *_veneers(), *_numbers(), *_circles(), *_planes())
