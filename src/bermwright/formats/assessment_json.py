"""An assessment as plain data for JSON: stable, documented in docs/reference/json.md.

Every number stands in the metric unit beside it; an unknown number is null, never NaN.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from bermwright.base.findings import Finding, Question, Shown, worst
from bermwright.base.units import convert
from bermwright.base.wording import NOT_REVIEWED, source_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.base.errors import HouseFileError
    from bermwright.base.findings import Step
    from bermwright.base.sources import Cite
    from bermwright.rules.assess import Assessment

FORMAT = 1
_PLAIN = {"level": "m", "slope": "deg"}
"""Ways of showing a number, and the unit that its plain value has."""


def assessment_data(assessment: Assessment, system: str = "metric") -> dict[str, Any]:
    """Everything that `check` says."""
    return {
        "format": FORMAT,
        "house": assessment.house.name,
        "reviewed": False,
        "mark": NOT_REVIEWED,
        "verdict": str(worst(assessment.findings)),
        "findings": [finding_data(finding, system) for finding in assessment.findings],
        "questions": [question_data(question) for question in assessment.questions],
        "not_checked": list(assessment.not_checked),
        "not_read_yet": list(assessment.not_read),
    }


def finding_data(finding: Finding, system: str = "metric") -> dict[str, Any]:
    """One finding with the keys that other programs may rely on."""
    return {
        "rule": finding.rule,
        "title": finding.title,
        "part": finding.part,
        "stage": finding.stage,
        "case": finding.case,
        "place": finding.place,
        "verdict": str(finding.verdict),
        "says": finding.says(system),
        "values": _values(finding.values, system),
        "demand": number(finding.demand, finding.unit),
        "capacity": number(finding.capacity, finding.unit),
        "unit": finding.unit,
        "ratio": number(finding.ratio),
        "corner": _values(finding.corner, system),
        "provenance": [str(provenance) for provenance in finding.provenances],
        "advice": finding.advice,
        "sources": [cite_data(cite) for cite in cites_of(finding)],
        "needs_review": finding.needs_review,
    }


def working_data(finding: Finding, system: str = "metric") -> list[dict[str, Any]]:
    """The working of a finding, line by line."""
    return [step_data(step, system) for step in finding.steps]


def step_data(step: Step, system: str = "metric") -> dict[str, Any]:
    """One line of working."""
    return {
        "says": step.says,
        "symbol": step.symbol,
        "formula": step.formula,
        "filled": step.filled,
        "result": shown_data(step.result, system),
        "source": cite_data(step.cite) if step.cite else None,
    }


def mistakes_data(error: HouseFileError) -> dict[str, Any]:
    """Everything that is wrong with a house file."""
    return {
        "format": FORMAT,
        "file": error.path,
        "mistakes": [
            {
                "line": mistake.line,
                "place": mistake.place,
                "given": mistake.given,
                "allowed": mistake.allowed,
                "advice": mistake.advice,
            }
            for mistake in error.mistakes
        ],
    }


def question_data(question: Question) -> dict[str, Any]:
    """One question."""
    return {
        "place": question.place,
        "asks": question.asks,
        "why": question.why,
        "cheapest_way": question.cheapest_way,
        "blocks": list(question.blocks),
    }


def cite_data(cite: Cite) -> dict[str, str]:
    """One source."""
    return {
        "work": str(cite.work),
        "place": cite.place,
        "provenance": str(cite.provenance),
        "text": source_text(cite),
    }


def cites_of(finding: Finding) -> list[Cite]:
    """Its sources and those of its working, each place once."""
    seen: dict[tuple[str, str], Cite] = {}
    for cite in (*finding.cites, *(step.cite for step in finding.steps if step.cite)):
        seen.setdefault((cite.work.key, cite.place), cite)
    return list(seen.values())


def shown_data(value: Shown, system: str = "metric") -> dict[str, Any]:
    """A number in its metric unit, and as people read it in the wanted system."""
    unit = _PLAIN.get(value.unit, value.unit)
    return {"value": number(value.value, unit), "unit": unit, "text": value.text(system)}


def _values(values: Mapping[str, Shown | str], system: str) -> dict[str, Any]:
    return {
        name: shown_data(value, system) if isinstance(value, Shown) else value
        for name, value in values.items()
    }


def number(value: float | None, unit: str = "") -> float | None:
    """The value in its unit, null when it is not known."""
    return float(convert(value, unit)) if value is not None and math.isfinite(value) else None
