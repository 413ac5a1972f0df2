"""Moving what was assumed through its ranges, and counting how often the failure is found."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.adapt.lessons.changing import changed
from bermwright.base.findings import Verdict

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence
    from typing import Any

    from bermwright.adapt.lessons.nouns import Built, Lesson
    from bermwright.base.findings import Finding

HOUSES = 16
"""Houses of each kind in a sweep."""
GOLDEN = 1.6180339887498949
"""Its multiples fill a line most evenly."""
GOOD = frozenset({Verdict.HOLDS, Verdict.TIGHT, Verdict.DOES_NOT_APPLY})


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """How many houses of a sweep fail as the lesson tells."""

    houses: int
    found: int
    held: int
    """In which nothing that this rule says is against the builder."""

    @property
    def share(self) -> float:
        """Of the houses in which the failure is found."""
        return self.found / self.houses


def shares(count: int, wide: int, seed: int = 0) -> Iterator[tuple[float, ...]]:
    """Points that fill a cube of `wide` sides evenly: the same ones for the same seed.

    Each side goes on by a power of the root of x^(wide+1) = x + 1, which is the golden ratio on one side.
    No chance is needed, so that a sweep can be repeated by anybody.

    >>> [round(at, 2) for (at,) in shares(4, 1)]
    [0.5, 0.12, 0.74, 0.35]
    """
    root = _root(wide)
    start = 0.5 + seed / GOLDEN
    for number in range(count):
        yield tuple((start + number / root**side) % 1.0 for side in range(1, wide + 1))


def _root(wide: int) -> float:
    """The root over 1 of x^(wide+1) = x + 1."""
    root = GOLDEN
    for _round in range(60):
        root = (1.0 + root) ** (1.0 / (wide + 1))
    return root


def drawn(lesson: Lesson, built: Built, share: Sequence[float] | None = None) -> dict[str, Any]:
    """What the house of a lesson changes, what is assumed at these shares of its ranges.

    Without shares each stands in the middle.
    """
    moved = lesson.sweep[built]
    at = (0.5,) * len(moved) if share is None else share
    return {
        **lesson.changes[built],
        **{one.place: one.written(part) for one, part in zip(moved, at, strict=True)},
    }


def tally(
    lesson: Lesson,
    ordinary: Mapping[str, Any],
    built: Built,
    look: Callable[[dict[str, Any]], Sequence[Finding]],
    *,
    count: int = HOUSES,
    seed: int = 0,
) -> Tally:
    """How often the failure is found; `look` gives what the lesson's rule says of the tables of a house."""
    found = held = 0
    for share in shares(count, len(lesson.sweep[built]), seed):
        findings = look(changed(ordinary, drawn(lesson, built, share)))
        found += bool(lesson.finds.among(findings))
        held += all(one.verdict in GOOD for one in lesson.finds.about(findings))
    return Tally(houses=count, found=found, held=held)
