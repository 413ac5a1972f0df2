"""What a rule is, and what it says before its own name is stamped on."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.base.findings import Finding, Shown, Spot, Step, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from bermwright.base.marks import Mark
    from bermwright.base.sources import Cite
    from bermwright.rules.study import Study


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What a rule's function says of one place; the rule adds its name, title and sources."""

    verdict: Verdict
    template: str
    """Who does what, when, by how much: one short sentence, with `{name}` for each of `values`."""
    values: Mapping[str, Shown | str] = field(default_factory=dict)
    stage: str | None = None
    case: str | None = None
    place: str | None = None
    demand: float | None = None
    capacity: float | None = None
    unit: str = ""
    ratio: float | None = None
    corner: Mapping[str, Shown | str] = field(default_factory=dict)
    advice: str = ""
    """What to do, in the words of the file; needed wherever the verdict is against the builder."""
    steps: tuple[Step, ...] = ()
    """The working; the last line is the ratio, if there is one."""
    spot: Spot | None = None
    """Where `place` lies in the section."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """Identity, reason, sources and a pure function from a study of one vault to what it says.

    `ribs/shear.py` is the shortest whole rule: a new one begins as its copy.
    """

    name: str
    """In words with hyphens, such as `rib-bends`."""
    title: str
    why: str
    """Why it matters, in plain words."""
    cites: tuple[Cite, ...]
    decide: Callable[[Study], Iterable[Said]]
    asks: tuple[str, ...] = ()
    """Places in the house file without which the rule stays unknown, such as `vault.nails`."""
    reads_ribs: bool = True
    """Whether it rests on the ribs' response, which is not known while the nails are not."""
    draws: Callable[[Study, Finding], tuple[Mark, ...]] | None = None
    """What the rule adds to the section when its finding is chosen."""

    def run(self, study: Study) -> tuple[Finding, ...]:
        """Everything the rule finds of one vault."""
        return tuple(self._stamp(study.part, said) for said in self.decide(study))

    def _stamp(self, part: str, said: Said) -> Finding:
        return Finding(
            rule=self.name,
            title=self.title,
            part=part,
            verdict=said.verdict,
            template=said.template,
            values=said.values,
            stage=said.stage,
            case=said.case,
            place=said.place,
            demand=said.demand,
            capacity=said.capacity,
            unit=said.unit,
            ratio=said.ratio,
            corner=said.corner,
            advice=said.advice,
            steps=said.steps,
            cites=self.cites,
            spot=said.spot,
        )
