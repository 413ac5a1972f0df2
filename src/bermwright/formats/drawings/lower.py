"""Items of a sheet drawn out into plain fills, strokes, arcs and text."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, assert_never

from bermwright.base.dimensions import dimension_text, stepped, unit_way
from bermwright.base.drawing import (
    Arc,
    Area,
    Arrow,
    Band,
    Clip,
    Dimension,
    Ink,
    Leader,
    Pen,
    Spline,
    Stroke,
    Text,
    Wash,
)
from bermwright.base.lettering import text_width
from bermwright.formats.drawings.hatching import expand_area, expand_band
from bermwright.formats.drawings.plain import Fill, Plain, Strokes, Window

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from bermwright.base.drawing import Item, Point
    from bermwright.formats.drawings.plain import Box

TICK = 1.3
"""Half the length (mm) of the 45 degree stroke that ends a dimension."""
OVERSHOOT = 1.2
"""How far (mm) an extension line runs past its dimension line."""
GAP = 0.8
"""Gap (mm) between the thing and its extension line."""


def lower(items: Iterable[Item], seen: Box | None = None) -> Iterator[Plain]:
    """The items drawn out, in the same order; hatches only where they are `seen`, where that is given."""
    for item in items:
        yield from lower_item(item, seen)


def lower_item(item: Item, seen: Box | None = None) -> Iterator[Plain]:
    """One item drawn out."""
    match item:
        case Stroke():
            yield Strokes(
                paths=(item.path,), pen=item.pen, ink=item.ink, closed=item.closed, layer=item.layer
            )
        case Arc() | Spline() | Text():
            yield item
        case Area():
            yield from expand_area(item, seen)
        case Band():
            yield from expand_band(item, seen)
        case Dimension():
            yield from _dimension(item)
        case Leader():
            yield from _leader(item)
        case Arrow():
            yield from _arrow(item)
        case Clip():
            inner = tuple(lower(item.items, _common((item.low, item.high), seen)))
            yield Window(low=item.low, high=item.high, items=inner, round=item.round)
        case _:
            assert_never(item)


def _common(box: Box, other: Box | None) -> Box:
    """What two boxes have in common."""
    if other is None:
        return box
    (left, foot), (right, top) = box
    (left_too, foot_too), (right_too, top_too) = other
    return (max(left, left_too), max(foot, foot_too)), (min(right, right_too), min(top, top_too))


def _dimension(item: Dimension) -> Iterator[Plain]:
    """Extension lines, dimension line, 45 degree ticks and the figure over the line."""
    along = unit_way(item.start, item.end)
    across = (-along[1], along[0])
    side = math.copysign(1.0, item.offset)
    first, last = stepped(item.start, across, item.offset), stepped(item.end, across, item.offset)
    lines = [(first, last)]
    if abs(item.offset) > GAP:
        for foot, end in ((item.start, first), (item.end, last)):
            lines.append((stepped(foot, across, side * GAP), stepped(end, across, side * OVERSHOOT)))
    yield Strokes(paths=tuple(lines), pen=Pen.DIMENSION, layer=item.layer)
    angle = math.atan2(along[1], along[0]) + math.pi / 4
    slant = (math.cos(angle), math.sin(angle))
    ticks = tuple((stepped(end, slant, -TICK), stepped(end, slant, TICK)) for end in (first, last))
    yield Strokes(paths=ticks, pen=Pen.TICK, layer=item.layer)
    yield dimension_text(item)


def _leader(item: Leader) -> Iterator[Plain]:
    """A circle with its number, a line and a dot on the thing."""
    radius = max(2.6, 0.5 * text_width(item.text, 2.5) + 0.9)
    along = unit_way(item.at, item.to)
    yield Strokes(
        paths=((stepped(item.at, along, radius), item.to),), pen=Pen.DIMENSION, ink=Ink.INK, layer=item.layer
    )
    yield Fill(path=_disc(item.to, 0.45), wash=Wash.INK, layer=item.layer)
    yield Fill(path=_disc(item.at, radius), wash=Wash.PAPER, layer=item.layer)
    yield Arc(centre=item.at, radius=radius, start=0.0, end=2.0 * math.pi, pen=Pen.LAYER, layer=item.layer)
    foot = (item.at[0], item.at[1] - 1.25)
    yield Text(at=foot, text=item.text, height=2.5, anchor="middle", halo=False, layer=item.layer)


def _disc(centre: Point, radius: float) -> tuple[Point, ...]:
    """A disc as a polygon fine enough for paper."""
    turns = [2.0 * math.pi * k / 24 for k in range(24)]
    return tuple((centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in turns)


def _arrow(item: Arrow) -> Iterator[Plain]:
    """A shaft with a closed head; the head grows with the pen."""
    along = unit_way(item.tail, item.head)
    across = (-along[1], along[0])
    size = 3.4 if item.pen is Pen.FORCE else 1.9
    size = min(size, 0.6 * math.dist(item.tail, item.head))
    neck = stepped(item.head, along, -size)
    half = 0.3 * size
    yield Strokes(
        paths=((item.tail, stepped(item.head, along, -0.8 * size)),),
        pen=item.pen,
        ink=item.ink,
        layer=item.layer,
    )
    head = (item.head, stepped(neck, across, half), stepped(neck, across, -half))
    yield Fill(path=head, wash=_solid(item), layer=item.layer)


def _solid(item: Arrow) -> Wash:
    """The solid tint of an arrow's head."""
    red = item.ink is Ink.RED or item.pen is Pen.STOP
    if red:
        return Wash.STOP
    return Wash.SOFT if item.pen is Pen.LOAD else Wash.INK
