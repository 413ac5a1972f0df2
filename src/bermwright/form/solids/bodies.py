"""Making bodies: outlines pushed along the vault, boxes, ground under a line, and what is cut of them.

The booleans are the geometry library's; everything else of the tool sees plain arrays only.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
from manifold3d import CrossSection, FillRule, Manifold, Mesh64

from bermwright.form.solids.nouns import Solid
from bermwright.form.solids.welding import welded

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import ArrayLike, NDArray

    from bermwright.form.shapes import Line
    from bermwright.form.solids.nouns import Counted, Kind, Pushed

    Array = NDArray[np.float64]

Body = Any
"""A body of the geometry library, which has no types that pass here."""

LEAST = 1e-9
"""Volumes that are nothing (m3)."""
HALF = 0.5
"""Between both ends of what was pushed by one."""
ROUNDED = 1e-7
"""The library keeps outlines to about a tenth of this (m)."""
HERE = np.zeros((1, 3))


def pushed(outline: ArrayLike, start: float, end: float) -> Body:
    """An outline of the section (x, z) pushed along the vault from `start` to `end`."""
    # What is pushed along plus z with y as its second axis turns its ends about when z becomes y.
    return _extruded(outline, end, start, (0, 2, 1))


def pushed_across(outline: ArrayLike, start: float, end: float) -> Body:
    """An outline of the long section (y, z) pushed across the vault from `start` to `end`."""
    return _extruded(outline, start, end, (2, 0, 1))


def _extruded(outline: ArrayLike, first: float, last: float, order: tuple[int, int, int]) -> Body:
    """An outline between two ends; `order` says which of its axes, and the way pushed, become x, y and z.

    Every place is set, not summed or rounded: two bodies that end at one place must not leave a gap.
    """
    ring = np.asarray(outline, dtype=float)

    def placed(at: Array) -> Array:
        ends = np.where(at[:, 2] > HALF, last, first)
        return np.column_stack([_given(at[:, 0], ring[:, 0]), _given(at[:, 1], ring[:, 1]), ends])[:, order]

    return Manifold.extrude(CrossSection([ring], FillRule.NonZero), 1.0).warp_batch(placed)


def _given(found: Array, given: Array) -> Array:
    """Coordinates as they were given, where the library has rounded them."""
    known = np.unique(given)
    after = np.clip(np.searchsorted(known, found), 1, max(known.size - 1, 1))
    low, high = known[after - 1], known[np.minimum(after, known.size - 1)]
    near = np.where(found - low < high - found, low, high)
    return np.where(np.abs(near - found) < ROUNDED, near, found)


def box(x: tuple[float, float], y: tuple[float, float], z: tuple[float, float]) -> Body:
    """A box between three pairs of ends."""
    size = (x[1] - x[0], y[1] - y[0], z[1] - z[0])
    return Manifold.cube(size).translate((x[0], y[0], z[0]))


def pipe(at: tuple[float, float], z: tuple[float, float], diameter: float, *, sides: int = 32) -> Body:
    """An upright round rod; its area is that of the true circle."""
    # The polygon of equal area: a corner lies a little outside of the circle.
    turn = 2.0 * np.pi / sides
    radius = 0.5 * diameter * np.sqrt(turn / np.sin(turn))
    return Manifold.cylinder(z[1] - z[0], float(radius), circular_segments=sides).translate((*at, z[0]))


def under(line: Line, x: tuple[float, float], bottom: float, y: tuple[float, float]) -> Body:
    """Everything under a ground line, down to a level."""
    least = bottom + 1e-3
    places = np.concatenate([line.x, _crossings(line, least)])
    along = np.unique([x[0], *places[(places > x[0]) & (places < x[1])], x[1]])
    top = np.column_stack([along, np.maximum(line.level(along), least)])
    return pushed(np.vstack([[x[0], bottom], [x[1], bottom], top[::-1]]), *y)


def _crossings(line: Line, level: float) -> Array:
    """Where a line passes a level."""
    over = line.z - level
    at = np.flatnonzero(over[:-1] * over[1:] < 0.0)
    share = over[at] / (over[at] - over[at + 1])
    return np.asarray(line.x[at] + share * (line.x[at + 1] - line.x[at]))


def leaning(body: Body, fall: float, middle: float) -> Body:
    """The body with its levels rising by `fall` for each metre along y, unmoved at y = `middle`."""
    if fall == 0.0:
        return body
    matrix = np.array([[1.0, 0.0, 0.0, 0.0], [0.0, 1.0, 0.0, 0.0], [0.0, fall, 1.0, -fall * middle]])
    return body.transform(matrix)


def below_plane(body: Body, level: float, slope: float, start: float, sign: float) -> Body:
    """What lies under a plane that falls outwards from `level` at y = `start`; outwards is `sign`."""
    # Kept is where normal·point >= offset: z <= level - slope·sign·(y - start).
    normal = (0.0, -slope * sign, -1.0)
    size = float(np.hypot(slope, 1.0))
    offset = (-level - slope * sign * start) / size
    return body.trim_by_plane(normal, offset)


def joined(bodies: Iterable[Body]) -> Body:
    """All of them as one."""
    from manifold3d import OpType

    return Manifold.batch_boolean(list(bodies), OpType.Add)


def without(body: Body, cutters: Sequence[Body]) -> Body:
    """The body less everything that is cut out of it."""
    return body - joined(cutters) if cutters else body


def apart(body: Body, other: Body) -> bool:
    """Whether two bodies have no room in common."""
    one, two = np.array(body.bounding_box()), np.array(other.bounding_box())
    return bool(np.any(one[3:] <= two[:3]) or np.any(two[3:] <= one[:3]))


def is_nothing(body: Body) -> bool:
    """Whether nothing is left."""
    return bool(body.is_empty() or body.volume() < LEAST)


def arrays_of(body: Body) -> tuple[Array, NDArray[np.int64]]:
    """Corners and triangles of a body."""
    mesh: Mesh64 = body.to_mesh64()
    return np.array(mesh.vert_properties[:, :3], dtype=float), np.array(mesh.tri_verts, dtype=np.int64)


def without_crumbs(body: Body, least: float) -> Body:
    """The body without pieces and hollows smaller than `least` (m3), which booleans leave behind."""
    pieces = body.decompose()
    whole = [piece for piece in pieces if abs(piece.volume()) > least]
    return body if len(whole) in {0, len(pieces)} else joined(whole)


def solid(
    name: str,
    kind: Kind,
    body: Body | Sequence[Body],
    *,
    places: Array | None = None,
    pushed_from: Pushed | None = None,
    whole: float | None = None,
    counted: Counted | None = None,
) -> Solid:
    """A body as plain arrays; several that only touch each other stay apart in one set of arrays."""
    bodies: Sequence[Any] = body if isinstance(body, list) else [body]
    vertices, triangles, first = [], [], 0
    for one in bodies:
        corners, faces = welded(*arrays_of(without_crumbs(one, LEAST)))
        vertices.append(corners)
        triangles.append(faces + first)
        first += len(corners)
    return Solid(
        name=name,
        kind=kind,
        vertices=np.concatenate(vertices),
        triangles=np.concatenate(triangles),
        places=HERE if places is None else places,
        pushed=pushed_from,
        whole=float(sum(one.volume() for one in bodies)) if whole is None else whole,
        counted=counted,
    )
