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
    from bermwright.house import Ballast, Erection, House, Prop, Tie

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
    if house.erection is not None:
        yield from _raising(house.erection, form)


def _raising(erection: Erection, form: VaultForm) -> Iterator[Quantity]:
    """Boards, their nails, guys and anchors that hold the bare ribs."""
    for at, brace in enumerate(erection.braces, 1):
        boards = float(2 * brace.count)
        run = (brace.ribs - 1) * form.length / max(form.ribs - 1, 1)
        long = run / float(np.cos(brace.slant)) + brace.section.width
        size = f"{number(brace.section.thickness, 'mm')} × {number(brace.section.width, 'mm')}"
        pieces = line("Both sides", "n", "2·count", f"2·{brace.count}", result=Shown(boards, "", 0))
        note = f"{size}, {number(long, 'm', 2)} long; {'they stay' if brace.stays else 'off when lagged'}"
        yield count(
            f"brace boards {at}", Group.TEMPORARY, boards, working=(pieces,), stage=StageKind.RIBS, note=note
        )
        if brace.nails is not None:
            nails = boards * brace.ribs * brace.nails
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
