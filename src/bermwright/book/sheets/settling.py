"""The last look at a sheet before it is drawn: lettering that stands over other lettering moves aside.

Figures of short links, and figures in feet and inches, are wider than what they measure. A label that has to
go far keeps a thin line to where it belongs.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from bermwright.base.dimensions import LIFT, dimension_text
from bermwright.base.drawing import Clip, Dimension, Pen, Stroke, Text
from bermwright.base.lettering import text_width
from bermwright.book.sheets.frame import BLOCK, EDGE, LEFT, block_height
from bermwright.book.sheets.paper import Board, boxes_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from bermwright.base.drawing import Item, Point, Sheet
    from bermwright.book.sheets.paper import Box

AIR = 0.3
"""Boxes may reach into each other by this much: their widths are estimated on the wide side (mm)."""
FAR = 5.0
"""A label that moved further keeps a line to its place (mm)."""
ROWS = (1, 2, 3)
STEPS = (3.6, 5.0, 7.5, 10.0, 13.0, 16.0, 20.0, 25.0, 30.0, 36.0, 43.0, 50.0)
"""How far a label may move (mm)."""
WAYS = tuple((math.cos(k * math.pi / 4), math.sin(k * math.pi / 4)) for k in (2, 6, 0, 4, 1, 3, 5, 7))
FRAME = "frame"
"""What stands in the frame and the title block never moves."""


def settled(sheet: Sheet) -> Sheet:
    """A drawing with every label where it meets no other, as far as there is room."""
    return _settled(sheet, (0.0, 0.0, sheet.width, sheet.height), ())


def settled_in_frame(sheet: Sheet) -> Sheet:
    """The same for a framed sheet: labels stay in the frame and off the title block."""
    field = (LEFT + 1.0, EDGE + 1.0, sheet.width - EDGE - 1.0, sheet.height - EDGE - 1.0)
    block = (sheet.width - EDGE - BLOCK, EDGE, sheet.width - EDGE, EDGE + block_height())
    return _settled(sheet, field, (block,))


def _settled(sheet: Sheet, field: Box, kept: tuple[Box, ...]) -> Sheet:
    standing = {place: boxes for place, boxes in enumerate(map(_boxes, sheet.items)) if boxes}
    crowded = _crowded(sheet.items, standing, field)
    if not crowded:
        return sheet
    stay = (box for place, boxes in standing.items() if place not in crowded for box in boxes)
    board = Board(boxes=[*kept, *stay])
    moved: dict[int, tuple[Item, ...]] = {}
    for place in crowded:
        moved[place] = _put(sheet.items[place], board, field)
    items = (new for place, item in enumerate(sheet.items) for new in moved.get(place, (item,)))
    return replace(sheet, items=tuple(items))


def lettering(item: Item) -> Iterator[Text]:
    """All lettering of an item, of a window only what is seen in it."""
    match item:
        case Text():
            yield item
        case Dimension():
            yield dimension_text(item)
        case Clip():
            for text in (text for part in item.items for text in lettering(part)):
                if all(_within(box, (*item.low, *item.high)) for box in boxes_of(text, 0.0)):
                    yield text
        case _:
            return


def meet(one: Box, other: Box) -> bool:
    """Whether two boxes have more in common than the air round them."""
    return (
        one[0] < other[2] - AIR
        and other[0] < one[2] - AIR
        and one[1] < other[3] - AIR
        and other[1] < one[3] - AIR
    )


def _boxes(item: Item) -> list[Box]:
    return [box for text in lettering(item) for box in boxes_of(text, 0.0)]


def _crowded(items: tuple[Item, ...], standing: dict[int, list[Box]], field: Box) -> list[int]:
    """Which items have to move: of two that meet the later one, unless it is part of the frame.

    So does what runs out of the field.
    """
    found = {
        place
        for place, boxes in standing.items()
        if _moves(items[place]) and not all(_within(box, _wider(field)) for box in boxes)
    }
    places = list(standing)
    for at, place in enumerate(places):
        for other in places[:at]:
            if place not in found and other not in found and _touch(standing[place], standing[other]):
                found.add(place if _moves(items[place]) else other)
    return sorted(found)


def _touch(some: Iterable[Box], others: list[Box]) -> bool:
    return any(meet(one, other) for one in some for other in others)


def _moves(item: Item) -> bool:
    return isinstance(item, Dimension) or (isinstance(item, Text) and item.layer != FRAME)


def _put(item: Item, board: Board, field: Box) -> tuple[Item, ...]:
    """The item at the first of its places that is free, noted on the board; where it was if none is."""
    for other in _places(item):
        boxes = _boxes(other)
        inside = all(_within(box, field) for box in boxes)
        if inside and not any(meet(box, stands) for box in boxes for stands in board.boxes):
            board.boxes += boxes
            return (other, *_line(item, other))
    board.boxes += _boxes(item)
    return (item,)


def _within(box: Box, area: Box) -> bool:
    return area[0] <= box[0] and area[1] <= box[1] and box[2] <= area[2] and box[3] <= area[3]


def _places(item: Item) -> Iterator[Item]:
    """Where a label may stand, its own place first."""
    yield item
    match item:
        case Dimension():
            for shift in _shifts(item):
                yield replace(item, shift=shift)
        case Text():
            for step in STEPS:
                for u, v in WAYS:
                    yield replace(item, at=(item.at[0] + step * u, item.at[1] + step * v))
        case _:
            return


def _shifts(item: Dimension) -> Iterator[Point]:
    """Under the line, beside the link, then in rows over and under it, also beside it."""
    text = dimension_text(item)
    width, line = text_width(text.text, text.height), text.height + 1.1
    beside = 0.5 * math.dist(item.start, item.end) + 0.5 * width + 1.6
    under = -(text.height + 2.0 * LIFT)
    yield 0.0, under
    for along in (beside, -beside):
        yield along, 0.0
    for row in ROWS:
        for along in (0.0, 0.5 * width, -0.5 * width, beside, -beside):
            yield along, row * line
            yield along, under - row * line


def _line(old: Item, new: Item) -> Iterator[Item]:
    """A thin line from where a label went to where it belongs."""
    start, end = (next(lettering(one)) for one in (old, new))
    if math.dist(start.at, end.at) > FAR and not isinstance(old, Dimension):
        left, low, right, high = _around(boxes_of(end, 0.0))
        near = (min(max(start.at[0], left), right), min(max(start.at[1], low), high))
        yield Stroke(path=(near, start.at), pen=Pen.DIMENSION, layer="text")


def _wider(box: Box) -> Box:
    return box[0] - AIR, box[1] - AIR, box[2] + AIR, box[3] + AIR


def _around(boxes: Iterable[Box]) -> Box:
    lefts, lows, rights, highs = zip(*boxes, strict=True)
    return min(lefts), min(lows), max(rights), max(highs)
