"""Timber beside ribs and planks as rows of the take-off."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.stages.nouns import StageKind
from bermwright.takeoff.lines import count, line, number, unknown
from bermwright.takeoff.members.listing import Wooden, trimmer_ribs, wooden_members
from bermwright.takeoff.nouns import Group, Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.house import House
    from bermwright.takeoff.members.listing import WoodMember

TEMPORARY = {Wooden.BRACE, Wooden.PROP}


def member_rows(house: House, form: VaultForm) -> Iterator[Quantity]:
    """Headers, lintels, joists and the ribs that are doubled beside a hole."""
    extra = trimmer_ribs(house, form)
    if extra:
        step = line(
            "Ribs beside a hole that cuts ribs, over the one that stands there anyway",
            "n",
            "Σ (doubled − 1)",
            "",
            result=Shown(extra, "", 0),
        )
        note = f"of {len(form.rib.pieces)} pieces each; not among the ribs above"
        yield count("trimmer ribs", Group.RIBS, extra, working=(step,), stage=StageKind.RIBS, note=note)
    for one in wooden_members(house, form):
        if one.what not in TEMPORARY:
            yield member_row(one, Group.OPENINGS)


def member_row(one: WoodMember, group: Group, more: str = "") -> Quantity:
    """The pieces of one kind, with their size in the note."""
    if one.missing:
        return unknown(one.name, group, "", note=f"not given: {one.missing}", stage=one.stage)
    step = line("Pieces", "n", one.formula, one.filled, result=Shown(one.count, "", 0))
    size = f"{number(one.section.thickness, 'mm')} × {number(one.section.width, 'mm')}"
    words = [f"{size}, {number(one.length, 'm', 2)} long", one.note, more]
    return count(
        one.name,
        group,
        float(one.count),
        working=(step,),
        stage=one.stage,
        note="; ".join(word for word in words if word),
    )
