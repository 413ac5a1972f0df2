"""Where the figure of a dimension stands: asked by what lays a sheet out and by what draws it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Text
from bermwright.base.lettering import text_width

if TYPE_CHECKING:
    from bermwright.base.drawing import Dimension, Point

FIGURE, LEAST = 2.5, 1.9
"""Height of a figure, and the least that it shrinks to over a short line (mm)."""
LIFT = 0.9
"""From the line to the foot of the figure (mm)."""


def unit_way(start: Point, end: Point) -> Point:
    """Direction from start to end; along x where both are one point."""
    size = math.dist(start, end)
    return ((end[0] - start[0]) / size, (end[1] - start[1]) / size) if size > 0.0 else (1.0, 0.0)


def stepped(point: Point, way: Point, far: float) -> Point:
    """A point moved so far along a direction."""
    return point[0] + far * way[0], point[1] + far * way[1]


def dimension_text(item: Dimension) -> Text:
    """The figure over the middle of a dimension line, read from below or from the right."""
    along = unit_way(item.start, item.end)
    across = (-along[1], along[0])
    angle = math.atan2(along[1], along[0])
    upright = -math.pi / 2 + 1e-6 < angle <= math.pi / 2 + 1e-6
    middle = (0.5 * (item.start[0] + item.end[0]), 0.5 * (item.start[1] + item.end[1]))
    at = stepped(middle, across, item.offset + (LIFT if upright else -LIFT))
    turned = angle if upright else angle + math.pi
    reading = (math.cos(turned), math.sin(turned))
    at = stepped(stepped(at, reading, item.shift[0]), (-reading[1], reading[0]), item.shift[1])
    room = math.dist(item.start, item.end) - 1.0
    height = max(LEAST, min(FIGURE, FIGURE * room / max(text_width(item.text, FIGURE), 1e-9)))
    return Text(at=at, text=item.text, height=height, anchor="middle", angle=turned, layer=item.layer)
