"""What one sees of bodies from one side: faces from far to near, and the lines that nothing hides.

Lines are edges where a body bends, or where its face turns away. Each is sampled along its length, and what
lies before a sample is found among the triangles whose picture holds it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
import shapely

from bermwright.form.solids.cutting import parts_of
from bermwright.form.solids.nouns import Kind

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from numpy.typing import NDArray

    from bermwright.form.solids.nouns import Solid

    Array = NDArray[np.float64]
    Indices = NDArray[np.int64]

SIDES = {
    "front": np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]]),
    "back": np.array([[-1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, 1.0, 0.0]]),
    "left": np.array([[0.0, -1.0, 0.0], [0.0, 0.0, 1.0], [-1.0, 0.0, 0.0]]),
    "right": np.array([[0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0]]),
    "above": np.array([[0.0, 1.0, 0.0], [-1.0, 0.0, 0.0], [0.0, 0.0, 1.0]]),
}
"""Rows: right on the paper, up on the paper, towards the eye. From above the front is on the left."""
BEND = np.cos(np.radians(24.0))
"""Cosine of the angle between two faces from which their edge is drawn."""
TOWARDS = 1e-6
"""Cosine towards the eye over which a face is seen (-)."""
NOTHING = 1e-6
"""Lengths that are nothing (m)."""
STEP = 0.03
"""Lines are looked at so often (m)."""
BEFORE = 2e-3
"""What lies nearer to the eye by less hides nothing (m)."""
SPECK = 1e-6
"""Pictures of faces smaller than this are no faces (m2)."""
SHORT = 0.02
"""Shorter visible bits of a line are not drawn (m)."""

UNDER = {Kind.FOOTING, Kind.FLOOR_INSULATION}
"""Bodies that lie in the ground."""
SHELL = {
    Kind.RIB,
    Kind.LAGGING,
    Kind.MEMBRANE,
    Kind.VAPOUR_CONTROL,
    Kind.INSULATION,
    Kind.DRAINAGE,
    Kind.FLEECE,
    Kind.WALL,
    Kind.WALL_INSULATION,
    Kind.FLOOR,
}
"""Bodies of which only the ends come out of the fill."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch:
    """A face as it is seen."""

    kind: Kind
    name: str
    shape: Any
    """A polygon on the paper (m)."""
    depth: float
    """Nearness to the eye of its middle (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """Faces from far to near, and visible lines (k, 2, 2) with the kind of body each belongs to."""

    patches: tuple[Patch, ...]
    lines: Array
    kinds: tuple[Kind, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Mesh:
    """A body turned towards the eye."""

    solid: Solid
    points: Array
    triangles: Indices
    normals: Array


def picture(solids: Iterable[Solid], side: str) -> Picture:
    """The view of bodies from a side, as an elevation shows it.

    Of many alike only the one nearest to the eye is looked at: the others stand straight behind it. Where
    there is fill, what it covers on every side is left out from the start.
    """
    meshes = [
        _turned(solid, place, SIDES[side])
        for solid in _outer(tuple(solids), side)
        for place in [solid.places[int(np.argmax(solid.places @ SIDES[side][2]))]]
    ]
    patches = [patch for mesh in meshes for patch in _patches(mesh)]
    starts, ends, kinds = _edges(meshes)
    lines, owners = _visible(meshes, starts, ends)
    return Picture(
        patches=tuple(sorted(patches, key=lambda patch: patch.depth)),
        lines=lines,
        kinds=tuple(kinds[owner] for owner in owners),
    )


def _outer(solids: tuple[Solid, ...], side: str) -> tuple[Solid, ...]:
    """The bodies that may be seen from a side at all."""
    buried = any(solid.kind is Kind.FILL for solid in solids)
    never = (UNDER | (SHELL if side not in {"front", "back"} else set())) if buried else set()
    return tuple(solid for solid in solids if solid.kind not in never)


def _turned(solid: Solid, place: Array, turn: Array) -> _Mesh:
    points = (solid.vertices + place) @ turn.T
    corners = points[solid.triangles]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = np.linalg.norm(normals, axis=1, keepdims=True)
    return _Mesh(
        solid=solid,
        points=points,
        triangles=solid.triangles,
        normals=normals / np.where(size > 0.0, size, 1.0),
    )


def _patches(mesh: _Mesh) -> Iterator[Patch]:
    """Faces that look at the eye, those in one plane joined."""
    facing = mesh.normals[:, 2] > TOWARDS
    if not facing.any():
        return
    corners = mesh.points[mesh.triangles[facing]]
    normals = mesh.normals[facing]
    planes = np.column_stack([normals, np.einsum("ij,ij->i", normals, corners[:, 0])])
    _, group = np.unique(np.round(planes, 3), axis=0, return_inverse=True)
    shapes = shapely.polygons(np.concatenate([corners[:, :, :2], corners[:, :1, :2]], axis=1))
    for number in range(int(group.max()) + 1):
        mine = group.ravel() == number
        depth = float(corners[mine][:, :, 2].mean())
        joined = _joined(shapes[mine])
        for part in parts_of(joined):
            if part.area > SPECK:
                yield Patch(kind=mesh.solid.kind, name=mesh.solid.name, shape=part, depth=depth)


def _joined(shapes: Any) -> Any:  # noqa: ANN401  (the library has no types)
    """Triangles as one face; quickly where they meet edge to edge, as those of one plane mostly do."""
    try:
        return shapely.coverage_union_all(shapes)
    except shapely.errors.GEOSException:
        return shapely.union_all(shapes, grid_size=NOTHING)


def _edges(meshes: Sequence[_Mesh]) -> tuple[Array, Array, list[Kind]]:
    """Ends of every edge that may be drawn, and whose it is."""
    starts, ends, kinds = [], [], []
    for mesh in meshes:
        first, last = _bends(mesh)
        starts.append(mesh.points[first])
        ends.append(mesh.points[last])
        kinds += [mesh.solid.kind] * len(first)
    return np.concatenate(starts), np.concatenate(ends), kinds


def _bends(mesh: _Mesh) -> tuple[Indices, Indices]:
    """Edges between faces at an angle, or of which only one looks at the eye."""
    tri, count = mesh.triangles, len(mesh.triangles)
    pairs = np.concatenate([tri[:, [0, 1]], tri[:, [1, 2]], tri[:, [2, 0]]])
    owner = np.tile(np.arange(count), 3)
    key = np.sort(pairs, axis=1)
    order = np.lexsort((key[:, 1], key[:, 0]))
    key, owner = key[order], owner[order]
    one, two = mesh.normals[owner[0::2]], mesh.normals[owner[1::2]]
    facing = np.stack([one[:, 2] > TOWARDS, two[:, 2] > TOWARDS])
    bent = np.einsum("ij,ij->i", one, two) < BEND
    drawn = facing.any(axis=0) & (bent | (facing[0] != facing[1]))
    return key[0::2][drawn, 0], key[0::2][drawn, 1]


def _visible(meshes: Sequence[_Mesh], starts: Array, ends: Array) -> tuple[Array, list[int]]:
    """The visible bits of lines, and which line each is of."""
    length = np.hypot(*(ends - starts)[:, :2].T)
    long = length > NOTHING
    counts = np.where(long, np.maximum(2, np.ceil(length / STEP).astype(int)), 0)
    owner = np.repeat(np.arange(len(starts)), counts)
    if owner.size == 0:
        return np.zeros((0, 2, 2)), []
    first = np.concatenate([[0], np.cumsum(counts)[:-1]])
    share = (np.arange(owner.size) - first[owner] + 0.5) / counts[owner]
    spots = starts[owner] + share[:, None] * (ends - starts)[owner]
    seen = ~_hidden(meshes, spots)
    return _bits(starts, ends, counts, owner, seen)


def _hidden(meshes: Sequence[_Mesh], spots: Array) -> NDArray[np.bool_]:
    """Whether any face lies before each spot."""
    corners = np.concatenate([mesh.points[mesh.triangles[mesh.normals[:, 2] > TOWARDS]] for mesh in meshes])
    boxes = shapely.box(*corners[:, :, :2].min(axis=1).T, *corners[:, :, :2].max(axis=1).T)
    tree = shapely.STRtree(boxes)
    which, behind = tree.query(shapely.points(spots[:, :2]))
    a, b, c = (corners[behind, corner] for corner in range(3))
    p = spots[which]
    e, f, g = b - a, c - a, p - a
    area = e[:, 0] * f[:, 1] - e[:, 1] * f[:, 0]
    flat = np.abs(area) < NOTHING**2
    area = np.where(flat, 1.0, area)
    u = (g[:, 0] * f[:, 1] - g[:, 1] * f[:, 0]) / area
    v = (e[:, 0] * g[:, 1] - e[:, 1] * g[:, 0]) / area
    depth = a[:, 2] + u * e[:, 2] + v * f[:, 2]
    rim = -1e-9
    over = ~flat & (u >= rim) & (v >= rim) & (u + v <= 1.0 - rim) & (depth > p[:, 2] + BEFORE)
    hidden = np.zeros(len(spots), dtype=bool)
    hidden[which[over]] = True
    return hidden


def _bits(
    starts: Array, ends: Array, counts: Indices, owner: Indices, seen: NDArray[np.bool_]
) -> tuple[Array, list[int]]:
    """Runs of visible samples as bits of their lines."""
    change = np.flatnonzero((np.diff(owner) != 0) | (np.diff(seen.astype(int)) != 0)) + 1
    begin = np.concatenate([[0], change])
    stop = np.concatenate([change, [owner.size]])
    shown = seen[begin]
    begin, stop, mine = begin[shown], stop[shown], owner[begin[shown]]
    first = np.concatenate([[0], np.cumsum(counts)[:-1]])
    low = (begin - first[mine]) / counts[mine]
    high = (stop - first[mine]) / counts[mine]
    along = (ends - starts)[mine, :2]
    bits = np.stack(
        [starts[mine, :2] + low[:, None] * along, starts[mine, :2] + high[:, None] * along], axis=1
    )
    keep = (np.hypot(*(bits[:, 1] - bits[:, 0]).T) > SHORT) | ((low == 0.0) & (high == 1.0))
    return bits[keep], [int(one) for one in mine[keep]]
