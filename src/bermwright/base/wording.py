"""A finding as words: the one place where its parts become text, so that every face says the same."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.base.sources import Provenance
from bermwright.base.units import lengths_in, levels_in, show

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.base.findings import Finding, Step
    from bermwright.base.sources import Cite

NOT_REVIEWED = "calculation aid, not reviewed"
"""The mark on every drawing, structural page and file until somebody licensed has signed in ink."""
MONTH_NAMES = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
_HUNDREDTH = 100
_SAME = 1e-9


def ratio_text(ratio: float | None) -> str:
    """Strength used, rounded up to a hundredth: a mark is never rounded in the builder's favour.

    >>> ratio_text(0.991), ratio_text(0.3), ratio_text(None), ratio_text(float("inf"))
    ('1.00', '0.30', '', '∞')
    """
    if ratio is None or math.isnan(ratio):
        return ""
    if math.isinf(ratio):
        return "∞" if ratio > 0 else "−∞"
    return f"{math.ceil(ratio * _HUNDREDTH - _SAME) / _HUNDREDTH:.2f}"


def share_text(ratio: float | None) -> str:
    """A ratio before what it is a share of: less than the whole, or times it.

    >>> share_text(0.61) + " its strength", share_text(67.185) + " its strength"
    ('0.61 of its strength', '67.19 times its strength')
    """
    whole = ratio is not None and ratio > 1.0
    return f"{ratio_text(ratio)} {'times' if whole else 'of'}"


def round_down(value: float, step: float) -> float:
    """What is allowed, rounded down to a whole number of steps.

    >>> round_down(0.4199, 0.05), round_down(0.15, 0.05)
    (0.4, 0.15)
    """
    return round(math.floor(value / step + _SAME) * step, 9)


def level_text(level: float, system: str = "metric") -> str:
    """A level above the finished floor, with its sign.

    >>> level_text(2.4), level_text(0.0)
    ('+2.40', '±0.00')
    """
    return show(level, "level", 2, system)


@dataclass(frozen=True, slots=True, kw_only=True)
class StepWords:
    """One line of working as text."""

    says: str
    line: str
    """Symbol = formula = numbers filled in = result."""
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingWords:
    """A finding as text, part by part."""

    verdict: str
    says: str
    ratio: str
    where: str
    """Part, stage, case and place."""
    corner: str
    """The ends of the ranges that govern, and the soil run."""
    advice: str
    doubt: str
    """What must be confirmed before anybody relies on it; empty when nothing must."""
    steps: tuple[StepWords, ...]
    sources: tuple[str, ...]


def finding_words(finding: Finding, system: str = "metric") -> FindingWords:
    """The text of every part of a finding."""
    where = (finding.part, finding.stage, finding.case, finding.place)
    return FindingWords(
        verdict=finding.verdict.value,
        says=finding.says(system),
        ratio=ratio_text(finding.ratio),
        where=levels_in(" · ".join(part for part in where if part), system),
        corner=corner_text(finding.corner, system),
        advice=lengths_in(finding.advice, system),
        doubt=_doubt(finding),
        steps=tuple(step_words(step, system) for step in finding.steps),
        sources=tuple(dict.fromkeys(source_text(cite) for cite in finding.cites)),
    )


def corner_text(corner: Mapping[str, Shown | str], system: str = "metric") -> str:
    """The governing corner: `unit weight 20.0 kN/m³, soil run low`."""
    return ", ".join(
        f"{name} {value.text(system) if isinstance(value, Shown) else value}"
        for name, value in corner.items()
    )


def step_words(step: Step, system: str = "metric") -> StepWords:
    """A line of working, without the parts it leaves empty."""
    parts = (step.symbol, step.formula, filled_text(step, system), result_text(step, system))
    line = " = ".join(dict.fromkeys(part for part in parts if part))
    return StepWords(
        says=levels_in(step.says, system), line=line, source=source_text(step.cite) if step.cite else ""
    )


def filled_text(step: Step, system: str = "metric") -> str:
    """The numbers filled in, which are metric; in other units what they come to in metric stands behind."""
    metric = step.result.text()
    if metric == step.result.text(system) or not _has_numbers(step.filled):
        return step.filled
    return f"{step.filled} = {metric}"


def result_text(step: Step, system: str = "metric") -> str:
    """What a line comes to; in other units with its metric value, with which later lines go on."""
    metric, own = step.result.text(), step.result.text(system)
    return own if metric == own or _has_numbers(step.filled) else f"{own} ({metric})"


def _has_numbers(text: str) -> bool:
    return any(sign.isdigit() for sign in text)


def source_text(cite: Cite) -> str:
    """A source with its place and how we know it; memory and unsourced practice say so."""
    known = "" if cite.provenance in {Provenance.READ, Provenance.MEMORY} else f" ({cite.provenance.value})"
    return f"{cite}{known}".strip()


def _doubt(finding: Finding) -> str:
    doubtful = [provenance for provenance in finding.provenances if provenance.needs_review]
    if not doubtful:
        return ""
    says = {Provenance.MEMORY: "from memory", Provenance.PRACTICE: "common practice, no source"}
    return (
        f"Rests on: {', '.join(says[provenance] for provenance in doubtful)}. Confirm before relying on it."
    )
