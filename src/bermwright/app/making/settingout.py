"""Setting a house out: pegs, heights, dig, curves; sheets for each day of work; points and readings in."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from bermwright.app.assessing import quiet
from bermwright.app.drawing import CORNER, not_checked
from bermwright.app.making.templating import numbered
from bermwright.app.opening import open_house, revision_of
from bermwright.app.outside.clock import day
from bermwright.app.outside.files import beside, output, write_bytes
from bermwright.app.outside.points import content_of, points_beside
from bermwright.book.pages.setting_out import day_sheets, setout_document
from bermwright.book.pages.setting_out.daily.rounds import round_days
from bermwright.book.sheets import Placed, TitleBlock, frame_sheet
from bermwright.book.sheets.jigs import jig_sheets
from bermwright.book.sheets.setout import Shows, between_sheet, curve_sheet, ladder_sheet, plan_sheet
from bermwright.form import vault_form
from bermwright.form.setout import (
    SetOutError,
    compare_ordinates,
    reduce_readings,
    round_out,
    setting_out,
    surveyed,
    tape_of,
)
from bermwright.form.setout.parts import parts_between
from bermwright.formats.drawings import dxf, pdf, svg
from bermwright.formats.survey import read_ordinates, read_points, read_readings
from bermwright.rules.registry import NOT_CHECKED
from bermwright.takeoff.digging import balance_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from bermwright.base.document import Document
    from bermwright.base.drawing import Sheet
    from bermwright.form.setout import Levels, MeasuredRow, RoundOut, SetOut, SurveyPoint
    from bermwright.form.setout.parts import Between
    from bermwright.formats.house_file import Opened
    from bermwright.house import House
    from bermwright.takeoff.digging import Balance

ENDINGS = (".pdf", ".svg", ".dxf")


@dataclass(frozen=True, slots=True, kw_only=True)
class SetOutWishes:
    """How a house is to be set out."""

    out: str | None = None
    """A file of sheets, where that is asked for."""
    date: str | None = None
    system: str = "metric"
    vault: str | None = None
    points: str | None = None
    """A survey that counts instead of that of the file."""
    middle: str | None = None
    """The point of the survey over which the middle of the house stands, instead of that of the file."""
    levels: str | None = None
    """Readings of a water level."""
    datum: str | None = None
    ordinates: str | None = None
    """Ordinates measured on the curve."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeSetOut:
    """What is to be set out, and the sheets that are ready but not written yet."""

    house: str
    outs: tuple[tuple[SetOut, Balance | None], ...]
    rounds: tuple[RoundOut, ...]
    levels: Levels | None
    measured: tuple[MeasuredRow, ...]
    between: Between | None
    document: Document
    files: tuple[tuple[Path, bytes], ...]
    sheets: int

    @property
    def counted(self) -> str:
        """How many sheets there are, in words."""
        return "1 sheet" if self.sheets == 1 else f"{self.sheets} sheets"

    def write(self) -> tuple[Path, ...]:
        """Put the sheets on disk."""
        return tuple(write_bytes(path, content) for path, content in self.files)


def set_out_file(
    house_file: str, wishes: SetOutWishes, progress: Callable[[str], None] = quiet
) -> MadeSetOut:
    """Everything that a house file is set out by."""
    path = output(wishes.out, beside(house_file, "setout", ".pdf"), ENDINGS) if wishes.out else None
    date = day(wishes.date)
    opened = open_house(house_file)
    house = _with_points(opened.house, wishes)
    progress("setting out")
    rounds = _rounds(house, wishes)
    outs = tuple(_outs(house, wishes, Path(house_file).parent, rounds))
    levels = _levels(wishes)
    measured = _measured(outs, wishes)
    between = parts_between(house)
    document = setout_document(
        outs,
        house=house.name,
        revision=revision_of(opened),
        date=date,
        system=wishes.system,
        levels=levels,
        measured=measured,
        between=between,
        rounds=rounds,
    )
    sheets: tuple[Sheet, ...] = ()
    if path is not None:
        progress("sheets")
        sheets = tuple(_sheets(opened, outs, rounds, date, wishes.system, between))
    return MadeSetOut(
        house=house.name,
        outs=outs,
        rounds=rounds,
        levels=levels,
        measured=measured,
        between=between,
        document=document,
        files=_files(path, sheets, date) if path is not None else (),
        sheets=len(sheets),
    )


def _with_points(house: House, wishes: SetOutWishes) -> House:
    from bermwright.house import Survey

    told = house.survey.middle if house.survey is not None else None
    middle = wishes.middle or told
    if wishes.points is None:
        if wishes.middle is not None and house.survey is None:
            raise SetOutError("--middle names a point of a survey: give --points FILE, or [survey].")
        return replace(house, survey=replace(house.survey, middle=middle)) if house.survey else house
    return replace(house, survey=Survey(points=str(Path(wishes.points).absolute()), middle=middle))


def _points(house: House, wishes: SetOutWishes, folder: Path) -> tuple[tuple[SurveyPoint, ...] | None, str]:
    """The points that were asked for by name, from wherever they lie; else those of the file, beside it."""
    if wishes.points is None:
        return points_beside(house, folder)
    path = Path(wishes.points)
    return read_points(path.name, content_of(path), house.site.latitude), path.name


def _rounds(house: House, wishes: SetOutWishes) -> tuple[RoundOut, ...]:
    """Every dome, or the one that was named."""
    return tuple(
        round_out(house, dome, tape=tape_of(wishes.system))
        for dome in house.domes
        if wishes.vault in {None, dome.name}
    )


def _outs(
    house: House, wishes: SetOutWishes, folder: Path, rounds: tuple[RoundOut, ...]
) -> Iterator[tuple[SetOut, Balance | None]]:
    vaults = tuple(vault for vault in house.vaults if wishes.vault in {None, vault.name})
    if not vaults and not rounds:
        raise SetOutError(_nothing(house, wishes.vault))
    points, name = _points(house, wishes, folder) if vaults else (None, "")
    for vault in vaults:
        form = vault_form(house, vault)
        ground = surveyed(house, vault, points, name=name) if points is not None else None
        out = setting_out(house, vault, form, ground, tape=tape_of(wishes.system))
        yield out, balance_of(house, vault, form, out)


def _nothing(house: House, name: str | None) -> str:
    """Why there is nothing to set out, and what there is."""
    there = [*(one.name for one in house.vaults), *(one.name for one in house.domes)]
    names = ", ".join(f'"{one}"' for one in there)
    has = f" It has: {names}." if names else ""
    wanted = f' "{name}"' if name else ""
    return f"{house.name} has no vault or dome{wanted} to set out.{has}"


def _levels(wishes: SetOutWishes) -> Levels | None:
    if wishes.levels is None:
        if wishes.datum is not None:
            raise SetOutError("--datum names a point of level readings: give --levels FILE too.")
        return None
    path = Path(wishes.levels)
    return reduce_readings(read_readings(path.name, content_of(path)), datum=wishes.datum)


def _measured(
    outs: tuple[tuple[SetOut, Balance | None], ...], wishes: SetOutWishes
) -> tuple[MeasuredRow, ...]:
    if wishes.ordinates is None:
        return ()
    if not outs:
        raise SetOutError(
            "Ordinates are those of a rib, and this house has no vault; see `bermwright compass`."
        )
    path = Path(wishes.ordinates)
    return compare_ordinates(outs[0][0].form, *read_ordinates(path.name, content_of(path)))


def _sheets(
    opened: Opened,
    outs: tuple[tuple[SetOut, Balance | None], ...],
    rounds: tuple[RoundOut, ...],
    date: str,
    system: str,
    between: Between | None,
) -> Iterator[Sheet]:
    """Every drawing on an A4 sheet with its title block: days, heights, arcs, tools."""
    drawings: list[tuple[str, Sheet]] = []
    if between is not None and between.parts:
        drawings.append(("Parts to each other", between_sheet(between, system=system)))
    for one in rounds:
        drawings += [(f"{sheet.title}, {one.dome}", sheet) for sheet in round_days(one, system)]
    for out, _ in outs:
        if out.survey is not None:
            drawings.append((f"Survey round {out.vault}", plan_sheet(out, Shows.GROUND, system=system)))
        drawings += [(f"{sheet.title}, {out.vault}", sheet) for sheet in day_sheets(out, system)]
        drawings.append((f"Heights of {out.vault}", ladder_sheet(out, system=system)))
        if out.curve.arcs:
            drawings.append((f"Arcs of {out.vault}", curve_sheet(out, system=system)))
        drawings += [
            (f"{sheet.title}, {out.vault}", sheet) for sheet in jig_sheets(out, opened.house, system)
        ]
    for number, (title, sheet) in enumerate(drawings, start=1):
        block = TitleBlock(
            owner=opened.house.name,
            title=title,
            number=f"D{number}",
            revision=revision_of(opened),
            date=date,
            sheet=number,
            sheets=len(drawings),
            scale=f"1:{sheet.view.scale:.0f}" if sheet.view else "",
            document_type="setting out",
            not_checked=not_checked(NOT_CHECKED),
        )
        at = (CORNER[0], CORNER[1] - sheet.height)
        yield frame_sheet((Placed(sheet=sheet, at=at),), block, size="A4")


def _files(path: Path, sheets: tuple[Sheet, ...], date: str) -> tuple[tuple[Path, bytes], ...]:
    match path.suffix.lower():
        case ".pdf":
            return ((path, pdf(*sheets, date=date)),)
        case ".dxf":
            return ((path, dxf(*sheets)),)
        case _:
            checked = numbered(path, len(sheets))
            return tuple((name, svg(sheet).encode()) for name, sheet in zip(checked, sheets, strict=True))
