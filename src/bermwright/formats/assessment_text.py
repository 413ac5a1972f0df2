"""An assessment for the terminal: sentences worst first, then questions, then what is not checked."""

from __future__ import annotations

from collections import Counter
from textwrap import fill
from typing import TYPE_CHECKING

from bermwright.base.findings import Verdict, worst
from bermwright.base.units import levels_in
from bermwright.base.wording import finding_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Finding, Question
    from bermwright.base.wording import StepWords
    from bermwright.rules.assess import Assessment

WIDTH = 92
CLOSING = "Calculation aid, not reviewed. It does not replace a licensed engineer or local rules."
SIGNS = {
    Verdict.FAILS: "FAILS  ",
    Verdict.UNKNOWN: "UNKNOWN",
    Verdict.TIGHT: "TIGHT  ",
    Verdict.HOLDS: "holds  ",
    Verdict.DOES_NOT_APPLY: "-      ",
}
"""The word of each verdict; what does not hold is in capitals, so that it is seen without colour."""
_SAY_WHAT_TO_DO = {Verdict.FAILS, Verdict.TIGHT, Verdict.UNKNOWN}


def assessment_text(assessment: Assessment, system: str = "metric") -> str:
    """The whole assessment as text."""
    first = (wrapped(levels_in(said, system)) for said in first_to_fail(assessment))
    lines = [wrapped(headline(assessment)), *first, ""]
    lines += _all(assessment.findings, system)
    if assessment.questions:
        lines += ["", "Questions: what is not known, and the cheapest way to learn it"]
        lines += [line for question in assessment.questions for line in _question(question)]
    if assessment.not_read:
        lines += ["", wrapped("Not read yet: " + ", ".join(assessment.not_read) + ".")]
    lines += ["", "Not checked:"] + [wrapped(f"- {name}", "  ") for name in assessment.not_checked]
    lines += ["", CLOSING]
    return "\n".join(lines)


def headline(assessment: Assessment) -> str:
    """One sentence that claims no more than the worst or the unknown finding."""
    name = assessment.house.name
    count = {verdict: sum(one.verdict is verdict for one in assessment.findings) for verdict in Verdict}
    match worst(assessment.findings):
        case Verdict.FAILS:
            unknown = f", {count[Verdict.UNKNOWN]} are not known" if count[Verdict.UNKNOWN] else ""
            return f"{name}: {count[Verdict.FAILS]} of {len(assessment.findings)} findings fail{unknown}."
        case Verdict.UNKNOWN:
            return (
                f"{name}: {count[Verdict.UNKNOWN]} of {len(assessment.findings)} findings are not known; "
                "nothing that could be computed fails."
            )
        case Verdict.TIGHT:
            return (
                f"{name}: {count[Verdict.TIGHT]} of {len(assessment.findings)} findings are tight; "
                "the others hold, for these checks and with the values of the file."
            )
        case Verdict.HOLDS:
            return (
                f"{name}: what is checked here holds, with the values of the file. See what is not checked."
            )
        case Verdict.DOES_NOT_APPLY:
            return f"{name}: nothing here could be checked."


def first_to_fail(assessment: Assessment) -> Iterator[str]:
    """For every vault the earliest stage, in the order of building, at which something fails."""
    for study in assessment.studies.values():
        failing = {
            one.stage
            for one in assessment.findings
            if one.verdict is Verdict.FAILS and one.part == study.part
        }
        failing |= {name for name, ratio in study.stage_ratio.items() if ratio is not None and ratio > 1.0}
        first = next((stage for stage in study.stages if stage.name in failing), None)
        if first is not None:
            yield f"In the order of building, {study.part} first fails at: {first.name}."


def finding_text(finding: Finding, system: str = "metric") -> str:
    """One finding with its whole working."""
    words = finding_words(finding, system)
    lines = list(_finding(finding, system))
    if words.corner:
        lines.append(wrapped(f"governs: {words.corner}", "    "))
    for number, step in enumerate(words.steps, 1):
        lines += _step(number, step)
    lines += ["    sources:", *(wrapped(f"- {source}", "      ") for source in words.sources)]
    if words.doubt:
        lines.append(wrapped(words.doubt, "    "))
    return "\n".join(lines)


def _all(findings: tuple[Finding, ...], system: str) -> Iterator[str]:
    """Every finding; what is not known for one and the same reason is said once."""
    reasons = Counter(_reason(finding) for finding in findings)
    said: set[tuple[str, str]] = set()
    for finding in findings:
        reason = _reason(finding)
        if not reason[1] or reasons[reason] == 1:
            yield from _finding(finding, system)
        elif reason not in said:
            said.add(reason)
            alike = [one.rule for one in findings if _reason(one) == reason]
            yield f"{SIGNS[finding.verdict]}         {len(alike)} rules"
            yield wrapped(f"{', '.join(alike)}: not known, because {reason[1]}.", "    ")
            yield wrapped(f"at: {finding.part}", "    ")
            yield wrapped(f"do: {finding.advice}", "    ")


def _reason(finding: Finding) -> tuple[str, str]:
    """The part, and why nothing can be said of it; no reason where something is said."""
    reason = finding.values.get("reason", "")
    return finding.part, reason if isinstance(reason, str) else ""


def _finding(finding: Finding, system: str) -> Iterator[str]:
    words = finding_words(finding, system)
    yield f"{SIGNS[finding.verdict]} {words.ratio:>6}  {finding.rule}"
    yield wrapped(words.says, "    ")
    yield wrapped(f"at: {words.where}", "    ")
    if words.advice and finding.verdict in _SAY_WHAT_TO_DO:
        yield wrapped(f"do: {words.advice}", "    ")


def _question(question: Question) -> Iterator[str]:
    yield wrapped(f"? {question.place}: {question.asks} {question.why}", "  ")
    yield wrapped(f"cheapest way: {question.cheapest_way}", "    ")
    if question.blocks:
        yield wrapped(f"without it not known: {', '.join(question.blocks)}", "    ")


def _step(number: int, step: StepWords) -> Iterator[str]:
    yield wrapped(f"{number}. {step.says}", "    ")
    yield wrapped(step.line, "        ")
    if step.source:
        yield wrapped(f"[{step.source}]", "        ")


def wrapped(text: str, indent: str = "") -> str:
    """Text folded to the width of a page, never inside a word."""
    return fill(
        text,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent + "  ",
        break_long_words=False,
        break_on_hyphens=False,
    )
