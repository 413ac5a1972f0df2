"""What a rule is, and what it says before its own name is stamped on."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.base.findings import Finding, Shown, Spot, Step, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from bermwright.base.errors import BermwrightError
    from bermwright.base.marks import Mark
    from bermwright.base.sources import Cite
    from bermwright.form.setout import SurveyPoint
    from bermwright.house import House
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
    part: str = ""
    """Which part it is said of, such as `opening "front door"`, where a rule looks at more than one vault."""
    cites: tuple[Cite, ...] = ()
    """Sources besides the rule's own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Identity:
    """What every rule has besides its function."""

    name: str
    """In words with hyphens, such as `rib-bends`."""
    title: str
    why: str
    """Why it matters, in plain words."""
    cites: tuple[Cite, ...]
    asks: tuple[str, ...] = ()
    """Places in the house file without which the rule stays unknown, such as `vault.nails`."""

    def stamp(self, part: str, said: Said) -> Finding:
        """What was said, with the rule's name, title and sources."""
        return Finding(
            rule=self.name,
            title=self.title,
            part=said.part or part,
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
            cites=(*self.cites, *said.cites),
            spot=said.spot,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule(Identity):
    """Identity, reason, sources and a pure function from a study of one vault to what it says.

    `ribs/shear.py` is the shortest whole rule: a new one begins as its copy.
    """

    decide: Callable[[Study], Iterable[Said]]
    reads_ribs: bool = True
    """Whether it rests on the ribs' response, which is not known while the nails are not."""
    draws: Callable[[Study, Finding], tuple[Mark, ...]] | None = None
    """What the rule adds to the section when its finding is chosen."""

    def run(self, study: Study) -> tuple[Finding, ...]:
        """Everything the rule finds of one vault."""
        return tuple(self.stamp(study.part, said) for said in self.decide(study))


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyAtHand:
    """Surveyed points that the house file names, as far as they could be read."""

    name: str
    """Of their file."""
    points: tuple[SurveyPoint, ...] = ()
    why_not: BermwrightError | None = None
    """Why they could not be read."""

    @property
    def known(self) -> tuple[SurveyPoint, ...]:
        """The points; raises what kept them from being read."""
        if self.why_not is not None:
            raise self.why_not
        return self.points


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """The house and the studies of its vaults, made once and read by every rule on the whole house."""

    house: House
    studies: Mapping[str, Study]
    """By the name of the vault; a vault about which too little is known has none."""
    survey: SurveyAtHand | None = None
    """None where the file names none, or where nobody has read it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseRule(Identity):
    """A rule on the house or on parts beside the vaults: walls, openings, supports, escape, heat.

    It says something of every part it looks at (`Said.part`), and `does not apply` where there is none.
    """

    decide: Callable[[Whole], Iterable[Said]]

    def run(self, whole: Whole) -> tuple[Finding, ...]:
        """Everything the rule finds of the house."""
        return tuple(self.stamp("house", said) for said in self.decide(whole))


AnyRule = Rule | HouseRule
