"""The cut list of a house: planned once, written as pages, drawings or tables."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from bermwright.app.assessing import quiet
from bermwright.app.climate import weather_of
from bermwright.app.opening import open_house, revision_of
from bermwright.app.outside.clock import day
from bermwright.app.outside.files import beside, output, write_bytes
from bermwright.app.outside.hush import hushed
from bermwright.app.outside.kernels import cutting_is_ready, while_preparing
from bermwright.book.pages.cutting import VaultCut, cut_document, cutting_pages, wall_pages, window_pages
from bermwright.book.sheets.cutting import (
    board_sheets,
    door_sheet,
    end_wall_sheet,
    fit_sheet,
    jig_sheet,
    label_sheets,
    log_sheet,
    nail_sheet,
    rebate_sheet,
)
from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.form import vault_form
from bermwright.form.rib.nails import nailing_of
from bermwright.formats.cut_lists import cut_csv, cut_xlsx, plan_data
from bermwright.formats.documents import pdf
from bermwright.formats.drawings import dxf, svg
from bermwright.house import Saw
from bermwright.takeoff.cutting import NothingFitsError, end_walls, house_plan
from bermwright.takeoff.light import door_leaves, fitted, settings_of

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from bermwright.base.document import Block, Document
    from bermwright.base.drawing import Sheet
    from bermwright.form.shapes import VaultForm
    from bermwright.formats.house_file import Opened
    from bermwright.house import House, Vault
    from bermwright.takeoff.cutting import EndWall, HousePlan
    from bermwright.takeoff.light import Fitting

    Progress = Callable[[str], None]

ENDINGS = (".pdf", ".svg", ".dxf", ".csv", ".xlsx")


@dataclass(frozen=True, slots=True, kw_only=True)
class CutWishes:
    """How the cut list is wanted."""

    out: str | None = None
    date: str | None = None
    system: str = "metric"
    labels: bool = True
    """Whether a PDF ends with labels."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOut:
    """A planned cut list, ready to be printed or written."""

    opened: Opened
    plan: HousePlan
    walls: tuple[EndWall, ...]
    fitting: Fitting | None
    vaults: tuple[VaultCut, ...]
    path: Path | None
    date: str
    system: str
    labels: bool

    @property
    def document(self) -> Document:
        """The pages without labels, for the terminal."""
        return self._document(labels=False)

    @property
    def data(self) -> dict[str, Any]:
        """Everything for JSON."""
        return plan_data(self.plan, self.walls, self.fitting)

    def _document(self, *, labels: bool) -> Document:
        return cut_document(
            self.plan,
            self.blocks,
            revision=revision_of(self.opened),
            date=self.date,
            system=self.system,
            labels=labels,
        )

    @property
    def blocks(self) -> tuple[Block, ...]:
        """The pages."""
        saw = self.opened.house.saw or Saw()
        forms = [vault.form for vault in self.vaults]
        return (
            *cutting_pages(self.plan, self.vaults, log_kerf=saw.log_kerf, system=self.system),
            *wall_pages(self.walls, forms, self.system),
            *window_pages(self.opened.house, self.fitting, self.system),
        )

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """Every drawing alone."""
        saw, plan = self.opened.house.saw or Saw(), self.plan
        found = [sheet for cut in plan.lists for sheet in board_sheets(cut, plan.codes, system=self.system)]
        for vault in self.vaults:
            if not vault.form.rib.bent:
                found.append(jig_sheet(vault.form, system=self.system))
                nails = vault.nailing and nail_sheet(vault.form, vault.nailing, system=self.system)
                found += [nails] if nails else []
        for wall in self.walls:
            form = next(one.form for one in self.vaults if one.form.name == wall.vault)
            found.append(end_wall_sheet(form, wall, system=self.system))
        if self.fitting is not None:
            found.append(fit_sheet(self.fitting.matches, system=self.system))
            found += [rebate_sheet(one, system=self.system) for one in settings_of(self.fitting)]
        doors = door_leaves(self.opened.house)
        found += [door_sheet(leaves[len(leaves) // 2], system=self.system) for leaves in doors]
        if plan.logs:
            found.append(log_sheet(plan.logs, saw.log_kerf, system=self.system))
        return (*found, *(label_sheets(plan.lists, plan.codes, system=self.system) if self.labels else ()))

    def files(self) -> tuple[tuple[Path, bytes], ...]:
        """What is to be written, made in memory first."""
        if self.path is None:
            return ()
        match self.path.suffix.lower():
            case ".pdf":
                return ((self.path, pdf(self._document(labels=self.labels), date=self.date)),)
            case ".csv":
                return ((self.path, cut_csv(self.plan, self.system)),)
            case ".xlsx":
                return ((self.path, cut_xlsx(self.plan, date=self.date, system=self.system)),)
            case ".dxf":
                return ((self.path, dxf(*self.sheets)),)
            case _:
                return tuple(
                    (numbered(self.path, number), svg(sheet).encode("utf-8"))
                    for number, sheet in enumerate(self.sheets, 1)
                )

    def write(self) -> tuple[Path, ...]:
        """Put them on disk, each whole or not at all."""
        return tuple(write_bytes(path, content) for path, content in self.files())


def numbered(path: Path, number: int) -> Path:
    """One file a sheet, as an SVG holds one picture."""
    name = path.with_name(f"{path.stem}-{number}{path.suffix}")
    return output(str(name), name, (path.suffix.lower(),))


def cut_file(house_file: str, wishes: CutWishes, progress: Progress = quiet) -> CutOut:
    """Plan the cutting of a house file. Ctrl-C ends it, and nothing is written."""
    path = None if wishes.out is None else output(wishes.out, beside(house_file, "cut", ".pdf"), ENDINGS)
    date = day(wishes.date)
    opened = open_house(house_file)
    if not opened.house.vaults and not opened.house.salvaged:
        raise NothingFitsError(
            f"{opened.house.name} has no vault whose ribs are cut, and lists no windows ([[salvaged]])."
        )
    progress("the ribs")
    forms = tuple((vault, vault_form(opened.house, vault)) for vault in opened.house.vaults)
    plan = planned(opened.house, forms, progress, wishes.system)
    progress("end walls")
    return CutOut(
        opened=opened,
        plan=plan,
        walls=end_walls(opened.house, [form for _, form in forms], plan),
        fitting=windows_fitted(opened.house, Path(house_file).parent, progress, wishes.system),
        vaults=vault_cuts(forms),
        path=path,
        date=date,
        system=wishes.system,
        labels=wishes.labels,
    )


def yard_pages(
    house: House,
    forms: tuple[tuple[Vault, VaultForm], ...],
    folder: Path,
    system: str,
    progress: Progress = quiet,
) -> tuple[Block, ...]:
    """The chapter of the site book; nothing where the file lists neither boards nor windows at hand."""
    if not (house.stock or house.logs or house.salvaged):
        return ()
    shapes = [form for _, form in forms]
    plan = planned(house, forms, progress, system)
    saw = house.saw or Saw()
    return (
        *cutting_pages(plan, vault_cuts(forms), log_kerf=saw.log_kerf, system=system),
        *wall_pages(end_walls(house, shapes, plan), shapes, system),
        *window_pages(house, windows_fitted(house, folder, progress, system), system),
    )


def windows_fitted(
    house: House, folder: Path, progress: Progress = quiet, system: str = "metric"
) -> Fitting | None:
    """Salvaged windows and doors in their holes; without a climate the sun is not counted."""
    if not house.salvaged:
        return None
    progress("windows and doors")
    weather = None if house.site.climate is None else weather_of(house, folder)
    return fitted(house, weather, system)


def planned(
    house: House,
    forms: tuple[tuple[Vault, VaultForm], ...],
    progress: Progress = quiet,
    system: str = "metric",
) -> HousePlan:
    """The plan, without what the solver prints."""
    with hushed():
        return house_plan(house, forms, while_preparing(progress, cutting_is_ready), system)


def vault_cuts(forms: tuple[tuple[Vault, VaultForm], ...]) -> tuple[VaultCut, ...]:
    """Each vault with the nails of its joints, as far as they are known."""
    return tuple(
        VaultCut(form=form, nailing=nailing_of(vault, form.rib, TIMBER_CLASSES.get(vault.timber)))
        for vault, form in forms
    )
