"""What a rule says of a house: verdicts, working, findings, questions and remedies.

Every face (terminal, workbench, book) draws these and adds no number of its own.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from bermwright.base.units import levels_in, show

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.base.sources import Cite, Provenance


class Verdict(StrEnum):
    """What was found. Worst first is the order of `severity`."""

    FAILS = "fails"
    UNKNOWN = "unknown"
    TIGHT = "tight"
    HOLDS = "holds"
    DOES_NOT_APPLY = "does not apply"

    @property
    def severity(self) -> int:
        """0 is the worst."""
        return list(Verdict).index(self)


TIGHT_FROM = 0.9
"""A ratio above this is called tight (bermwright's own convention)."""


def verdict_of(ratio: float | None) -> Verdict:
    """The verdict that a ratio of demand to capacity earns; NaN or None never holds."""
    if ratio is None or not math.isfinite(ratio):
        return Verdict.FAILS if ratio == math.inf else Verdict.UNKNOWN
    if ratio > 1.0:
        return Verdict.FAILS
    return Verdict.TIGHT if ratio > TIGHT_FROM else Verdict.HOLDS


@dataclass(frozen=True, slots=True)
class Shown:
    """A number for people: an SI value, the metric unit it is shown in, and its decimals.

    Never used to calculate. `show` turns it into feet, inches and pounds on demand.
    """

    value: float
    unit: str = ""
    digits: int = 2

    def text(self, system: str = "metric") -> str:
        """The number with its unit, in the wanted system."""
        return show(self.value, self.unit, digits=self.digits, system=system)


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of working: symbol = formula = numbers filled in = result, and its source."""

    says: str
    """The line in plain words ("Bending in one rib, by frame, feet pinned")."""
    symbol: str
    formula: str
    filled: str
    result: Shown
    cite: Cite | None = None


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in the section: metres right of the axis and above the finished floor."""

    x: float
    z: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What a rule says of one part at one stage and case, at one place."""

    rule: str
    """The rule's name in words with hyphens, such as `rib-bends-under-fill`."""
    title: str
    part: str
    verdict: Verdict
    template: str
    """The sentence, with `{name}` for each of `values`."""
    values: Mapping[str, Shown | str] = field(default_factory=dict)
    stage: str | None = None
    case: str | None = None
    place: str | None = None
    demand: float | None = None
    capacity: float | None = None
    unit: str = ""
    ratio: float | None = None
    corner: Mapping[str, Shown | str] = field(default_factory=dict)
    """The ends of the ranges, and the soil run, that govern."""
    advice: str = ""
    steps: tuple[Step, ...] = ()
    cites: tuple[Cite, ...] = ()
    spot: Spot | None = None

    def says(self, system: str = "metric") -> str:
        """The sentence with its numbers filled in."""
        texts = {
            name: value.text(system) if isinstance(value, Shown) else value
            for name, value in self.values.items()
        }
        return levels_in(self.template.format_map(texts), system)

    @property
    def provenances(self) -> tuple[Provenance, ...]:
        """The different ways in which the numbers behind this finding are known."""
        found = {cite.provenance for cite in self.cites}
        found |= {step.cite.provenance for step in self.steps if step.cite}
        return tuple(sorted(found))

    @property
    def needs_review(self) -> bool:
        """Whether anything in it rests on memory or on unpublished practice."""
        return any(provenance.needs_review for provenance in self.provenances)


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """Something that is not known, and the cheapest way to learn it."""

    place: str
    """The path in the house file, such as `site.water_depth`."""
    asks: str
    why: str
    cheapest_way: str
    blocks: tuple[str, ...] = ()
    """The names of the rules that stay unknown without it."""


def worst(findings: tuple[Finding, ...]) -> Verdict:
    """The most severe verdict, `does not apply` when there is none."""
    return min(
        (f.verdict for f in findings),
        key=lambda v: v.severity,
        default=Verdict.DOES_NOT_APPLY,
    )
