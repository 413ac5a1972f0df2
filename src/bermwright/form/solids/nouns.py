"""What the solids of a house are: named triangle bodies by layer, in metres of the vault.

Axes: x to the right as seen walking in, from the middle of the span; y inwards from the front end; z up
from the finished floor.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Indices = NDArray[np.int64]


class Kind(StrEnum):
    """What a body is for."""

    GROUND = "ground"
    FOOTING = "footing"
    WALL = "wall"
    WALL_INSULATION = "wall insulation"
    FLOOR = "floor"
    FLOOR_INSULATION = "floor insulation"
    RIB = "rib"
    LAGGING = "lagging"
    MEMBRANE = "membrane"
    VAPOUR_CONTROL = "vapour control"
    INSULATION = "insulation"
    DRAINAGE = "drainage"
    FLEECE = "fleece"
    END = "end wall"
    UPPER_FLOOR = "upper floor"
    OPENING = "opening"
    FLUE = "flue"
    COURSE = "course"
    FILL = "fill"
    TURF = "turf"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pushed:
    """An outline of the section pushed along the vault."""

    outline: Array
    """(p, 2) x, z anticlockwise (m)."""
    start: float
    end: float
    """From and to along y (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """Volume of all copies of a body along the lines of the take-off."""

    volume: float
    """Measured on bodies made along those lines, not taken from the take-off itself (m3)."""
    why: str = ""
    """Why the body itself is another; nothing where it is the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Solid:
    """One closed body; several alike are one body with the places of all of them."""

    name: str
    kind: Kind
    vertices: Array
    """(n, 3) corners (m)."""
    triangles: Indices
    """(m, 3) corners of each face, anticlockwise as seen from outside."""
    places: Array
    """(k, 3) how far each copy is moved (m); one row of noughts for a single one."""
    pushed: Pushed | None = None
    """What it was before anything was cut out, where that is an outline pushed along the vault."""
    whole: float
    """Volume of one copy before openings are cut (m3)."""
    counted: Counted | None = None
    """What the take-off counts; None: it does not count such a body."""

    @property
    def volume(self) -> float:
        """Of one copy (m3), from its own triangles."""
        return volume_of(self.vertices, self.triangles)

    @property
    def total(self) -> float:
        """Of all copies (m3)."""
        return self.volume * len(self.places)

    @property
    def low(self) -> Array:
        """Lowest x, y and z of all copies (m)."""
        return np.asarray(self.vertices.min(axis=0) + self.places.min(axis=0))

    @property
    def high(self) -> Array:
        """Highest x, y and z of all copies (m)."""
        return np.asarray(self.vertices.max(axis=0) + self.places.max(axis=0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """Bodies that are shown and hidden together, in the order in which they are built."""

    name: str
    kind: Kind
    solids: tuple[Solid, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """An opening as a body that is cut out of what it lies in."""

    name: str
    kind: str
    """door, window, hatch, flue or rooflight."""
    side: str
    """front, back, left, right or crown."""
    width: float
    height: float
    vertices: Array
    triangles: Indices
    cuts: tuple[str, ...]
    """Names of the bodies that it is cut out of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VaultSolids:
    """A vault or a dome and everything round it as bodies."""

    name: str
    axis: float | None
    """The way one looks when walking in, from north (rad); None: not known."""
    length: float
    span: float
    layers: tuple[Layer, ...]
    holes: tuple[Hole, ...]
    remarks: tuple[str, ...]
    """What had to be decided to draw it, and what the file does not place."""
    middle: tuple[float, float] | None = None
    """East and north of the middle of the first part (m); None: not given."""

    @property
    def solids(self) -> Iterator[Solid]:
        """All bodies, in the order of their layers."""
        return (solid for layer in self.layers for solid in layer.solids)

    def layer(self, kind: Kind) -> Layer | None:
        """The first layer of a kind."""
        return next((layer for layer in self.layers if layer.kind is kind), None)

    def solid(self, name: str) -> Solid | None:
        """The body of that name."""
        return next((solid for solid in self.solids if solid.name == name), None)


def volume_of(vertices: Array, triangles: Indices) -> float:
    """Volume inside closed triangles: the signed cones from the origin, summed."""
    a, b, c = (vertices[triangles[:, corner]] for corner in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6.0)


def is_closed(triangles: Indices) -> bool:
    """Whether every edge is met by one other triangle that runs along it the other way."""
    edges = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    there = np.sort(edges[:, 0] * (triangles.max() + 1) + edges[:, 1])
    back = np.sort(edges[:, 1] * (triangles.max() + 1) + edges[:, 0])
    return bool(np.all(np.diff(there) > 0) and np.array_equal(there, back))
