"""An explained rule for the terminal and as data: reason, sources, evidence, and its findings."""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING, Any, Protocol

from bermwright.base.wording import NOT_REVIEWED, source_text
from bermwright.formats.assessment_json import FORMAT, cite_data, finding_data, working_data
from bermwright.formats.assessment_text import CLOSING, finding_text, wrapped

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Finding
    from bermwright.evidence.rows import Outcome
    from bermwright.rules.nouns import AnyRule


class Explained(Protocol):
    """What is written: a rule with its evidence, and with its findings where there is a house."""

    @property
    def rule(self) -> AnyRule:
        """The rule."""

    @property
    def functions(self) -> tuple[str, ...]:
        """Handbook functions behind it."""

    @property
    def evidence(self) -> tuple[Outcome, ...]:
        """Their published values, computed."""

    @property
    def house(self) -> str | None:
        """The house, if one was given."""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the rule finds there, worst first."""


def explanation_text(found: Explained, system: str = "metric") -> str:
    """Everything about a rule as text."""
    rule = found.rule
    lines = [rule.name, "=" * len(rule.name), wrapped(f"{rule.title}."), "", wrapped(rule.why)]
    if rule.asks:
        lines += ["", wrapped(f"Without {', '.join(rule.asks)} in the house file it stays unknown.")]
    lines += ["", "By", *(wrapped(f"- {source_text(cite)}", "  ") for cite in rule.cites)]
    if found.house is not None:
        lines += ["", f"At {found.house}"]
        lines += [line for one in found.findings for line in (finding_text(one, system), "")]
        lines += [] if found.findings else ["  Nothing here to which the rule applies."]
    return "\n".join([*lines, *_evidence(found), "", CLOSING])


def _evidence(found: Explained) -> Iterator[str]:
    yield ""
    kinds = Counter(str(one.row.kind) for one in found.evidence)
    counted = ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items())) or "none"
    agree = sum(one.agrees for one in found.evidence)
    yield wrapped(
        f"Behind it: {len(found.functions)} functions of the handbook, compared with {len(found.evidence)} "
        f"values ({counted}), of which {agree} agree."
    )
    for function in found.functions:
        yield f"  {function.removeprefix('bermwright.')}"
        for one in found.evidence:
            if one.row.function == function:
                yield wrapped(_row(one), "    ")


def _row(one: Outcome) -> str:
    row, agrees = one.row, "agrees " if one.agrees else "DIFFERS"
    computed = f"{one.computed:.6g}" if math.isfinite(one.computed) else "unknown"
    unit = f" {row.unit}" if row.unit not in {"", "-"} else ""
    return f"{agrees} {row.expected}{unit}, computed {computed}: {row.id} ({row.kind}, {row.cite.provenance})"


def explanation_data(found: Explained, system: str = "metric") -> dict[str, Any]:
    """Everything about a rule as plain data."""
    rule = found.rule
    return {
        "format": FORMAT,
        "mark": NOT_REVIEWED,
        "rule": rule.name,
        "title": rule.title,
        "why": rule.why,
        "asks": list(rule.asks),
        "sources": [cite_data(cite) for cite in rule.cites],
        "house": found.house,
        "findings": [
            {**finding_data(one, system), "working": working_data(one, system)} for one in found.findings
        ],
        "functions": list(found.functions),
        "evidence": [evidence_row(one) for one in found.evidence],
    }


def evidence_row(one: Outcome) -> dict[str, Any]:
    """One value of the evidence beside what is computed for it."""
    row = one.row
    return {
        "id": row.id,
        "work": row.cite.work.key,
        "title": str(row.cite.work),
        "place": row.cite.place,
        "kind": str(row.kind),
        "function": row.function,
        "expected": row.expected,
        "computed": one.computed if math.isfinite(one.computed) else None,
        "unit": row.unit,
        "tolerance": one.tolerance,
        "provenance": str(row.cite.provenance),
        "agrees": one.agrees,
        "note": row.note,
    }
