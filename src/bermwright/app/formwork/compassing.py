"""The compass of a dome as text, JSON, pages, drawings and a band that prints true."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from bermwright.app.assessing import quiet
from bermwright.app.formwork.writing import MADE, files_of
from bermwright.app.making.templating import printer_stretch
from bermwright.app.opening import open_house, revision_of
from bermwright.app.outside.clock import day
from bermwright.app.outside.files import FileError, beside, output, write_bytes
from bermwright.base.document import FullPage
from bermwright.base.errors import BermwrightError
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.pages.compass import compass_document
from bermwright.book.sheets.compass import (
    band_of_chain,
    band_of_heights,
    band_sheets,
    dome_section,
    ring_sheet,
    turns_sheet,
)
from bermwright.book.sheets.jigs import dome_tools
from bermwright.form.dome import correct, dome_form
from bermwright.formats.documents import pdf
from bermwright.formats.making import read_rings

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.base.document import Document
    from bermwright.base.drawing import Sheet
    from bermwright.form.dome import Correction, DomeForm
    from bermwright.formats.house_file import Opened
    from bermwright.house import House
    from bermwright.house.making.dome import Dome


class NoDomeError(BermwrightError):
    """The house has no dome, or none of that name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CompassWishes:
    """What is wanted of the compass."""

    dome: str | None = None
    measured: str | None = None
    """A table of radii."""
    band: bool = False
    """Whether the bands for chain and pole are added."""
    printer_bar: str | None = None
    """What the check bar of a printed band measured, across and up."""
    out: str | None = None
    date: str | None = None
    system: str = "metric"


@dataclass(frozen=True, slots=True, kw_only=True)
class Compassed:
    """The courses of every dome that was asked for, ready to be written."""

    house: str
    forms: tuple[DomeForm, ...]
    corrections: tuple[Correction, ...]
    document: Document
    files: tuple[tuple[Path, bytes], ...]

    @property
    def goes_on(self) -> bool:
        """Whether every ring that was measured can be led back and is round."""
        return all(one.goes_on for one in self.corrections)

    def write(self) -> tuple[Path, ...]:
        """Put the files on disk, where any was asked for."""
        return tuple(write_bytes(path, content) for path, content in self.files)


def compass_file(
    house_file: str, wishes: CompassWishes, progress: Callable[[str], None] = quiet
) -> Compassed:
    """Everything that the compass of a dome needs. Raises `NoDomeError` where there is none."""
    path = None if wishes.out is None else output(wishes.out, beside(house_file, "compass", ".pdf"), MADE)
    printer_stretch(wishes.printer_bar)  # refused before anything is drawn
    date = day(wishes.date)
    opened = open_house(house_file)
    progress("courses")
    forms = tuple(dome_form(dome) for dome in domes_named(opened, wishes.dome))
    corrections = _corrections(forms, wishes.measured)
    house, revision = opened.house.name, revision_of(opened)
    document = compass_document(
        forms, corrections, house=opened.house, revision=revision, date=date, system=wishes.system
    )
    files: tuple[tuple[Path, bytes], ...] = ()
    if path is not None:
        progress("pages")
        bands = _bands(forms, house, revision, date, wishes) if wishes.band else ()
        drawn = tuple(sheet for form in forms for sheet in _drawings(opened.house, form, wishes.system))
        files = _files(path, document, drawn, bands)
    return Compassed(house=house, forms=forms, corrections=corrections, document=document, files=files)


def domes_named(opened: Opened, name: str | None) -> tuple[Dome, ...]:
    """Every dome, or the one of that name."""
    domes = opened.house.domes
    if not domes:
        raise NoDomeError(
            f"{opened.house.name} has no dome. Write a [[dome]] table: `bermwright new` explains each key."
        )
    if name is None:
        return domes
    found = tuple(dome for dome in domes if dome.name == name)
    if not found:
        names = [dome.name for dome in domes]
        near = difflib.get_close_matches(name, names, n=1, cutoff=0.0)
        hint = f' Did you mean "{near[0]}"?' if near else ""
        raise NoDomeError(f'{opened.house.name} has no dome "{name}"; it has: {", ".join(names)}.{hint}')
    return found


def _corrections(forms: tuple[DomeForm, ...], table: str | None) -> tuple[Correction, ...]:
    if table is None:
        return ()
    if len(forms) != 1:
        names = ", ".join(f'"{form.name}"' for form in forms)
        raise NoDomeError(f"Say with --dome of which dome the radii are: {names}.")
    try:
        content = Path(table).read_bytes()
    except (OSError, ValueError) as error:
        raise FileError(f"{table} cannot be read: {getattr(error, 'strerror', None) or error}.") from None
    return (correct(forms[0], read_rings(Path(table).name, content)),)


def _bands(
    forms: tuple[DomeForm, ...], house: str, revision: str, date: str, wishes: CompassWishes
) -> tuple[Sheet, ...]:
    makers = (band_of_chain, band_of_heights)
    stamp = f"{house} · revision {revision} · {date} · {NOT_REVIEWED}"
    stretch = printer_stretch(wishes.printer_bar)
    return tuple(
        sheet
        for form in forms
        for maker in makers
        for sheet in band_sheets(maker(form, wishes.system), stamp, stretch=stretch)
    )


def _files(
    path: Path, document: Document, drawings: tuple[Sheet, ...], bands: tuple[Sheet, ...]
) -> tuple[tuple[Path, bytes], ...]:
    """A PDF is the pages with the bands behind them; SVG and DXF are the drawings."""
    from dataclasses import replace

    if path.suffix.lower() == ".pdf":
        whole = replace(document, blocks=(*document.blocks, *(FullPage(sheet=sheet) for sheet in bands)))
        return ((path, pdf(whole, date=document.date)),)
    return files_of(path, (*drawings, *bands), document.date)


def _drawings(house: House, form: DomeForm, system: str) -> tuple[Sheet, ...]:
    return (
        dome_section(form, system=system),
        ring_sheet(form, form.courses[0], system=system),
        turns_sheet(form),
        *dome_tools(house, form, system),
    )
