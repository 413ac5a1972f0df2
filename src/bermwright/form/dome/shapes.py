"""What a dome's geometry consists of.

Heights count from the springing, directions clockwise from the zero mark.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.handbook.curves import Arc
    from bermwright.house.making.dome import Dome

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A face of revolution from its foot to its crown, as close points."""

    height: Array
    radius: Array
    along: Array
    """Length along the face from the foot (m)."""
    arcs: tuple[Arc, ...] = ()
    """Its arcs in a plane through the axis, right side, from the crown to the foot; none for other curves."""

    @property
    def rise(self) -> float:
        """Height of its crown (m)."""
        return float(self.height[-1])

    @property
    def length(self) -> float:
        """From the foot to the crown along the face (m)."""
        return float(self.along[-1])

    def at(self, height: Array | float) -> Array:
        """Radius at heights (m)."""
        return np.asarray(np.interp(height, self.height, self.radius))


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A part of a ring between openings, or the whole ring."""

    start: float
    end: float
    """Directions of its ends at the inner face (rad); end over start, also past a whole turn."""
    length: float
    """Of its middle line (m)."""
    whole: bool
    bricks: int | None
    """Whole bricks or bags in it; None where their length is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewPart:
    """What one crew lays of one course."""

    crew: str
    start: float
    end: float
    """Directions where it begins and where it meets the next crew (rad)."""
    length: float
    seconds: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """One course, set by its bed at the inner face."""

    number: int
    """Counted from 1, at the springing."""
    height: float
    radius: float
    step: float
    tilt: float
    chain: float
    """From the hook to the inner face (m)."""
    chain_angle: float
    """Over the horizontal (rad)."""
    start: float
    """Direction in which the course begins (rad)."""
    middle: float
    """Radius of its middle line (m)."""
    pieces: tuple[Piece, ...]
    tube: float | None
    """Length of tube with its ends (m); None for bags and bricks."""
    joint: float | None
    """Between bricks at the inner face (m)."""
    joint_outside: float | None
    bed_wedge: float | None
    """How much thicker the bed joint over it is outside than inside (m)."""
    crews: tuple[CrewPart, ...]
    over_limit: bool
    """Whether it steps in by more than the limit."""

    @property
    def length(self) -> float:
        """Of its middle line, without openings (m)."""
        return sum(piece.length for piece in self.pieces)

    @property
    def bricks(self) -> int | None:
        """Whole bricks or bags of the course."""
        counts = [piece.bricks for piece in self.pieces]
        return None if not counts or None in counts else sum(one for one in counts if one is not None)


class PivotPlace(StrEnum):
    """Where the pivot of a rod lies."""

    AXIS = "on the axis"
    ROOM = "in the room"
    OUTSIDE = "outside of the wall"
    WALL = "in the wall"
    BELOW = "under the floor of the dome"


@dataclass(frozen=True, slots=True, kw_only=True)
class PivotSetting:
    """A rod of one length that draws a stretch of the face, in one plane through the axis at a time."""

    low: float
    high: float
    """Heights of the stretch that it draws (m)."""
    offset: float
    """Beyond the axis, seen from the side of the wall that it draws (m); below 0 on that side."""
    height: float
    radius: float
    place: PivotPlace
    clearance: float
    """From the wall (m); below 0 in it."""
    through_from: float | None
    """Height from which a rod from outside passes over the sill of that opening (m); None if it need not."""
    through_door: float | None
    """Height up to which a rod from outside passes through the tallest opening (m); None if it need not."""
    door: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Closing:
    """What is left over the last whole course."""

    height: float
    """Of the top of the last course (m)."""
    radius: float
    """Of the hole that is left there (m)."""
    gap: float
    """From there to the drawn crown (m)."""
    last_step: float
    """From the bed of the last course to the edge of that hole (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DomeForm:
    """Everything geometric of one dome."""

    dome: Dome
    face: Face
    course_height: float
    courses: tuple[Course, ...]
    settings: tuple[PivotSetting, ...]
    closing: Closing
    surface: float
    volume: float
    step_limit: float
    lead_course: int
    """Course at which a faster crew is one course ahead, were the halves equal; 0 where there is none."""
    remarks: tuple[str, ...]

    @property
    def name(self) -> str:
        """What the room is called."""
        return self.dome.name

    @property
    def first_over(self) -> Course | None:
        """The first course that steps in by more than the limit."""
        return next((course for course in self.courses if course.over_limit), None)

    @property
    def tube(self) -> float | None:
        """Length of tube of all courses (m)."""
        lengths = [course.tube for course in self.courses]
        return None if None in lengths else sum(one for one in lengths if one is not None)

    @property
    def bricks(self) -> int | None:
        """Bricks or bags of all courses."""
        counts = [course.bricks for course in self.courses]
        return None if None in counts else sum(one for one in counts if one is not None)
