"""Strokes cut to the area they fill."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
import shapely

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bermwright.base.drawing import Path

SHORTEST = 0.12
"""A rest of a stroke shorter than this (mm) is left out."""


def polygon(path: Path, holes: tuple[Path, ...] = ()) -> Any:  # noqa: ANN401  (the library has no types)
    """The area inside `path` and outside every hole."""
    area = shapely.make_valid(shapely.Polygon(path))
    for hole in holes:
        area = shapely.difference(area, shapely.make_valid(shapely.Polygon(hole)))
    return area


def clipped(strokes: Iterable[Path], area: Any) -> tuple[Path, ...]:  # noqa: ANN401
    """The parts of the strokes that lie in the area."""
    lines = [shapely.LineString(stroke) for stroke in strokes if len(stroke) > 1]
    if not lines or area.is_empty:
        return ()
    shapely.prepare(area)
    found = shapely.get_parts(shapely.intersection(np.array(lines), area))
    kept = found[(shapely.get_type_id(found) == 1) & (shapely.length(found) > SHORTEST)]
    return tuple(_path(line) for line in kept) + tuple(
        _path(line)
        for group in found[shapely.get_type_id(found) > 3]
        for line in shapely.get_parts(group)
        if shapely.get_type_id(line) == 1 and line.length > SHORTEST
    )


def _path(line: Any) -> Path:  # noqa: ANN401
    """The points of a line as plain floats."""
    return tuple((float(x), float(y)) for x, y in shapely.get_coordinates(line))
