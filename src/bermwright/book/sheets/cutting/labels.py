"""Labels to print and stick on: one for each board that is cut into, and one for each piece."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.drawing import Item, Pen, Sheet, Stroke, Text
from bermwright.base.lettering import text_width
from bermwright.base.units import show
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import CAPTION, Figures

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.takeoff.cutting import CutList

COLUMNS, ROWS = 5, 13
"""A common sheet of 65 labels, 38.1 x 21.2 mm."""
WIDE, TALL = 38.1, 21.2
STEP = 40.6
LEFT, TOP = 4.75, 10.7
PAPER = (210.0, 297.0)

Label = tuple[str, str, str]
"""Large letters, then two lines."""


def label_sheets(
    lists: Sequence[CutList], codes: dict[str, str], *, system: str = "metric"
) -> tuple[Sheet, ...]:
    """All labels on sheets of 65, boards first, each followed by its pieces."""
    labels = [label for cut in lists for label in _labels(cut, codes, Figures(system=system))]
    each = COLUMNS * ROWS
    pages = [labels[start : start + each] for start in range(0, len(labels), each)]
    return tuple(_page(page, number, len(pages)) for number, page in enumerate(pages, 1))


def _labels(cut: CutList, codes: dict[str, str], figures: Figures) -> Iterator[Label]:
    for board in cut.boards:
        pieces = sum(len(placed.labels) for placed in board.placed)
        count = f"{pieces} piece{'' if pieces == 1 else 's'}"
        if figures.system == "metric":
            sides = (board.thickness, board.width, board.length)
            yield board.name, _size(sides, figures), f"board, {count}; this end first"
        else:
            long = figures.length(board.length)
            yield (
                board.name,
                _size((board.thickness, board.width), figures),
                f"{long} long; {count}, this end first",
            )
        for placed in board.placed:
            for label, kind in zip(placed.labels, placed.kinds, strict=True):
                blank = _size((kind.length, kind.width), figures)
                yield label, f"{codes[kind.key]}  {blank}", f"{kind.part} of {kind.vault}; from {board.name}"
        for offcut in board.offcuts:
            yield offcut.name, f"offcut {figures.length(offcut.length)}", f"keep; from {board.name}"


def _size(sides: Sequence[float], figures: Figures) -> str:
    """Sides with the unit once: a label is narrow."""
    if figures.system == "metric":
        return " × ".join(figures.length(side) for side in sides)
    return " × ".join(show(side, "mm", 0, figures.system).removesuffix(" in") for side in sides) + " in"


def _page(labels: list[Label], number: int, pages: int) -> Sheet:
    items: list[Item] = [*_cut_lines()]
    for place, label in enumerate(labels):
        column, row = place % COLUMNS, place // COLUMNS
        x, y = LEFT + column * STEP, PAPER[1] - TOP - (row + 1) * TALL
        items += _label(label, x, y)
    foot = f"labels, sheet {number} of {pages}; 38.1 × 21.2 mm; print at 100 %; {NOT_REVIEWED}"
    items.append(Text(at=(LEFT, 3.5), text=foot, height=CAPTION, halo=False))
    return Sheet(
        width=PAPER[0],
        height=PAPER[1],
        items=tuple(items),
        title=f"Labels, sheet {number}",
        alt=f"Labels for boards and pieces: {', '.join(label[0] for label in labels)}.",
    )


def _cut_lines() -> Iterator[Item]:
    low, high = PAPER[1] - TOP - ROWS * TALL, PAPER[1] - TOP
    right = LEFT + (COLUMNS - 1) * STEP + WIDE
    for row in range(ROWS + 1):
        yield Stroke(path=((LEFT, low + row * TALL), (right, low + row * TALL)), pen=Pen.HATCH, layer="grid")
    for column in range(COLUMNS):
        for x in (LEFT + column * STEP, LEFT + column * STEP + WIDE):
            yield Stroke(path=((x, low), (x, high)), pen=Pen.HATCH, layer="grid")


def _label(label: Label, x: float, y: float) -> Iterator[Item]:
    name, size, words = label
    room = WIDE - 4.0
    height = next(
        (one for one in (6.0, 5.0, 4.0, 3.2, 2.5) if text_width(name, one, strong=True) <= room), 2.0
    )
    yield Text(at=(x + 2.0, y + TALL - 3.0 - height), text=name, height=height, strong=True, halo=False)
    small = next((one for one in (2.5, 2.2, 2.0) if text_width(size, one) <= room), CAPTION)
    yield Text(at=(x + 2.0, y + 7.2), text=_fit(size, small, room), height=small, halo=False)
    for number, line in enumerate(_two_lines(words, room)):
        yield Text(at=(x + 2.0, y + 4.3 - 2.7 * number), text=line, height=CAPTION, halo=False)


def _two_lines(words: str, room: float) -> tuple[str, ...]:
    """A line, or two where one is too short for it."""
    if text_width(words, CAPTION) <= room:
        return (words,)
    first, _, rest = words.partition("; ")
    return _fit(first, CAPTION, room), _fit(rest, CAPTION, room)


def _fit(text: str, height: float, room: float) -> str:
    while text and text_width(text, height) > room:
        text = f"{text.rstrip('…')[:-1]}…"
    return text
