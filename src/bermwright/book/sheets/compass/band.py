"""A paper band with a mark for every course, printed true in strips that are glued end to end."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.base.drawing import Ink, Item, Lettering, Pen, Sheet, Stroke, Text
from bermwright.base.units import show
from bermwright.book.templates.tiles import TRUE, moved

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Point
    from bermwright.form.dome import DomeForm

PAPER = (297.0, 210.0)
STRIP = 250.0
"""Length of band on one strip (mm)."""
TALL = 38.0
"""Height of a strip (mm)."""
LEFT, TOP = 16.0, 21.0
EACH = 42.0
"""From one strip to the next (mm)."""
ROWS = 4
GLUE = 12.0
"""Paper behind the end of a strip, under the next one (mm)."""
APART = 2.9
"""Two turned figures need so much room (mm)."""
CLEAR = 2.2
"""A figure keeps so far off the join it stands beside (mm)."""
FINE = 10.0
"""Small marks stand so far apart (mm)."""
BAR = 100.0
JOIN_WORDS = 10.0
"""Length of the name of a join (mm)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A row of marks: where each lies from the start of the band, and its words."""

    title: str
    start: float
    """What the first edge of the band is worth (m)."""
    marks: tuple[tuple[float, str], ...]
    """Value (m) and words, rising."""
    use: str
    """How it is laid on."""

    @property
    def length(self) -> float:
        """Of the whole band (mm)."""
        return 1e3 * (self.marks[-1][0] - self.start) + 10.0

    @property
    def strips(self) -> int:
        """Strips of paper that it takes."""
        return max(1, math.ceil(self.length / STRIP - 1e-9))


def band_of_chain(form: DomeForm, system: str = "metric") -> Band:
    """Chain lengths of all courses, from a whole decimetre under the shortest."""
    rows = sorted((course.chain, course.number) for course in form.courses)
    start = math.floor(rows[0][0] * 10.0 - 1e-9) / 10.0
    return Band(
        title=f"{form.name}: band for the chain",
        start=start,
        marks=tuple((length, f"{number}: {_words(length, system)}") for length, number in rows),
        use=f"its first edge lies {_words(start, system)} from the hook of the chain",
    )


def band_of_heights(form: DomeForm, system: str = "metric") -> Band:
    """Heights of all beds over the springing."""
    return Band(
        title=f"{form.name}: band for the pole",
        start=0.0,
        marks=tuple((one.height, f"{one.number}: {_words(one.height, system)}") for one in form.courses),
        use="its first edge lies at the springing",
    )


def _words(length: float, system: str) -> str:
    return show(length, "m", 3, system)


def band_sheets(band: Band, stamp: str, *, stretch: Point = TRUE) -> tuple[Sheet, ...]:
    """Every sheet of a band, with bars that prove the print; `stretch` corrects a printer."""
    pages = math.ceil(band.strips / ROWS)
    return tuple(_corrected(_sheet(band, page, pages, stamp), stretch) for page in range(pages))


def _corrected(sheet: Sheet, stretch: Point) -> Sheet:
    """The sheet drawn a little larger or smaller, so that this printer gives true lengths."""
    if stretch == TRUE:
        return sheet
    wide, tall = stretch
    items = tuple(moved(item, lambda point: (point[0] * wide, point[1] * tall)) for item in sheet.items)
    return replace(sheet, items=items)


def _sheet(band: Band, page: int, pages: int, stamp: str) -> Sheet:
    title = f"{band.title}, sheet {page + 1} of {pages}"
    items: list[Item] = [
        Text(
            at=(LEFT, PAPER[1] - 11.0), text=title, height=3.6, face=Lettering.WORDS, strong=True, halo=False
        ),
        Text(
            at=(LEFT, PAPER[1] - 17.0),
            text=f"{band.use}; print at 100 %, no fit to page",
            height=2.2,
            halo=False,
        ),
        *_bar(),
        Text(at=(LEFT, 5.0), text=stamp, height=2.05, halo=False),
    ]
    first = page * ROWS
    labels = _labels(band)
    for row in range(min(ROWS, band.strips - first)):
        items += _strip(band, first + row, (LEFT, PAPER[1] - TOP - TALL - row * EACH), labels)
    return Sheet(
        width=PAPER[0], height=PAPER[1], items=tuple(items), title=title,
        alt=f"Strips from {first + 1} on of {band.strips}: measure the bar of 100 mm.",
    )  # fmt: skip


def _labels(band: Band) -> list[float]:
    """Where the figure of each mark stands, moved on where marks are too close (mm from the start)."""
    places: list[float] = []
    for value, _ in band.marks:
        at = 1e3 * (value - band.start)
        places.append(max(at, places[-1] + APART) if places else at)
    return places


def _bar() -> Iterator[Item]:
    """A bar of 100 mm along, and one of 100 mm up beside the strips."""
    x, y = PAPER[0] - 19.0 - BAR, PAPER[1] - 17.0
    yield Stroke(path=((x, y), (x + BAR, y)), pen=Pen.SEEN, layer="check")
    for end in (x, x + BAR):
        yield Stroke(path=((end, y - 2.0), (end, y + 2.0)), pen=Pen.SEEN, layer="check")
    words = "check 100.0 mm"
    yield Text(at=(x + 0.5 * BAR, y + 1.5), text=words, height=2.2, anchor="middle", strong=True, halo=False)
    side, foot = PAPER[0] - 12.0, 20.0
    yield Stroke(path=((side, foot), (side, foot + BAR)), pen=Pen.SEEN, layer="check")
    for end in (foot, foot + BAR):
        yield Stroke(path=((side - 2.0, end), (side + 2.0, end)), pen=Pen.SEEN, layer="check")
    yield Text(
        at=(side + 3.0, foot + 0.5 * BAR), text=words, height=2.2, anchor="middle", angle=0.5 * math.pi,
        strong=True, halo=False,
    )  # fmt: skip


def _strip(band: Band, number: int, at: tuple[float, float], labels: list[float]) -> Iterator[Item]:
    """One strip: its edges, fine marks, and every mark that falls on it; no glue behind the last."""
    x0, y0 = at
    low = number * STRIP
    length = min(STRIP, band.length - low)
    end = x0 + length
    yield from _edges(band, number, (x0, end), y0)
    yield Stroke(path=((x0, y0), (end, y0)), pen=Pen.SEEN)
    for k in range(math.ceil(low / FINE - 1e-9), math.floor((low + length) / FINE + 1e-9) + 1):
        x = x0 + k * FINE - low
        tall = 4.0 if k % 10 == 0 else 2.0
        yield Stroke(path=((x, y0), (x, y0 + tall)), pen=Pen.HATCH, layer="grid")
    names: list[float] = []
    for (value, words), label in zip(band.marks, labels, strict=True):
        place = 1e3 * (value - band.start) - low
        if -1e-9 <= place < length or (number == band.strips - 1 and abs(place - length) < 1e-9):
            names.append(x0 + min(max(label - low, CLEAR), length + GLUE - 2.0))
            yield from _mark((x0 + place, y0), names[-1], words)
    # The name of a join stands beside it, past figures that begin there.
    name_x = x0 + 1.2
    for label_x in names:
        name_x = label_x + 2.2 if label_x - 2.6 < name_x + JOIN_WORDS else name_x
    yield _join((name_x, y0 + TALL - 3.2), number)


def _edges(band: Band, number: int, ends: tuple[float, float], y0: float) -> Iterator[Item]:
    """The outline of a strip, and both its joins; the last strip of a band ends without one."""
    x0, end = ends
    last = number == band.strips - 1
    right = end if last else end + GLUE
    edges = ((x0, y0), (right, y0), (right, y0 + TALL), (x0, y0 + TALL))
    yield Stroke(path=edges, pen=Pen.HIDDEN, closed=True, layer="cut")
    for x in (x0,) if last else (x0, end):
        yield Stroke(path=((x, y0), (x, y0 + TALL)), pen=Pen.TEMPLATE, layer="marks")
    if not last:
        yield _join((end + 1.2, y0 + TALL - 3.2), number + 1)


def _join(at: Point, number: int) -> Text:
    return Text(at=at, text=f"join {number}", height=1.9, ink=Ink.SOFT, halo=False)


def _mark(foot: tuple[float, float], label: float, words: str) -> Iterator[Item]:
    """A line up from the edge, bent to where its figure has room."""
    x, y = foot
    yield Stroke(path=((x, y), (x, y + 6.0)), pen=Pen.TEMPLATE, layer="cut")
    yield Stroke(path=((x, y + 6.0), (label, y + 9.0)), pen=Pen.LAYER)
    yield Text(
        at=(label + 1.0, y + 9.5), text=words, height=2.1, angle=0.5 * math.pi, strong=True, halo=False
    )
