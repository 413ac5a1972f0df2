"""What mending found as data for JSON, documented in docs/reference/json.md; unknown numbers are null."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.base.wording import NOT_REVIEWED
from bermwright.formats.assessment_json import FORMAT, finding_data, number, question_data

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.adapt.mend.nouns import Mended, Proposal, Target


def mends_data(
    house: str, mends: Sequence[Mended], waiting: Sequence[Target] = (), system: str = "metric"
) -> dict[str, Any]:
    """Everything that `mend` says."""
    first = 0
    found = []
    for mended in mends:
        found.append(_mended(mended, first, system))
        first += len(mended.proposals)
    return {
        "format": FORMAT,
        "house": house,
        "mark": NOT_REVIEWED,
        "findings": found,
        "not_looked_at_yet": [{"rule": one.rule, "part": one.part} for one in waiting],
    }


def _mended(mended: Mended, first: int, system: str) -> dict[str, Any]:
    return {
        "rule": mended.target.rule,
        "part": mended.target.part,
        "before": [finding_data(one, system) for one in mended.before],
        "proposals": [_proposal(one, first + place, system) for place, one in enumerate(mended.proposals, 1)],
        "tried": [
            {"lever": one.name, "step": one.says, "ratio": number(_finite(one.ratio)), "why": one.why}
            for one in mended.tried
        ],
        "pairs_looked_at": mended.pairs,
        "questions": [question_data(one) for one in mended.questions],
    }


def _proposal(one: Proposal, place: int, system: str) -> dict[str, Any]:
    return {
        "number": place,
        "changes": [{"lever": change.lever, "says": change.sentence()} for change in one.changes],
        "writes": [{"key": list(key), "value": value} for key, value in one.writes],
        "after": [finding_data(finding, system) for finding in one.after],
        "cost": {
            "money": number(one.cost.money),
            "currency": one.cost.currency,
            "hours": one.cost.hours,
            "built_in": one.cost.lifted,
        },
        "mends_too": list(one.mends),
        "tight_then": list(one.worse),
        "still_failing": one.fails,
    }


def _finite(value: float) -> float | None:
    return value if abs(value) < float("inf") else None
