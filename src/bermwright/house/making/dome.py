"""A dome: its inner face, its courses, its openings and who lays it. Shape only: no strength is known."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from bermwright.house.fields import Ask, Choice, Path, Quantity, Tables, Words, says
from bermwright.house.making.words import DomeCurve, DomeUnit, Head, Laid
from bermwright.house.parts.choices import OpeningKind

_RADIUS = Quantity("length", "0.1 m", "40 m", "a smaller radius is a knob, a larger one is flat")
_TURN = Quantity("angle", "0 deg", "360 deg", "a whole turn has 360 degrees")


@dataclass(frozen=True, slots=True, kw_only=True)
class DomeOpening:
    """A door or window in a dome, its sides upright and parallel."""

    name: str = field(metadata=says("What it is called.", Words(name=True), example="door"))
    kind: OpeningKind = field(metadata=says("What it is.", Choice(OpeningKind), example="door"))
    at: float = field(
        metadata=says(
            "Direction of its middle from the middle of the dome, clockwise from the zero mark as seen from "
            "above.",
            _TURN,
            example="0 deg",
        )
    )
    width: float = field(
        metadata=says(
            "Width of the hole in the wall.",
            Quantity("length", "0.1 m", "3 m", "smaller is a pipe, larger leaves no dome"),
            example="0.9 m",
        )
    )
    sill: float = field(
        metadata=says(
            "Level of its lower edge above the finished floor.",
            Quantity("level", "-1 m", "6 m", "levels count from the finished floor"),
            example="0 m",
        )
    )
    height: float = field(
        metadata=says(
            "Height of the hole, to the top of its head.",
            Quantity("length", "0.1 m", "4 m", "smaller is a pipe, larger leaves no dome"),
            example="2.0 m",
        )
    )
    head: Head = field(
        default=Head.FLAT,
        metadata=says(
            "Whether it ends flat or in a half circle.",
            Choice(Head),
            example="round",
            source="a head is flat unless the file says otherwise",
        ),
    )
    settlement: float | None = field(
        default=None,
        metadata=says(
            "How much the wall beside it will still settle after the form is out.",
            Quantity("thickness", "0 mm", "200 mm", "more is no settlement, it is a failure"),
            example="20 mm",
            ask=Ask(
                asks="How much will the fresh wall beside this opening still settle?",
                why="Without a gap over it the wall comes to rest on the frame.",
                cheapest_way="Measure two marks on a trial wall of the same fill for as long as it dries.",
            ),
        ),
    )
    eyebrow: float = field(
        default=0.0,
        metadata=says(
            "How far a small barrel vault stands out over it, from the outer face at its head; needs a round "
            "head.",
            Quantity("length", "0 m", "2 m", "longer is a passage"),
            example="0.3 m",
            source="an opening has no eyebrow unless the file says so",
        ),
    )

    @property
    def top(self) -> float:
        """Level of its upper edge (m)."""
        return self.sill + self.height

    @property
    def head_springing(self) -> float:
        """Level at which a round head begins (m); the upper edge where it is flat."""
        return self.top - 0.5 * self.width if self.head is Head.ROUND else self.top


@dataclass(frozen=True, slots=True, kw_only=True)
class DomeCrew:
    """People who lay one part of every ring."""

    name: str = field(metadata=says("What the crew is called.", Words(name=True), example="north crew"))
    metre_takes: float = field(
        metadata=says(
            "How long one metre of course takes this crew, measured.",
            Quantity("time", "1 min", "20 h", "nobody is quicker or slower"),
            example="20 min",
        )
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Dome:
    """A dome, described by its inner face."""

    name: str = field(metadata=says("What the room is called.", Words(name=True), example="round room"))
    curve: DomeCurve = field(
        metadata=says("The curve of its inner face.", Choice(DomeCurve), example="pointed")
    )
    span: float = field(
        metadata=says(
            "Width inside at the springing.",
            Quantity("length", "0.6 m", "8 m", "wider domes by hand are known to have been taken down again"),
            example="4.2 m",
        )
    )
    springing: float = field(
        metadata=says(
            "Level at which it springs, above the finished floor.",
            Quantity("level", "-2 m", "4 m", "higher walls are a house of their own"),
            example="0 m",
        )
    )
    unit: DomeUnit = field(metadata=says("What it is laid of.", Choice(DomeUnit), example="earth tubes"))
    laid: Laid = field(
        metadata=says(
            "Whether its beds lie level and step in, or tilt square to the face.",
            Choice(Laid),
            example="level",
        )
    )
    thickness: float = field(
        metadata=says(
            "Width of a course as laid, along its bed.",
            Quantity("thickness", "20 mm", "1 m", "thinner is a skin, thicker is a hill"),
            example="380 mm",
        )
    )
    rise: float | None = field(
        default=None,
        metadata=says(
            "Height of the inner crown over the springing.",
            Quantity("length", "0.2 m", "8 m", "flatter is a lid, higher is a tower"),
            example="4.2 m",
            missing="a hemisphere, a pointed dome with a centre_offset and a drawn one know it",
        ),
    )
    course: float | None = field(
        default=None,
        metadata=says(
            "Height of a course as it lies, with its joint; of tilted ones along the face.",
            Quantity(
                "thickness", "20 mm", "500 mm", "flatter is a tile, higher is a block that nobody lifts"
            ),
            example="125 mm",
            ask=Ask(
                asks="How high is one course of the dome after tamping?",
                why="Every chain length follows from it, and two people's courses differ by centimetres.",
                cheapest_way="Lay and tamp four courses of a metre, and divide their height by four.",
            ),
        ),
    )
    axis: float | None = field(
        default=None,
        metadata=says(
            "Direction of the zero mark from the middle, clockwise from north.",
            Quantity("angle", "0 deg", "360 deg", "a compass has 360 degrees"),
            example="165 deg",
            ask=Ask(
                asks="Which way does the zero mark of the dome lie, from north?",
                why="Doors, windows and the starts of all courses are counted from it.",
                cheapest_way="Stand on the middle, sight the mark along a compass, correct for declination.",
            ),
        ),
    )
    east: float | None = field(
        default=None,
        metadata=says(
            "How far its middle lies to the east of the middle of the first vault or dome of the file.",
            Quantity("length", "-200 m", "200 m", "farther off is another house"),
            example="-6.4 m",
            missing="it is not set out to the other parts, and stands beside them in models",
        ),
    )
    north: float | None = field(
        default=None,
        metadata=says(
            "How far its middle lies to the north of the middle of the first vault or dome of the file.",
            Quantity("length", "-200 m", "200 m", "farther off is another house"),
            example="0.8 m",
            missing="it is not set out to the other parts, and stands beside them in models",
        ),
    )
    pivot: float | None = field(
        default=None,
        metadata=says(
            "Level of the lower end of the chain, on the axis.",
            Quantity("level", "-2 m", "8 m", "levels count from the finished floor"),
            example="0 m",
            missing="it is fixed at the level of the springing",
        ),
    )
    hook: float = field(
        default=0.0,
        metadata=says(
            "Distance from the axis to where the chain hooks on: half the pole and its ring.",
            Quantity("thickness", "0 mm", "500 mm", "more is a wheel"),
            example="40 mm",
            source="chains are counted from the axis itself unless the file says otherwise",
        ),
    )
    centre_offset: float | None = field(
        default=None,
        metadata=says(
            "How far the centres of a pointed dome lie beyond the axis.",
            Quantity("length", "0 m", "40 m", "0 is the hemisphere"),
            example="3.15 m",
            missing="rise says it",
        ),
    )
    base_centre: float = field(
        default=0.0,
        metadata=says(
            "Height over the springing of the centre of an egg's lowest arc; over 0 the wall would lean out.",
            Quantity("length", "0 m", "5 m", "a centre higher than that is above the crown"),
            example="0 m",
            source="the lowest arc of an egg has its centre at the springing unless the file says otherwise",
        ),
    )
    flank_radius: float | None = field(
        default=None,
        metadata=says(
            "Radius of the flank of an egg.", _RADIUS, example="4 m", missing="only an egg needs it"
        ),
    )
    crown_radius: float | None = field(
        default=None,
        metadata=says(
            "Radius of the crown of an egg.", _RADIUS, example="1.2 m", missing="only an egg needs it"
        ),
    )
    points: tuple[tuple[float, float], ...] = field(
        default=(),
        metadata=says(
            "A drawn face: points from the foot to the crown (distance from the axis, height over the "
            "springing).",
            Path(4),
            example='[["2.1 m", "0 m"], ["1.9 m", "1 m"], ["1.2 m", "2 m"], ["0 m", "2.8 m"]]',
            missing="only a drawn dome needs them",
        ),
    )
    unit_length: float | None = field(
        default=None,
        metadata=says(
            "Length of a brick or filled bag along the course.",
            Quantity("thickness", "40 mm", "1 m", "shorter is a chip"),
            example="240 mm",
            missing="bricks and bags are not counted",
        ),
    )
    joint: float = field(
        default=0.0,
        metadata=says(
            "Least joint between two bricks at the inner face.",
            Quantity("thickness", "0 mm", "40 mm", "wider ones are mortar, not brickwork"),
            example="5 mm",
            source="bricks touch at the inner face unless the file says otherwise",
        ),
    )
    step_limit: float | None = field(
        default=None,
        metadata=says(
            "Greatest step-in that this crew lays.",
            Quantity("thickness", "5 mm", "300 mm", "more is a shelf"),
            example="75 mm",
            missing="the step-in that a handbook of domes of bags prints",
        ),
    )
    openings: tuple[DomeOpening, ...] = field(
        default=(),
        metadata=says("Its doors and windows.", Tables(DomeOpening), key="opening", missing="it has none"),
    )
    crews: tuple[DomeCrew, ...] = field(
        default=(),
        metadata=says("Who lays it.", Tables(DomeCrew), key="crew", missing="hours are not reckoned"),
    )

    @property
    def pivot_height(self) -> float:
        """Height of the lower end of the chain over the springing (m)."""
        return 0.0 if self.pivot is None else self.pivot - self.springing

    @property
    def start(self) -> float:
        """Direction in which the first course begins: half way between two openings (rad)."""
        sides = sorted(opening.at % (2.0 * math.pi) for opening in self.openings)
        if not sides:
            return 0.0
        gaps = [
            (after - before, before)
            for before, after in zip(sides, [*sides[1:], sides[0] + 2.0 * math.pi], strict=True)
        ]
        widest, first = max(gaps)
        return (first + 0.5 * widest) % (2.0 * math.pi)
