"""Shape advice as plain data for JSON, documented in docs/reference/json.md; unknown numbers are null."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.pages.shape.advice import toml_lines
from bermwright.book.pages.shape.rows import labelled
from bermwright.formats.assessment_json import FORMAT, number

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.adapt.shape.advice import Advice
    from bermwright.adapt.shape.candidate import Candidate
    from bermwright.adapt.shape.envelope import Envelope
    from bermwright.adapt.shape.order import OrderOfWork, Trial
    from bermwright.base.ranges import Range


def shape_data(house: str, advices: Sequence[Advice], system: str = "metric") -> dict[str, Any]:
    """Everything that `shape` says."""
    return {
        "format": FORMAT,
        "house": house,
        "mark": NOT_REVIEWED,
        "vaults": [_vault(advice, system) for advice in advices],
    }


def _vault(advice: Advice, system: str) -> dict[str, Any]:
    limits = advice.comparison.limits
    return {
        "vault": advice.chosen.vault.name,
        "holds": advice.holds,
        "keeps_the_curve": advice.keeps,
        "says": [sentence.says(system) for sentence in advice.why],
        "kept": {"span": limits.span, "crown": limits.crown, "headroom": limits.standing},
        "curves": [_curve(letter, one, advice) for letter, one in labelled(advice)],
        "not_compared": list(advice.comparison.left_out),
        "order_of_work": _order(advice.order),
        "writes": list(toml_lines(advice)),
    }


def _curve(letter: str, one: Candidate, advice: Advice) -> dict[str, Any]:
    vault, envelope = one.vault, one.envelope
    return {
        "letter": letter,
        "curve": str(vault.curve),
        "also": [str(kind) for kind in one.alike],
        "stands": "as in the file" if one.stand is None else str(one.stand),
        "taken": one is advice.chosen,
        "rise": number(one.form.rise, "m"),
        "springing": number(one.form.springing, "m"),
        "bending": _envelope(envelope),
        "strength_used": number(envelope.used),
        "crown_radius": number(one.crown_radius, "m"),
        "board_width_needed": number(one.board_needed, "m"),
        "can_be_cut": one.can_be_cut,
        "fill": number(one.fill, "m3"),
        "floor_width": number(one.floor_width, "m"),
        "back_steeper_than_30_deg": number(one.steep[0]),
        "back_steeper_than_45_deg": number(one.steep[1]),
        "wall_height": number(one.wall.height, "m"),
        "soil_retained": number(one.wall.retained, "m"),
        "soil_push": number(one.wall.soil_push, "kN/m"),
        "hours": _range(one.hours, "ph"),
    }


def _envelope(envelope: Envelope) -> dict[str, Any]:
    return {
        "largest": _moment(envelope.bending),
        "place": envelope.place,
        "stage": envelope.stage,
        "case": envelope.case,
        "soil_run": envelope.run,
        "room_side_in_tension": envelope.inside,
        "stages": [
            {"stage": one.stage.name, "bending": _moment(one.bending), "strength_used": number(one.used)}
            for one in envelope.stages
        ],
        "feet_outward": _range(envelope.outward, "kN/m"),
        "feet_down": _range(envelope.down, "kN/m"),
    }


def _moment(value: float) -> float | None:
    """KN m per metre; null where the ribs find no state of rest."""
    return number(value, "kNm/m") if math.isfinite(value) else None


def _range(span: Range, unit: str) -> dict[str, float | None]:
    return {"low": number(span.low, unit), "high": number(span.high, unit)}


def _order(order: OrderOfWork) -> dict[str, Any]:
    return {
        "before": _trial(order.before),
        "chosen": _trial(order.chosen),
        "levers": [_trial(one) for one in order.levers],
        "writes": dict(order.writes),
    }


def _trial(trial: Trial) -> dict[str, Any]:
    return {
        "works": list(trial.works.named),
        "holds": trial.holds,
        "strength_used": number(trial.used) if math.isfinite(trial.used) else None,
        "bending": _moment(trial.bending),
        "hours": trial.effort.hours,
        "carried_up": trial.effort.lifted,
    }
