"""Ballast, props and ties: what is needed for a while only."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown
from bermwright.data.densities import GRAVITY
from bermwright.data.rates import BAG
from bermwright.stages.nouns import StageKind
from bermwright.takeoff.lines import count, line, measured, number, unknown
from bermwright.takeoff.nouns import Group, Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.house import Ballast, House, Prop, Tie

HAIR = 1e-9


def temporary_rows(house: House, form: VaultForm) -> Iterator[Quantity]:
    """Everything of `[stages]` that comes off again."""
    stages = house.stages
    if stages.ballast is not None:
        yield from _ballast(stages.ballast, form)
    for at, prop in enumerate(stages.props, 1):
        yield _props(f"props, row {at}", prop, form)
    for at, tie in enumerate(stages.ties, 1):
        yield _row_of(f"ties, row {at}", tie, form)


def _ballast(ballast: Ballast, form: VaultForm) -> Iterator[Quantity]:
    mass = ballast.weight * ballast.width * form.length / GRAVITY
    bags = float(np.ceil(mass / BAG.value - HAIR))
    weight = line(
        "Weight on the strip over the crown",
        "m",
        "q·w·L/g",
        f"{number(ballast.weight, 'kN/m2', 2)}·{number(ballast.width, 'm', 2)}·{number(form.length, 'm', 2)}"
        f"/{number(GRAVITY, 'm/s2', 2)}",
        result=Shown(mass, "kg", 0),
    )
    number_of_bags = line(
        f"Bags of {number(BAG.value, 'kg')}",
        "n",
        "⌈m/m_1⌉",
        f"⌈{number(mass, '', 0)}/{number(BAG.value, '', 0)}⌉",
        result=Shown(bags, "", 0),
        cite=BAG.cite,
    )
    when = f"on at fill level {number(ballast.start, 'level', 2)}, off at {number(ballast.until, 'level', 2)}"
    yield measured(
        "ballast",
        Group.TEMPORARY,
        Shown(mass, "kg", 0),
        working=(weight,),
        stage=StageKind.FILL,
        note=when,
    )
    yield count(
        "ballast bags",
        Group.TEMPORARY,
        bags,
        working=(weight, number_of_bags),
        stage=StageKind.FILL,
        note=when,
    )


def _props(name: str, prop: Prop, form: VaultForm) -> Quantity:
    size = prop.section
    section = "" if size is None else f", {number(size.thickness, 'mm')} × {number(size.width, 'mm')}"
    return _row_of(name, prop, form, more=section)


def _row_of(name: str, member: Prop | Tie, form: VaultForm, more: str = "") -> Quantity:
    level, start, until = (number(at, "level", 2) for at in (member.level, member.start, member.until))
    note = f"at level {level}{more}; from fill level {start} until {until}"
    if member.spacing is None:
        return unknown(
            name, Group.TEMPORARY, "", note=f"their spacing is not given; {note}", stage=StageKind.FILL
        )
    pieces = float(np.ceil(form.length / member.spacing - HAIR) + 1.0)
    step = line(
        "One at each end and between them at the given spacing",
        "n",
        "⌈L/s⌉ + 1",
        f"⌈{number(form.length, 'm', 2)}/{number(member.spacing, 'm', 2)}⌉ + 1",
        result=Shown(pieces, "", 0),
    )
    return count(name, Group.TEMPORARY, pieces, working=(step,), stage=StageKind.FILL, note=note)
