"""Items of a sheet drawn out into plain fills, strokes, arcs and text."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, assert_never

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


def _moved(point: Point, along: Point, distance: float) -> Point:
    """A point moved along a unit direction."""
    return point[0] + along[0] * distance, point[1] + along[1] * distance


def _unit(start: Point, end: Point) -> Point:
    """Direction from start to end; along x where both are one point."""
    size = math.dist(start, end)
    return ((end[0] - start[0]) / size, (end[1] - start[1]) / size) if size > 0.0 else (1.0, 0.0)


def _dimension(item: Dimension) -> Iterator[Plain]:
    """Extension lines, dimension line, 45 degree ticks and the figure over the line."""
    along = _unit(item.start, item.end)
    across = (-along[1], along[0])
    side = math.copysign(1.0, item.offset)
    first, last = _moved(item.start, across, item.offset), _moved(item.end, across, item.offset)
    lines = [(first, last)]
    if abs(item.offset) > GAP:
        for foot, end in ((item.start, first), (item.end, last)):
            lines.append((_moved(foot, across, side * GAP), _moved(end, across, side * OVERSHOOT)))
    yield Strokes(paths=tuple(lines), pen=Pen.DIMENSION, layer=item.layer)
    angle = math.atan2(along[1], along[0]) + math.pi / 4
    slant = (math.cos(angle), math.sin(angle))
    ticks = tuple((_moved(end, slant, -TICK), _moved(end, slant, TICK)) for end in (first, last))
    yield Strokes(paths=ticks, pen=Pen.TICK, layer=item.layer)
    yield dimension_text(item)


def dimension_text(item: Dimension) -> Text:
    """The figure over the middle of a dimension line, read from below or from the right."""
    along = _unit(item.start, item.end)
    across = (-along[1], along[0])
    angle = math.atan2(along[1], along[0])
    upright = -math.pi / 2 + 1e-6 < angle <= math.pi / 2 + 1e-6
    middle = (0.5 * (item.start[0] + item.end[0]), 0.5 * (item.start[1] + item.end[1]))
    lift = 0.9 if upright else -0.9
    at = _moved(middle, across, item.offset + lift)
    turned = angle if upright else angle + math.pi
    room = math.dist(item.start, item.end) - 1.0
    height = max(1.9, min(2.5, 2.5 * room / max(text_width(item.text, 2.5), 1e-9)))
    return Text(at=at, text=item.text, height=height, anchor="middle", angle=turned, layer=item.layer)


def _leader(item: Leader) -> Iterator[Plain]:
    """A circle with its number, a line and a dot on the thing."""
    radius = max(2.6, 0.5 * text_width(item.text, 2.5) + 0.9)
    along = _unit(item.at, item.to)
    yield Strokes(
        paths=((_moved(item.at, along, radius), item.to),), pen=Pen.DIMENSION, ink=Ink.INK, layer=item.layer
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
    along = _unit(item.tail, item.head)
    across = (-along[1], along[0])
    size = 3.4 if item.pen is Pen.FORCE else 1.9
    size = min(size, 0.6 * math.dist(item.tail, item.head))
    neck = _moved(item.head, along, -size)
    half = 0.3 * size
    yield Strokes(
        paths=((item.tail, _moved(item.head, along, -0.8 * size)),),
        pen=item.pen,
        ink=item.ink,
        layer=item.layer,
    )
    head = (item.head, _moved(neck, across, half), _moved(neck, across, -half))
    yield Fill(path=head, wash=_solid(item), layer=item.layer)


def _solid(item: Arrow) -> Wash:
    """The solid tint of an arrow's head."""
    red = item.ink is Ink.RED or item.pen is Pen.STOP
    if red:
        return Wash.STOP
    return Wash.SOFT if item.pen is Pen.LOAD else Wash.INK
