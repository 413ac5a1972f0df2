"""A document as plain data for a page of the workbench: the same words and drawings as on paper.

The page sets them; it computes nothing and rounds nothing. Each drawing comes in the two lights of the page.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, assert_never

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
from bermwright.formats.documents.inline import runs, words
from bermwright.formats.drawings import svg
from bermwright.formats.feet import in_units_of

if TYPE_CHECKING:
    from bermwright.base.document import Block, Document
    from bermwright.base.drawing import Sheet

LIGHTS = ("day", "lamp")
AHEAD = (Para, Headline, Notice)
"""What may stand over the first drawing of a section: what it says in one line, and what stops the work."""
Data = dict[str, Any]


def page_data(document: Document) -> Data:
    """The document in sections, each with its drawings first."""
    document = in_units_of(document)
    flat = [one for block in document.blocks for one in _flat(block)]
    return {
        "title": document.title,
        "house": document.house,
        "mark": document.mark,
        "sections": [_section(blocks, at, document.system) for at, blocks in enumerate(_sections(flat))],
    }


def _flat(block: Block) -> list[Block]:
    """Columns one under the other; what only paper needs is left out."""
    match block:
        case Columns():
            return [one for part in (*block.left, *block.right) for one in _flat(part)]
        case Contents() | PageBreak():
            return []
        case _:
            return [block]


def _sections(blocks: list[Block]) -> list[list[Block]]:
    found: list[list[Block]] = []
    for block in blocks:
        if isinstance(block, Heading) or not found:
            found.append([])
        found[-1].append(block)
    return found


def _section(blocks: list[Block], at: int, system: str) -> Data:
    head = blocks[0] if isinstance(blocks[0], Heading) else None
    rest = pictures_first(blocks[1:] if head is not None else blocks)
    return {
        "title": words(head.text) if head is not None else "",
        "level": head.level if head is not None else 1,
        "lead": _runs(head.lead) if head is not None else [],
        "blocks": [_block(one, f"s{at}b{number}", system) for number, one in enumerate(rest)],
    }


def pictures_first(blocks: list[Block]) -> list[Block]:
    """The drawings of a section together, cautions beside them, then its tables and lists."""
    first = next((at for at, one in enumerate(blocks) if not isinstance(one, AHEAD)), len(blocks))
    rest = blocks[first:]
    drawn = [one for one in rest if isinstance(one, Figure | FullPage)]
    guards = [one for one in rest if isinstance(one, Notice)]
    other = [one for one in rest if not isinstance(one, Figure | FullPage | Notice)]
    return [*blocks[:first], *drawn, *guards, *other]


def _runs(text: str) -> list[list[str]]:
    """Text with the voice of each run: plain, strong or emphasis."""
    return [[one.text, one.voice.value] for one in runs(text) if one.text]


def _block(block: Block, name: str, system: str) -> Data:
    match block:
        case Heading():
            return {"kind": "heading", "text": words(block.text)}
        case Headline():
            return {
                "kind": "headline",
                "verdict": block.verdict.value,
                "runs": _runs(block.text),
                "lead": _runs(block.lead),
            }
        case Para():
            return {"kind": "para", "runs": _runs(block.text), "small": block.small}
        case Points():
            return {
                "kind": "points",
                "items": [_runs(one) for one in block.items],
                "numbered": block.numbered,
            }
        case Table():
            return _table(block)
        case Figure():
            return _drawing(block.sheet, name, _runs(block.caption))
        case FullPage():
            return _drawing(block.sheet, name, [])
        case Notice():
            return {"kind": "notice", "guards": block.kind, "lines": [_runs(one) for one in block.lines]}
        case FindingBlock():
            said = finding_words(block.finding, system)
            return {"kind": "finding", "verdict": said.verdict, "text": said.says, "ratio": said.ratio}
        case SignatureLine():
            return {"kind": "sign", "labels": list(block.labels)}
        case Contents() | PageBreak() | Columns():
            return {"kind": "nothing"}
        case _:
            assert_never(block)


def _table(table: Table) -> Data:
    letters = table.align or "l" + "r" * (len(table.head) - 1)
    return {
        "kind": "table",
        "head": list(table.head),
        "rows": [[None if cell == BLANK else _runs(cell) for cell in row] for row in table.rows],
        "align": letters,
        "caption": _runs(table.caption),
        "strong": list(table.strong),
    }


def _drawing(sheet: Sheet, name: str, caption: list[list[str]]) -> Data:
    drawn = {light: svg(sheet, light, background=False, prefix=f"{name}{light}") for light in LIGHTS}
    return {
        "kind": "drawing",
        "title": sheet.title,
        "width": sheet.width,
        "height": sheet.height,
        "caption": caption,
        **drawn,
    }
