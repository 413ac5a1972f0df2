"""The site book as PDF: made in memory, written in one go."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.app.assessing import assess_file, holds, quiet
from bermwright.app.opening import revision_of
from bermwright.app.outside.clock import day
from bermwright.app.outside.files import beside, output, write_bytes
from bermwright.base.document import FullPage
from bermwright.book.pages import site_book
from bermwright.book.pages.gather import gather
from bermwright.formats.documents import pdf
from bermwright.rules.registry import EVERY_RULE
from bermwright.takeoff import site_seasons

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from bermwright.app.assessing import Assessed
    from bermwright.base.document import Block, Document
    from bermwright.book.pages import BookInputs
    from bermwright.form.setout import SurveyPoint


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """How a book is wanted."""

    out: str | None = None
    date: str | None = None
    """ISO date; today where it is not given."""
    paper: str = "A4"
    system: str = "metric"
    templates: bool = True
    also: tuple[str, ...] = ()
    """Chapters that are searched for and not only printed, by name: see `ALSO`."""
    folder: str = "."
    """Where files that the house file names are looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A PDF that is ready but not written yet."""

    path: Path
    content: bytes
    template_sheets: int
    paper: str
    holds: bool
    """Whether every finding of the house holds or does not apply."""

    @property
    def pages(self) -> int:
        """How many pages it has."""
        return page_count(self.content)

    def write(self) -> Path:
        """Put it on disk, whole or not at all."""
        return write_bytes(self.path, self.content)


def make_book(house_file: str, wishes: Wishes, progress: Callable[[str], None] = quiet) -> Made:
    """The whole site book of a house file."""
    path = output(wishes.out, beside(house_file, "book", ".pdf"), (".pdf",))
    date = day(wishes.date)
    assessed = assess_file(house_file, progress=progress)
    wishes = replace(wishes, folder=str(beside(house_file, "book", ".pdf").parent))
    searched = tuple(block for name in wishes.also for block in ALSO[name](assessed, wishes, progress))
    extra = (*_yard(assessed, wishes, progress), *searched)
    progress("pages")
    book = site_book(inputs_of(assessed, wishes, date, extra), templates=wishes.templates)
    progress("PDF")
    return _made(book, path, wishes, assessed)


def _yard(assessed: Assessed, wishes: Wishes, progress: Callable[[str], None]) -> tuple[Block, ...]:
    """What is cut from the boards at hand, where the file lists any."""
    from pathlib import Path

    from bermwright.app.cutting import yard_pages

    forms = tuple((study.vault, study.form) for study in assessed.assessment.studies.values())
    return yard_pages(assessed.opened.house, forms, Path(wishes.folder), wishes.system, progress)


def _shape(assessed: Assessed, wishes: Wishes, progress: Callable[[str], None]) -> tuple[Block, ...]:
    """The advice on the curve of every vault."""
    from bermwright.app.shaping import advices_of
    from bermwright.book.pages.shape import shape_pages

    advices = advices_of(assessed.opened.house, progress=progress)
    return tuple(block for advice in advices for block in shape_pages(advice, wishes.system))


def _winter(assessed: Assessed, wishes: Wishes, progress: Callable[[str], None]) -> tuple[Block, ...]:
    """The year of every vault: warmth, wood and frost."""
    from pathlib import Path

    from bermwright.adapt.winter.room.known import WinterUnknownError
    from bermwright.app.wintering import winter_years
    from bermwright.base.document import Heading, Notice, plain
    from bermwright.book.pages.winter import winter_pages

    try:
        years = winter_years(assessed.opened.house, Path(wishes.folder), progress=progress)
    except WinterUnknownError as error:
        lines = (plain(str(error)),)
        return (Heading(text="The year"), Notice(kind="caution", lines=lines))
    return tuple(block for year in years for block in winter_pages(year, wishes.system))


def _mend(assessed: Assessed, wishes: Wishes, progress: Callable[[str], None]) -> tuple[Block, ...]:
    """What would make it hold: the first failing finding in the order of building."""
    from bermwright.app.mending import mended_first
    from bermwright.book.pages.mend import mend_pages

    mends, waiting = mended_first(assessed.assessment, progress)
    return mend_pages(assessed.opened.house.name, mends, waiting, wishes.system)


def _plans(assessed: Assessed, wishes: Wishes, progress: Callable[[str], None]) -> tuple[Block, ...]:
    """Plans and elevations of every vault, drawn from its bodies."""
    from bermwright.book.pages.plans import plans_chapter

    progress("plans")
    return tuple(plans_chapter(assessed.assessment, wishes.system))


ALSO: Mapping[str, Callable[[Assessed, Wishes, Callable[[str], None]], tuple[Block, ...]]] = {
    "shape": _shape,
    "winter": _winter,
    "mend": _mend,
    "plans": _plans,
}
"""Chapters that a book holds only when asked for, as each takes a search of its own."""


def inputs_of(assessed: Assessed, wishes: Wishes, date: str, extra: tuple[Block, ...] = ()) -> BookInputs:
    """What the pages read, with the winter of the site."""
    seasons = site_seasons(assessed.opened.house)
    return gather(
        assessed.assessment,
        rules=EVERY_RULE,
        revision=revision_of(assessed.opened),
        date=date,
        seasons=seasons.sentences(wishes.system) if seasons else (),
        cites=seasons.cites if seasons else (),
        system=wishes.system,
        paper=wishes.paper,
        extra=extra,
        points=_points(assessed, wishes),
    )


def _points(assessed: Assessed, wishes: Wishes) -> tuple[SurveyPoint, ...] | None:
    """Surveyed points of the ground, where the house file names a file of them."""
    from pathlib import Path

    from bermwright.app.outside.points import points_beside

    return points_beside(assessed.opened.house, Path(wishes.folder))[0]


def template_sheets(document: Document) -> int:
    """How many full-size sheets a document holds."""
    return sum(isinstance(block, FullPage) for block in document.blocks)


def _made(document: Document, path: Path, wishes: Wishes, assessed: Assessed) -> Made:
    return Made(
        path=path,
        content=pdf(document, date=document.date),
        template_sheets=template_sheets(document),
        paper=wishes.paper,
        holds=holds(assessed.assessment),
    )


def page_count(content: bytes) -> int:
    """Pages of a PDF, by its own page tree.

    >>> page_count(b"<< /Type /Pages /Count 2 >> << /Type /Page >> << /Type /Page >>")
    2
    """
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", content))
