"""The chapters on the house as a whole, in order; each is made from the assessment alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.book.pages.compass import compass_chapter
from bermwright.book.pages.damp import damp_chapter
from bermwright.book.pages.escape import escape_chapter
from bermwright.book.pages.forms import forms_chapter
from bermwright.book.pages.lasting import lasting_chapter
from bermwright.book.pages.openings import openings_chapter
from bermwright.book.pages.room import room_chapter
from bermwright.book.pages.setting_out.daily.rounds import rounds_chapter
from bermwright.book.pages.supports import supports_chapter
from bermwright.book.pages.whole import balance_chapter, raising_chapter

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from bermwright.base.document import Block
    from bermwright.rules.assess import Assessment

CHAPTERS: tuple[Callable[[Assessment, str], Iterable[Block]], ...] = (
    supports_chapter,
    room_chapter,
    raising_chapter,
    balance_chapter,
    openings_chapter,
    rounds_chapter,
    compass_chapter,
    forms_chapter,
    escape_chapter,
    damp_chapter,
    lasting_chapter,
)
"""Each is given the assessment and the system of units; one that has nothing to say gives nothing."""


def house_chapters(assessment: Assessment, system: str) -> tuple[Block, ...]:
    """All of them."""
    return tuple(block for chapter in CHAPTERS for block in chapter(assessment, system))
