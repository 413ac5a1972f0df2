"""What does not fit together of the way it is filled."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.house.checks.common import Check, Contradiction, Key, bound, clash, metres

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.building import Ballast, Prop, Stages, Tie
    from bermwright.house.model import House


def stage_checks(house: House) -> Iterator[Check]:
    """The checks of the stages and of each temporary work."""
    stages, here = house.stages, ("stages",)
    yield Check(here, ("lift", "lead"), lambda: _long_lead(here, stages))
    if stages.ballast is not None:
        yield Check(
            (*here, "ballast"), ("from", "until"), bound(_upside_down, (*here, "ballast"), stages.ballast)
        )
    for key, rows in (("prop", stages.props), ("tie", stages.ties)):
        for count, row in enumerate(rows):
            yield Check((*here, key, count), ("from", "until"), bound(_upside_down, (*here, key, count), row))
    for count, prop in enumerate(stages.props):
        both = ("stiffness", "section")
        yield Check((*here, "prop", count), both, bound(_said_twice, (*here, "prop", count), prop, both))
    for count, tie in enumerate(stages.ties):
        both = ("rod", "area")
        yield Check((*here, "tie", count), both, bound(_said_twice, (*here, "tie", count), tie, both))


def _long_lead(here: Key, stages: Stages) -> Iterator[Contradiction]:
    if stages.lead is not None and stages.lead > stages.lift + 1e-9:
        yield clash(
            here,
            "lead",
            metres(stages.lead),
            f"is more than one lift ({metres(stages.lift)}); nothing is filled further ahead than one lift.",
            "Write a smaller lead or a thicker lift.",
        )


def _upside_down(here: Key, row: Ballast | Prop | Tie) -> Iterator[Contradiction]:
    if row.until <= row.start:
        yield clash(
            here,
            "until",
            show(row.until, "level"),
            f"is not above from, {show(row.start, 'level')}; the fill rises from the first to the second.",
            "Swap the two levels, or write a higher one.",
        )


def _said_twice(here: Key, row: Prop | Tie, names: tuple[str, str]) -> Iterator[Contradiction]:
    first, second = names
    if getattr(row, first) is not None and getattr(row, second) is not None:
        yield clash(
            here,
            second,
            f"beside {first}",
            f"says the same as {first} a second time.",
            f"Keep {first} or {second}.",
        )
