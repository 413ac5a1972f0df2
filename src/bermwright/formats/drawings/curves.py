"""Smooth curves through points, as cubic Bezier pieces that every format can write."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Path, Point

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

Bezier = tuple[Point, Point, Point, Point]


def bezier_chain(path: Path) -> tuple[Bezier, ...]:
    """Cubic pieces through all points, with one tangent at each (Catmull-Rom over chord lengths).

    The first and last tangents are those of the parabola through the three points at the end, so a
    chain through points of a smooth curve keeps its direction at both feet.
    """
    start, first, second, end = bezier_points(path)
    return tuple(
        (_pair(a), _pair(b), _pair(c), _pair(d)) for a, b, c, d in zip(start, first, second, end, strict=True)
    )


def bezier_points(path: Path) -> tuple[Array, Array, Array, Array]:
    """(n, 2) start, both handles and end of each piece of the same chain."""
    points = np.array(path, dtype=float)
    if len(points) < 2:
        none = np.zeros((0, 2))
        return none, none, none, none
    steps = np.maximum(np.hypot(*np.diff(points, axis=0).T), 1e-12)
    s = np.concatenate([[0.0], np.cumsum(steps)])
    slopes = slopes_along(points, s)
    first = points[:-1] + slopes[:-1] * steps[:, None] / 3.0
    second = points[1:] - slopes[1:] * steps[:, None] / 3.0
    return points[:-1], first, second, points[1:]


def slopes_along(points: Array, s: Array) -> Array:
    """Derivative of each coordinate along the chord lengths, parabolic at the ends."""
    if len(points) == 2:
        return np.gradient(points, s, axis=0, edge_order=1)
    return np.gradient(points, s, axis=0, edge_order=2)


def _pair(row: Array) -> Point:
    """A row of an array as a point."""
    return float(row[0]), float(row[1])
