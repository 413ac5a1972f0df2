"""Strokes cut to the area they fill."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

import numpy as np
import shapely

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.base.drawing import Path
    from bermwright.formats.drawings.hatching.fields import Laid

SHORTEST = 0.12
"""A rest of a stroke shorter than this (mm) is left out."""


def polygon(path: Path, holes: tuple[Path, ...] = ()) -> Any:  # noqa: ANN401  (the library has no types)
    """The area inside `path` and outside every hole."""
    area = shapely.make_valid(shapely.Polygon(path))
    for hole in holes:
        area = shapely.difference(area, shapely.make_valid(shapely.Polygon(hole)))
    return area


def clipped(strokes: Laid, area: Any) -> tuple[Path, ...]:  # noqa: ANN401  (the geometry library has no types)
    """The parts of the strokes that lie in the area, in their order."""
    if not strokes.paths or area.is_empty:
        return ()
    shapely.prepare(area)
    whole = shapely.contains_properly(area, strokes.lines)
    crossing = ~whole & shapely.intersects(area, strokes.lines)
    places = np.flatnonzero(crossing)
    cut = _cut(strokes.lines[places], area, places) if places.size else {}
    long = shapely.length(strokes.lines) > SHORTEST
    found: list[Path] = []
    for place in np.flatnonzero((whole & long) | crossing).tolist():
        found += cut.get(place, ()) if crossing[place] else (strokes.paths[place],)
    return tuple(found)


def _cut(lines: Any, area: Any, places: NDArray[np.intp]) -> dict[int, list[Path]]:  # noqa: ANN401  (the geometry library has no types)
    """What is left of the strokes that cross the edge, by their places."""
    parts, owner = shapely.get_parts(shapely.intersection(lines, area), return_index=True)
    parts, inner = shapely.get_parts(parts, return_index=True)
    owner = owner[inner]
    kept = (shapely.get_type_id(parts) == shapely.GeometryType.LINESTRING) & (
        shapely.length(parts) > SHORTEST
    )
    points, line = shapely.get_coordinates(parts[kept], return_index=True)
    rows, ends = points.tolist(), np.flatnonzero(np.diff(line)) + 1
    cuts = [0, *ends.tolist(), len(rows)]
    found: dict[int, list[Path]] = {}
    for place, (start, end) in zip(places[owner[kept]].tolist(), pairwise(cuts), strict=False):
        found.setdefault(place, []).append(tuple((x, y) for x, y in rows[start:end]))
    return found
