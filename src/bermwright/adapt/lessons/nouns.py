"""What a lesson is."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from bermwright.base.findings import Verdict

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from bermwright.base.findings import Finding
    from bermwright.base.sources import Cite


class Built(StrEnum):
    """Which of the two houses of a lesson."""

    AS_BUILT = "as built"
    TWIN = "twin"


class RestsOn(StrEnum):
    """What a lesson is taken from."""

    FAILURE = "failure"
    """A failure that the source describes."""
    WARNING = "warning"
    """What the trade warns of, without one case."""
    EQUATIONS = "equations"
    """What equations say; nobody has published such a case."""

    @property
    def words(self) -> str:
        """As a sentence ends with it."""
        return {
            RestsOn.FAILURE: "a failure that the source describes",
            RestsOn.WARNING: "a warning of the trade, not on one case",
            RestsOn.EQUATIONS: "equations, not on a published case",
        }[self]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A value that nobody published: assumed, and moved through a range."""

    place: str
    """In the house file, such as `vault.0.span`."""
    low: float
    high: float
    form: str
    """How the number is written there, such as `{} m` or `1:{}`."""
    why: str

    def written(self, share: float) -> str:
        """The value at a share (0 to 1) of the range, as it stands in the file.

        >>> Moved(place="stages.lift", low=0.2, high=0.6, form="{} m", why="").written(0.5)
        '0.4 m'
        """
        return self.form.format(f"{self.low + share * (self.high - self.low):.4g}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Finds:
    """What the program must find in the house as it was built."""

    rule: str
    stage: str
    """How the name of the stage begins; empty where the rule looks at no stage."""
    part: str
    """What the name of the part holds; empty where any part counts."""

    def among(self, findings: Iterable[Finding]) -> tuple[Finding, ...]:
        """Those that fail in the way the lesson tells."""
        return tuple(
            one
            for one in self.about(findings)
            if one.verdict is Verdict.FAILS and (one.stage or "").startswith(self.stage)
        )

    def about(self, findings: Iterable[Finding]) -> tuple[Finding, ...]:
        """Everything that is said by that rule of that part."""
        return tuple(one for one in findings if one.rule == self.rule and self.part in one.part)


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """One of the answers offered."""

    letter: str
    text: str
    right: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """A published failure, told as a house of this program."""

    name: str
    """In words with hyphens."""
    title: str
    story: str
    """What was published, in our own words, without its end."""
    known: tuple[str, ...]
    """What the source says."""
    assumed: tuple[str, ...]
    """What it does not say, and what was assumed instead."""
    told_with: str
    """What the real structure was of, and what stands for it here."""
    asks: str
    answers: tuple[Answer, ...]
    failed: str
    """At which stage it failed in reality, and how."""
    remedy: str
    """What the twin does otherwise, published or common practice (`remedy_source`)."""
    rests_on: RestsOn
    source: Cite
    remedy_source: Cite
    finds: Finds
    changes: Mapping[Built, Mapping[str, Any]]
    """What differs from the ordinary house, by place in the file."""
    sweep: Mapping[Built, tuple[Moved, ...]]

    @property
    def right(self) -> Answer:
        """The right answer."""
        return next(answer for answer in self.answers if answer.right)
