"""A document as data: what the book layer makes and each document format writes.

A backend is one file with one `match` that ends in `assert_never`; backends hold no arithmetic.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bermwright.base.drawing import Sheet
    from bermwright.base.findings import Finding, Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A heading; level 1 starts a chapter on a new page and stands in the contents, level 0 is a title."""

    text: str
    """With the marks of running text, but in one voice: a name goes through `plain` here too."""
    level: int = 1
    lead: str = ""
    """One italic line under it: what next."""


@dataclass(frozen=True, slots=True)
class Para:
    """Running text. `*word*` is strong, `_word_` is emphasised; nothing else is markup.

    Text that comes from a house file goes through `plain` first, so that its own marks stay marks.
    """

    text: str
    small: bool = False
    """Small print: on what a page rests, where its working is."""


def plain(text: str) -> str:
    """Text without any emphasis, for words that somebody else chose (names, notes)."""
    return "".join(ESCAPE + letter if letter in ("*", "_", ESCAPE) else letter for letter in text)


ESCAPE = "\\"
"""Stands before a `*` or `_` that is meant as itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Headline:
    """The sentence a reader sees first: a sign, what holds or does not, then what next."""

    verdict: Verdict
    text: str
    lead: str = ""


@dataclass(frozen=True, slots=True)
class Contents:
    """The list of chapters with their pages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Points:
    """A list; numbered when the order matters."""

    items: tuple[str, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows of text. A cell that is exactly `BLANK` is an empty box to write in."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    align: str = ""
    """One letter a column: `l` or `r`; empty means first left, the rest right."""
    caption: str = ""
    strong: tuple[int, ...] = ()
    """Columns whose figures are the answer."""
    widths: tuple[float, ...] = ()
    """Share of the width of each column, 0 for as wide as its text; empty means a fair guess."""


BLANK = "\x00blank"


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A drawing placed at its true size (its sheet's millimetres)."""

    sheet: Sheet
    caption: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FullPage:
    """A drawing that is a whole page of its own: a template tile or a plate, printed 1:1."""

    sheet: Sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """A boxed notice. `stop` is the red one; `caution` guards a dangerous step."""

    kind: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingBlock:
    """A finding as a sentence with its sign; with its working when wanted."""

    finding: Finding
    working: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SignatureLine:
    """Blank lines to sign on, each with its label under it."""

    labels: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PageBreak:
    """A new page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """Two columns of blocks side by side; `left_share` of the width for the left one."""

    left: tuple[Block, ...]
    right: tuple[Block, ...]
    left_share: float = 0.43


Block = (
    Heading
    | Headline
    | Contents
    | Para
    | Points
    | Table
    | Figure
    | FullPage
    | Notice
    | FindingBlock
    | SignatureLine
    | PageBreak
    | Columns
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """A whole document with what stands in its running head and foot."""

    title: str
    subtitle: str
    house: str
    revision: str
    date: str
    """ISO date, given from outside so that the same input and date print the same bytes."""
    mark: str
    """The mark on every structural page: "calculation aid, not reviewed"."""
    blocks: tuple[Block, ...]
    system: str = "metric"
