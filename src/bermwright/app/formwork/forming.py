"""Boxes, forms and patterns of a house as text, JSON, pages, and at full size."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.app.assessing import quiet
from bermwright.app.formwork.writing import MADE, files_of
from bermwright.app.making.templating import printer_stretch
from bermwright.app.opening import open_house, revision_of
from bermwright.app.outside.clock import day
from bermwright.app.outside.files import beside, output, write_bytes
from bermwright.base.document import FullPage
from bermwright.base.errors import BermwrightError, QuantityError
from bermwright.base.units import parse_exact
from bermwright.book.pages.forms import forms_document, printed_patterns
from bermwright.book.sheets.forms import full_sheet, tiled
from bermwright.form.developed import forms_of
from bermwright.formats.documents import pdf

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from bermwright.base.document import Document
    from bermwright.form.developed import Forms, Pattern

LARGEST = 0.2
"""A settlement over this is a failure (m)."""


class NothingToCutError(BermwrightError):
    """Nothing of the house is cut after a pattern, or none is called so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FormWishes:
    """What is wanted of the forms."""

    only: str | None = None
    """Words that the name or the part of a pattern at full size must hold."""
    full_size: bool = False
    settlement: str | None = None
    paper: str = "A4"
    printer_bar: str | None = None
    """What the check square of a printed sheet measured, across and up."""
    out: str | None = None
    date: str | None = None
    system: str = "metric"


@dataclass(frozen=True, slots=True, kw_only=True)
class Formed:
    """Everything that is cut, ready to be written."""

    house: str
    forms: Forms
    document: Document
    files: tuple[tuple[Path, bytes], ...]

    def write(self) -> tuple[Path, ...]:
        """Put the files on disk, where any was asked for."""
        return tuple(write_bytes(path, content) for path, content in self.files)


def form_file(house_file: str, wishes: FormWishes, progress: Callable[[str], None] = quiet) -> Formed:
    """Every box, sheet and meeting line of a house."""
    path = None if wishes.out is None else output(wishes.out, beside(house_file, "forms", ".pdf"), MADE)
    date = day(wishes.date)
    settlement = _settlement(wishes.settlement)
    stretch = printer_stretch(wishes.printer_bar)
    opened = open_house(house_file)
    progress("patterns")
    forms = forms_of(opened.house, settlement=settlement)
    house, revision = opened.house.name, revision_of(opened)
    document = forms_document(
        forms,
        house=house,
        revision=revision,
        date=date,
        system=wishes.system,
        paper=wishes.paper,
        stretch=stretch,
    )
    files: tuple[tuple[Path, bytes], ...] = ()
    if path is not None:
        progress("drawing")
        files = _files(path, document, _wanted(forms, wishes.only), (house, revision), wishes)
    return Formed(house=house, forms=forms, document=document, files=files)


def _settlement(text: str | None) -> float | None:
    if text is None:
        return None
    value = parse_exact(text, "thickness")
    if not 0.0 <= value <= LARGEST:
        raise QuantityError(f"--settlement {text} is not from 0 mm to 200 mm; more is no settlement.")
    return float(value)


def _wanted(forms: Forms, only: str | None) -> tuple[Pattern, ...]:
    patterns = printed_patterns(forms)
    if only is None:
        return patterns
    found = tuple(one for one in patterns if only.casefold() in f"{one.name} {one.part}".casefold())
    if not found:
        names = "; ".join(one.name for one in patterns) or "none"
        raise NothingToCutError(f'No pattern is called "{only}". There are: {names}.')
    return found


def _files(
    path: Path, document: Document, patterns: tuple[Pattern, ...], stamp: tuple[str, str], wishes: FormWishes
) -> tuple[tuple[Path, bytes], ...]:
    """A PDF is the pages, with the tiles behind them where asked for; SVG and DXF are patterns at 1:1."""
    house, revision = stamp
    stretch = printer_stretch(wishes.printer_bar)
    if path.suffix.lower() == ".pdf":
        sheets = [
            sheet
            for pattern in (patterns if wishes.full_size else ())
            for sheet in tiled(pattern, wishes.paper, house=house, revision=revision, stretch=stretch)
        ]
        whole = replace(document, blocks=(*document.blocks, *(FullPage(sheet=sheet) for sheet in sheets)))
        return ((path, pdf(whole, date=document.date)),)
    if not patterns:
        raise NothingToCutError(
            "Nothing in this file is cut after a pattern: there is nothing to draw at 1:1."
        )
    drawings = tuple(full_sheet(pattern, house=house, revision=revision) for pattern in patterns)
    return files_of(path, drawings, document.date)
