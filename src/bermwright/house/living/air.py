"""Air of the house: how it comes in, how much, through what; and the damp that people make."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from bermwright.house.fields import Ask, Choice, Number, Quantity, Table, Whole, YesNo, says

_FLOW = Quantity("air flow", "0 m3/h", "5000 m3/h", "more is a hall")


class Supply(StrEnum):
    """How fresh air comes in."""

    WINDOWS = "windows"
    OPENINGS = "openings"
    TUBE = "tube"
    FAN = "fan"


class Drive(StrEnum):
    """What moves the air through the tube."""

    FAN = "fan"
    STACK = "stack"


class TubeWall(StrEnum):
    """What the tube is made of."""

    SMOOTH_PLASTIC = "smooth plastic"
    CORRUGATED_PLASTIC = "corrugated plastic"
    CONCRETE = "concrete"
    CLAY = "clay"
    STEEL = "steel"


def _by_fan(tube: Tube) -> bool:
    return tube.drive is Drive.FAN


def _by_stack(tube: Tube) -> bool:
    return tube.drive is Drive.STACK


@dataclass(frozen=True, slots=True, kw_only=True)
class Tube:
    """A tube in the ground through which fresh air comes in."""

    length: float = field(
        metadata=says(
            "Length in the ground.",
            Quantity("length", "1 m", "200 m", "a longer one needs a fan of its own kind"),
            example="30 m",
        )
    )
    diameter: float = field(
        metadata=says(
            "Diameter inside.",
            Quantity("thickness", "50 mm", "800 mm", "a narrower one whistles, a wider one is a tunnel"),
            example="200 mm",
        )
    )
    depth: float | None = field(
        default=None,
        metadata=says(
            "Depth of its middle below the ground, the mean of its length.",
            Quantity("length", "0.2 m", "6 m", "deeper is a mine"),
            example="2.0 m",
            ask=Ask(
                asks="How deep does the air tube lie?",
                why="A shallow one freezes and warms nothing.",
                cheapest_way="Decide it: below the frost, 1.5 to 2.5 m; its trench is shored or sloped.",
            ),
        ),
    )
    material: TubeWall | None = field(
        default=None,
        metadata=says(
            "What its wall is.",
            Choice(TubeWall),
            example="smooth plastic",
            ask=Ask(
                asks="What is the air tube made of?",
                why="Ribs inside hold water and dirt and brake the air; clay and concrete let soil gas in.",
                cheapest_way="Take smooth-walled sewer pipe with ring seals: it drains and can be washed.",
            ),
        ),
    )
    slope: float | None = field(
        default=None,
        metadata=says(
            "How steep it falls, without a dip, to its drain.",
            Quantity("slope", "0 %", "30 %", "steeper is a shaft"),
            example="2 %",
            ask=Ask(
                asks="How steep does the air tube fall to its drain?",
                why="Dew gathers in it in summer; standing water grows mould that you then breathe.",
                cheapest_way="Lay it with a level and a wedge: 2 cm in a metre.",
            ),
        ),
    )
    drain: bool | None = field(
        default=None,
        metadata=says(
            "Whether water runs out at its lowest point, through a trap or into a pit that can be reached.",
            YesNo(),
            example="yes",
            ask=Ask(
                asks="Has the air tube a drain at its lowest point?",
                why="Tubes without one have been sealed for ever because of mould.",
                cheapest_way="Decide it: a pit with a lid at the low end, below the frost.",
            ),
        ),
    )
    sealed: bool | None = field(
        default=None,
        metadata=says(
            "Whether joints and wall are tight against soil gas.",
            YesNo(),
            example="yes",
            ask=Ask(
                asks="Are wall and joints of the air tube tight?",
                why="A tube with holes drinks radon out of the ground and blows it into the house.",
                cheapest_way="Ring seals and a smoke test before it is buried.",
            ),
        ),
    )
    drive: Drive | None = field(
        default=None,
        metadata=says(
            "What moves its air: a fan, or the warm air that rises in the house (stack).",
            Choice(Drive),
            example="fan",
            ask=Ask(
                asks="Does a fan or the rising of warm air drive the tube?",
                why="Friction in the tube must be overcome, in summer too.",
                cheapest_way="Decide it: a stack stands still, or turns round, in a cool house in summer.",
            ),
        ),
    )
    fan_pressure: float | None = field(
        default=None,
        metadata=says(
            "Pressure that the fan still gives at the wanted flow.",
            Quantity("pressure", "1 Pa", "2000 Pa", "more is a blower"),
            example="40 Pa",
            ask=Ask(
                asks="Which pressure does the fan of the tube give at the wanted flow?",
                why="With less than the tube takes, less air comes.",
                cheapest_way="Read it off the curve on its data sheet.",
                needed=_by_fan,
            ),
        ),
    )
    stack_height: float | None = field(
        default=None,
        metadata=says(
            "Height from the tube's mouth in the room to the outlet of the stack.",
            Quantity("length", "0.3 m", "15 m", "higher is a tower"),
            example="4 m",
            ask=Ask(
                asks="How far above the tube's mouth does the air leave the house?",
                why="That height times the difference in temperature is all that drives the air.",
                cheapest_way="Measure it on the section.",
                needed=_by_stack,
            ),
        ),
    )
    losses: float = field(
        default=6.0,
        metadata=says(
            "Bends, grilles and filter, as a sum of loss coefficients.",
            Number(1.5, 100.0, "an inlet and an outlet alone are 1.5"),
            example="6",
            source="inlet 0.5, outlet 1, screen 2, filter 1.5, three smooth bends: common practice",
        ),
    )
    inlet_height: float | None = field(
        default=None,
        metadata=says(
            "Height of the inlet over the ground.",
            Quantity("length", "0 m", "10 m", "higher is a mast"),
            example="1.5 m",
            ask=Ask(
                asks="How high over the ground does the tube take its air?",
                why="Snow closes a low inlet, and drifts lie twice as high as level snow.",
                cheapest_way="Decide it: higher than the deepest drift, screened against mice.",
            ),
        ),
    )


def _by_tube(air: Air) -> bool:
    return air.supply is Supply.TUBE


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """Fresh air."""

    supply: Supply | None = field(
        default=None,
        metadata=says(
            "How fresh air comes in, in winter.",
            Choice(Supply),
            example="tube",
            ask=Ask(
                asks="How does fresh air come into the house in winter?",
                why="An earth-covered house has no chinks: without a way in there is no air.",
                cheapest_way="Decide it; windows alone are forgotten in the cold.",
            ),
        ),
    )
    flow: float | None = field(
        default=None,
        metadata=says(
            "How much fresh air comes in, all together, in winter.",
            _FLOW,
            example="90 m3/h",
            ask=Ask(
                asks="How much fresh air comes in?",
                why="Breath, damp and mould follow from it.",
                cheapest_way="Decide 25 to 30 m3/h for everybody who lives there, and build for it; check it "
                "later with a carbon dioxide meter.",
            ),
        ),
    )
    leakage: float | None = field(
        default=None,
        metadata=says(
            "Air changes an hour at 50 Pa (n50), from a door-fan test.",
            Number(0.1, 40.0, "nobody has measured less in a house, and more is a barn"),
            example="1.5",
            ask=Ask(
                asks="How leaky is the house, in air changes an hour at 50 Pa?",
                why="Air drawn out by a stove or a hood comes in through the leaks; a tight house goes under "
                "pressure and smoke comes back.",
                cheapest_way="A door-fan test costs about half a day of its owner. Before there is one, "
                "write what you build for.",
            ),
        ),
    )
    extract: float | None = field(
        default=None,
        metadata=says(
            'Air that fans blow out (kitchen hood, bath), at most at one time; "0 m3/h" for none.',
            _FLOW,
            example="0 m3/h",
            ask=Ask(
                asks="How much air do fans blow out of the house at one time?",
                why="A hood draws smoke out of a stove.",
                cheapest_way='Read it off the hood, or decide "0 m3/h".',
            ),
        ),
    )
    tube: Tube | None = field(
        default=None,
        metadata=says(
            "The tube in the ground.",
            Table(Tube),
            ask=Ask(
                asks="Which tube in the ground brings the air?",
                why="It must drain, must not freeze, and takes a pressure.",
                cheapest_way="Write an [air.tube] table: length, diameter, depth, slope, drain.",
                needed=_by_tube,
            ),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Moisture:
    """Damp that people make indoors."""

    presence: float = field(
        default=15.0 * 3600.0,
        metadata=says(
            "How long everybody is at home, in a day.",
            Quantity("time", "1 h", "24 h", "a day has no more"),
            example="15 h",
            source="nights, meals and evenings; people who stay at home all day breathe out more",
        ),
    )
    cooking: float | None = field(
        default=None,
        metadata=says(
            "How long pots boil, in a day.",
            Quantity("time", "0 h", "24 h", "a day has no more"),
            example="1 h",
            ask=Ask(
                asks="How long do pots boil in a day?",
                why="An open pot gives off a kilogram of water an hour.",
                cheapest_way="Guess it.",
            ),
        ),
    )
    showers: int | None = field(
        default=None,
        metadata=says(
            "Showers in the house in a day.",
            Whole(0, 100, "more is a bath house"),
            example="2",
            ask=Ask(
                asks="How many showers are taken in the house in a day?",
                why="Five minutes give off a fifth of a kilogram of water.",
                cheapest_way="Guess it; 0 where the bath stands apart.",
            ),
        ),
    )
    laundry: int | None = field(
        default=None,
        metadata=says(
            "Loads of laundry that dry in the house, in a week.",
            Whole(0, 100, "more is a laundry"),
            example="2",
            ask=Ask(
                asks="How many loads of laundry dry in the house in a week?",
                why="A load gives off two kilograms of water.",
                cheapest_way="Guess it; 0 where it dries outdoors or in a shed the winter through.",
            ),
        ),
    )
    others: float | None = field(
        default=None,
        metadata=says(
            "Water from everything else in a day: plants, animals, green firewood.",
            Quantity("water flow", "0 kg/d", "500 kg/d", "more is a stable"),
            example="0.5 kg/d",
            missing="nothing else is counted",
        ),
    )
