"""Drawings of a house as files: section, ribs or stages on framed sheets, as PDF, SVG or DXF."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.app.assessing import assess_file, quiet
from bermwright.app.drawing.sets import WHAT, dome_sheets, set_sheets
from bermwright.app.opening import NothingToDrawError, open_house, revision_of
from bermwright.app.outside.clock import day
from bermwright.app.outside.files import beside, output, write_bytes
from bermwright.base.marks import Side, StopMark
from bermwright.book.pages.openings import end_drawings, shell_drawings
from bermwright.book.pages.supports import joint_drawing, wall_drawing
from bermwright.book.sheets import (
    Placed,
    TitleBlock,
    frame_sheet,
    rib_sheets,
    section_plate,
    stage_sheet,
    supports_of,
)
from bermwright.book.sheets.bent import bent_rib_sheet
from bermwright.book.sheets.settling import settled_in_frame
from bermwright.form import vault_form
from bermwright.formats.drawings import dxf, pdf, svg
from bermwright.formats.feet import with_levels_in_feet
from bermwright.rules.registry import NOT_CHECKED

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path
    from typing import Any

    from bermwright.base.drawing import Sheet
    from bermwright.form.shapes import VaultForm
    from bermwright.formats.house_file import Opened
    from bermwright.rules.study import Study

ENDINGS = (".pdf", ".svg", ".dxf")
WIDTH = 174.0
"""Width of a drawing on an upright A4 sheet with its filing edge (mm)."""
RIB_HEIGHT = 200.0
"""What the title block of an A4 sheet leaves (mm)."""
FIELD = 80
"""Letters that the field for what was not checked holds legibly."""
CORNER = (23.0, 284.0)
"""Upper left corner of a drawing on an A4 sheet (mm)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """Which drawing is wanted, and how."""

    what: str = "section"
    out: str | None = None
    date: str | None = None
    system: str = "metric"
    full_size: bool = False
    """A DXF at 1 : 1 instead of one of the sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """Files that are ready but not written yet."""

    files: tuple[tuple[Path, bytes], ...]
    house: str
    drawn: tuple[Sheet, ...]

    @property
    def sheets(self) -> int:
        """How many sheets there are."""
        return len(self.drawn)

    @property
    def data(self) -> dict[str, Any]:
        """What is on the sheets, for JSON."""
        return {
            "sheets": [
                {"title": one.title, "says": one.alt, "width_mm": one.width, "height_mm": one.height}
                for one in self.drawn
            ]
        }

    def write(self) -> tuple[Path, ...]:
        """Put them on disk."""
        return tuple(write_bytes(path, content) for path, content in self.files)


def draw_file(house_file: str, order: Order, progress: Callable[[str], None] = quiet) -> Drawn:
    """The wanted drawing of every vault, each sheet with its title block and the mark."""
    path = output(order.out, beside(house_file, order.what, ".pdf"), ENDINGS)
    date = day(order.date)
    sheets = _DRAWERS[order.what](house_file, order, date, progress)
    if not sheets:
        raise NothingToDrawError(_nothing(house_file, order.what))
    progress("drawing")
    if order.system == "imperial":
        sheets = with_levels_in_feet(sheets)
    sheets = tuple(map(settled_in_frame, sheets))
    house = open_house(house_file).house.name
    return Drawn(files=_files(path, sheets, order, date), house=house, drawn=sheets)


def _nothing(house_file: str, what: str) -> str:
    """Why there is no such drawing, and what there is instead."""
    if open_house(house_file).house.domes:
        return (
            f"A dome has no drawing called {what}. Of domes there are `bermwright draw --what` set, plan, "
            "section and elevations; `bermwright compass` and `bermwright forms` draw the rest."
        )
    return f"There is nothing to draw yet. `bermwright check {house_file}` says what is missing."


def _files(path: Path, sheets: tuple[Sheet, ...], order: Order, date: str) -> tuple[tuple[Path, bytes], ...]:
    match path.suffix.lower():
        case ".pdf":
            return ((path, pdf(*sheets, date=date)),)
        case ".dxf":
            return ((path, dxf(*sheets, full_size=order.full_size)),)
        case _:
            return tuple(
                (name, svg(sheet).encode("utf-8"))
                for name, sheet in zip(_numbered(path, len(sheets)), sheets, strict=True)
            )


def _numbered(path: Path, count: int) -> tuple[Path, ...]:
    """One file a sheet, as an SVG holds one picture; every name is looked at before any is written."""
    if count == 1:
        return (path,)
    names = (path.with_name(f"{path.stem}-{number}{path.suffix}") for number in range(1, count + 1))
    return tuple(output(str(name), name, (path.suffix.lower(),)) for name in names)


def _sections(house_file: str, order: Order, date: str, progress: Callable[[str], None]) -> tuple[Sheet, ...]:
    opened = open_house(house_file)
    vaults = tuple(
        section_plate(
            vault_form(opened.house, vault),
            _block(opened, f"Section of {vault.name}", f"S{number}", date),
            supports=supports_of(vault, opened.house),
            axis=vault.axis,
            system=order.system,
        )
        for number, vault in enumerate(opened.house.vaults, 1)
    )
    block = _block(opened, "", "S1", date)
    return (*vaults, *dome_sheets(opened.house, "section", block, system=order.system, progress=progress))


def _ribs(house_file: str, order: Order, date: str, _progress: Callable[[str], None]) -> tuple[Sheet, ...]:
    opened = open_house(house_file)
    drawings = [
        (f"Ribs of {vault.name}", sheet)
        for vault in opened.house.vaults
        for sheet in _rib_sheets(vault_form(opened.house, vault), order.system)
    ]
    return tuple(_framed(opened, drawings, "R", date, kind="rib"))


def _rib_sheets(form: VaultForm, system: str) -> tuple[Sheet, ...]:
    if form.rib.bent:
        return (bent_rib_sheet(form, width=WIDTH, system=system),)
    return rib_sheets(form, width=WIDTH, height=RIB_HEIGHT, system=system)


def _stages(house_file: str, order: Order, date: str, progress: Callable[[str], None]) -> tuple[Sheet, ...]:
    assessed = assess_file(house_file, progress=progress)
    drawings = [
        (f"{study.vault.name}: {stage_title}", sheet)
        for study in assessed.assessment.studies.values()
        for stage_title, sheet in _stage_sheets(study, order.system)
    ]
    return tuple(_framed(assessed.opened, drawings, "T", date, kind="stage"))


def _supports(house_file: str, order: Order, date: str, progress: Callable[[str], None]) -> tuple[Sheet, ...]:
    assessed = assess_file(house_file, progress=progress)
    drawings = [
        (f"Supports of {study.vault.name}", sheet)
        for study in assessed.assessment.studies.values()
        for sheet in (joint_drawing(study, order.system), wall_drawing(study, order.system))
        if sheet is not None
    ]
    return tuple(_framed(assessed.opened, drawings, "F", date, kind="support"))


def _openings(
    house_file: str, order: Order, date: str, _progress: Callable[[str], None]
) -> tuple[Sheet, ...]:
    opened = open_house(house_file)
    forms = [vault_form(opened.house, vault) for vault in opened.house.vaults]
    drawings = [
        (f"{sheet.title} of {form.name}", sheet)
        for form in forms
        for sheet in (
            *end_drawings(opened.house, form, order.system),
            *shell_drawings(opened.house, form, order.system),
        )
    ]
    return tuple(_framed(opened, drawings, "O", date, kind="opening"))


def _of_set(what: str) -> Callable[[str, Order, str, Callable[[str], None]], tuple[Sheet, ...]]:
    """The drawer of the whole set, or of a part of it."""

    def draw(house_file: str, order: Order, date: str, progress: Callable[[str], None]) -> tuple[Sheet, ...]:
        opened = open_house(house_file)
        block = _block(opened, "", "G1", date)
        return set_sheets(opened.house, what, block, system=order.system, progress=progress)

    return draw


_DRAWERS = {
    "section": _sections,
    "ribs": _ribs,
    "stages": _stages,
    "supports": _supports,
    "openings": _openings,
    **{what: _of_set(what) for what in WHAT},
}
KINDS = tuple(_DRAWERS)


def _stage_sheets(study: Study, system: str) -> Iterator[tuple[str, Sheet]]:
    """Every stage with the stop marks that belong to its level."""
    supports = supports_of(study.vault, study.house)
    lifts = tuple(stage.level for stage in study.stages if stage.filling and stage.level is not None)
    for stage in study.stages:
        stops = [study.stop(mark) for mark in study.marks if stage.filling and mark.level == stage.level]
        marks = tuple(StopMark(level=stop, side=side) for stop in stops if stop is not None for side in Side)
        yield (
            stage.name,
            stage_sheet(
                study.form,
                stage,
                width=WIDTH,
                lifts=lifts if stage.filling else (),
                supports=supports,
                marks=marks,
                axis=study.vault.axis,
                system=system,
            ),
        )


def _framed(
    opened: Opened, drawings: list[tuple[str, Sheet]], letter: str, date: str, *, kind: str
) -> Iterator[Sheet]:
    """Each drawing on an A4 sheet of its own."""
    for number, (title, sheet) in enumerate(drawings, 1):
        count = (number, len(drawings))
        block = _block(opened, title, f"{letter}{number}", date, kind=kind, sheet=count, drawing=sheet)
        at = (CORNER[0], CORNER[1] - sheet.height)
        yield frame_sheet((Placed(sheet=sheet, at=at),), block, size="A4")


def _block(
    opened: Opened,
    title: str,
    number: str,
    date: str,
    *,
    kind: str = "section",
    sheet: tuple[int, int] | None = None,
    drawing: Sheet | None = None,
) -> TitleBlock:
    here, count = sheet or (int(number[1:]), len(opened.house.vaults))
    return TitleBlock(
        owner=opened.house.name,
        title=title,
        number=number,
        revision=revision_of(opened),
        date=date,
        sheet=here,
        sheets=count,
        document_type=kind,
        scale=f"1:{drawing.view.scale:.0f}" if drawing and drawing.view else "",
        not_checked=not_checked(NOT_CHECKED),
    )


def not_checked(names: tuple[str, ...]) -> str:
    """What no rule covers, as far as the field of a title block holds it, and how much more there is.

    >>> not_checked(("fire, escape, flues",))
    'fire, escape, flues'
    """
    short = [name.partition(":")[0] for name in names]
    count = len(short)
    while count > 1 and len("; ".join(short[:count])) > FIELD:
        count -= 1
    rest = len(short) - count
    return "; ".join(short[:count]) + (f"; and {rest} more: see the site book" if rest else "")
