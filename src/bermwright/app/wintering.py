"""The winter of a house file: computed once, printed as text, JSON or pages."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from bermwright.adapt.winter.telling.findings import findings_of
from bermwright.adapt.winter.winter import winter_of
from bermwright.app.assessing import quiet, threads
from bermwright.app.climate import weather_of
from bermwright.app.opening import open_house, revision_of
from bermwright.app.outside.clock import day
from bermwright.app.outside.files import beside, output, write_bytes
from bermwright.app.shaping import NoVaultError, vaults_named
from bermwright.base.findings import Verdict
from bermwright.book.pages.winter import winter_document
from bermwright.formats.documents import pdf

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.adapt.winter.winter import WinterYear
    from bermwright.base.document import Document
    from bermwright.base.findings import Finding
    from bermwright.house import House

    Progress = Callable[[str], None]

GOOD = frozenset({Verdict.HOLDS, Verdict.DOES_NOT_APPLY})


@dataclass(frozen=True, slots=True, kw_only=True)
class WinterWishes:
    """How the winter is wanted."""

    vault: str | None = None
    """One vault by its name; every vault where it is not given."""
    weather: str | None = None
    """A weather file to take instead of the climate of the house file."""
    out: str | None = None
    date: str | None = None
    system: str = "metric"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wintered:
    """The year of a house, ready to be printed."""

    house: str
    years: tuple[WinterYear, ...]
    revision: str
    date: str
    system: str
    path: Path | None
    """Where the pages go; None where nobody asked for them."""

    @property
    def document(self) -> Document:
        """The pages."""
        return winter_document(self.years, revision=self.revision, date=self.date, system=self.system)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything that is said of all vaults."""
        return tuple(one for year in self.years for one in findings_of(year))

    @property
    def holds(self) -> bool:
        """Whether everything holds or does not apply."""
        return all(one.verdict in GOOD for one in self.findings)

    def write(self) -> Path | None:
        """Put the pages on disk, if they are wanted."""
        if self.path is None:
            return None
        return write_bytes(self.path, pdf(self.document, date=self.date))


def winter_file(house_file: str, wishes: WinterWishes, progress: Progress = quiet) -> Wintered:
    """The year of one vault or of every vault of a house file. Ctrl-C ends it."""
    path = None if wishes.out is None else output(wishes.out, beside(house_file, "winter", ".pdf"), (".pdf",))
    date = day(wishes.date)
    opened = open_house(house_file)
    house, folder = opened.house, Path(house_file).parent
    if wishes.weather is not None:
        house, folder = replace(house, site=replace(house.site, climate=wishes.weather)), Path()
    years = winter_years(house, folder, wishes.vault, progress)
    return Wintered(
        house=house.name,
        years=years,
        revision=revision_of(opened),
        date=date,
        system=wishes.system,
        path=path,
    )


def winter_years(
    house: House, folder: Path, name: str | None = None, progress: Progress = quiet
) -> tuple[WinterYear, ...]:
    """The year of one vault of a house, or of all of them."""
    vaults = vaults_named(house, name)
    if not vaults:
        raise NoVaultError(f"{house.name} has no vault: there is nothing to keep warm.")
    progress("the weather of a year")
    weather = weather_of(house, folder)
    with threads() as pool:
        return tuple(winter_of(house, vault, weather, share=pool.map, progress=progress) for vault in vaults)
