"""One sheet for one day of work: the plan, the numbers beside it, boxes to tick, cautions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Item, Lettering, Pen, Sheet, Stroke, Text, View, Wash
from bermwright.base.lettering import text_width
from bermwright.book.sheets.paper import moved

if TYPE_CHECKING:
    from collections.abc import Iterator

WIDTH = 174.0
TALLEST = 216.0
"""What an A4 sheet with its title block leaves (mm)."""
GAP = 6.0
LETTER, LINE = 2.3, 4.0
HEAD = 4.4
BOX = 2.8
SMALL, NOTED = 2.0, 2.1
HOLDS = "\u00a0"
"""A blank at which no line ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """What is done on one day."""

    number: int
    title: str
    leads: str
    """One sentence on what is done."""
    rows: tuple[tuple[str, str], ...]
    """What is measured, and how much."""
    ticks: tuple[str, ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...] = ()
    """Places that are measured, in lines as wide as the sheet."""


def day_sheet(day: Day, plan: Sheet) -> Sheet:
    """The day's sheet; `plan` stands above the words."""
    items = list(_words(day))
    foot = min(_low(item) for item in items)
    height = plan.height + GAP - foot + 1.0
    top = [moved(item, (0.0, height - plan.height - 1.0)) for item in plan.items]
    below = [moved(item, (0.0, height - plan.height - GAP)) for item in items]
    shift = height - plan.height - 1.0
    view = (
        View(origin=(plan.view.origin[0], plan.view.origin[1] + shift), scale=plan.view.scale)
        if plan.view is not None
        else None
    )
    return Sheet(
        width=WIDTH,
        height=height,
        items=(*top, *below),
        title=f"Day {day.number}: {day.title}",
        alt=f"{plan.alt}. {day.leads}",
        view=view,
    )


def _low(item: Item) -> float:
    return item.at[1] if isinstance(item, Text) else 0.0


def _words(day: Day) -> Iterator[Item]:
    """Words under the plan, from y = 0 down."""
    y = -HEAD
    title = f"Day {day.number}: {day.title}"
    yield Text(at=(0.0, y), text=title, height=HEAD, face=Lettering.WORDS, strong=True)
    for line in folded(day.leads, WIDTH, LETTER + 0.2, Lettering.NOTE):
        y -= LINE + 0.8
        yield Text(at=(0.0, y), text=line, height=LETTER + 0.2, face=Lettering.NOTE)
    for words in day.notes:
        for line in folded(words, WIDTH, NOTED):
            y -= LINE - 0.4
            yield Text(at=(0.0, y), text=line, height=NOTED)
    start = y - 2.0 - LINE
    kept = min(range(len(day.rows) + 1), key=lambda count: (-_columns(day, count, start)[1], -count))
    items, low = _columns(day, kept, start)
    yield from items
    yield from _cautions(day.cautions, low)


def _columns(day: Day, kept: int, start: float) -> tuple[list[Item], float]:
    """So many rows on the left, the boxes to tick on the right and the other rows under them."""
    half = 0.5 * (WIDTH - GAP)
    rows, left = _rows(day.rows[:kept], start, 0.0, half)
    ticks, right = _ticks(day.ticks, start, half + GAP, half)
    more, right = _rows(day.rows[kept:], right, half + GAP, half)
    return [*rows, *ticks, *more], min(left, right)


def _rows(rows: tuple[tuple[str, str], ...], y: float, left: float, wide: float) -> tuple[list[Item], float]:
    """What is measured, and how far down the words reach."""
    items: list[Item] = []
    for label, value in rows:
        room = wide - text_width(value, LETTER, strong=True) - 2.0
        items.append(Text(at=(left + wide, y), text=value, height=LETTER, anchor="end", strong=True))
        for line in folded(label, room, LETTER):
            items.append(Text(at=(left, y), text=line, height=LETTER))
            y -= LINE
        y -= 0.9
        items.append(Stroke(path=((left, y + 3.6), (left + wide, y + 3.6)), pen=Pen.HATCH))
    return items, y


def _ticks(ticks: tuple[str, ...], y: float, left: float, wide: float) -> tuple[list[Item], float]:
    """Boxes to tick, and how far down they reach."""
    items: list[Item] = []
    for words in ticks:
        box = ((left, y - 0.3), (left + BOX, y - 0.3), (left + BOX, y - 0.3 + BOX), (left, y - 0.3 + BOX))
        items.append(Stroke(path=box, pen=Pen.SEEN, closed=True))
        for line in folded(words, wide - BOX - 2.0, LETTER):
            items.append(Text(at=(left + BOX + 2.0, y), text=line, height=LETTER))
            y -= LINE
        y -= 0.5
    return items, y


def _cautions(cautions: tuple[str, ...], y: float) -> Iterator[Item]:
    """A framed box as wide as the sheet, a black triangle before each."""
    y -= 1.0
    first, pitch = y + LINE, LINE - 0.4
    folds = [list(folded(words, WIDTH - 6.0, SMALL)) for words in cautions]
    tall = pitch * sum(map(len, folds)) + 3.0
    frame = ((0.0, first), (WIDTH, first), (WIDTH, first - tall), (0.0, first - tall))
    yield Area(path=frame, wash=Wash.PAPER, outline=Pen.CUT)
    for lines in folds:
        yield Area(path=((1.2, y - 0.1), (3.2, y - 0.1), (2.2, y + 1.9)), wash=Wash.INK)
        for line in lines:
            yield Text(at=(4.2, y), text=line, height=SMALL)
            y -= pitch
    yield Text(at=(0.0, first - tall), text="", height=SMALL)


def folded(words: str, wide: float, height: float, face: Lettering = Lettering.FIGURES) -> Iterator[str]:
    """Words in lines no wider than the room; no line ends at a blank that holds together."""
    held = ""
    for word in words.split(" "):
        longer = f"{held} {word}".strip(" ")
        if held and text_width(longer, height, face) > wide:
            yield held.replace(HOLDS, " ")
            held = word
        else:
            held = longer
    yield held.replace(HOLDS, " ")
