"""Ballast, props and ties: what is needed for a while only."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown
from bermwright.data.densities import GRAVITY
from bermwright.data.rates import BAG
from bermwright.stages.nouns import StageKind
from bermwright.takeoff.lines import count, line, measured, number, unknown
from bermwright.takeoff.members import Wooden, wooden_members
from bermwright.takeoff.members.rows import member_row
from bermwright.takeoff.nouns import Group, Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.house import Ballast, Erection, House, Prop, Tie
    from bermwright.takeoff.members import WoodMember

HAIR = 1e-9


def temporary_rows(house: House, form: VaultForm) -> Iterator[Quantity]:
    """Everything of `[stages]` that comes off again."""
    stages = house.stages
    if stages.ballast is not None:
        yield from _ballast(stages.ballast, form)
    sawn = {one.name: one for one in of_kind(house, form, Wooden.PROP)}
    for at, prop in enumerate(stages.props, 1):
        name = f"props, row {at}"
        yield (
            member_row(sawn[name], Group.TEMPORARY, _when(prop))
            if name in sawn
            else _row_of(name, prop, form)
        )
    for at, tie in enumerate(stages.ties, 1):
        yield _row_of(f"ties, row {at}", tie, form)
    if house.erection is not None:
        yield from _raising(house, house.erection, form)


def _raising(house: House, erection: Erection, form: VaultForm) -> Iterator[Quantity]:
    """Boards, their nails, guys and anchors that hold the bare ribs."""
    for at, (brace, boards) in enumerate(
        zip(erection.braces, of_kind(house, form, Wooden.BRACE), strict=True), 1
    ):
        yield member_row(boards, Group.TEMPORARY)
        if brace.nails is not None:
            nails = float(boards.count * brace.ribs * brace.nails)
            each = line("At every crossing", "n", "boards·ribs·nails", "", result=Shown(nails, "", 0))
            name = f"brace nails {at}"
            yield count(
                name, Group.TEMPORARY, nails, working=(each,), stage=StageKind.RIBS, note="with two heads"
            )
    for at, guy in enumerate(erection.guys, 1):
        ropes = float(2 * guy.count)
        ground = float(form.ground.natural.level(0.0))
        long = float(np.hypot(guy.reach, max(guy.level - ground, 0.0)))
        both = line("Both ways", "n", "2·count", f"2·{guy.count}", result=Shown(ropes, "", 0))
        anchor = "" if guy.anchor is None else f", to {guy.anchor}"
        note = f"{number(long, 'm', 1)} long, tied at {number(guy.level, 'level', 2)}{anchor}"
        yield count(f"guys {at}", Group.TEMPORARY, ropes, working=(both,), stage=StageKind.RIBS, note=note)


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


def of_kind(house: House, form: VaultForm, what: Wooden) -> list[WoodMember]:
    """The pieces of one kind, in the order of the file."""
    return [one for one in wooden_members(house, form) if one.what is what]


def _when(member: Prop | Tie) -> str:
    level, start, until = (number(at, "level", 2) for at in (member.level, member.start, member.until))
    return f"at level {level}; from fill level {start} until {until}"


def _row_of(name: str, member: Prop | Tie, form: VaultForm) -> Quantity:
    note = _when(member)
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
