"""Full-size templates alone: tiled for a printer, or uncut for plotters and other programs."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.app.assessing import quiet
from bermwright.app.booking import page_count
from bermwright.app.opening import NothingToDrawError, open_house, revision_of
from bermwright.app.outside.clock import day
from bermwright.app.outside.files import beside, output, write_bytes
from bermwright.base.document import Document, FullPage
from bermwright.base.errors import BermwrightError
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.pages.inputs import BookInputs, VaultPages
from bermwright.book.pages.setting_out import curve_pages, template_pages
from bermwright.book.templates import (
    TRUE,
    Lengths,
    Stamp,
    curve_count,
    patterns,
    template_count,
    whole_curves,
    whole_templates,
)
from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.form import FormUnknownError, vault_form
from bermwright.form.rib.nails import nail_sets, nailing_of
from bermwright.formats.documents import pdf
from bermwright.formats.drawings import dxf, svg

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path
    from typing import Any

    from bermwright.base.drawing import Point, Sheet
    from bermwright.book.templates import Nailing, Pattern
    from bermwright.form.rib.nails import NailSet
    from bermwright.form.shapes import VaultForm
    from bermwright.formats.house_file import Opened
    from bermwright.house import Vault

ENDINGS = (".pdf", ".svg", ".dxf")
BAR = 100.0
"""What the check square measures where a printer is true (mm)."""
LEAST, MOST = 97.0, 103.0
"""A printer outside these fits to the page, or the wrong thing was measured (mm)."""
_PAIR = re.compile(r"\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*[,;x×]\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*$")
PIECES, CURVE = "pieces", "curve"


class PrinterError(BermwrightError, ValueError):
    """A printer on which no template can print true."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TemplateWishes:
    """Which templates are wanted, and for which printer."""

    what: str | None = None
    """`pieces` or `curve`; pieces unless the ribs are of bent boards."""
    out: str | None = None
    date: str | None = None
    paper: str = "A4"
    printer_bar: str | None = None
    """What the check square measured, across and up, such as `100.6,99.8`."""
    system: str = "metric"


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """What there is to print, known before anything is drawn."""

    opened: Opened
    forms: tuple[tuple[Vault, VaultForm], ...]
    path: Path
    date: str
    wishes: TemplateWishes
    stretch: Point
    sheets: int

    @property
    def tiled(self) -> bool:
        """Whether it is cut into sheets."""
        return self.path.suffix.lower() == ".pdf"


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeTemplates:
    """Templates that are ready but not written yet."""

    files: tuple[tuple[Path, bytes], ...]
    pages: int

    def write(self) -> tuple[Path, ...]:
        """Put them on disk, whole or not at all."""
        return tuple(write_bytes(path, content) for path, content in self.files)


def plan_templates(house_file: str, wishes: TemplateWishes) -> Planned:
    """Count the sheets; refused where a printer cannot print true or nothing is known to draw."""
    path = output(wishes.out, beside(house_file, "templates", ".pdf"), ENDINGS)
    date = day(wishes.date)
    stretch = printer_stretch(wishes.printer_bar)
    opened = open_house(house_file)
    forms = tuple((vault, _form(opened, vault)) for vault in opened.house.vaults)
    if not forms:
        domes = " Of domes, `bermwright compass --band` and `bermwright forms --full-size` print true."
        raise NothingToDrawError(
            "There is no template to draw yet: the file has no vault." + (domes if opened.house.domes else "")
        )
    planned = Planned(
        opened=opened, forms=forms, path=path, date=date, wishes=wishes, stretch=stretch, sheets=0
    )
    counts = sum(_count(form, planned) for _, form in forms)
    return Planned(
        opened=opened, forms=forms, path=path, date=date, wishes=wishes, stretch=stretch, sheets=counts
    )


def templates_data(planned: Planned, made: MadeTemplates) -> dict[str, Any]:
    """What is printed, for JSON: the paper, how it is stretched, and every pattern with its pieces."""
    return {
        "paper": planned.wishes.paper if planned.tiled else None,
        "sheets": planned.sheets if planned.tiled else made.pages,
        "stretch": list(planned.stretch),
        "vaults": [
            {
                "vault": vault.name,
                "what": _what(form, planned.wishes),
                "patterns": [_pattern_data(vault, form, pattern) for pattern in patterns(form.rib)]
                if _what(form, planned.wishes) == PIECES
                else [],
            }
            for vault, form in planned.forms
        ],
    }


def _pattern_data(vault: Vault, form: VaultForm, pattern: Pattern) -> dict[str, Any]:
    flat, nailing = pattern.flat, _nailing(vault, form)
    return {
        "pieces": list(pattern.names),
        "turned_over": list(pattern.turned),
        "each_rib": pattern.per_rib,
        "ribs": form.ribs,
        "chord_m": flat.chord,
        "outline_m": [list(point) for point in flat.points],
        "nails": None if nailing is None else [_nails_data(one) for one in nail_sets(pattern, nailing)],
        "nailed": list(pattern.nailed),
    }


def _nails_data(one: NailSet) -> dict[str, Any]:
    return {"layers": list(one.layers), "at_m": [list(spot) for spot in one.spots]}


def printer_stretch(bar: str | None) -> Point:
    """Sheet millimetres that a printer prints as a true one, from what its check square measured.

    >>> printer_stretch("100.0,98.0")[0]
    1.0
    """
    if bar is None:
        return TRUE
    found = _PAIR.match(bar)
    if found is None:
        raise PrinterError(
            f"{bar!r} are no two measures. Print one sheet, measure its check square across and up, and "
            "write both in millimetres: --printer-bar 100.6,99.8"
        )
    across, up = float(found[1]), float(found[2])
    wrong = [
        f"{value:g} mm {way}" for value, way in ((across, "across"), (up, "up")) if not LEAST <= value <= MOST
    ]
    if wrong:
        raise PrinterError(
            f"A check square of {' and '.join(wrong)} is no printer that can be corrected: {LEAST:g} to "
            f"{MOST:g} mm can. It fits to the page: choose 100 %, or set the curve out by its ordinates "
            "(`bermwright setout FILE`). Nothing was written."
        )
    return BAR / across, BAR / up


def _form(opened: Opened, vault: Vault) -> VaultForm:
    try:
        return vault_form(opened.house, vault)
    except FormUnknownError as error:
        raise NothingToDrawError(f"There is no template to draw yet. {error}") from None


def _what(form: VaultForm, wishes: TemplateWishes) -> str:
    if wishes.what == PIECES and form.rib.bent:
        raise NothingToDrawError(
            f"There is no template of the pieces of {form.name}: its boards are bent over a form. "
            "Take --what curve."
        )
    return wishes.what or (CURVE if form.rib.bent else PIECES)


def _count(form: VaultForm, planned: Planned) -> int:
    counting = template_count if _what(form, planned.wishes) == PIECES else curve_count
    return counting(form, planned.wishes.paper, stretch=planned.stretch)


def make_templates(planned: Planned, progress: Callable[[str], None] = quiet) -> MadeTemplates:
    """Draw what was planned."""
    progress("templates")
    if not planned.tiled:
        return _uncut(planned)
    pages = tuple(vault_pages(vault, form) for vault, form in planned.forms)
    blocks = tuple(
        block
        for (_, form), page in zip(planned.forms, pages, strict=True)
        for block in (template_pages if _what(form, planned.wishes) == PIECES else curve_pages)(
            page, _book(planned), stretch=planned.stretch
        )
    )
    progress("PDF")
    document = Document(
        title="Templates, full size",
        subtitle="",
        house=planned.opened.house.name,
        revision=revision_of(planned.opened),
        date=planned.date,
        mark=NOT_REVIEWED,
        blocks=blocks,
        system=planned.wishes.system,
    )
    drawn = sum(isinstance(block, FullPage) for block in blocks)
    assert drawn == planned.sheets  # noqa: S101  (what was said is what is printed)
    content = pdf(document, date=planned.date)
    return MadeTemplates(files=((planned.path, content),), pages=page_count(content))


def _book(planned: Planned) -> BookInputs:
    return BookInputs(
        house=planned.opened.house.name,
        revision=revision_of(planned.opened),
        date=planned.date,
        system=planned.wishes.system,
        paper=planned.wishes.paper,
    )


def numbered(path: Path, count: int) -> tuple[Path, ...]:
    """One file a sheet, as an SVG holds one picture; every name is looked at before any is written."""
    if count == 1:
        return (path,)
    names = [path.with_name(f"{path.stem}-{number}{path.suffix}") for number in range(1, count + 1)]
    return tuple(output(str(name), name, (path.suffix.lower(),)) for name in names)


def vault_pages(vault: Vault, form: VaultForm) -> VaultPages:
    """What pages of templates ask of a vault, with the nails that the rules check."""
    return VaultPages(
        name=vault.name,
        form=form,
        curve=str(vault.curve),
        stages=(),
        stage_ratio={},
        nailing=_nailing(vault, form),
    )


def _nailing(vault: Vault, form: VaultForm) -> Nailing | None:
    """The nail pattern that the rules check; None where the file leaves it open."""
    return nailing_of(vault, form.rib, TIMBER_CLASSES.get(vault.timber))


def _uncut(planned: Planned) -> MadeTemplates:
    """Every template at 1:1 on a sheet of its own, for plotters, saws and other programs."""
    stamp = Stamp(house=planned.opened.house.name, revision=revision_of(planned.opened), mark=NOT_REVIEWED)
    sheets: list[Sheet] = []
    lengths = Lengths(system=planned.wishes.system)
    for vault, form in planned.forms:
        if _what(form, planned.wishes) == PIECES:
            nailing = _nailing(vault, form)
            sheets += whole_templates(form, stamp=stamp, nailing=nailing, lengths=lengths)
        else:
            sheets += whole_curves(form, stamp=stamp, lengths=lengths)
    if planned.path.suffix.lower() == ".dxf":
        return MadeTemplates(files=((planned.path, dxf(*sheets)),), pages=len(sheets))
    names = numbered(planned.path, len(sheets))
    files = tuple((name, svg(sheet).encode("utf-8")) for name, sheet in zip(names, sheets, strict=True))
    return MadeTemplates(files=files, pages=len(sheets))
