"""What is seen through a window, computed: other programs have no clipping of their own."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any, assert_never

import numpy as np
import shapely

from bermwright.base.drawing import Arc, Path, Point, Spline, Text
from bermwright.formats.drawings.curves import bezier_chain
from bermwright.formats.drawings.hatching.clipping import clipped, polygon
from bermwright.formats.drawings.hatching.fields import lay
from bermwright.formats.drawings.plain import Fill, Plain, Strokes, Window

if TYPE_CHECKING:
    from collections.abc import Iterator


def opened(items: tuple[Plain, ...]) -> Iterator[Plain]:
    """The items with every window cut out of what it shows."""
    for item in items:
        if isinstance(item, Window):
            view = _opening(item)
            for part in opened(item.items):
                yield from _seen(part, view)
        else:
            yield item


def _opening(window: Window) -> Any:  # noqa: ANN401  (the geometry library has no types)
    """The shape of a window."""
    if not window.round:
        return shapely.box(*window.low, *window.high)
    u, v = 0.5 * (window.high[0] - window.low[0]), 0.5 * (window.high[1] - window.low[1])
    x, y = window.low[0] + u, window.low[1] + v
    turns = [2.0 * math.pi * k / 180 for k in range(180)]
    return shapely.Polygon([(x + u * math.cos(a), y + v * math.sin(a)) for a in turns])


def _seen(item: Plain, view: Any) -> Iterator[Plain]:  # noqa: ANN401  (the geometry library has no types)
    """The part of an item that lies in the window; arcs and splines wholly inside stay as they are."""
    match item:
        case Fill():
            shape = shapely.intersection(polygon(item.path, item.holes), view)
            for part in shapely.get_parts(shape):
                if part.geom_type == "Polygon" and part.area > 1e-4:
                    yield replace(item, path=_ring(part.exterior), holes=tuple(map(_ring, part.interiors)))
        case Strokes():
            paths = tuple(path + path[:1] for path in item.paths) if item.closed else item.paths
            yield replace(item, paths=clipped(lay(paths), view), closed=False)
        case Arc() | Spline():
            points = _points(item)
            if shapely.contains(view, shapely.LineString(points)):
                yield item
            else:
                yield Strokes(
                    paths=clipped(lay([points]), view), pen=item.pen, ink=item.ink, layer=item.layer
                )
        case Text():
            if shapely.contains(view, shapely.Point(item.at)):
                yield item
        case Window():
            raise TypeError("a window inside a window is opened first")
        case _:
            assert_never(item)


def _ring(ring: Any) -> Path:  # noqa: ANN401  (the geometry library has no types)
    """A ring's points without the repeated last one."""
    return tuple((float(x), float(y)) for x, y in shapely.get_coordinates(ring)[:-1])


def _points(item: Arc | Spline) -> Path:
    """A curve as points, fine enough for paper."""
    if isinstance(item, Arc):
        sweep = (item.end - item.start) % (2.0 * math.pi) or 2.0 * math.pi
        turns = np.linspace(item.start, item.start + sweep, 181)
        return tuple(
            (item.centre[0] + item.radius * math.cos(a), item.centre[1] + item.radius * math.sin(a))
            for a in turns
        )
    found: list[Point] = [item.path[0]]
    for a, b, c, d in bezier_chain(item.path):
        for t in (0.25, 0.5, 0.75, 1.0):
            r = 1.0 - t
            weights = (r**3, 3 * r * r * t, 3 * r * t * t, t**3)
            found.append(
                (
                    sum(w * p[0] for w, p in zip(weights, (a, b, c, d), strict=True)),
                    sum(w * p[1] for w, p in zip(weights, (a, b, c, d), strict=True)),
                )
            )
    return tuple(found)
