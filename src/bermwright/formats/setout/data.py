"""Setting out as plain data for JSON, documented in docs/reference/json.md; unknown numbers are null."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from bermwright.base.wording import NOT_REVIEWED
from bermwright.form.setout.ordinates import by_distance, by_height
from bermwright.formats.assessment_json import FORMAT, number

if TYPE_CHECKING:
    from bermwright.base.ranges import Range
    from bermwright.form.setout import CurveOut, Cut, Dig, Levels, MeasuredRow, RoundOut, SetOut
    from bermwright.form.setout.earthwork.heaping import Heap
    from bermwright.form.setout.ordinates import Ordinates
    from bermwright.form.setout.parts import Between
    from bermwright.takeoff.digging import Balance


def setout_data(
    house: str,
    outs: tuple[tuple[SetOut, Balance | None], ...],
    *,
    levels: Levels | None = None,
    measured: tuple[MeasuredRow, ...] = (),
    between: Between | None = None,
    rounds: tuple[RoundOut, ...] = (),
) -> dict[str, Any]:
    """Everything that `setout` says; lengths in metres, angles in degrees."""
    return {
        "format": FORMAT,
        "house": house,
        "mark": NOT_REVIEWED,
        "vaults": [_vault(out, balance) for out, balance in outs],
        "domes": [_round(one) for one in rounds],
        "between": _between(between) if between is not None else None,
        "levels": _levels(levels) if levels is not None else None,
        "measured": [
            {
                "at_m": number(row.at),
                "measured_m": number(row.measured),
                "drawn_m": number(row.drawn),
                "unfair": row.unfair,
            }
            for row in measured
        ],
    }  # fmt: skip


def _round(out: RoundOut) -> dict[str, Any]:
    return {
        "dome": out.dome,
        "axis_deg": None if out.axis is None else math.degrees(out.axis),
        "open": list(out.open),
        "circles": [
            {"what": one.words, "radius_m": number(one.radius), "chain_m": number(one.chain)}
            for one in out.circles
        ],
        "pegs_m": number(out.pegs),
        "post_m": number(out.post),
        "checks": [
            {"between": one.between, "length_m": number(one.length), "proves": one.words}
            for one in out.checks
        ],
        "triangle_m": [number(share * out.triangle) for share in (3.0, 4.0, 5.0)],
        "ground_m": dict(zip(("M", "Q0", "Q1", "Q2", "Q3"), map(number, out.ground), strict=True)),
        "mark_m": number(out.datum),
        "heights": [
            {"what": one.words, "level_m": number(one.level), "down_m": number(out.datum - one.level)}
            for one in out.heights
        ],
        "edge": [{"turn_deg": math.degrees(turn), "radius_m": number(radius)} for turn, radius in out.edge],
        "openings": [
            {
                "name": one.name,
                "turns_deg": [math.degrees(turn) for turn in one.turns],
                "chords_m": list(map(number, one.chords)),
                "sill_m": number(one.sill),
                "head_m": number(one.head),
            }
            for one in out.marks
        ],
        "cuts": [_cut(cut) for cut in out.cuts],
    }


def _between(between: Between) -> dict[str, Any]:
    return {
        "parts": [
            {
                "name": one.name,
                "east_m": number(one.middle[0]),
                "north_m": number(one.middle[1]),
                "axis_deg": None if one.axis is None else number(math.degrees(one.axis)),
                "pegs": [{"name": peg, "east_m": at[0], "north_m": at[1]} for peg, at in one.pegs],
            }
            for one in between.parts
        ],
        "lengths": [
            {"between": one.between, "length_m": number(one.length), "what": one.words}
            for one in between.lengths
        ],
        "open": list(between.open),
    }


def _vault(out: SetOut, balance: Balance | None) -> dict[str, Any]:
    return {
        "vault": out.vault,
        "axis_deg": math.degrees(out.axis) if out.axis is not None else None,
        "open": list(out.open),
        "survey": list(out.survey.says) if out.survey is not None else [],
        "pegs": [
            {"name": one.name, "what": one.words, "along_m": number(one.at[0]), "across_m": number(one.at[1])}
            for one in out.plan.pegs
        ],
        "checks": [
            {"between": one.between, "length_m": number(one.length), "proves": one.words}
            for one in out.plan.checks
        ],
        "triangle_m": [number(share * out.plan.triangle) for share in (3.0, 4.0, 5.0)],
        "strings": [
            {"number": one.number, "line": one.words, "along": one.along, "place_m": number(one.place)}
            for one in out.plan.strings
        ],
        "boards": [
            {
                "name": one.name,
                "start_m": list(map(number, one.start)),
                "end_m": list(map(number, one.end)),
                "strings": list(one.strings), "top_m": number(one.top), "ground_m": number(one.ground),
            }
            for one in out.plan.boards
        ],
        "mark_m": number(out.heights.datum),
        "heights": [
            {"what": one.words, "level_m": number(one.level), "down_m": number(out.heights.down(one.level))}
            for one in out.heights.rows
        ],
        "dig": _dig(out.dig) if out.dig is not None else None,
        "heaps": [_heap(heap) for heap in out.heaps],
        "balance": _balance(balance) if balance is not None else None,
        "ribs_m": list(map(number, out.ribs)),
        "openings": [
            {
                "name": one.name,
                "side": one.side,
                "from": "axis" if one.in_end else "rib 1",
                "low_m": number(one.low),
                "high_m": number(one.high),
                "sill_m": number(one.sill),
                "head_m": number(one.head),
            }
            for one in out.openings
        ],
        "near_crown": _ordinates(by_distance(out.form.rib, out.form.springing)),
        "near_feet": _ordinates(by_height(out.form.rib, out.form.springing)),
        "curve": _curve(out.curve),
    }  # fmt: skip


def _range(values: Range) -> dict[str, Any]:
    return {"low": number(values.low), "high": number(values.high)}


def _dig(dig: Dig) -> dict[str, Any]:
    return {
        "bottom_m": number(dig.formation),
        "slope_known": dig.known_slope,
        "outline_m": [list(map(number, spot)) for spot in dig.outline],
        "deepest_m": number(dig.deepest),
        "trench_m": number(dig.trench_depth),
        "by_grid_m3": number(dig.by_grid),
        "by_other_route_m3": number(dig.by_sections),
        "other_route": dig.route,
        "cuts": [_cut(cut) for cut in dig.cuts],
    }


def _cut(cut: Cut) -> dict[str, Any]:
    return {"soil": cut.soil, "bank_m3": _range(cut.bank), "loose_m3": _range(cut.loose)}


def _heap(heap: Heap) -> dict[str, Any]:
    return {
        "soil": heap.soil,
        "loose_m3": number(heap.loose),
        "middle_m": list(map(number, heap.middle)) if heap.middle is not None else None,
        "long_m": number(heap.length),
        "wide_m": number(heap.width),
        "high_m": number(heap.height),
        "way_m": number(heap.haul),
    }


def _balance(balance: Balance) -> dict[str, Any]:
    return {
        "soil": balance.soil,
        "cut_m3": _range(balance.cut),
        "mound_m3": _range(balance.mound),
        "backfill_m3": _range(balance.backfill),
        "spare_m3": _range(balance.spare),
        "other_m3": {name: _range(bank) for name, bank in balance.other},
    }


def _ordinates(family: Ordinates) -> list[dict[str, Any]]:
    names = ("inside", "centreline", "outside")
    return [
        {
            "at_m": number(at),
            "left_m": {name: number(float(value)) for name, value in zip(names, left, strict=True)},
            "right_m": {name: number(float(value)) for name, value in zip(names, right, strict=True)},
        }
        for at, left, right in zip(family.at, family.left, family.right, strict=True)
    ]


def _curve(curve: CurveOut) -> dict[str, Any]:
    line = curve.string
    return {
        "arcs": [
            {
                "x_m": number(arc.x), "z_m": number(arc.z), "inside_m": number(arc.inside),
                "middle_m": number(arc.centreline), "outside_m": number(arc.outside),
                "chord_m": number(arc.chord),
                "rise_m": number(arc.rise),
                "boards_deg": math.degrees(arc.boards) if arc.boards is not None else None,
            }
            for arc in curve.arcs
        ],
        "deviation_m": number(curve.deviation),
        "string": {
            "hangs": line.hangs, "length_m": number(line.length), "nails_m": number(line.nails),
            "clear_m": number(line.clear), "thickness_m": number(line.thickness), "hung_m": number(line.hung),
        },
        "fairing": [
            {"at_m": number(at), "height_m": number(height)}
            for at, height in zip(curve.stations, curve.heights, strict=True)
        ],
    }  # fmt: skip


def _levels(levels: Levels) -> dict[str, Any]:
    return {
        "datum": levels.datum,
        "heights_m": {name: number(height) for name, height in levels.heights},
        "residuals_m": [
            {
                "from": leg.reading.start,
                "to": leg.reading.end,
                "rise_m": number(leg.rise),
                "off_m": number(leg.residual),
            }
            for leg in levels.legs
        ],
        "closure_m": number(levels.closure),
        "allowed_m": number(levels.allowed),
        "says": list(levels.says),
    }
