"""All heights on one staff: from the datum up and down, to scale, each with how far to measure."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.drawing import Ink, Item, Pen, Sheet, Stroke, Text, View
from bermwright.base.lettering import text_width
from bermwright.book.sheets.paper import Figures, figure
from bermwright.book.sheets.signs import level_triangle

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout import SetOut

WIDTH = 174.0
SCALES = (25.0, 50.0, 100.0, 200.0)
TALL = 90.0
"""Of the staff (mm)."""
APART = 4.6
"""Least distance of two lines of words (mm)."""
POST = 30.0
WORDS = POST + 15.5
LETTER, BETWEEN = 2.5, 3.0


def ladder_sheet(out: SetOut, *, system: str = "metric") -> Sheet:
    """Levels over the finished floor, and what to measure from the mark on the post."""
    levels = sorted({row.level for row in out.heights.rows} | {out.heights.datum})
    reach = levels[-1] - levels[0]
    scale = next((one for one in SCALES if 1000.0 * reach / one <= TALL), SCALES[-1])
    view = View(origin=(POST, 6.0 - 1000.0 * levels[0] / scale), scale=scale)
    height = 1000.0 * reach / scale + 14.0
    items = tuple(_items(out, view, Figures(system=system)))
    room = max(height, _top(items) + 6.0)
    words = f"Heights of {out.vault} from the mark on post H, 1:{scale:.0f}"
    return Sheet(width=WIDTH, height=room, items=items, title="Heights", alt=words, view=view)


def _top(items: tuple[Item, ...]) -> float:
    return max(item.at[1] for item in items if isinstance(item, Text))


def _items(out: SetOut, view: View, figures: Figures) -> Iterator[Item]:
    rows = [(row.words, row.level) for row in out.heights.rows]
    rows.append(("MARK on post H", out.heights.datum))
    rows.sort(key=lambda row: row[1])
    low, high = view.point(0.0, rows[0][1])[1], view.point(0.0, rows[-1][1])[1]
    yield Stroke(path=((POST, low), (POST, high)), pen=Pen.CUT)
    columns = _columns(rows, out, figures, " from the mark")
    tail = " from the mark" if columns[1] <= WIDTH else ""
    columns = _columns(rows, out, figures, tail)
    taken = -100.0
    for words, level in rows:
        y = view.point(0.0, level)[1]
        at = max(y, taken + APART)
        taken = at
        mark = _is_mark(words, level, out)
        yield Stroke(path=((POST - 3.0, y), (POST + 3.0, y)), pen=Pen.CUT if mark else Pen.SEEN)
        yield Stroke(path=((POST + 3.0, y), (POST + 9.0, at), (POST + 14.0, at)), pen=Pen.DIMENSION)
        if mark:
            yield level_triangle((POST - 8.0, y))
        yield Text(at=(WORDS, at - 1.1), text=words, height=LETTER, strong=mark)
        yield Text(
            at=(columns[0], at - 1.1), text=figures.level(level), height=LETTER, anchor="end", strong=mark
        )
        if not mark:
            said = _from_mark(level, out, figures) + tail
            yield Text(at=(columns[1], at - 1.1), text=said, height=LETTER, anchor="end", ink=Ink.INK)
    yield figure((1.0, 1.0), f"1:{view.scale:.0f}; ±0 is the finished floor, down and up count from the mark")


def _is_mark(words: str, level: float, out: SetOut) -> bool:
    return level == out.heights.datum and words.startswith("MARK")


def _from_mark(level: float, out: SetOut, figures: Figures) -> str:
    down = out.heights.down(level)
    return f"{figures.length(abs(down))} {'down' if down >= 0.0 else 'up'}"


def _columns(rows: list[tuple[str, float]], out: SetOut, figures: Figures, tail: str) -> tuple[float, float]:
    """Where levels and lengths end: as far right as the words before them are wide."""
    wide = max(text_width(words, LETTER, strong=_is_mark(words, level, out)) for words, level in rows)
    levels = max(text_width(figures.level(level), LETTER, strong=True) for _, level in rows)
    down = max(text_width(_from_mark(level, out, figures) + tail, LETTER) for _, level in rows)
    first = max(WORDS + wide + BETWEEN + levels, POST + 84.0)
    return first, max(first + BETWEEN + down, POST + 110.0)
