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
from bermwright.form import vault_form
from bermwright.form.dome import dome_form
from bermwright.form.dome.bodies import dome_solids
from bermwright.form.solids import vault_solids

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from bermwright.base.drawing import Sheet
    from bermwright.book.sheets import TitleBlock
    from bermwright.book.sheets.drawing_set import Leaf
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Vault

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
    "Site plan and details of a dome are not drawn: the file says nothing of its place, footing and cover.",
)


def set_sheets(
    house: House, what: str, block: TitleBlock, *, system: str, progress: Progress
) -> tuple[Sheet, ...]:
    """The framed sheets of a wish; `block` holds the fields that all of them share.

    Raises `FormUnknownError` or `DomeUnknownError` where the file leaves a shape open.
    """
    leaves = [leaf for vault in house.vaults for leaf in _leaves(house, vault, what, system, progress)]
    leaves += _of_domes(house, what, system, progress)
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
    leaves = list(_of_domes(house, what, system, progress))
    blocks = [
        _filled(block, leaf, number, (place, len(leaves)))
        for place, (leaf, number) in enumerate(zip(leaves, numbered(leaves), strict=True), 1)
    ]
    return tuple(starmap(_sheet, zip(leaves, blocks, strict=True)))


def _of_domes(house: House, what: str, system: str, progress: Progress) -> Iterator[Leaf]:
    for dome in house.domes:
        progress(f"courses of {dome.name}")
        form = dome_form(dome)
        yield from dome_leaves(house, form, dome_solids(house, form), what, system)


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


def _leaves(house: House, vault: Vault, what: str, system: str, progress: Progress) -> Iterator[Leaf]:
    progress(f"bodies of {vault.name}")
    form = vault_form(house, vault)
    one = Drawn(vault=vault, form=form, solids=vault_solids(house, vault, form))
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
        yield from _openings(house, form, system)


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
