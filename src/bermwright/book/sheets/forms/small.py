"""A pattern at a reduced scale with its blank, its diagonals, its lines and its ordinates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Dimension, Ink, Item, Pen, Sheet, Stroke, Text, View, Wash
from bermwright.base.lettering import text_width
from bermwright.base.units import lengths_in
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import CAPTION, FIGURE, Board, Figures, figure, heading, note, path_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.developed import Pattern

SCALES = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
"""Reductions of ISO 5455."""
SIDE, FOOT, HEAD = 24.0, 34.0, 20.0
"""Paper beside, under and over the pattern, the least (mm)."""
TALLEST = 105.0
APART = 4.2
"""Two turned figures need so much room (mm)."""
LOW = 0.5e-3
"""A low edge at the side of the blank has no figure (m)."""
ROW = 3.6
SHARES = (0.5, 0.3, 0.7, 0.12, 0.88)
"""Places along a line where its word may stand."""


def pattern_sheet(pattern: Pattern, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """The pattern small; figures over its edges are distances from the low side of its blank."""
    wide, tall = pattern.size
    fits = (one for one in SCALES if 1e3 * wide / one <= width - 2.0 * SIDE and 1e3 * tall / one <= TALLEST)
    scale = next(fits, SCALES[-1])
    points = np.asarray(pattern.outline)
    low = points.min(axis=0)
    factor = 1e3 / scale
    left = 0.5 * (width - wide * factor)
    figures = Figures(system=system)
    marks = _marks(pattern, factor, figures)
    under, over = _room(marks, tall * factor)
    foot, head = max(FOOT, under + 25.0) + ROW, max(HEAD, over + 9.0)
    view = View(origin=(left - float(low[0]) * factor, foot - float(low[1]) * factor), scale=scale)
    height = tall * factor + foot + head
    board = Board()
    board.block((-width, 0.0), (0.0, height))
    board.block((width, 0.0), (2.0 * width, height))
    unit = " mm" if system == "metric" else ""
    items = [
        Area(path=path_of(view, *points.T), wash=Wash.KEEP, outline=Pen.CUT),
        *_sizes(pattern, view, figures, board, max(18.0, under + 8.5)),
        *(Stroke(path=path_of(view, *np.asarray(line).T), pen=Pen.HIDDEN) for _, line in pattern.lines),
        *_ordinates(marks, (left, foot), board),
        *_words(pattern, view, board, system),
        heading((0.0, height - 4.5), f"{pattern.name}{_times(pattern)}"),
        figure((0.0, 1.5), f"1:{scale:.0f}"),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]
    return Sheet(
        width=width, height=height, items=tuple(items), title=pattern.name, view=view,
        alt=f"{figures.length(wide)} by {figures.length(tall)}{unit}, diagonals "
        f"{' and '.join(map(figures.length, pattern.diagonals))}{unit}",
    )  # fmt: skip


def _times(pattern: Pattern) -> str:
    return f", {pattern.count} off" if pattern.count > 1 else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Mark:
    """Figures at one station: below the blank, over the upper edge, and inside over the lower one (mm)."""

    x: float
    low: float
    high: float
    station: str
    over: str
    inside: str


def _marks(pattern: Pattern, factor: float, figures: Figures) -> list[_Mark]:
    """Stations that can be read beside each other, on paper, counted from the lower left of the blank."""
    if pattern.name == "gore":
        return []
    left, bottom = np.asarray(pattern.outline).min(axis=0).tolist()
    found: list[_Mark] = []
    for station, low, high in pattern.ordinates:
        x = (station - left) * factor
        if found and x - found[-1].x < APART:
            continue
        words = figures.length(low), figures.length(high)
        fits = (high - low) * factor > text_width(words[0], CAPTION) + 2.4
        alone = fits or low <= LOW or words[0] == words[1]
        found.append(
            _Mark(
                x=x,
                low=(low - bottom) * factor,
                high=(high - bottom) * factor,
                station=figures.length(station),
                over=words[1] if alone else f"{words[0]}–{words[1]}",
                inside=words[0] if fits and low > LOW else "",
            )
        )
    return found


def _room(marks: list[_Mark], tall: float) -> tuple[float, float]:
    """Paper that turned figures take under the blank, and over it (mm)."""
    under = max((text_width(one.station, CAPTION) for one in marks), default=0.0)
    over = max((one.high + text_width(one.over, CAPTION) - tall for one in marks), default=0.0)
    return under, max(over, 0.0)


def _sizes(pattern: Pattern, view: View, figures: Figures, board: Board, below: float) -> Iterator[Item]:
    """Width, height and both diagonals of the blank."""
    points = np.asarray(pattern.outline)
    (x0, y0), (x1, y1) = points.min(axis=0).tolist(), points.max(axis=0).tolist()
    a, b, c = view.point(x0, y0), view.point(x1, y0), view.point(x1, y1)
    yield Dimension(start=a, end=b, offset=-below, text=figures.length(x1 - x0))
    yield Dimension(start=b, end=c, offset=-12.0, text=figures.length(y1 - y0))
    board.block((b[0] + 8.0, b[1]), (b[0] + 16.0, c[1]))
    rising, falling = (figures.length(one) for one in pattern.diagonals)
    ways = lengths_in(f"→ {pattern.across}; ↑ {pattern.up}", figures.system)
    yield Text(at=(0.0, 9.5), text=ways, height=CAPTION, ink=Ink.SOFT)
    text = f"corner to corner: rising {rising}, falling {falling}"
    yield Text(at=(0.0, 6.0), text=text, height=CAPTION, ink=Ink.SOFT)


def _words(pattern: Pattern, view: View, board: Board, system: str) -> Iterator[Item]:
    """What the lines to mark are; a letter and a key where the word finds no room."""
    key: list[str] = []
    for metric, line in pattern.lines:
        word, points = lengths_in(metric, system), np.asarray(line)
        places = [view.point(*along_line(points, share)) for share in SHARES]
        texts = [
            note((x + aside, y + up), word, anchor)
            for anchor, aside in (("middle", 0.0), ("start", 1.0), ("end", -1.0))
            for up in (0.8, -3.0)
            for x, y in places
        ]
        free = next((text for text in texts if board.free(text)), None)
        if free is not None:
            yield board.take(free)
            continue
        letter, ends = "abcdefgh"[len(key)], [view.point(*one.tolist()) for one in (points[0], points[-1])]
        key.append(f"{letter} {word}")
        letters = [
            figure((x + away, y - 0.9), letter, "middle")
            for (x, y), away in ((places[0], 2.6), (ends[0], -3.6), (ends[1], 3.6))
        ]
        clear = [one for one in letters[1:] if board.free(one)] or letters[:1]
        yield from map(board.take, clear)
    if key:
        yield Text(at=(0.0, 9.5 + ROW), text="; ".join(key), height=CAPTION, ink=Ink.SOFT)


def along_line(points: np.ndarray, share: float) -> tuple[float, float]:
    """A place along a line, by the number of its points."""
    place, number = share * (len(points) - 1), np.arange(len(points))
    return float(np.interp(place, number, points[:, 0])), float(np.interp(place, number, points[:, 1]))


def _ordinates(marks: list[_Mark], at: tuple[float, float], board: Board) -> Iterator[Item]:
    """Stations below, low and high edge beside the outline."""
    for one in marks:
        x, y0, y1 = at[0] + one.x, at[1] + one.low, at[1] + one.high
        yield Stroke(path=((x, y0), (x, y1)), pen=Pen.HATCH)
        yield board.take(_turned(x, at[1] - 2.0 - text_width(one.station, CAPTION), one.station))
        yield board.take(_turned(x, y1 + 1.2, one.over))
        if one.inside:
            yield board.take(_turned(x, y0 + 1.2, one.inside))
    board.block((0.0, 0.0), (FIGURE, FIGURE))


def _turned(x: float, y: float, text: str) -> Text:
    return Text(at=(x + 0.4 * CAPTION, y), text=text, height=CAPTION, angle=0.5 * np.pi, ink=Ink.SOFT)
