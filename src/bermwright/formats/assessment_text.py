"""An assessment for the terminal: sentences worst first, then questions, then what is not checked."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict, worst

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bermwright.base.findings import Finding, Question, Step
    from bermwright.rules.assess import Assessment

WIDTH = 92
SIGNS = {
    Verdict.FAILS: "FAILS  ",
    Verdict.UNKNOWN: "UNKNOWN",
    Verdict.TIGHT: "TIGHT  ",
    Verdict.HOLDS: "holds  ",
    Verdict.DOES_NOT_APPLY: "  -    ",
}


def assessment_text(assessment: Assessment, system: str = "metric") -> str:
    """The whole assessment as text."""
    lines = [headline(assessment), ""]
    lines += [line for finding in assessment.findings for line in _finding(finding, system)]
    if assessment.questions:
        lines += ["", "Questions: what is not known, and the cheapest way to learn it"]
        lines += [line for question in assessment.questions for line in _question(question)]
    if assessment.not_read:
        lines += ["", _wrap("Not read yet: " + ", ".join(assessment.not_read) + ".", "")]
    lines += ["", "Not checked:"] + [_wrap(f"- {name}", "  ") for name in assessment.not_checked]
    lines += ["", "Calculation aid, not reviewed. It does not replace a licensed engineer or local rules."]
    return "\n".join(lines)


def headline(assessment: Assessment) -> str:
    """One sentence that claims no more than the worst or the unknown finding."""
    name = assessment.house.name
    count = {verdict: 0 for verdict in Verdict}
    for finding in assessment.findings:
        count[finding.verdict] += 1
    match worst(assessment.findings):
        case Verdict.FAILS:
            return f"{name}: {count[Verdict.FAILS]} of {len(assessment.findings)} findings fail."
        case Verdict.UNKNOWN:
            return f"{name}: {count[Verdict.UNKNOWN]} findings are not known; nothing computed fails."
        case Verdict.TIGHT:
            return f"{name}: {count[Verdict.TIGHT]} findings are tight; the others that were checked hold."
        case Verdict.HOLDS:
            return f"{name}: what is checked here holds, with the values of the file. See what is not checked."
        case Verdict.DOES_NOT_APPLY:
            return f"{name}: nothing here could be checked."


def finding_text(finding: Finding, system: str = "metric") -> str:
    """One finding with its whole working."""
    lines = list(_finding(finding, system))
    if finding.corner:
        lines.append("  governs at: " + _named(finding.corner, system))
    for step in finding.steps:
        lines += _step(step, system)
    lines += ["  Sources:"] + [f"    {cite}" for cite in finding.cites]
    if finding.needs_review:
        lines.append("  Some of this rests on memory or on unpublished practice: have it confirmed.")
    return "\n".join(lines)


def _finding(finding: Finding, system: str) -> Iterator[str]:
    ratio = f"{finding.ratio:6.2f}" if finding.ratio is not None else "      "
    yield f"{SIGNS[finding.verdict]} {ratio}  {finding.rule}  ({finding.part})"
    where = ", ".join(part for part in (finding.stage, finding.case, finding.place) if part)
    yield _wrap(finding.says(system), "    ")
    if where:
        yield _wrap(f"at: {where}", "    ")
    if finding.advice and finding.verdict in {Verdict.FAILS, Verdict.TIGHT, Verdict.UNKNOWN}:
        yield _wrap(f"do: {finding.advice}", "    ")


def _question(question: Question) -> Iterator[str]:
    yield _wrap(f"? {question.place}: {question.asks} {question.why}", "  ")
    yield _wrap(f"cheapest way: {question.cheapest_way}", "    ")


def _step(step: Step, system: str) -> Iterator[str]:
    yield f"  {step.says}"
    yield f"      {step.symbol} = {step.formula} = {step.filled} = {step.result.text(system)}"
    if step.cite:
        yield f"      [{step.cite}]"


def _named(values: Mapping[str, Shown | str], system: str) -> str:
    return ", ".join(
        f"{name} {value.text(system) if isinstance(value, Shown) else value}" for name, value in values.items()
    )


def _wrap(text: str, indent: str) -> str:
    return fill(text, WIDTH, initial_indent=indent, subsequent_indent=indent + "  ")
