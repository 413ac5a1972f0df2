"""A document as plain text for the terminal: the same words as on paper, signs as words."""

from __future__ import annotations

import textwrap
import unicodedata
from typing import TYPE_CHECKING, assert_never

from bermwright.base.document import (
    BLANK,
    Columns,
    Contents,
    Figure,
    FindingBlock,
    FullPage,
    Heading,
    Headline,
    Notice,
    PageBreak,
    Para,
    Points,
    SignatureLine,
    Table,
)
from bermwright.base.wording import finding_words
from bermwright.formats.documents.inline import words
from bermwright.formats.feet import in_units_of

if TYPE_CHECKING:
    from bermwright.base.document import Block, Document
    from bermwright.base.drawing import Sheet
    from bermwright.base.findings import Finding

WIDTH = 92
_BOX = "[      ]"
_WIDEST_CELL = 44


def text(document: Document) -> str:
    """The document as lines of text."""
    document = in_units_of(document)
    revision = f"revision {document.revision}, {document.date}" if document.revision else document.date
    head = [
        _clean(line) for line in (document.house, document.title, document.subtitle, revision, document.mark)
    ]
    body = [line for item in document.blocks for line in lines(item, document.system)]
    return "\n".join([*(line for line in head if line), *body, ""])


def lines(item: Block, system: str = "metric") -> list[str]:
    """The lines of one block, an empty one before it."""
    match item:
        case Heading():
            return _heading(item)
        case Headline():
            return ["", *_wrap(f"{item.verdict.upper()}  {words(item.text)}"), *_wrap(words(item.lead))]
        case Para():
            return ["", *_wrap(words(item.text))]
        case Points():
            marks = [f"{number}. " if item.numbered else "- " for number in range(1, len(item.items) + 1)]
            return [
                "",
                *(
                    line
                    for mark, point in zip(marks, item.items, strict=True)
                    for line in _wrap(words(point), mark)
                ),
            ]
        case Table():
            return _table(item)
        case Figure():
            return _sheet("drawing", item.sheet, item.caption)
        case FullPage():
            return _sheet("full-size sheet", item.sheet, "")
        case Notice():
            return [
                "",
                *(line for said in item.lines for line in _wrap(words(said), f"{item.kind.upper()} | ")),
            ]
        case FindingBlock():
            return _finding(item.finding, system, working=item.working)
        case SignatureLine():
            return ["", *(f"{_clean(label)}: {'_' * 24}" for label in item.labels)]
        case Columns():
            return [line for part in (*item.left, *item.right) for line in lines(part, system)]
        case Contents() | PageBreak():
            return []
        case _:
            assert_never(item)


def _clean(said: str) -> str:
    """Text without control characters: a name in a file must not steer the terminal."""
    kept = "".join(" " if unicodedata.category(letter) in {"Cc", "Zl", "Zp"} else letter for letter in said)
    return "".join(letter for letter in kept if unicodedata.category(letter) not in {"Cf", "Cs"})


def _wrap(said: str, mark: str = "") -> list[str]:
    return textwrap.wrap(
        _clean(said), WIDTH, initial_indent=mark, subsequent_indent=" " * len(mark), break_on_hyphens=False
    )


def _heading(item: Heading) -> list[str]:
    title = _clean(words(item.text))
    under = {0: "#", 1: "=", 2: "-"}.get(item.level, "")
    return ["", title, *([under * min(len(title), WIDTH)] if under else []), *_wrap(words(item.lead))]


def _sheet(kind: str, sheet: Sheet, caption: str) -> list[str]:
    said = ". ".join(part for part in (sheet.title, sheet.alt, words(caption)) if part)
    return ["", *_wrap(f"[{kind}: {said}]")]


def _table(table: Table) -> list[str]:
    rows = [[_BOX if cell == BLANK else _clean(words(cell)) for cell in row] for row in table.rows]
    head = [[_clean(title) for title in table.head]] if any(table.head) else []
    columns = zip(*head, *rows, strict=True)
    widths = [min(_WIDEST_CELL, max(1, *map(len, column))) for column in columns]
    letters = table.align or "l" + "r" * (len(widths) - 1)
    printed = [line for row in head for line in _row(row, widths, letters)]
    printed += ["  ".join("-" * width for width in widths)] if head else []
    printed += [line for row in rows for line in _row(row, widths, letters)]
    return ["", *_wrap(words(table.caption)), *printed]


def _row(row: list[str], widths: list[int], letters: str) -> list[str]:
    """One row of a table; a cell that is too long takes several lines."""
    cells = [textwrap.wrap(cell, width) or [""] for cell, width in zip(row, widths, strict=True)]
    tall = max(map(len, cells))
    filled = [cell + [""] * (tall - len(cell)) for cell in cells]
    return [
        "  ".join(
            part.rjust(width) if letter == "r" else part.ljust(width)
            for part, width, letter in zip(line, widths, letters, strict=True)
        ).rstrip()
        for line in zip(*filled, strict=True)
    ]


def _finding(finding: Finding, system: str, *, working: bool) -> list[str]:
    said = finding_words(finding, system)
    ratio = f"  ({said.ratio})" if said.ratio else ""
    corner = f"governing: {said.corner}" if said.corner else ""
    found = ["", *_wrap(f"{said.says}{ratio}", f"{said.verdict.upper():<15}")]
    for part in (said.where, corner, said.advice, said.doubt):
        found += _wrap(part, " " * 15)
    if working:
        for step in said.steps:
            found += [*_wrap(step.says, " " * 15), *_wrap(step.line, " " * 17), *_wrap(step.source, " " * 19)]
        for source in said.sources:
            found += _wrap(source, " " * 15)
    return found
