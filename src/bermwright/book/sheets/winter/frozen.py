"""The frozen part of a section as areas, and the line of frost with its teeth."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING, Any, TypeAlias

import shapely

from bermwright.adapt.winter.telling.picture import HALF_FROZEN
from bermwright.base.drawing import Area, Item, Path, Pen, Stroke, View, Wash
from bermwright.book.sheets.paper import path_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    import numpy as np
    from numpy.typing import NDArray

    from bermwright.handbook.groundheat import Mesh

    Array = NDArray[np.float64]

Shape: TypeAlias = Any
"""A shape of the geometry library, which has no types."""
PITCH, TOOTH, TOOTH_PITCH = 1.9, 1.3, 3.4
"""Vertical strokes of frozen ground, and the teeth of the frost line (mm)."""
LEAST = 0.05
"""Smaller patches of ice are not drawn (m2)."""
ROUND = 0.07
"""Corners of triangles finer than this are not shown (m)."""
HOLE = 0.5
"""Thawed places in frozen ground smaller than this are not shown (m2)."""
SHORTEST = 1.0
"""Shorter pieces of the frost line are not drawn (m)."""


def frozen_ground(mesh: Mesh, temperature: Array, window: tuple[float, float, float, float]) -> Shape:
    """The part of a window of the section in which the soil's water is ice, as polygons (m)."""
    corners = mesh.points[mesh.triangles]
    heat = temperature[mesh.triangles] - HALF_FROZEN
    low, bottom, high, top = window
    inside = (corners[:, :, 0].max(axis=1) > low) & (corners[:, :, 0].min(axis=1) < high)
    inside &= (corners[:, :, 1].max(axis=1) > bottom) & (corners[:, :, 1].min(axis=1) < top)
    cold = inside & (heat.max(axis=1) < 0.0)
    mixed = inside & (heat.min(axis=1) < 0.0) & (heat.max(axis=1) >= 0.0)
    parts = list(shapely.polygons(corners[cold]))
    parts += [_cut(points, values) for points, values in zip(corners[mixed], heat[mixed], strict=True)]
    body = shapely.union_all(parts, grid_size=1e-4) if parts else shapely.Polygon()
    smooth = body.buffer(ROUND).buffer(-2.0 * ROUND).buffer(ROUND)
    kept = [_filled(part) for part in polygons(smooth)]
    return shapely.intersection(shapely.union_all(kept), shapely.box(*window))


def _filled(part: Shape) -> Shape:
    """A polygon without its small holes."""
    return shapely.Polygon(
        part.exterior, [hole for hole in part.interiors if shapely.Polygon(hole).area > HOLE]
    )


def _cut(points: Array, values: Array) -> Shape:
    """The part of a triangle under zero."""
    ring: list[Array] = []
    for here in range(3):
        after = (here + 1) % 3
        if values[here] < 0.0:
            ring.append(points[here])
        if (values[here] < 0.0) != (values[after] < 0.0):
            share = values[here] / (values[here] - values[after])
            ring.append(points[here] + share * (points[after] - points[here]))
    return shapely.Polygon(ring)


def polygons(body: Shape) -> Iterator[Shape]:
    """The polygons of a shape that are worth drawing."""
    for part in shapely.get_parts(body):
        if shapely.get_type_id(part) == shapely.GeometryType.POLYGON and part.area > LEAST:
            yield part


def cold_items(body: Shape, view: View, *, strokes: bool = True) -> Iterator[Item]:
    """Wash and vertical strokes of frozen ground."""
    for part in polygons(body):
        rings = [shapely.get_coordinates(ring) for ring in (part.exterior, *part.interiors)]
        outer, *holes = (path_of(view, ring[:, 0], ring[:, 1])[:-1] for ring in rings)
        yield Area(path=outer, holes=tuple(holes), wash=Wash.COLD, layer="frost")
    if strokes:
        yield from _strokes(body, view)


def _strokes(body: Shape, view: View) -> Iterator[Stroke]:
    if shapely.is_empty(body):
        return
    low, bottom, high, top = body.bounds
    step = PITCH * view.scale / 1000.0
    places = [step * count for count in range(math.ceil(low / step), math.floor(high / step) + 1)]
    if not places:
        return
    upright = shapely.linestrings([((x, bottom), (x, top)) for x in places])
    for part in shapely.get_parts(shapely.intersection(body, upright)):
        points = shapely.get_coordinates(part)
        if len(points) > 1 and part.length * 1000.0 / view.scale > 1.0:
            yield Stroke(path=path_of(view, points[:, 0], points[:, 1]), pen=Pen.HATCH, layer="frost")


def clipped(
    lines: tuple[Array, ...], window: tuple[float, float, float, float], without: Shape
) -> Iterator[Array]:
    """Lines inside a window and outside a shape (m)."""
    for line in lines:
        if len(line) < 2:
            continue
        rest = shapely.difference(
            shapely.intersection(shapely.LineString(line), shapely.box(*window)), without
        )
        if rest.geom_type == "MultiLineString":
            rest = shapely.line_merge(rest)
        for part in shapely.get_parts(rest):
            points = shapely.get_coordinates(part)
            if len(points) > 1:
                yield points


def frost_lines(
    body: Shape, surface: Array, without: Shape, window: tuple[float, float, float, float]
) -> tuple[Array, ...]:
    """The lower edge of frozen ground: its border away from the surface, the house and the window (m)."""
    near = shapely.union_all(
        [
            shapely.LineString(surface).buffer(0.12),
            without.buffer(0.05),
            shapely.box(*window).exterior.buffer(0.05),
        ]
    )
    found = []
    for part in polygons(body):
        for ring in (part.exterior, *part.interiors):
            rest = shapely.difference(ring, near)
            rest = shapely.line_merge(rest) if rest.geom_type == "MultiLineString" else rest
            found += [line for line in shapely.get_parts(rest) if line.length > SHORTEST]
    return tuple(shapely.get_coordinates(line) for line in found)


def frost_items(line: Array, body: Shape, view: View) -> Iterator[Item]:
    """The line of frost, thick, with teeth towards the ice."""
    path = path_of(view, line[:, 0], line[:, 1])
    yield Stroke(path=path, pen=Pen.CUT, layer="frost")
    length = sum(math.dist(one, other) for one, other in itertools.pairwise(path))
    for count in range(1, int(length / TOOTH_PITCH)):
        foot, along = _at(path, count * TOOTH_PITCH)
        square = (-along[1], along[0])
        for sign in (1.0, -1.0):
            tip = (foot[0] + sign * TOOTH * square[0], foot[1] + sign * TOOTH * square[1])
            if body.contains(shapely.Point(_metres(view, tip))):
                yield Stroke(path=(foot, tip), pen=Pen.TICK, layer="frost")
                break


def _at(path: Path, distance: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """A place along a path, and the direction there."""
    for one, other in itertools.pairwise(path):
        step = math.dist(one, other)
        if step >= distance and step > 0.0:
            along = ((other[0] - one[0]) / step, (other[1] - one[1]) / step)
            return (one[0] + distance * along[0], one[1] + distance * along[1]), along
        distance -= step
    return path[-1], (1.0, 0.0)


def _metres(view: View, point: tuple[float, float]) -> tuple[float, float]:
    """A place of the sheet in the section (m)."""
    factor = view.scale / 1000.0
    return (point[0] - view.origin[0]) * factor, (point[1] - view.origin[1]) * factor
