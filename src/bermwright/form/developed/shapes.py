"""What is cut, bent or lapped after a pattern. Lengths in metres, measured on the flat pattern."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

if TYPE_CHECKING:
    from bermwright.base.drawing import Path

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A flat outline with lines on it that are not cut, and a table by which it is checked."""

    name: str
    part: str
    """What it belongs to, such as `dome "round room", opening "door"`."""
    outline: Path
    """Closed; across, then up (m)."""
    count: int = 1
    lines: tuple[tuple[str, Path], ...] = ()
    """Lines to mark, each with its word."""
    across: str = "across"
    up: str = "up"
    """What the two directions of the sheet are."""
    side: str = ""
    """Which face is seen, and what mirrors it."""
    ordinates: tuple[tuple[float, float, float], ...] = ()
    """Station across, low edge, high edge (m): to set it out without paper."""
    note: str = ""

    @property
    def size(self) -> Point:
        """Width and height of the blank (m)."""
        points = np.asarray(self.outline)
        wide, tall = np.ptp(points, axis=0)
        return float(wide), float(tall)

    @property
    def area(self) -> float:
        """Area inside the outline (m2)."""
        return float(shapely.Polygon(self.outline).area)

    @property
    def diagonals(self) -> Point:
        """Between the corners nearest to those of its blank: lower left to upper right, and the other (m)."""
        points = np.asarray(self.outline)
        low, high = points.min(axis=0), points.max(axis=0)
        wanted = (low, high, np.array([high[0], low[1]]), np.array([low[0], high[1]]))
        corners = [points[np.argmin(np.hypot(*(points - corner).T))] for corner in wanted]
        return float(np.hypot(*(corners[1] - corners[0]))), float(np.hypot(*(corners[3] - corners[2])))


def stations(outline: Path, count: int = 12) -> tuple[tuple[float, float, float], ...]:
    """Low and high edge of a closed outline at even stations across it (m)."""
    shape = shapely.Polygon(outline)
    left, low, right, high = shape.bounds
    found = []
    for x in np.linspace(left, right, count + 1).tolist():
        inside = min(max(x, left + NEAR), right - NEAR)
        cut = shape.intersection(shapely.LineString([(inside, low - 1.0), (inside, high + 1.0)]))
        if cut.is_empty:
            # The outline runs out in a sliver there: it has one edge.
            points = np.asarray(outline)
            edge = float(points[np.argmin(np.abs(points[:, 0] - x)), 1])
            found.append((x, edge, edge))
            continue
        found.append((x, float(cut.bounds[1]), float(cut.bounds[3])))
    return tuple(found)


NEAR = 1e-6
"""How far inside of its ends an outline is cut, where it comes to a point (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slat:
    """One batten over an arch form, from the left springing to the right."""

    number: int
    start: float
    end: float
    """From the inner reference line to its ends (m)."""

    @property
    def length(self) -> float:
        """Of the batten (m)."""
        return self.end - self.start


@dataclass(frozen=True, slots=True, kw_only=True)
class ArchForm:
    """Faces and battens that carry a round head while it is laid."""

    radius: float
    """Of the faces, battens taken off (m)."""
    faces: int
    slat_width: float
    slat_thickness: float
    slats: tuple[Slat, ...]
    pattern: Pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """The form of one opening."""

    name: str
    part: str
    curved: bool
    width: float
    height: float
    """Of the box, settlement added (m)."""
    settlement: float
    taper: float
    depth: float
    """Level, from its inner to its outer end (m)."""
    patterns: tuple[Pattern, ...]
    wedge: Pattern
    """One of each pair on which it stands."""
    pack: float
    """Height of a pair of wedges before it is struck (m)."""
    arch: ArchForm | None = None
    eyebrow: Pattern | None = None
    meets: tuple[tuple[float, float], ...] = ()
    """Of an eyebrow: level, and angle beside the middle, at which it meets the outer face (m, rad)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPlan:
    """How a membrane is cut and what has to be lifted."""

    part: str
    way: str
    """How the strips lie."""
    strips: int
    strip_length: float
    strip_width: float
    net_area: float
    """Covered (m2)."""
    cut_area: float
    """With laps and upstands (m2)."""
    seams: float
    """Length of all laps (m)."""
    mass: float | None
    """Of one strip (kg); None while the weight of the sheet is not known."""
    people: int | None
    """To lift it; None where a team of three may not, or the mass is not known."""
    too_long: bool
    """Whether one strip is longer than the roll."""
    whole_mass: float | None
    excess: float = 0.0
    """By how much a gore's edge is longer than its middle."""
    pattern: Pattern | None = None
    cap: Pattern | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """A vault or pipe that meets a shell: its unrolled end, the hole, and the hip where there is one."""

    name: str
    part: str
    end: Pattern
    hole: Pattern | None
    levels: tuple[tuple[float, float], ...] = ()
    """Of a dome: level and angle beside the middle (m, rad)."""
    hip: Pattern | None = None
    hip_left: Pattern | None = None
    """The left hip where it is not the mirror image of the right one: axes that cross skew."""
    no_hip: str = ""
    """Why there is no flat hip rib."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CordTable:
    """Lengths of a cord from the middle of the springing line to the inner face of a vault."""

    part: str
    rows: tuple[tuple[float, float, float, float], ...]
    """Along the face from the crown, across, over the springing, cord (m)."""
    note: str = ""
