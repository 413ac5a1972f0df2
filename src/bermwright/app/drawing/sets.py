"""The drawing set and its parts: which leaves a wish takes, with numbers, in their frames."""

from __future__ import annotations

from dataclasses import replace
from itertools import starmap
from typing import TYPE_CHECKING

from bermwright.book.pages.openings import end_drawings, shell_drawings
from bermwright.book.sheets.axonometric import axonometric_sheet
from bermwright.book.sheets.domes import dome_leaves
from bermwright.book.sheets.drawing_set import (
    IMPERIAL_NOTES,
    NOTES,
    TALL,
    WIDE,
    Drawn,
    along_leaf,
    detail_leaves,
    elevation_leaves,
    framed,
    large_leaf,
    list_leaf,
    numbered,
    plan_leaf,
    rib_leaves,
    section_leaf,
    site_leaf,
    small_leaf,
)
from bermwright.book.sheets.plans import are_placed, parts_plan
from bermwright.form import vault_form
from bermwright.form.dome import dome_form
from bermwright.form.dome.bodies import dome_solids
from bermwright.form.solids import vault_solids

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from bermwright.base.drawing import Sheet
    from bermwright.book.sheets import TitleBlock
    from bermwright.book.sheets.drawing_set import Leaf
    from bermwright.form.dome import DomeForm
    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids import VaultSolids
    from bermwright.house import House, Vault
    from bermwright.house.making.dome import Dome

    Progress = Callable[[str], None]

WHAT = ("set", "site", "plan", "elevations", "details")
"""Wishes that are answered here."""
APART = (
    "Stages of building with their stop marks: bermwright draw --what stages.",
    "What carries the feet, with its forces: bermwright draw --what supports.",
    "Pegs, heights and days of work: bermwright setout.",
    "Templates at full size: bermwright templates.",
)
APART_DOMES = (
    "Chains, crews and bands of a dome: bermwright compass.",
    "Boxes, arch forms and the sheet over a dome: bermwright forms.",
    "The ground round a dome and its details are not drawn: the file says nothing of its footing and cover.",
)


def set_sheets(
    house: House, what: str, block: TitleBlock, *, system: str, progress: Progress
) -> tuple[Sheet, ...]:
    """The framed sheets of a wish; `block` holds the fields that all of them share.

    Raises `FormUnknownError` or `DomeUnknownError` where the file leaves a shape open.
    """
    vaults = [_drawn(house, vault, progress) for vault in house.vaults]
    domes = [_dome(house, dome, progress) for dome in house.domes]
    leaves = list(_of_all([*(one.solids for one in vaults), *(solids for _, solids in domes)], what, system))
    leaves += [leaf for one in vaults for leaf in _leaves(house, one, what, system, progress)]
    leaves += [leaf for form, solids in domes for leaf in dome_leaves(house, form, solids, what, system)]
    if what == "set" and leaves:
        leaves = _with_list(house, leaves, system)
    numbers = numbered(leaves)
    count = len(leaves)
    blocks = [
        _filled(block, leaf, number, (place, count))
        for place, (leaf, number) in enumerate(zip(leaves, numbers, strict=True), 1)
    ]
    return tuple(starmap(_sheet, zip(leaves, blocks, strict=True)))


def dome_sheets(
    house: House, what: str, block: TitleBlock, *, system: str, progress: Progress
) -> tuple[Sheet, ...]:
    """The framed sheets of all domes that a wish takes."""
    domes = [_dome(house, dome, progress) for dome in house.domes]
    leaves = [leaf for form, solids in domes for leaf in dome_leaves(house, form, solids, what, system)]
    blocks = [
        _filled(block, leaf, number, (place, len(leaves)))
        for place, (leaf, number) in enumerate(zip(leaves, numbered(leaves), strict=True), 1)
    ]
    return tuple(starmap(_sheet, zip(leaves, blocks, strict=True)))


def _dome(house: House, dome: Dome, progress: Progress) -> tuple[DomeForm, VaultSolids]:
    progress(f"courses of {dome.name}")
    form = dome_form(dome)
    return form, dome_solids(house, form)


def _drawn(house: House, vault: Vault, progress: Progress) -> Drawn:
    progress(f"bodies of {vault.name}")
    form = vault_form(house, vault)
    return Drawn(vault=vault, form=form, solids=vault_solids(house, vault, form))


def _of_all(parts: Sequence[VaultSolids], what: str, system: str) -> Iterator[Leaf]:
    """Where the parts lie to each other, as far as the file places them."""
    if what in {"set", "site"} and are_placed(parts):
        sheet = parts_plan(parts, width=WIDE, height=TALL, system=system)
        yield large_leaf("P", "site plan", sheet.title, sheet)


def _sheet(leaf: Leaf, block: TitleBlock) -> Sheet:
    return framed(leaf, block) if leaf.layout is None else leaf.layout(block)


def _filled(block: TitleBlock, leaf: Leaf, number: str, sheet: tuple[int, int]) -> TitleBlock:
    return replace(
        block,
        title=leaf.title,
        number=number,
        document_type=leaf.kind,
        scale=leaf.scale,
        sheet=sheet[0],
        sheets=sheet[1],
    )


def _leaves(house: House, one: Drawn, what: str, system: str, progress: Progress) -> Iterator[Leaf]:
    whole = what == "set"
    if whole or what == "site":
        progress("site plan")
        yield site_leaf(house, one, system)
    if whole or what == "plan":
        progress("floor plan")
        yield plan_leaf(house, one, system)
    if whole:
        progress("sections")
        yield section_leaf(house, one, system)
        yield along_leaf(house, one, system)
    if whole or what == "elevations":
        progress("elevations")
        yield from elevation_leaves(house, one, system)
    if whole or what == "details":
        progress("details")
        yield from detail_leaves(house, one, system)
    if whole:
        progress("ribs and openings")
        yield from rib_leaves(one, system)
        yield from _openings(house, one.form, system)


def _openings(house: House, form: VaultForm, system: str) -> Iterator[Leaf]:
    """Ends and shell on sheets of their own as large as those of the sections, each hole on a small one."""
    room = (WIDE, TALL)
    for sheet in end_drawings(house, form, system, room=room):
        yield large_leaf("O", "opening", f"{sheet.title}, {form.name}", sheet)
    for number, sheet in enumerate(shell_drawings(house, form, system, room=room)):
        leaf = large_leaf if number == 0 else small_leaf
        yield leaf("O", "opening", f"{sheet.title}, {form.name}", sheet)


def _with_list(house: House, leaves: Sequence[Leaf], system: str) -> list[Leaf]:
    """The list in front, itself among the sheets."""
    notes = NOTES if system == "metric" else IMPERIAL_NOTES
    numbers = numbered(leaves)
    rows = [
        ("G01", f"Sheets of {house.name}", "", "A3"),
        *((n, leaf.title, leaf.scale, leaf.size) for n, leaf in zip(numbers, leaves, strict=True)),
    ]
    picture = axonometric_sheet(vault_form(house, house.vaults[0])) if house.vaults else None
    apart = (*(APART if house.vaults else ()), *(APART_DOMES if house.domes else ()))
    return [list_leaf(house, rows, notes, apart, picture), *leaves]
