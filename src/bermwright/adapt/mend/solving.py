"""The smallest step of a lever that makes one finding hold, and the smallest pair where no lever does.

A lever that only ever helps is bisected: its largest step is looked at first, and a step is only taken when
the one before it was seen not to hold. Others are looked at from the smallest step upwards.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from bermwright.adapt.mend.nouns import Change, Tried, merged
from bermwright.adapt.mend.trying import dear
from bermwright.adapt.mend.writing import changed
from bermwright.base.errors import BermwrightError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from bermwright.adapt.mend.nouns import Amount, Lever, Target, Writes
    from bermwright.adapt.mend.trying import Bench
    from bermwright.house import House

HOPELESS = 3.0
"""Demand over capacity above which nothing temporary is tried, and no pair of levers."""
HOPEFUL = 1.5
"""A lever whose middle and last steps both stay above this is not looked at step by step; nor is one whose
last step is hopeless."""
BEST = 4
"""Levers that are combined in pairs: those that come nearest alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Inverse:
    """One finding of one house, for which levers are looked for."""

    bench: Bench
    target: Target
    house: House
    """The house that levers change."""
    before: float
    """Demand over capacity as it is."""

    def ratio(self, writes: Writes) -> tuple[float, bool]:
        """Demand over capacity with some keys changed, and whether it holds; infinite: no such house."""
        try:
            outcome = self.bench.outcome(self.target, changed(self.house, writes))
        except BermwrightError:
            return math.inf, False
        return outcome.ratio, outcome.holds

    def amounts(self, lever: Lever) -> tuple[Amount, ...]:
        """The steps of a lever in this house."""
        return lever.amounts(self.bench.place(self.target, self.house))


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """How far one lever goes."""

    lever: Lever
    amounts: tuple[Amount, ...]
    at: int | None
    """Number of the smallest step that holds; None where none does."""
    nearest: int
    ratio: float
    """Demand over capacity at `at`, or at the step that comes nearest."""

    @property
    def change(self) -> Change:
        """The step that holds, or the nearest."""
        return chosen(self.lever, self.amounts[self.nearest if self.at is None else self.at])

    def tried(self, why: str) -> Tried:
        """Why it is not proposed."""
        return Tried(name=self.lever.name, says=self.amounts[self.nearest].says, ratio=self.ratio, why=why)


def chosen(lever: Lever, amount: Amount) -> Change:
    """A step of a lever as a change."""
    return Change(
        lever=lever.name, does=lever.does, says=amount.says, writes=amount.writes, hours=lever.hours
    )


def reach(inverse: Inverse, lever: Lever) -> Reach | None:
    """The smallest step of a lever that holds, or the one that comes nearest; None where it has no step."""
    amounts = inverse.amounts(lever)
    if not amounts:
        return None
    seen: dict[int, tuple[float, bool]] = {}

    def look(number: int) -> bool:
        if number not in seen:
            seen[number] = inverse.ratio(amounts[number].writes)
        return seen[number][1]

    at = _bisected(len(amounts), look, seen) if lever.monotone else _scanned(amounts, look, seen)
    nearest = min(seen, key=lambda number: (seen[number][0], number))
    ratio = seen[nearest if at is None else at][0]
    return Reach(lever=lever, amounts=amounts, at=at, nearest=nearest, ratio=ratio)


def _bisected(count: int, look: Callable[[int], bool], seen: dict[int, tuple[float, bool]]) -> int | None:
    """The first step that holds, where all after it hold too; steps that no house can have are left out."""
    high = count - 1
    while high > 0 and not look(high) and math.isinf(seen[high][0]):
        high -= 1
    if not look(high):
        return None
    low = -1
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if look(middle) else (middle, high)
    return high


def _scanned(
    amounts: Sequence[Amount], look: Callable[[int], bool], seen: dict[int, tuple[float, bool]]
) -> int | None:
    """The first step that holds; where looking is dear, only if some step comes near."""
    if dear(amounts[-1].writes) and len(amounts) > 3:  # noqa: PLR2004  (few steps are looked at one by one)
        last, middle = len(amounts) - 1, len(amounts) // 2
        near = look(last) or seen[last][0] <= HOPEFUL
        if not near and HOPELESS < seen[last][0] < math.inf:
            return None
        if not near and not look(middle) and seen[middle][0] > HOPEFUL:
            return None
    return next((number for number in range(len(amounts)) if look(number)), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two levers that hold together, each at its smallest step."""

    changes: tuple[Change, Change]
    ratio: float


def pairs(inverse: Inverse, reaches: Sequence[Reach]) -> tuple[int, tuple[Pair, ...]]:
    """How many pairs were looked at, and those that hold: of the few levers that come nearest alone."""
    near = sorted((one for one in reaches if one.ratio < inverse.before), key=lambda one: one.ratio)[:BEST]
    if not near or near[0].ratio > HOPELESS:
        return 0, ()
    couples = [(one, other) for one, other in combinations(near, 2) if not _meet(one, other)]
    return len(couples), tuple(_held(inverse, couples))


def _meet(one: Reach, other: Reach) -> bool:
    """Whether both levers write the same key."""
    first, second = one.amounts[one.nearest].writes, other.amounts[other.nearest].writes
    return bool({key for key, _ in first} & {key for key, _ in second})


def _held(inverse: Inverse, couples: Sequence[tuple[Reach, Reach]]) -> Iterator[Pair]:
    for one, other in couples:
        at = [one.nearest, other.nearest]

        def together(first: int, second: int, one: Reach = one, other: Reach = other) -> tuple[float, bool]:
            return inverse.ratio(merged(one.amounts[first].writes, other.amounts[second].writes))

        if not together(at[0], at[1])[1]:
            continue
        # As little of the first as holds with all of the second, then as little of the second.
        at[0] = _least(at[0], lambda number, at=at, together=together: together(number, at[1])[1])  # type: ignore[misc]
        at[1] = _least(at[1], lambda number, at=at, together=together: together(at[0], number)[1])  # type: ignore[misc]
        ratio, _ = together(at[0], at[1])
        yield Pair(
            changes=(chosen(one.lever, one.amounts[at[0]]), chosen(other.lever, other.amounts[at[1]])),
            ratio=ratio,
        )


def _least(high: int, holds: Callable[[int], bool]) -> int:
    """The smallest step that holds below one that does, by bisection."""
    low = -1
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high
