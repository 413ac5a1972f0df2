"""Chains of dimensions, columns of levels, section marks, north and the scale as a bar."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from bermwright.base.drawing import Arc, Area, Dimension, Item, Pen, Point, Stroke, Text, Wash
from bermwright.base.lettering import text_width
from bermwright.book.sheets.paper import CAPTION, FIGURE, figure, heading
from bermwright.book.sheets.signs import level_triangle

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from bermwright.book.sheets.paper import Figures

LINE = 4.6
"""From one line of levels to the next (mm)."""
SAME = 5e-4
"""Places nearer to each other are one (m)."""


def chain(
    places: Sequence[float], along: Iterable[Point], figures: Figures, *, offset: float
) -> Iterator[Dimension]:
    """A chain of dimensions through places (m) whose points on paper are given, in order.

    Links too short for their figure take it beside them, alternately further out.
    """
    points = list(along)
    for (first, last), (start, end) in zip(pairwise(places), pairwise(points), strict=True):
        if last - first > SAME:
            yield Dimension(start=start, end=end, offset=offset, text=figures.length(last - first))


def without_crowding(places: Iterable[float], scale: float, room: float = 7.5) -> list[float]:
    """Places in order, less those whose link on paper would have no room for its figure (mm)."""
    kept: list[float] = []
    ordered = sorted(set(places))
    for place in ordered:
        if not kept or (place - kept[-1]) * 1000.0 / scale >= room:
            kept.append(place)
    if kept and ordered[-1] - kept[-1] > SAME:
        kept[-1:] = [ordered[-1]] if len(kept) > 1 else [kept[-1], ordered[-1]]
    return kept


NARROW = 250.0
"""A drawing narrower than this has levels without their words (mm)."""


def levels_for(levels: Sequence[tuple[float, str]], width: float, height: float) -> list[tuple[float, str]]:
    """As many of some levels, the first first, as a column beside a view of that height holds.

    In a drawing that is to be narrow they go without their words.
    """
    kept = list(levels)[: max(2, int((height + LINE) / LINE))]
    return kept if width >= NARROW else [(level, "") for level, _ in kept]


def level_column(
    levels: Iterable[tuple[float, str]], x: float, y_of: float, scale: float, figures: Figures, *, edge: float
) -> Iterator[Item]:
    """Levels with their words in a column at x, spread so that no two touch; thin lines lead to them.

    `y_of` is the height on paper of level 0; `edge` where the thin line begins.
    """
    rows = sorted({round(level, 4): words for level, words in levels}.items())
    spread = _spread([y_of + 1000.0 * level / scale for level, _ in rows])
    for (level, words), y in zip(rows, spread, strict=True):
        true = y_of + 1000.0 * level / scale
        bend = x - 4.0
        path = (
            ((edge, true), (bend, true), (x - 1.0, y))
            if abs(true - y) > 0.05
            else ((edge, true), (x - 1.0, y))
        )
        yield Stroke(path=path, pen=Pen.DIMENSION, layer="dimension")
        yield level_triangle((x + 0.6, y))
        yield figure((x + 2.8, y + 0.2), f"{figures.level(level)}  {words}")


def _spread(wanted: list[float]) -> list[float]:
    """Heights at least a line apart, as near to the wanted ones as pushing up and down allows."""
    placed = list(wanted)
    for _ in range(60):
        moved = False
        for k in range(len(placed) - 1):
            gap = placed[k + 1] - placed[k]
            if gap < LINE - 1e-6:
                push = 0.5 * (LINE - gap)
                placed[k] -= push
                placed[k + 1] += push
                moved = True
        if not moved:
            break
    return placed


def section_mark(at: Point, way: Point, letter: str) -> Iterator[Item]:
    """The end of a section line: a thick stroke, an arrow in the direction of looking, a letter."""
    across = (-way[1], way[0])
    start = (at[0] - 4.0 * across[0], at[1] - 4.0 * across[1])
    end = (at[0] + 4.0 * across[0], at[1] + 4.0 * across[1])
    yield Stroke(path=(start, end), pen=Pen.CUT, layer="text")
    tip = (at[0] + 5.0 * way[0], at[1] + 5.0 * way[1])
    yield Stroke(path=(at, tip), pen=Pen.SEEN, layer="text")
    head = (
        tip,
        (tip[0] - 2.4 * way[0] + 0.9 * across[0], tip[1] - 2.4 * way[1] + 0.9 * across[1]),
        (tip[0] - 2.4 * way[0] - 0.9 * across[0], tip[1] - 2.4 * way[1] - 0.9 * across[1]),
    )
    yield Area(path=head, wash=Wash.INK, layer="text")
    place = (at[0] - 3.6 * way[0], at[1] - 3.6 * way[1] - 0.5 * 3.5)
    yield heading(place, letter, 3.5, "middle")


def north(at: Point, towards: float, radius: float = 9.0) -> Iterator[Item]:
    """A north arrow; `towards` is the direction on paper (rad from the right, anticlockwise)."""
    u = (math.cos(towards), math.sin(towards))
    v = (-u[1], u[0])

    def place(along: float, across: float) -> Point:
        return at[0] + radius * (along * u[0] + across * v[0]), at[1] + radius * (
            along * u[1] + across * v[1]
        )

    yield Arc(centre=at, radius=radius, start=0.0, end=2.0 * math.pi, pen=Pen.SEEN, layer="text")
    for sign, wash in ((1.0, Wash.INK), (-1.0, Wash.PAPER)):
        half = (place(1.0, 0.0), place(-0.62, sign * 0.42), place(-0.35, 0.0))
        yield Area(path=half, wash=wash, outline=Pen.LAYER, layer="text")
    letter = place(1.36, 0.0)
    yield Text(
        at=(letter[0], letter[1] - 0.5 * FIGURE), text="N", height=FIGURE + 0.6, anchor="middle", strong=True
    )


def bar_length(scale: float, figures: Figures, *, metres: int = 5) -> float:
    """How long the bar of a scale is on paper (mm)."""
    return metres * (1.0 if figures.system == "metric" else 3.0 * 0.3048) * 1000.0 / scale


def scale_bar(at: Point, scale: float, figures: Figures, *, metres: int = 5) -> Iterator[Item]:
    """A bar of whole metres (or of feet), so that a copy of any size can be measured."""
    unit = 1.0 if figures.system == "metric" else 0.3048
    step = 1000.0 * unit / scale
    count = metres if figures.system == "metric" else 3 * metres
    for k in range(count):
        box = tuple((at[0] + step * (k + u), at[1] + v) for u, v in ((0, 0), (1, 0), (1, 1.6), (0, 1.6)))
        yield Area(path=box, wash=Wash.INK if k % 2 == 0 else Wash.PAPER, outline=Pen.LAYER, layer="text")
    name = "m" if figures.system == "metric" else "ft"
    for k in (0, count):
        text = f"{k} {name}" if k else "0"
        yield Text(at=(at[0] + step * k, at[1] + 2.6), text=text, height=CAPTION, anchor="middle")


def widest(lines: Iterable[str], height: float = FIGURE) -> float:
    """Room that the longest of some lines takes (mm)."""
    return max((text_width(line, height) for line in lines), default=0.0)
