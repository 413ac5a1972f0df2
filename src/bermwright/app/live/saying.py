"""What the shown case says in words: the rules' own sentences, worst first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.errors import OutOfRangeError
from bermwright.base.findings import Finding, Verdict
from bermwright.rules.ribs.bending import RIBS_BEND
from bermwright.rules.ribs.joints import NAILS_CARRY
from bermwright.rules.ribs.shear import RIBS_SHEAR

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bermwright.app.live.kernel import Shown
    from bermwright.rules.nouns import Rule

SPOKEN = (RIBS_BEND, RIBS_SHEAR, NAILS_CARRY)
"""Rules that speak of the shown case while a hand drags: the worst of them is the strength used."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence:
    """A verdict in words, and what next."""

    verdict: str
    text: str
    next: str = ""


def unknown(text: str) -> Sentence:
    """What is not known, and that the questions say how to learn it."""
    return Sentence(
        verdict=str(Verdict.UNKNOWN),
        text=text,
        next="Answer the questions below; each tells the cheapest way.",
    )


def sentences_of(shown: Shown, system: str) -> tuple[Sentence, ...]:
    """What the rules on the ribs say of this one case, worst first."""
    findings = [one for rule in SPOKEN for one in _said(rule, shown)]
    findings.sort(key=lambda one: (one.verdict.severity, -(one.ratio or 0.0)))
    return tuple(sentence(one, system) for one in findings) or (unknown("Nothing speaks of this stage yet."),)


def _said(rule: Rule, shown: Shown) -> Iterable[Finding]:
    try:
        return [one for one in rule.run(shown.study) if one.verdict is not Verdict.DOES_NOT_APPLY]
    except OutOfRangeError as error:
        return [
            Finding(
                rule=rule.name,
                title=rule.title,
                part=shown.study.part,
                verdict=Verdict.UNKNOWN,
                template="{why}",
                values={"why": str(error)},
            )
        ]


def sentence(finding: Finding, system: str) -> Sentence:
    """A finding as a sentence."""
    return Sentence(verdict=str(finding.verdict), text=finding.says(system), next=finding.advice)
