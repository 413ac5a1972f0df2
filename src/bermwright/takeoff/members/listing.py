"""What there is of timber beside ribs and planks: headers, lintels, joists, braces, props."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.holes import Hole, hole_of, shell_openings
from bermwright.stages.nouns import StageKind
from bermwright.takeoff.nouns import UNKNOWN

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.house import Board, BraceBoards, House, Opening, Prop
    from bermwright.house.parts.posts import Floor

HAIR = 1e-9


class Wooden(StrEnum):
    """What a piece of timber is."""

    HEADER = "header"
    LINTEL = "lintel"
    JOIST = "joist"
    BRACE = "brace"
    PROP = "prop"


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodMember:
    """Pieces of timber that are cut alike."""

    name: str
    what: Wooden
    section: Board
    length: float
    """Of one piece (m); not a number where the file does not say it."""
    count: int
    formula: str
    """How the number of pieces follows, and what stands in it."""
    filled: str
    stage: StageKind | None = None
    note: str = ""
    missing: str = ""
    """What the file does not say."""


def wooden_members(house: House, form: VaultForm) -> tuple[WoodMember, ...]:
    """All of them in one vault, in the order in which they are built in."""
    return (
        *_headers(house, form),
        *_lintels(house, form),
        *_joists(house, form),
        *_braces(house, form),
        *_props(house, form),
    )


def trimmer_ribs(house: House, form: VaultForm) -> int:
    """Ribs more than there are places: whole ones beside holes that cut ribs, where they are doubled."""
    beside: dict[int, int] = {}
    for hole in _holes(house, form):
        for number in hole.trimmers if hole.cut else ():
            if 1 <= number <= form.ribs:
                beside[number] = max(beside.get(number, 1), hole.opening.doubled)
    return sum(count - 1 for count in beside.values())


def _holes(house: House, form: VaultForm) -> Iterator[Hole]:
    for opening in shell_openings(house, form.name):
        hole = hole_of(form, opening)
        if isinstance(hole, Hole):
            yield hole


def _headers(house: House, form: VaultForm) -> Iterator[WoodMember]:
    """From trimmer to trimmer, over and under every hole that cuts a rib; none at a foot."""
    for hole in _holes(house, form):
        one = hole.opening
        if one.header is None or not hole.cut or hole.at_an_end:
            continue
        edges = len(hole.edges(form))
        clear = hole.span - form.rib.width * one.doubled
        yield WoodMember(
            name=f"headers, {one.name}",
            what=Wooden.HEADER,
            section=one.header,
            length=clear,
            count=edges * one.header_boards,
            formula="edges·boards",
            filled=f"{edges}·{one.header_boards}",
            stage=StageKind.RIBS,
            note="from trimmer to trimmer",
        )


def _lintels(house: House, form: VaultForm) -> Iterator[WoodMember]:
    """Over a hole in an end wall, with what lies on the wall at each side."""
    for one in house.openings:
        if one.vault != form.name or not one.side.in_end or one.header is None:
            continue
        yield WoodMember(
            name=f"lintels, {one.name}",
            what=Wooden.LINTEL,
            section=one.header,
            length=_over(one),
            count=one.header_boards,
            formula="boards",
            filled=str(one.header_boards),
            note="width of the hole and twice its bearing",
            missing="" if one.bearing is not None else "opening.bearing",
        )


def _over(one: Opening) -> float:
    return UNKNOWN if one.bearing is None else one.width + 2.0 * one.bearing


def _joists(house: House, form: VaultForm) -> Iterator[WoodMember]:
    for floor in house.floors:
        if floor.vault == form.name:
            yield _joist(floor)


def _joist(floor: Floor) -> WoodMember:
    missing = [name for name in ("width", "bearing") if getattr(floor, name) is None]
    count = 0 if floor.width is None else math.ceil(floor.width / floor.spacing - HAIR) + 1
    length = UNKNOWN if floor.bearing is None else floor.span + floor.bearing
    return WoodMember(
        name=f"joists, {floor.name}",
        what=Wooden.JOIST,
        section=floor.joist,
        length=length if floor.width is not None else UNKNOWN,
        count=count,
        formula="⌈b/s⌉ + 1",
        filled="" if floor.width is None else f"⌈{floor.width:g}/{floor.spacing:g}⌉ + 1",
        note="span and half a bearing at each end",
        missing=", ".join(f"floor.{name}" for name in missing),
    )


def _braces(house: House, form: VaultForm) -> Iterator[WoodMember]:
    for at, brace in enumerate(() if house.erection is None else house.erection.braces, 1):
        yield WoodMember(
            name=f"brace boards {at}",
            what=Wooden.BRACE,
            section=brace.section,
            length=brace_length(brace, form),
            count=2 * brace.count,
            formula="2·count",
            filled=f"2·{brace.count}",
            stage=StageKind.RIBS,
            note="they stay" if brace.stays else "off when lagged",
        )


def brace_length(brace: BraceBoards, form: VaultForm) -> float:
    """From the first rib that it crosses to the last, slantwise, and its own width more (m)."""
    run = (brace.ribs - 1) * form.length / max(form.ribs - 1, 1)
    return run / float(np.cos(brace.slant)) + brace.section.width


def _props(house: House, form: VaultForm) -> Iterator[WoodMember]:
    for at, prop in enumerate(house.stages.props, 1):
        if prop.section is not None:
            yield _prop(f"props, row {at}", prop, prop.section, form)


def _prop(name: str, prop: Prop, section: Board, form: VaultForm) -> WoodMember:
    count = 0 if prop.spacing is None else math.ceil(form.length / prop.spacing - HAIR) + 1
    return WoodMember(
        name=name,
        what=Wooden.PROP,
        section=section,
        length=prop.level if prop.spacing is not None else UNKNOWN,
        count=count,
        formula="⌈L/s⌉ + 1",
        filled="" if prop.spacing is None else f"⌈{form.length:.2f}/{prop.spacing:.2f}⌉ + 1",
        stage=StageKind.FILL,
        note="from the finished floor; longer by what the floor lies lower while they stand",
        missing="" if prop.spacing is not None else "stages.prop.spacing",
    )
