"""A document as PDF through Typst: offline, with its bundled fonts, same input and date to same bytes.

Each block becomes one call of a function in `book.typ`. Whatever a builder wrote reaches Typst only inside
string literals, and drawings travel inside the source as SVG, so nothing outside it is read or run.
"""

from __future__ import annotations

import datetime as dt
import re
import unicodedata
from functools import cache
from importlib import resources
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
from bermwright.base.drawing import Lettering
from bermwright.base.errors import BermwrightError
from bermwright.base.lettering import FACES
from bermwright.base.wording import finding_words
from bermwright.formats.documents.alike import leaves
from bermwright.formats.documents.inline import Voice, runs, words
from bermwright.formats.drawings import svg
from bermwright.formats.feet import in_units_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from bermwright.base.document import Block, Document
    from bermwright.base.drawing import Sheet
    from bermwright.base.findings import Finding

_LONGEST_WORD = 32
"""A longer run of letters without a space gets places at which it may break."""
_LONGEST_HEAD = 48
"""Letters of the house's name that fit into the running head."""
_LONG_CELL = 26
"""A column with a longer text shares the free width."""
_BREAK_HERE = "\u200b"
_LONG_WORD = re.compile(rf"[^\s{_BREAK_HERE}]{{{_LONGEST_WORD}}}")
_TURNS_LINES = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f")
"""Direction marks that would turn the rest of a line round."""


_MEASURES = {
    "metric": "measures in m unless said, levels from the finished floor",
    "imperial": "measures in feet and inches, levels from the finished floor",
}


class DocumentError(BermwrightError):
    """The PDF maker refused a document; the message is its own."""


def pdf(document: Document, *, date: str) -> bytes:
    """The document as PDF; `date` (ISO) is written into it, so the clock is never read."""
    import typst

    moment = dt.datetime.fromisoformat(date).replace(tzinfo=dt.UTC)
    try:
        made = typst.compile(
            markup(document).encode(),
            format="pdf",
            ignore_system_fonts=True,
            timestamp=int(moment.timestamp()),
        )
    except typst.TypstError as problem:
        raise DocumentError(f"The PDF could not be made: {problem}") from problem
    return bytes(made)


def markup(document: Document) -> str:
    """The whole Typst source of a document."""
    document = in_units_of(document)
    faces = {"words-face": FACES[Lettering.WORDS], "figures-face": FACES[Lettering.FIGURES]}
    lines = [f"#let {name} = {literal(face.families[0])}" for name, face in faces.items()]
    lines += [_look(), _dress(document)]
    lines += _blocks(document)
    return "\n".join([*lines, ""])


def _blocks(document: Document) -> Iterator[str]:
    """Every block in order; full-size sheets share the lettering that they bear alike."""
    full = [item.sheet for item in document.blocks if isinstance(item, FullPage)]
    pages, layers = leaves(full)
    for number, layer in enumerate(layers):
        yield f"#let layer-{number} = bytes({_source(layer)})"
    waiting = iter(pages)
    for item in document.blocks:
        if isinstance(item, FullPage):
            page = next(waiting)
            over = [f"layer-{number}" for number in page.layers]
            yield f"#{_call('full-page', _picture(page.sheet), *over)}"
        else:
            yield f"#{block(item, document.system)}"


@cache
def _look() -> str:
    return resources.files("bermwright.formats.documents").joinpath("book.typ").read_text(encoding="utf-8")


def _dress(document: Document) -> str:
    name = document.house
    head = name if len(name) <= _LONGEST_HEAD else name[: _LONGEST_HEAD - 1] + "…"
    revision = " ".join(part for part in ("revision", document.revision) if document.revision)
    middle = ", ".join(part for part in (revision, document.date) if part)
    return (
        f"#show: dress.with(title: {literal(f'{name}: {document.title}')}, author: {literal('bermwright')}, "
        f"head: {content(head)}, middle: {content(middle)}, mark: {content(document.mark)}, "
        f"measures: {content(_MEASURES[document.system])})"
    )


def block(item: Block, system: str) -> str:
    """The call that sets one block."""
    match item:
        case Heading():
            lead = f" + lead({marked(item.lead)})" if item.lead else ""
            said = content(words(item.text))
            title = f"heading(level: {item.level}, {said})" if item.level else f"book-title({said})"
            return f"({title}{lead})"
        case Headline():
            return f"headline({literal(item.verdict)}, {marked(item.text)}, {_maybe(item.lead)})"
        case Contents():
            return "contents()"
        case Para():
            return f"{'small' if item.small else 'para'}({marked(item.text)})"
        case Points():
            return _call("points", _truth(item.numbered), *map(marked, item.items))
        case Table():
            return _table(item)
        case Figure():
            return f"drawing({_picture(item.sheet)}, {_maybe(item.caption)})"
        case FullPage():
            return f"full-page({_picture(item.sheet)})"
        case Notice():
            return _call("notice", literal(item.kind), *map(marked, item.lines))
        case FindingBlock():
            return _finding(item.finding, system, working=item.working)
        case SignatureLine():
            return _call("signatures", *map(content, item.labels))
        case PageBreak():
            return "pagebreak(weak: true)"
        case Columns():
            left, right = (_together(side, system) for side in (item.left, item.right))
            return f"side-by-side({item.left_share:.3f}, {left}, {right})"
        case _:
            assert_never(item)


def literal(text: str) -> str:
    """Text as a Typst string, whatever it holds."""
    # A printable text holds no direction mark, control letter or half of a pair.
    kept = text if text.isprintable() else "".join(map(_letter, text))
    if len(kept) >= _LONGEST_WORD:
        kept = _LONG_WORD.sub(rf"\g<0>{_BREAK_HERE}", kept)
    return '"' + kept.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _letter(letter: str) -> str:
    if letter in _TURNS_LINES:
        return ""
    kind = unicodedata.category(letter)
    return " " if kind in {"Cc", "Zl", "Zp"} else "\ufffd" if kind == "Cs" else letter


def content(text: str) -> str:
    """Text without emphasis as Typst content."""
    return f"[#{literal(text)}]"


def marked(text: str) -> str:
    """Text with its emphasis as Typst content."""
    wraps = {Voice.PLAIN: "{}", Voice.STRONG: "strong({})", Voice.EMPHASIS: "emph({})"}
    return "[" + "".join(f"#{wraps[run.voice].format(literal(run.text))}" for run in runs(text)) + "]"


def _maybe(text: str) -> str:
    return marked(text) if text else "none"


def _truth(value: bool) -> str:  # noqa: FBT001  (a literal, not a switch)
    return "true" if value else "false"


def _call(name: str, *arguments: str) -> str:
    return f"{name}({', '.join(arguments)})"


def _list(items: Iterable[str]) -> str:
    return "(" + "".join(f"{item}, " for item in items) + ")"


def _together(blocks: tuple[Block, ...], system: str) -> str:
    return "{" + "\n".join(block(item, system) for item in blocks) + "}"


def _picture(sheet: Sheet) -> str:
    size = f"{sheet.width:.4f}mm, {sheet.height:.4f}mm"
    return f"{_source(sheet)}, {size}, {literal(sheet.alt or sheet.title)}"


def _source(sheet: Sheet) -> str:
    source = svg(sheet, "paper", background=False, printed=True).replace("\\", "\\\\").replace('"', '\\"')
    return f'"{source}"'


def _table(table: Table) -> str:
    letters = table.align or "l" + "r" * (len(table.rows[0] if table.rows else table.head) - 1)
    sides = ["right" if letter == "r" else "left" for letter in letters]
    head = _list(map(content, table.head)) if any(table.head) else "none"
    cells = [
        _cell(cell, number=letters[x] == "r", strong=x in table.strong)
        for row in table.rows
        for x, cell in enumerate(row)
    ]
    return _call(
        "ledger", _list(_widths(table, letters)), _list(sides), head, _maybe(table.caption), _list(cells)
    )


def _widths(table: Table, letters: str) -> list[str]:
    if table.widths:
        return [f"{share:g}fr" if share else "auto" for share in table.widths]
    columns = list(zip(*table.rows, strict=True)) if table.rows else [()] * len(letters)
    return ["1fr" if _wide(column) else "auto" for column in columns]


def _wide(column: tuple[str, ...]) -> bool:
    return max(map(len, column), default=0) > _LONG_CELL


def _cell(text: str, *, number: bool, strong: bool) -> str:
    if text == BLANK:
        return "blank"
    kind = "figure-cell" if number else "word-cell"
    return f"{kind}(strong: {_truth(strong)}, {marked(text)})"


def _finding(finding: Finding, system: str, *, working: bool) -> str:
    told = finding_words(finding, system)
    sources = (
        _numbered(told.sources + tuple(step.source for step in told.steps if step.source)) if working else {}
    )
    steps = [
        _list(
            [
                content(step.says),
                content(step.line),
                content(str(sources[step.source])) if step.source else "none",
            ]
        )
        for step in told.steps
        if working
    ]
    parts = (told.ratio, told.where, told.corner, told.advice, told.doubt)
    return _call(
        "finding",
        literal(told.verdict),
        literal(told.verdict),
        content(told.says),
        *(content(part) if part else "none" for part in parts),
        _list(steps),
        _list(content(f"{number}. {source}") for source, number in sources.items()),
    )


def _numbered(sources: tuple[str, ...]) -> dict[str, int]:
    return {source: number for number, source in enumerate(dict.fromkeys(sources), start=1)}
