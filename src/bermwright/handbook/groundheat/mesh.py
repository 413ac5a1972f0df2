"""Triangles that follow every line of a section: small where heat turns quickly, large far away.

All lines of the section become edges of triangles, so that a curved wall is as long as it is and each
triangle lies in one material. The points are those of the lines, split to size, and the centres of a
quartered grid between them; Delaunay's triangulation joins them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.groundheat.section import checked

if TYPE_CHECKING:
    from bermwright.handbook.groundheat.section import Array, Region, Section, Truth, Whole

SNAP_GRID = 1e-5
"""Corners nearer than this are one corner (m)."""
ON_LINE_TOLERANCE = 1e-4
"""How far an edge may lie from a border that it belongs to (m)."""
CIRCLE_GRID = 0.55
"""No point lies nearer to the middle of a line than this share of it: a tenth more than its circle (-)."""
CROWDED_GRID = 0.6
"""Points nearer to a line than this share of the local size are left out (-)."""
FLAT_TOLERANCE = 1e-7
"""Area over the square of the longest edge under which a triangle is a line (-)."""
SMOOTHING_STEPS = 4
SPLIT_STEPS = 40
MOST_POINTS = 400_000
"""More triangles than a kitchen computer should be asked for."""
TOO_SMALL = "The triangles asked for are too small for this section."


@dataclass(frozen=True, slots=True, kw_only=True)
class Mesh:
    """Points, triangles and the edges along the boundary."""

    points: Array
    """(n, 2) x and z (m)."""
    triangles: Whole
    """(m, 3) points of each triangle, counter-clockwise."""
    material: Whole
    """(m,) region of each triangle: its index in the section."""
    edges: Whole
    """(k, 2) points of each edge of the boundary."""

    @property
    def areas(self) -> Array:
        """(m,) areas of the triangles (m2)."""
        return twice_areas(self.points, self.triangles) / 2.0


def twice_areas(points: Array, triangles: Whole) -> Array:
    """Twice the signed area of each triangle (m2)."""
    a, b, c = (points[triangles[:, i]] for i in range(3))
    return np.asarray((b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0]))


def make_mesh(section: Section) -> Mesh:
    """Triangles over a section that follow all its lines.

    Parameters
    ----------
    section : Section
        Regions, borders and the sizes that they ask for.

    Returns
    -------
    Mesh
        Points [m], triangles, their regions and the edges of the boundary.

    References
    ----------
    [RUPPERT1995] : section 3, lines are split until Delaunay's triangulation holds them all.
    """
    section = checked(section)
    corners, lines = _linework(section)
    size = _Sizes(section, corners, lines)
    points, lines = _split_to_size(corners, lines, size)
    on_lines = len(points)
    inner = _between(points, lines, section, size)
    points, lines = _with_lines(np.concatenate([points, inner]), lines)
    triangles = _kept(points, section)[0]
    points = _smoothed(points, lines, triangles, free_from=on_lines)
    points, lines = _with_lines(points, lines)
    triangles, material = _kept(points, section)
    return _numbered(points, triangles, material)


# ---------------------------------------------------------------- lines
def _linework(section: Section) -> tuple[Array, Whole]:
    """Corners and straight lines between them, crossing each other only in corners."""
    import shapely

    rings = [shapely.LinearRing(region.outline) for region in section.regions]
    net = shapely.unary_union(shapely.MultiLineString(rings), grid_size=SNAP_GRID)
    pieces = [np.asarray(part.coords) for part in getattr(net, "geoms", [net])]
    starts = np.concatenate([piece[:-1] for piece in pieces])
    ends = np.concatenate([piece[1:] for piece in pieces])
    both = np.round(np.concatenate([starts, ends]) / SNAP_GRID).astype(np.int64)
    unique, index = np.unique(both, axis=0, return_inverse=True)
    lines = np.sort(index.reshape(2, -1).T, axis=1)
    return np.asarray(unique * SNAP_GRID, dtype=float), np.unique(lines[lines[:, 0] != lines[:, 1]], axis=0)


class _Sizes:
    """How long an edge may be at a place: the least of what every line near it asks for."""

    def __init__(self, section: Section, corners: Array, lines: Whole) -> None:
        from scipy.spatial import cKDTree

        self.largest, self.growth = section.largest, section.growth
        wanted: dict[float, list[Array]] = {}
        for region in section.regions:
            if region.size < self.largest:
                closed = np.concatenate([region.outline, region.outline[:1]])
                wanted.setdefault(region.size, []).append(along(closed, region.size))
        for border in section.borders:
            if border.size < self.largest:
                wanted.setdefault(border.size, []).append(along(border.line, border.size))
        for x, z, size in section.fine:
            wanted.setdefault(size, []).append(np.array([[x, z]]))
        length = np.hypot(*(corners[lines[:, 1]] - corners[lines[:, 0]]).T)
        # A short line between two corners needs short edges around it: sizes in steps of a factor of two.
        size_steps = np.ceil(np.log2(length / self.largest) * 2.0) / 2.0
        for step in np.unique(size_steps[size_steps < 0.0]):
            middle = corners[lines[size_steps == step]].mean(axis=1)
            stepped = float(self.largest * 2.0**step)
            wanted.setdefault(stepped, []).append(middle)
        self.trees = [(size, cKDTree(np.concatenate(places))) for size, places in wanted.items()]

    def __call__(self, places: Array) -> Array:
        """(n,) the longest edge allowed at (n, 2) places (m)."""
        best = np.full(len(places), self.largest)
        for size, tree in self.trees:
            reach = (self.largest - size) / self.growth
            near = tree.query(places, distance_upper_bound=reach)[0]
            best = np.minimum(best, size + self.growth * near)
        return best


def along(line: Array, spacing: float) -> Array:
    """Points along a line of corners, no further apart than a spacing (m)."""
    step = np.hypot(*np.diff(line, axis=0).T)
    s = np.concatenate([[0.0], np.cumsum(step)])
    if s[-1] > MOST_POINTS * spacing:
        raise OutOfRangeError(TOO_SMALL)
    points = max(int(np.ceil(s[-1] / spacing)) + 1, 2)
    even = np.union1d(np.linspace(0.0, s[-1], points), s)
    return np.stack([np.interp(even, s, line[:, 0]), np.interp(even, s, line[:, 1])], axis=1)


def _split_to_size(points: Array, lines: Whole, size: _Sizes) -> tuple[Array, Whole]:
    for _ in range(SPLIT_STEPS):
        a, b = points[lines[:, 0]], points[lines[:, 1]]
        middle_points = (a + b) / 2.0
        long = np.hypot(*(b - a).T) > size(middle_points)
        if not long.any():
            return points, lines
        points, lines = _halved(points, lines, long)
    raise OutOfRangeError(TOO_SMALL)


def _halved(points: Array, lines: Whole, which: Truth) -> tuple[Array, Whole]:
    middle = points[lines[which]].mean(axis=1)
    new = len(points) + np.arange(len(middle))
    first = np.stack([lines[which, 0], new], axis=1)
    second = np.stack([new, lines[which, 1]], axis=1)
    if len(points) > MOST_POINTS:
        raise OutOfRangeError(TOO_SMALL)
    return np.concatenate([points, middle]), np.concatenate([lines[~which], first, second])


# ---------------------------------------------------------------- points between
def _between(points: Array, lines: Whole, section: Section, size: _Sizes) -> Array:
    """Centres of a quartered grid inside the section, not too near to its lines."""
    from scipy.spatial import cKDTree

    low, high = points.min(axis=0), points.max(axis=0)
    grid = np.maximum(np.ceil((high - low) / section.largest), 1).astype(int)
    cell = (high - low) / grid
    axes = [low[i] + (np.arange(grid[i]) + 0.5) * cell[i] for i in range(2)]
    open_grid = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 2)
    edge = float(cell.max())
    found = []
    while len(open_grid):
        wide = edge > size(open_grid)
        found.append(open_grid[~wide])
        cell, edge = cell / 2.0, edge / 2.0
        quarters = np.array([(i, j) for i in (-0.5, 0.5) for j in (-0.5, 0.5)]) * cell
        open_grid = (open_grid[wide][:, None, :] + quarters).reshape(-1, 2)
        if sum(map(len, found)) + len(open_grid) > MOST_POINTS:
            raise OutOfRangeError(TOO_SMALL)
    centres = np.concatenate(found)
    centres = centres[_paint(centres, section.regions) >= 0]
    clear = cKDTree(points).query(centres)[0] > CROWDED_GRID * size(centres)
    return np.asarray(centres[clear & ~_in_circles(centres, points, lines)])


def _in_circles(places: Array, points: Array, lines: Whole) -> Truth:
    """Whether a place lies in the circle over a line as diameter, in which no point may lie."""
    from scipy.spatial import cKDTree

    a, b = points[lines[:, 0]], points[lines[:, 1]]
    grid_radius = CIRCLE_GRID * np.hypot(*(b - a).T)
    distance, nearest = cKDTree((a + b) / 2.0).query(places, k=min(4, len(lines)))
    return np.asarray((distance < grid_radius[nearest]).reshape(len(places), -1).any(axis=1))


def _smoothed(points: Array, lines: Whole, triangles: Whole, *, free_from: int) -> Array:
    """Points that are on no line move to the middle of their neighbours."""
    from scipy import sparse

    pairs = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    count = len(points)
    ones = np.ones(2 * len(pairs))
    ends = (np.concatenate([pairs[:, 0], pairs[:, 1]]), np.concatenate([pairs[:, 1], pairs[:, 0]]))
    joined = sparse.csr_matrix((ones, ends), shape=(count, count))
    degree = np.asarray(joined.sum(axis=1)).ravel()
    free = np.zeros(count, dtype=bool)
    free[free_from:] = True
    free[lines.ravel()] = False
    free &= degree > 0
    moved = points.copy()
    for _ in range(SMOOTHING_STEPS):
        moved[free] = (joined @ moved)[free] / degree[free, None]
    held = _in_circles(moved, points, lines) & free
    moved[held] = points[held]
    return moved


# ---------------------------------------------------------------- triangles
def _with_lines(points: Array, lines: Whole) -> tuple[Array, Whole]:
    """Split lines until the triangulation holds each of them."""
    from scipy.spatial import Delaunay

    for _ in range(SPLIT_STEPS):
        triangles = Delaunay(points).simplices.astype(np.int64)
        pairs = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
        pairs = np.sort(pairs, axis=1)
        lines = np.sort(lines, axis=1)
        count = len(points)
        lost = ~np.isin(lines[:, 0] * count + lines[:, 1], pairs[:, 0] * count + pairs[:, 1])
        if not lost.any():
            return points, lines
        points, lines = _halved(points, lines, lost)
    raise OutOfRangeError("Lines of this section run into each other at so fine an angle that no mesh fits.")


def _kept(points: Array, section: Section) -> tuple[Whole, Whole]:
    """The triangles in a material, and their regions."""
    from scipy.spatial import Delaunay

    triangles = Delaunay(points).simplices.astype(np.int64)
    double = twice_areas(points, triangles)
    triangles[double < 0.0] = triangles[double < 0.0][:, [0, 2, 1]]
    corners = points[triangles]
    longest = np.max(np.sum((corners - np.roll(corners, 1, axis=1)) ** 2, axis=2), axis=1)
    material = _paint(corners.mean(axis=1), section.regions)
    good = (material >= 0) & (np.abs(double) > FLAT_TOLERANCE * longest)
    return triangles[good], material[good]


def _paint(places: Array, regions: tuple[Region, ...]) -> Whole:
    """The last region that holds each place; -1 where there is none, or nothing in it."""
    import shapely

    found = np.full(len(places), -1)
    for i, region in enumerate(regions):
        shape = shapely.Polygon(region.outline)
        shapely.prepare(shape)
        found[shapely.contains_xy(shape, places[:, 0], places[:, 1])] = i if region.material else -1
    return found


def _numbered(points: Array, triangles: Whole, material: Whole) -> Mesh:
    """Points in use only, in an order that keeps neighbours near each other."""
    from scipy import sparse
    from scipy.sparse.csgraph import reverse_cuthill_mckee

    used, flat = np.unique(triangles, return_inverse=True)
    triangles = flat.reshape(-1, 3)
    pairs = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    ones = np.ones(len(pairs))
    joined = sparse.csr_matrix((ones, pairs.T), shape=(len(used), len(used)))
    order = reverse_cuthill_mckee((joined + joined.T).tocsr(), symmetric_mode=True)
    place = np.argsort(order)
    triangles, pairs = place[triangles], place[pairs]
    first = np.argsort(triangles.min(axis=1), kind="stable")
    _, at, times = np.unique(np.sort(pairs, axis=1), axis=0, return_index=True, return_counts=True)
    return Mesh(
        points=points[used][order],
        triangles=triangles[first],
        material=material[first],
        edges=pairs[at[times == 1]],
    )
