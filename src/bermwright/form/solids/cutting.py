"""Flat pictures of bodies: cut by a plane, or as the shadow they throw straight down."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np
import shapely
from manifold3d import Manifold, Mesh64
from shapely.affinity import translate

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from numpy.typing import NDArray

    from bermwright.form.solids.nouns import Kind, Solid

    Array = NDArray[np.float64]

Shape = Any
"""A polygon of the geometry library, which has no types."""

TURNS = {
    "z": np.array([[1.0, 0.0, 0.0, 0.0], [0.0, 1.0, 0.0, 0.0], [0.0, 0.0, 1.0, 0.0]]),
    "x": np.array([[0.0, 1.0, 0.0, 0.0], [0.0, 0.0, 1.0, 0.0], [1.0, 0.0, 0.0, 0.0]]),
    "y": np.array([[1.0, 0.0, 0.0, 0.0], [0.0, 0.0, 1.0, 0.0], [0.0, -1.0, 0.0, 0.0]]),
}
"""Lays the plane square to an axis flat: cut along z one sees x, y; along x y, z; along y x, z."""
SAME_CUT = 9
"""Decimals to which two copies are cut at the same place (m)."""
SPECK = 1e-7
"""Areas that are nothing (m2)."""


def trimmed(solid: Solid, axis: str, at: float, side: float) -> Solid | None:
    """What of a body lies past a plane: over it along its axis (`side` 1), or before it (-1)."""
    normal = tuple(side if name == axis else 0.0 for name in "xyz")
    left = body_of(solid, solid.places[0]).trim_by_plane(normal, side * at)
    if left.is_empty():
        return None
    mesh = left.to_mesh64()
    return replace(
        solid,
        vertices=np.asarray(mesh.vert_properties[:, :3], dtype=float),
        triangles=np.asarray(mesh.tri_verts, dtype=np.int64),
        places=np.zeros((1, 3)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """What a plane shows of one body."""

    name: str
    kind: Kind
    shape: Shape
    """A polygon (m)."""


def body_of(solid: Solid, place: Array | None = None) -> Manifold:
    """A solid as a body of the geometry library again."""
    moved = solid.vertices if place is None else solid.vertices + place
    corners = np.array(solid.triangles, dtype=np.uint64)
    return Manifold(Mesh64(np.array(moved), corners))


def cut(solids: Iterable[Solid], axis: str, at: float) -> tuple[Face, ...]:
    """What the plane square to an axis at a place cuts of each body."""
    return tuple(
        Face(name=solid.name, kind=solid.kind, shape=part)
        for solid in solids
        for part in _of_all_copies(solid, axis, at)
    )


def _of_all_copies(solid: Solid, axis: str, at: float) -> Iterator[Shape]:
    """The cuts of every copy; copies that are cut at the same place of themselves are cut once and moved."""
    number = "xyz".index(axis)
    low, high = float(solid.vertices[:, number].min()), float(solid.vertices[:, number].max())
    beside = [place for place in range(3) if place != number]
    ready: dict[float, tuple[Shape, ...]] = {}
    for place in solid.places:
        local = round(at - float(place[number]), SAME_CUT)
        if low < local < high:
            if local not in ready:
                ready[local] = tuple(_sliced(body_of(solid), axis, local))
            for part in ready[local]:
                yield translate(part, float(place[beside[0]]), float(place[beside[1]]))


def _sliced(body: Manifold, axis: str, at: float) -> Iterator[Shape]:
    section = body.transform(TURNS[axis]).slice(-at if axis == "y" else at)
    yield from parts_of(shape_of(section.to_polygons()))


def shape_of(rings: Iterable[Array]) -> Shape:
    """Rings as one shape: anticlockwise ones are filled, clockwise ones are holes."""
    outer: list[Shape] = []
    inner: list[Shape] = []
    for ring in rings:
        if len(ring) >= 3:  # noqa: PLR2004  (a triangle)
            made = shapely.Polygon(ring)
            (outer if shapely.is_ccw(made.exterior) else inner).append(shapely.make_valid(made))
    return shapely.difference(shapely.union_all(outer), shapely.union_all(inner))


def parts_of(shape: Shape) -> tuple[Shape, ...]:
    """The polygons of a shape, left to right."""
    parts = [
        part
        for part in shapely.get_parts(shapely.get_parts(shape))
        if shapely.get_type_id(part) == shapely.GeometryType.POLYGON and part.area > SPECK
    ]
    return tuple(sorted(parts, key=lambda part: (part.centroid.x, part.centroid.y)))


def shadow(solids: Iterable[Solid]) -> Shape:
    """The outline of bodies as seen from straight above (x, y)."""
    found = [shape_of(body_of(one, place).project().to_polygons()) for one in solids for place in one.places]
    return shapely.union_all(found)


def contour(solids: Iterable[Solid], level: float, also: Shape) -> tuple[Shape, ...]:
    """Outlines of everything that stands higher than a level, hollows inside filled up (x, y).

    `also` is taken as standing there too.
    """
    whole = shapely.union_all([face.shape.buffer(1e-3) for face in cut(solids, "z", level)] + [also])
    return tuple(shapely.Polygon(part.exterior) for part in parts_of(whole))
