"""A drawing larger than the paper, cut into sheets: windows, names of marks, sheet map, blanks left out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Clip, Item, Lettering, Pen, Stroke, Text, Wash
from bermwright.base.lettering import text_width
from bermwright.book.templates.marks import check_square, check_words, registration

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from numpy.typing import NDArray

    from bermwright.base.drawing import Path, Point

    Array = NDArray[np.float64]

ROLL = "roll"
PAPERS: dict[str, tuple[float, float]] = {"A4": (297.0, 210.0), "A3": (420.0, 297.0), ROLL: (5000.0, 610.0)}
"""Sheets across (mm); a roll is cut as long as the drawing needs, at most as long as given here."""
TRUE: Point = (1.0, 1.0)
"""A printer that prints true: sheet millimetres for a true one, across and up."""

_SIDE = 12.0
_TOP = 12.0
_FOOT = 36.0
"""Room under the window for the words (mm)."""
_FIRST_LINE = 28.2
_LAST_LINE, _PITCH = 5.5, 3.5
"""The lowest line of words, where printers still print, and from one line to the next (mm)."""
_MAP_ROOM = 40.0
_NAME_ROOM = 12.0
_SMALL = 2.05
LEGIBLE = 3.2
"""Boxes of the map that are smaller bear no number (mm)."""
SHORTEST = 297.0
"""A piece of a roll must hold the words (mm)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiling:
    """How a drawing falls onto sheets: `cells` are the ones that carry a line, as (column, row)."""

    paper: tuple[float, float]
    low: Point
    """Lower left of the whole drawing (mm)."""
    columns: int
    rows: int
    cells: tuple[tuple[int, int], ...]
    stretch: Point = TRUE
    """Sheet millimetres that this printer prints as a true one, across and up."""

    @property
    def window(self) -> tuple[float, float]:
        """Size of what one sheet shows (true mm)."""
        wide, tall = window(self.paper)
        return wide / self.stretch[0], tall / self.stretch[1]

    def placing(self, cell: tuple[int, int]) -> Callable[[Point], Point]:
        """Where points of the drawing lie on the sheet of a cell (sheet mm)."""
        x, y = self.origin(cell)
        across, up = self.stretch
        return lambda point: (_SIDE + (point[0] - x) * across, _FOOT + (point[1] - y) * up)

    def origin(self, cell: tuple[int, int]) -> Point:
        """Lower left of a cell in the drawing (mm)."""
        wide, tall = self.window
        return (self.low[0] + cell[0] * wide, self.low[1] + cell[1] * tall)


def window(paper: tuple[float, float]) -> tuple[float, float]:
    """Size of what one sheet of this paper shows (mm)."""
    return (paper[0] - 2.0 * _SIDE, paper[1] - _TOP - _FOOT)


def tiling(
    outline: Path, paper: tuple[float, float], margin: float = 7.0, *, stretch: Point = TRUE
) -> Tiling:
    """The fewest windows over an outline with some room around it, in the middle of them."""
    points = np.asarray(outline)
    low, high = points.min(axis=0) - margin, points.max(axis=0) + margin
    paper = _cut_off(paper, float(high[0] - low[0]) * stretch[0])
    size = np.array(window(paper)) / np.array(stretch)
    counts = np.ceil((high - low) / size - 1e-9).astype(int)
    corner = 0.5 * (low + high) - 0.5 * counts * size
    cells = [
        (column, row)
        for row in range(int(counts[1]))
        for column in range(int(counts[0]))
        if _crosses(points, corner + size * (column, row), size)
    ]
    return Tiling(
        paper=paper,
        low=(float(corner[0]), float(corner[1])),
        columns=int(counts[0]),
        rows=int(counts[1]),
        cells=tuple(cells),
        stretch=stretch,
    )


def _cut_off(paper: tuple[float, float], needed: float) -> tuple[float, float]:
    """A roll is cut as long as the drawing needs; sheets stay as they are."""
    if paper != PAPERS[ROLL]:
        return paper
    return (min(max(needed + 2.0 * _SIDE, SHORTEST), paper[0]), paper[1])


def _crosses(points: np.ndarray, low: np.ndarray, size: np.ndarray) -> bool:
    """Whether a closed outline passes through a window (clipping each segment to it)."""
    start = points
    step = np.roll(points, -1, axis=0) - points
    enter, leave = np.zeros(len(points)), np.ones(len(points))
    with np.errstate(divide="ignore", invalid="ignore"):
        for axis in (0, 1):
            near = (low[axis] - start[:, axis]) / step[:, axis]
            far = (low[axis] + size[axis] - start[:, axis]) / step[:, axis]
            level = step[:, axis] == 0.0
            inside = (start[:, axis] >= low[axis]) & (start[:, axis] <= low[axis] + size[axis])
            near, far = np.minimum(near, far), np.maximum(near, far)
            enter = np.maximum(enter, np.where(level, np.where(inside, 0.0, 2.0), near))
            leave = np.minimum(leave, np.where(level, 1.0, far))
    return bool(np.any(enter < leave))


def mark_name(column: int, row: int) -> str:
    """The name of a corner: columns are letters from the left, rows are numbers from the foot.

    >>> mark_name(1, 0), mark_name(27, 2)
    ('b1', 'ab3')
    """
    before, last = divmod(column, 26)
    return f"{chr(ord('a') + before - 1) if before else ''}{chr(ord('a') + last)}{row + 1}"


def moved(item: Item, shifted: Callable[[Point], Point]) -> Item:
    """A line, area or text, put where a sheet has it."""
    match item:
        case Text():
            return replace(item, at=shifted(item.at))
        case Stroke():
            return replace(item, path=tuple(map(shifted, item.path)))
        case Area():
            holes = tuple(tuple(map(shifted, hole)) for hole in item.holes)
            return replace(item, path=tuple(map(shifted, item.path)), holes=holes)
        case _:
            raise TypeError(f"A template holds strokes, areas and texts, not {type(item).__name__}.")


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """A drawing with the box that each of its items fills, so that many sheets can be cut from it."""

    items: tuple[Item, ...]
    boxes: Array
    """(n, 4) left, foot, right and top (mm)."""
    texts: NDArray[np.bool_]


def laid(items: tuple[Item, ...]) -> Laid:
    """A drawing of lines, areas and texts, ready to be cut into sheets."""
    texts = np.array([isinstance(item, Text) for item in items])
    return Laid(items, np.array([box_of(item) for item in items]), texts)


def frame_items(plan: Tiling, cell: tuple[int, int], drawing: Laid) -> Iterator[Item]:
    """The part of a drawing that falls on one sheet, with its marks and check square."""
    wide, tall = plan.window
    low, high = (_SIDE, _FOOT), (plan.paper[0] - _SIDE, plan.paper[1] - _TOP)
    origin = plan.origin(cell)
    reach = (origin[0] + wide, origin[1] + tall)
    placed = plan.placing(cell)
    seen = tuple(moved(item, placed) for item in _shown(drawing, origin, reach))
    yield Clip(low=low, high=high, items=seen)
    corners = (low, (high[0], low[1]), high, (low[0], high[1]))
    yield Stroke(path=corners, pen=Pen.HIDDEN, closed=True, layer="marks")
    middle = (0.5 * (low[0] + high[0]), 0.5 * (low[1] + high[1]))
    for corner, (right, up) in zip(corners, ((0, 0), (1, 0), (1, 1), (0, 1)), strict=True):
        yield from registration(corner, mark_name(cell[0] + right, cell[1] + up), middle)
    yield from check_square(middle, plan.stretch)
    yield check_words(middle, tuple(part.at for part in seen if isinstance(part, Text)))


def _shown(drawing: Laid, low: Point, high: Point) -> Iterator[Item]:
    """What may be seen; a text only when all its letters are, for half a figure misleads."""
    start, end = drawing.boxes[:, :2], drawing.boxes[:, 2:]
    reaches = np.all((end >= low) & (start <= high), axis=1)
    whole = np.all((start > low) & (end < high), axis=1)
    for place in np.flatnonzero(np.where(drawing.texts, whole, reaches)).tolist():
        item = drawing.items[place]
        if not (isinstance(item, Text) and _covers_mark(item, low, high)):
            yield item


def box_of(item: Item) -> tuple[float, float, float, float]:
    """Left, foot, right and top of a line, area or text (mm)."""
    match item:
        case Text():
            across, up = _reach(item)
            x, y = item.at
            return x + across[0], y + up[0], x + across[1], y + up[1]
        case Stroke() | Area():
            xs, ys = zip(*item.path, strict=True)
            return min(xs), min(ys), max(xs), max(ys)
        case _:
            raise TypeError(f"A template holds strokes, areas and texts, not {type(item).__name__}.")


def _reach(text: Text) -> tuple[tuple[float, float], tuple[float, float]]:
    """How far letters go from their anchor: across, and up (mm); turned texts stand in the middle."""
    wide = text_width(text.text, text.height, text.face, strong=text.strong) + 1.0
    if text.angle:
        return (-text.height, 1.0), (-0.5 * wide, 0.5 * wide)
    before = {"start": 0.5, "middle": 0.5 * wide, "end": wide}[text.anchor]
    return (-before, wide - before), (-0.8, text.height + 0.8)


def _covers_mark(text: Text, low: Point, high: Point) -> bool:
    """Whether a text would run into the name of a registration mark."""
    near_side = min(text.at[0] - low[0], high[0] - text.at[0]) < _NAME_ROOM
    return near_side and min(text.at[1] - low[1], high[1] - text.at[1]) < 0.7 * _NAME_ROOM


def caption_items(
    plan: Tiling,
    cell: tuple[int, int],
    title: str,
    lines: tuple[str, ...],
    *,
    turned: bool,
    ends: tuple[str, str] = ("foot", "crown"),
) -> Iterator[Item]:
    """The words under the window and the map of sheets; `turned` when the drawing runs up the sheets.

    `ends` are the words under the two ends of the map.
    """
    yield Text(
        at=(_SIDE + 6.0, _FIRST_LINE), text=title, height=4.6, face=Lettering.WORDS, strong=True, halo=False
    )
    reach = plan.paper[0] - 2.0 * _SIDE - _MAP_ROOM - 8.0
    parts = [(part, line is lines[-1]) for line in lines for part in _wrapped(line, reach)]
    first = _FIRST_LINE - 5.2
    pitch = min(_PITCH, (first - _LAST_LINE) / max(len(parts) - 1, 1))
    for number, (part, strong) in enumerate(parts):
        at = (_SIDE + 6.0, first - number * pitch)
        yield Text(at=at, text=part, height=_SMALL, halo=False, strong=strong)
    yield from _map_items(plan, cell, turned=turned, ends=ends)


def _wrapped(line: str, reach: float) -> Iterator[str]:
    """A line broken between its parts where it is too long."""
    held = ""
    for part in line.split(" · "):
        longer = f"{held} · {part}" if held else part
        if held and text_width(longer, _SMALL) > reach:
            yield held
            held = part
        else:
            held = longer
    yield held


def _map_items(plan: Tiling, cell: tuple[int, int], *, turned: bool, ends: tuple[str, str]) -> Iterator[Item]:
    """Small boxes from foot to crown, one a sheet: this one is filled, those without a line are left out."""
    across, up = (plan.rows, plan.columns) if turned else (plan.columns, plan.rows)
    side = min(6.5, (_MAP_ROOM + 4.0) / across, 17.0 / up)
    gap = 0.12 * side
    left, foot = plan.paper[0] - _SIDE - across * side, 9.5
    for number, (column, row) in enumerate(plan.cells, start=1):
        place = (row, plan.columns - 1 - column) if turned else (column, row)
        x, y = left + place[0] * side, foot + place[1] * side
        box = ((x, y), (x + side - gap, y), (x + side - gap, y + side - gap), (x, y + side - gap))
        here = (column, row) == cell
        yield Area(path=box, wash=Wash.GREY if here else Wash.NONE, outline=Pen.LAYER, layer="map")
        if side < LEGIBLE:
            continue
        spot = (x + 0.5 * (side - gap), y + 0.5 * (side - gap) - 0.95)
        yield Text(
            at=spot, text=str(number), height=1.9, anchor="middle", strong=here, halo=False, layer="map"
        )
    room = max(across * side - gap, text_width(" ".join(ends), 1.9) + 1.0)
    yield Text(at=(left + across * side - gap - room, foot - 3.6), text=ends[0], height=1.9, halo=False)
    yield Text(
        at=(left + across * side - gap, foot - 3.6), text=ends[1], height=1.9, anchor="end", halo=False
    )
