"""What mending speaks of: a target, levers and their amounts, proposals, and what was tried in vain."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.base.findings import Finding, Question
    from bermwright.house import House
    from bermwright.house.checks import Key

Written = str | int | float | None
"""What a key of the file is set to, as a builder would write it; None takes the key out."""
Writes = tuple[tuple["Key", Written], ...]
"""Keys of the file, entries counted from 0, each with its new text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """What is to hold: everything that one rule says of one part."""

    rule: str
    part: str
    vault: str | None
    """The vault that the part belongs to; None for the house as a whole."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where levers look for what they may change."""

    house: House
    part: str
    vault: int | None
    """Number of the vault in the file, from 0."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """One step of a lever."""

    says: str
    """What is new, such as `6 in place of 4`."""
    writes: Writes


@dataclass(frozen=True, slots=True, kw_only=True)
class Lever:
    """Something that a builder can change, in steps that can be bought."""

    name: str
    """Such as `more layers`."""
    does: str
    """As a command, such as `Nail more layers into every rib`."""
    helps: frozenset[str]
    """Names of the rules that it can help."""
    amounts: Callable[[Place], tuple[Amount, ...]]
    """Its steps, the smallest change first."""
    monotone: bool = True
    """Whether more of it never makes its rules worse: then it is bisected, else every step is looked at."""
    temporary: bool = False
    """Whether it is gone or done once the fill is up."""
    hours: float = 0.0
    """Hours of hand work that no take-off counts (rough, common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One step of one lever, chosen."""

    lever: str
    does: str
    says: str
    writes: Writes
    hours: float = 0.0

    def sentence(self) -> str:
        """Lever and amount in one, such as: Nail more layers into every rib: 6 in place of 4."""
        return f"{self.does}: {self.says}."


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What a change costs beyond the house as it is; less than nothing where it saves."""

    money: float | None
    """None where the file gives no price for some of it, or prices in several currencies."""
    currency: str
    hours: float
    """Person-hours, rough."""
    lifted: float
    """Mass of what is built in more, without the soil (kg)."""

    def rank(self, *, by_money: bool) -> tuple[float, float, float]:
        """Less is cheaper: by money where all that is compared is priced; else hours, then what is lifted."""
        money = self.money or 0.0 if by_money else 0.0
        return money, round(self.hours, 3), round(self.lifted, 1)

    def shown(self) -> Mapping[str, Shown | str]:
        """The figures for people."""
        money = "not priced" if self.money is None else f"{self.money:.2f} {self.currency}"
        return {"money": money, "hours": Shown(self.hours, "ph", 1), "lifted": Shown(self.lifted, "kg", 0)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """Changes with which the finding holds, looked at with all stages of all parts."""

    target: Target
    changes: tuple[Change, ...]
    before: tuple[Finding, ...]
    after: tuple[Finding, ...]
    """What the rule says of the part, worst first."""
    cost: Cost
    mends: tuple[str, ...]
    """What else did not hold and now does, as `rule, part`."""
    worse: tuple[str, ...]
    """What held and is now tight or not known."""
    fails: int
    """Findings of the house that fail with it."""

    @property
    def writes(self) -> Writes:
        """All keys with their new texts; the last change of a key counts."""
        return merged(*(change.writes for change in self.changes))

    @property
    def reason(self) -> str:
        """The comment beside a changed line."""
        return f"mend: {self.target.rule}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """A lever that does not do it alone."""

    name: str
    says: str
    """The step that came nearest; empty where there was none to try."""
    ratio: float
    """Demand over capacity there; not finite where there is no such number."""
    why: str
    """Why it is not proposed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mended:
    """Everything that is said about mending one finding."""

    target: Target
    before: tuple[Finding, ...]
    proposals: tuple[Proposal, ...]
    """Cheapest first."""
    tried: tuple[Tried, ...]
    pairs: int
    """Pairs of levers that were looked at."""
    questions: tuple[Question, ...] = ()
    """What has to be answered where the finding is not known."""
    remarks: tuple[str, ...] = field(default=())

    @property
    def nearest(self) -> Tried | None:
        """The lever that came nearest, where any gave a number."""
        known = [one for one in self.tried if math.isfinite(one.ratio)]
        return min(known, key=lambda one: one.ratio, default=None)


def merged(*parts: Writes) -> Writes:
    """Several changes as one; the last of a key counts and stands where the first stood."""
    whole: dict[Key, Written] = {}
    for writes in parts:
        whole.update(writes)
    return tuple(whole.items())
