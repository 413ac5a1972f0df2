"""A cutting plan as plain data for JSON, documented in docs/reference/json.md; lengths in metres."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.base.wording import NOT_REVIEWED
from bermwright.formats.assessment_json import FORMAT, number

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.base.units import Money
    from bermwright.takeoff.cutting import CutList, EndWall, HousePlan, LogYield, SawnBoard
    from bermwright.takeoff.light import Fitting, Match


def plan_data(
    plan: HousePlan, walls: Sequence[EndWall] = (), fitting: Fitting | None = None
) -> dict[str, Any]:
    """Everything that `cut` says of boards and logs."""
    return {
        "format": FORMAT,
        "house": plan.house,
        "mark": NOT_REVIEWED,
        "complete": plan.complete,
        "stock_given": not plan.invented,
        "saw": {
            "kerf_m": number(plan.saw.kerf),
            "trim_m": number(plan.saw.trim),
            "keep_m": number(plan.saw.keep),
            "assumed": list(plan.saw.assumed),
        },
        "lists": [_list(plan, cut) for cut in plan.lists],
        "logs": [_log(log) for log in plan.logs],
        "end_walls": [_wall(wall) for wall in walls],
        "windows": None if fitting is None else _fitting(fitting),
        "remarks": list(plan.remarks),
    }


def _fitting(fitting: Fitting) -> dict[str, Any]:
    return {
        "holes": [_match(match, counted=fitting.sun_counted) for match in fitting.matches],
        "not_used": list(fitting.left),
        "sun_counted": fitting.sun_counted,
        "remarks": list(fitting.remarks),
    }


def _match(match: Match, *, counted: bool) -> dict[str, Any]:
    """Without a climate the loss is one for each degree, and no year is known."""
    pair, nan = match.pair, float("nan")
    loss = nan if pair is None else pair.loss
    return {
        "opening": match.opening.name,
        "gets": None if pair is None else pair.item.name,
        "turned": None if pair is None else pair.turned,
        "u_w_m2k": number(float("nan") if pair is None else pair.u),
        "sun_kwh": number(pair.gain if pair is not None and counted else nan),
        "loss_kwh": number(loss if counted else nan),
        "loss_w_k": number(nan if counted else loss),
        "reasons": list(match.reasons),
    }


def _wall(wall: EndWall) -> dict[str, Any]:
    return {
        "vault": wall.vault,
        "end": wall.side,
        "thickness_m": number(wall.thickness),
        "pieces": [
            {
                "number": piece.number,
                "row": piece.row,
                "offcut": piece.offcut,
                "length_m": number(piece.length),
                "ripped_with": piece.ripped_with,
                "lower_edge_m": number(piece.below),
                "upper_edge_m": number(piece.above),
            }
            for piece in wall.pieces
        ],
        "missing": [
            {"row": gap.row, "length_m": number(gap.length), "width_m": number(gap.width)}
            for gap in wall.gaps
        ],
    }


def _list(plan: HousePlan, cut: CutList) -> dict[str, Any]:
    return {
        "thickness_m": number(cut.thickness),
        "used_m2": number(cut.used),
        "bound_m2": None if cut.bound is None else number(cut.bound),
        "excess": None if cut.excess is None else number(cut.excess),
        "found_by": cut.found_by,
        "nested_blanks": cut.nested,
        "pieces": [
            {
                "code": plan.codes[kind.key],
                "part": str(kind.part),
                "vault": kind.vault,
                "pieces": kind.name,
                "length_m": number(kind.length),
                "width_m": number(kind.width),
                "wanted": kind.count,
            }
            for kind in cut.kinds
        ],
        "boards": [_board(plan, board) for board in cut.boards],
        "missing": [
            {"code": plan.codes[one.kind.key], "labels": list(one.labels), "why": one.why}
            for one in cut.missing
        ],
        "left": [{"boards": name, "number": count} for name, count in cut.left],
        "cost": [_money(money) for money in cut.cost],
        "boards_without_price": cut.unpriced,
        "remarks": list(cut.remarks),
    }


def _board(plan: HousePlan, board: SawnBoard) -> dict[str, Any]:
    return {
        "board": board.name,
        "stock": board.stock,
        "length_m": number(board.length),
        "width_m": number(board.width),
        "faults_m": [[number(start), number(end)] for start, end in board.faults],
        "cuts": [
            {
                "code": plan.codes[one.kind.key],
                "beside": None if one.other is None else plan.codes[one.other.kind.key],
                "labels": list(one.labels),
                "from_m": number(one.start),
                "to_m": number(one.end),
            }
            for one in board.placed
        ],
        "offcuts": [
            {"offcut": one.name, "from_m": number(one.start), "to_m": number(one.end)}
            for one in board.offcuts
        ],
    }


def _log(log: LogYield) -> dict[str, Any]:
    return {
        "name": log.name,
        "count": log.count,
        "diameter_m": number(log.diameter),
        "length_m": number(log.length),
        "volume_m3": None if log.volume is None else number(log.volume),
        "heart": log.heart,
        "thickness_m": number(log.thickness),
        "widths_m": [number(width) for width in log.widths],
        "yield": number(log.yields),
        "international_rule_m3": number(log.mill),
    }


def _money(money: Money) -> dict[str, Any]:
    return {"amount": number(money.amount), "currency": money.currency}
