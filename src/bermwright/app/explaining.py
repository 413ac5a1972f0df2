"""Explaining a rule: why it is there, what it rests on, and how it comes out for a house."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from bermwright.app.assessing import assess_file, quiet
from bermwright.app.outside.behind import functions_behind
from bermwright.evidence.catalogue import all_rows
from bermwright.evidence.rows import check
from bermwright.rules.registry import rule_named

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from bermwright.base.findings import Finding
    from bermwright.evidence.rows import Outcome
    from bermwright.rules.nouns import AnyRule


@dataclass(frozen=True, slots=True, kw_only=True)
class Explained:
    """A rule with the evidence behind it, and its findings where a house was given."""

    rule: AnyRule
    functions: tuple[str, ...]
    """Handbook functions behind it, by full name."""
    evidence: tuple[Outcome, ...]
    """Published values of those functions, computed."""
    house: str | None = None
    findings: tuple[Finding, ...] = ()


def explain(words: Sequence[str], progress: Callable[[str], None] = quiet) -> Explained:
    """Explain the rule named by some words, the last of which may be a house file."""
    name, file = split_words(words)
    rule = rule_named(name)
    found = assess_file(file, progress=progress).assessment if file is not None else None
    progress("evidence")
    functions = functions_behind(rule)
    return Explained(
        rule=rule,
        functions=functions,
        evidence=tuple(check(row) for row in all_rows() if row.function in functions),
        house=found.house.name if found else None,
        findings=tuple(one for one in found.findings if one.rule == rule.name) if found else (),
    )


def split_words(words: Sequence[str]) -> tuple[str, str | None]:
    """The rule's name, and the house file where the last word is one.

    >>> split_words(["ribs", "bend", "house.toml"]), split_words(["ribs-bend"])
    (('ribs bend', 'house.toml'), ('ribs-bend', None))
    """
    *before, last = words
    if before and (last.lower().endswith(".toml") or Path(last).is_file()):
        return " ".join(before), last
    return " ".join(words), None
