"""Models and lists for other programs, and whether bodies and take-off say the same."""

from __future__ import annotations

from importlib.util import find_spec
from typing import TYPE_CHECKING

from bermwright.app.handmade.nouns import AskedWrongError, Made, Shown, system_of, ticked, words_of
from bermwright.app.modelling import ModelOrder, model_file
from bermwright.app.opening import open_house, revision_of
from bermwright.app.outside.clock import day
from bermwright.base.document import Document, Figure, Heading, Para, Points, Table, plain
from bermwright.base.units import show as shown
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.axonometric import axonometric_sheet
from bermwright.book.sheets.compass import dome_section
from bermwright.form import vault_form
from bermwright.form.dome import dome_form
from bermwright.form.solids import vault_solids
from bermwright.takeoff.bodies import compared, differing

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from bermwright.app.handmade.nouns import Options, Progress
    from bermwright.base.document import Block
    from bermwright.house import House, Vault

KINDS = (
    ("glb", "every body, with its colour, for viewers of models"),
    ("ifc", "walls, members, coverings, footings and earthworks with their quantities, for building models"),
    ("stl", "parts of a small model, each closed and lying on the bed of a printer"),
    ("geojson", "outlines and pegs on the map, in degrees or in metres round the house"),
    ("csv", "the take-off as one table"),
    ("xlsx", "take-off, bodies, and both compared, for a spreadsheet"),
)


def show(house_file: str, folder: Path, options: Options, progress: Progress) -> Shown:
    """The house from above, what each kind of file holds, and where drawn and counted amounts differ."""
    del folder
    opened = open_house(house_file)
    house, system = opened.house, system_of(options)
    blocks: list[Block] = [
        Heading(text="What a file holds", level=2),
        *(Figure(sheet=axonometric_sheet(vault_form(house, vault))) for vault in house.vaults),
        *(Figure(sheet=dome_section(dome_form(dome), system=system)) for dome in house.domes),
        Table(head=("file", "holds"), rows=tuple((name.upper(), words) for name, words in KINDS), align="ll"),
    ]
    for vault in house.vaults:
        progress(f"bodies of {vault.name}")
        blocks += _bodies(house, vault, system)
    return Shown(
        document=Document(
            title="Models and lists",
            subtitle="",
            house=house.name,
            revision=revision_of(opened),
            date=day(None),
            mark=NOT_REVIEWED,
            blocks=tuple(blocks),
            system=system,
        ),
        facts={"ifc": find_spec("ifcopenshell") is not None},
        says="The same house as bodies: what is drawn, counted and given away is one model.",
    )


def _bodies(house: House, vault: Vault, system: str) -> Iterator[Block]:
    """Amounts by both ways, and why they differ as built."""
    form = vault_form(house, vault)
    rows = compared(house, vault, form, vault_solids(house, vault, form))
    yield Heading(text=f"Bodies and take-off of {plain(vault.name)}", level=2)
    yield Table(
        head=("amount", "take-off", "bodies along its lines", "as built"),
        rows=tuple(
            (
                row.name,
                *(shown(value, row.unit, 2, system) for value in (row.taken_off, row.bodies, row.true)),
            )
            for row in rows
        ),
    )
    apart = tuple(differing(row, system) for row in rows if row.differs)
    yield Points(items=apart) if apart else Para("No amount differs as built.")


def make(house_file: str, folder: Path, out: str, options: Options, progress: Progress) -> Made:
    """One file, its kind told by its ending."""
    del folder
    order = ModelOrder(
        out=out, system=system_of(options), scale=_scale(options), metres=ticked(options, "metres")
    )
    made = model_file(house_file, order, progress)
    return Made(files=((made.path, made.content),), says=made.says)


def _scale(options: Options) -> float:
    text = words_of(options, "scale") or "20"
    try:
        return float(text.removeprefix("1:"))
    except ValueError:
        raise AskedWrongError(f'scale: "{text[:20]}" is no scale such as 1:20.') from None
