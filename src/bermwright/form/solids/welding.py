"""Bodies without what the booleans leave: corners that lie on each other, faces that have gone to a line."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.solids.nouns import is_closed

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Indices = NDArray[np.int64]

FINE = 1e-6
"""Corners nearer to each other than this are one (m): the last digit that the files hold."""


def welded(vertices: Array, triangles: Indices) -> tuple[Array, Indices]:
    """The body with corners that lie on each other as one; as it was where it would not stay closed.

    Readers weld corners by their places and not by their numbers: a body is closed for them only where no
    edge lies on another one.
    """
    _, first, left = _laid(vertices, triangles, FINE)
    return _used(vertices[first], left) if _closes(left) else (vertices, triangles)


def on_grid(vertices: Array, triangles: Indices, grain: float) -> tuple[Array, Indices] | None:
    """The body with its corners moved onto a grid, each of them once; None: it would not be closed."""
    places, _, left = _laid(vertices, triangles, grain)
    return _used(places, left) if _closes(left) else None


def touching(vertices: Array, triangles: Indices, grain: float) -> Array:
    """(k, 2, 3) edges along which a body only touches itself, so that more than two faces meet there (m)."""
    places, _, left = _laid(vertices, triangles, grain)
    edges = np.sort(np.concatenate([left[:, [0, 1]], left[:, [1, 2]], left[:, [2, 0]]]), axis=1)
    found, faces = np.unique(edges, axis=0, return_counts=True)
    return np.asarray(places[found[faces > 2]])  # noqa: PLR2004  (two faces of a closed body)


def pieces(vertices: Array, triangles: Indices) -> tuple[tuple[Array, Indices], ...]:
    """Boards and other pieces that a body is made of, each by itself: they share no corner."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    ends = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]]])
    size = (len(vertices), len(vertices))
    count, piece = connected_components(coo_array((np.ones(len(ends)), ends.T), shape=size), directed=False)
    return tuple(_used(vertices, triangles[piece[triangles[:, 0]] == one]) for one in range(count))


def _laid(vertices: Array, triangles: Indices, grain: float) -> tuple[Array, Indices, Indices]:
    """Places on a grid, which corner came to each first, and the triangles that are left between them."""
    cells, first, again = np.unique(
        np.round(vertices / grain).astype(np.int64), axis=0, return_index=True, return_inverse=True
    )
    places = np.asarray(cells * grain, dtype=np.float64)
    return places, first, _without_twins(_with_faces(again.ravel()[triangles]))


def _closes(triangles: Indices) -> bool:
    return bool(len(triangles)) and is_closed(triangles)


def _used(corners: Array, triangles: Indices) -> tuple[Array, Indices]:
    """Without corners that no triangle has."""
    used, numbers = np.unique(triangles, return_inverse=True)
    return corners[used], numbers.reshape(-1, 3)


def _with_faces(triangles: Indices) -> Indices:
    """Without triangles two of whose corners became one."""
    a, b, c = triangles.T
    return np.asarray(triangles[(a != b) & (b != c) & (c != a)])


def _without_twins(triangles: Indices) -> Indices:
    """Without pairs of triangles that lie back to back: a sheet without thickness."""
    first = triangles.argmin(axis=1)[:, None]
    turned = np.take_along_axis(triangles, (first + np.arange(3)) % 3, axis=1)
    way = np.where(turned[:, 1] < turned[:, 2], 1, -1)
    faces, which = np.unique(np.sort(triangles, axis=1), axis=0, return_inverse=True)
    net = np.bincount(which.ravel(), way).astype(np.int64)
    kept = faces[net != 0]
    return np.asarray(np.where(net[net != 0, None] > 0, kept, kept[:, [0, 2, 1]]))
