"""Templates: which pieces there are, how many sheets they take, and for which printer they are made."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bermwright.app.handmade.nouns import Made, Shown, bar_of, one_of, system_of
from bermwright.app.making.templating import (
    CURVE,
    PIECES,
    TemplateWishes,
    make_templates,
    plan_templates,
    vault_pages,
)
from bermwright.app.opening import revision_of
from bermwright.base.document import Document, Figure, FullPage, Para
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.pages.inputs import BookInputs
from bermwright.book.pages.setting_out import curve_pages, rib_pages, template_pages
from bermwright.book.sheets import supports_of
from bermwright.book.templates.tiles import PAPERS
from bermwright.data.setting_out import LARGE_CURVE

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from bermwright.app.handmade.nouns import Options, Progress
    from bermwright.app.making.templating import Planned
    from bermwright.base.document import Block

FIRST = "The first sheet, smaller than it is printed. Its square is measured before anything is cut."


def wishes_of(out: str, options: Options) -> TemplateWishes:
    """What the fields ask for."""
    what = one_of(options, "what", ("", PIECES, CURVE))
    return TemplateWishes(
        what=what or None,
        out=out,
        paper=one_of(options, "paper", tuple(PAPERS)),
        printer_bar=bar_of(options),
        system=system_of(options),
    )


def show(house_file: str, folder: Path, options: Options, progress: Progress) -> Shown:
    """What there is to print, the first sheet of it, and the ribs that are cut after it."""
    progress("counting sheets")
    planned = plan_templates(house_file, wishes_of(str(folder / "shown.pdf"), options))
    house = planned.opened.house
    progress("templates")
    return Shown(
        document=Document(
            title="Templates, full size",
            subtitle="",
            house=house.name,
            revision=revision_of(planned.opened),
            date=planned.date,
            mark=NOT_REVIEWED,
            blocks=tuple(_blocks(planned)),
            system=planned.wishes.system,
        ),
        facts={"sheets": planned.sheets, "bent": [form.name for _, form in planned.forms if form.rib.bent]},
        says=f"{planned.sheets} full-size sheets on {planned.wishes.paper}.",
    )


def _blocks(planned: Planned) -> Iterator[Block]:
    house = planned.opened.house
    if planned.sheets > LARGE_CURVE.value:
        yield Para("*Quicker for so large a curve:* ordinates and a string, on the leaf of setting out.")
    book = BookInputs(
        house=house.name,
        revision=revision_of(planned.opened),
        date=planned.date,
        system=planned.wishes.system,
        paper=planned.wishes.paper,
    )
    for vault, form in planned.forms:
        bent = form.rib.bent
        curve = bent or planned.wishes.what == CURVE
        pages = replace(vault_pages(vault, form), axis=vault.axis, supports=supports_of(vault, house))
        yield from _first_sheet(
            (curve_pages if curve else template_pages)(pages, book, stretch=planned.stretch)
        )
        yield from rib_pages(pages, book)


def _first_sheet(blocks: tuple[Block, ...]) -> Iterator[Block]:
    """The words, and of all the sheets the first, as a picture."""
    sheets = [block for block in blocks if isinstance(block, FullPage)]
    yield from (block for block in blocks if not isinstance(block, FullPage))
    if sheets:
        yield Figure(sheet=sheets[0].sheet, caption=FIRST)


def make(house_file: str, folder: Path, out: str, options: Options, progress: Progress) -> Made:
    """Every template, tiled as PDF, uncut as SVG and DXF."""
    del folder
    planned = plan_templates(house_file, wishes_of(out, options))
    progress(f"{planned.sheets} full-size sheets" if planned.tiled else "full size, uncut")
    made = make_templates(planned, progress)
    says = (
        f"{made.pages} pages. Print at 100 % and measure the check square."
        if planned.tiled
        else "Full size, 1:1, in millimetres."
    )
    return Made(files=made.files, says=(says,))
