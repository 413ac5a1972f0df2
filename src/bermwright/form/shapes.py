"""The geometry that later layers read. Arrays are read-only and in metres and radians.

The section's axes: x to the right as seen walking in, from the middle of the span; z up from the
finished floor (level ±0.00). Curves run from the left foot over the crown to the right foot.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.handbook.curves import CoverCurve

    Array = NDArray[np.float64]


PLACED = 1e-6
"""Finished over natural ground that counts as nothing (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A ground surface in the section: level z over x, straight between points, flat beyond."""

    x: Array
    z: Array

    def level(self, x: Array | float) -> Array:
        """Level at x; broadcasts."""
        return np.asarray(np.interp(x, self.x, self.z))


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundForm:
    """Natural and finished surface of the section, and the water level (None: not known)."""

    natural: Line
    finished: Line
    turf: float
    """Thickness of the turf under the finished surface (m)."""
    water_low: float | None
    water_high: float | None

    @property
    def top(self) -> float:
        """Highest level of placed soil (m): a hillside that rises over the mound beside it does not count."""
        x = np.union1d(self.finished.x, self.natural.x)
        level = self.finished.level(x)
        placed = level - self.natural.level(x) > PLACED
        return float(level[placed].max()) if placed.any() else float(self.finished.level(0.0))

    def filled(self, x: Array, left: float, right: float, crown_x: float = 0.0) -> Array:
        """Surface of the fill when it stands at level `left` and `right` of the crown.

        Fill lies in level lifts out to the finished slopes, never above the finished surface,
        never below the natural ground.
        """
        level = np.where(x < crown_x, left, right)
        upper = np.minimum(self.finished.level(x), level)
        return np.maximum(upper, np.minimum(self.natural.level(x), self.finished.level(x)))


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveLine:
    """A smooth plane curve as dense points with its arc length and tangent angle."""

    x: Array
    z: Array
    s: Array
    """Arc length from the left foot (m)."""
    angle: Array
    """Tangent angle from the x axis along the direction of travel (rad); +90 deg is straight up."""

    @property
    def length(self) -> float:
        """Whole arc length (m)."""
        return float(self.s[-1])

    def at(self, s: Array | float) -> tuple[Array, Array, Array]:
        """x, z and tangent angle at arc length s; broadcasts."""
        return (
            np.asarray(np.interp(s, self.s, self.x)),
            np.asarray(np.interp(s, self.s, self.z)),
            np.asarray(np.interp(s, self.s, self.angle)),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class RibPiece:
    """One board piece of a rib, between two arc lengths of the rib's centreline."""

    name: str
    """Such as "2L3": layer 2, left half, third from the foot; "2C" crosses the crown."""
    layer: int
    start: float
    end: float
    """Arc length of its two ends (m)."""
    outline: tuple[tuple[float, float], ...]
    """Closed outline in section coordinates (m), in order left end inside, along the inside, right
    end, back along the outside."""
    blank_width: float
    blank_length: float
    """The straight board it is cut from (m)."""
    end_bevels: tuple[float, float]
    """Angle of each end cut off square to the blank's edge (rad)."""
    sagitta: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RibForm:
    """A nail-laminated rib: its faces, pieces and butt joints."""

    depth: float
    width: float
    layers: int
    centreline: CurveLine
    inside: CurveLine
    outside: CurveLine
    pieces: tuple[RibPiece, ...]
    joints: Array
    """Arc lengths (m) of the centreline at which exactly one layer is cut, ascending."""
    joint_layers: tuple[int, ...]
    """Which layer is cut at each joint, counted from 1."""
    apex: float | None = None
    """Arc length of a pointed crown, at which every layer is cut (m); no entry of `joints`."""
    bent: bool = False
    """Whether its layers are boards bent over each other, not pieces side by side."""

    @property
    def board(self) -> float:
        """Thickness of one layer (m)."""
        return (self.depth if self.bent else self.width) / self.layers

    @property
    def piece_thickness(self) -> float:
        """Of a piece, square to the drawing of its outline (m)."""
        return self.width if self.bent else self.width / self.layers


def crown_length(rib: RibForm) -> float:
    """Arc length of the centreline at its highest point (m)."""
    return float(rib.centreline.s[int(np.argmax(rib.centreline.z))])


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverBand:
    """One layer over the ribs, from the inside out."""

    name: str
    kind: str
    """lagging, membrane, insulation, drainage or fleece: tells hatch and stage."""
    thickness: float
    unit_weight: float
    """N/m3."""
    inner: CurveLine
    outer: CurveLine


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameMesh:
    """The rib's centreline cut into straight elements for the plane frame (n elements)."""

    s: Array
    """(n + 1,) arc length of the nodes."""
    x: Array
    z: Array
    """(n + 1,) nodes on the centreline."""
    soil_x: Array
    soil_z: Array
    """(n + 1,) the same places on the soil face (outside of all cover bands)."""
    plan: Array
    """(n + 1,) signed horizontal width of the soil face belonging to each node (m): positive where
    soil rests on it, negative on an undercut face."""
    rise: Array
    """(n + 1,) signed height of the soil face belonging to each node (m): positive on the left
    (soil pushes to the right), negative on the right."""
    arc: Array
    """(n + 1,) length of the centreline belonging to each node (m)."""
    joint_nodes: tuple[int, ...]
    """Nodes that lie on the rib's butt joints, in the order of `RibForm.joints`."""
    crown: int
    """Node nearest the top of the soil face."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VaultForm:
    """Everything geometric of one vault."""

    name: str
    span: float
    rise: float
    springing: float
    length: float
    spacing: float
    ribs: int
    """Number of ribs, both ends included."""
    rib: RibForm
    bands: tuple[CoverBand, ...]
    soil_face: CurveLine
    ground: GroundForm
    mesh: FrameMesh
    crown_level: float
    """Level of the soil face at the crown (m)."""
    undercut: float
    """How far the soil face overhangs its own foot, largest of both sides (m)."""
    remarks: tuple[str, ...] = ()
    """What the geometry had to decide ("the curve under cover bulges 40 mm past its feet")."""
    cover_curve: CoverCurve | None = None
    """The curve under cover that the centreline is, from which a search nearby goes on."""
