"""What does not fit together of forms that climb along a wall."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.house.checks.common import (
    Check,
    Contradiction,
    Key,
    bound,
    clash,
    each,
    listed,
    metres,
    names_once,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.making.slip import SlipForm
    from bermwright.house.model import House

NEAR = 1e-9


def slip_checks(house: House) -> Iterator[Check]:
    """The checks of every form and of the wall on which it climbs."""
    yield names_once(("slip_form",), house.slip_forms)
    walls = each(("wall",), house.walls, "name")
    for count, form in enumerate(house.slip_forms):
        here: Key = ("slip_form", count)
        yield Check(here, ("wall",), bound(_climbs, here, form, house), walls)
        yield Check(here, ("stud", "stud_spacing", "length"), bound(_studs_apart, here, form))


def _climbs(here: Key, form: SlipForm, house: House) -> Iterator[Contradiction]:
    names = [wall.name for wall in house.walls]
    if form.wall not in names:
        yield clash(
            here,
            "wall",
            f'"{form.wall}"',
            f"is no [[wall]] of this file; there are: {listed(names)}.",
            "Write one of these names.",
        )


def _studs_apart(here: Key, form: SlipForm) -> Iterator[Contradiction]:
    if form.stud_spacing > form.length - form.stud.thickness + NEAR:
        yield clash(
            here,
            "stud_spacing",
            metres(form.stud_spacing),
            f"leaves no second stud in a panel {metres(form.length)} long.",
            "Write a smaller one, or a longer panel.",
        )
