"""What is around the ribs of a vault: its feet, the layers over it, the fill and the mound."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.data.materials import MATERIALS
from bermwright.data.timber_classes import needs_holes
from bermwright.house.choices import CoverKind, Frost, Hold, SoilKind, Support
from bermwright.house.fields import Ask, Choice, Number, Path, Quantity, Size, Whole, Words, YesNo, says
from bermwright.house.site import (
    ASK_FRICTION,
    ASK_FROST,
    ASK_SATURATED,
    ASK_WEIGHT,
    COHESION,
    CONDUCTS,
    FRICTION,
    SATURATED,
    STIFFNESS,
    UNIT_WEIGHT,
)
from bermwright.house.values import Nail

if TYPE_CHECKING:
    from bermwright.base.ranges import Range

STRENGTH_CLASSES = (
    "C14", "C16", "C18", "C20", "C22", "C24", "C27", "C30", "C35", "C40", "C45", "C50",
    "D18", "D24", "D27", "D30", "D35", "D40", "D45", "D50", "D55", "D60",
)  # fmt: skip
"""Names of the classes of EN 338:2016 that have rows here."""

_LEVEL = Quantity("level", "-6 m", "10 m", "levels count from the finished floor")
_MOUND_SLOPE = Quantity("slope", "0 deg", "60 deg", "no soil stands steeper without a wall")


@dataclass(frozen=True, slots=True, kw_only=True)
class Feet:
    """What the ribs stand on and how they are held there."""

    on: Support | None = field(
        default=None,
        metadata=says(
            "What the feet stand on.",
            Choice(Support),
            example="wall",
            ask=Ask(
                asks="Do the feet stand on walls or on footings?",
                why="The thrust of the vault goes into it.",
                cheapest_way="Decide it with whoever checks the house; a low vault on walls bends far less "
                "than a tall "
                "one from the ground.",
            ),
        ),
    )
    hold: Hold | None = field(
        default=None,
        metadata=says(
            "How the feet are held: pinned (may turn), fixed (may not), elastic (give way sideways by the "
            "stiffness), "
            "spreading (may slide outward).",
            Choice(Hold),
            example="pinned",
            ask=Ask(
                asks="How are the feet held sideways and against turning?",
                why="The bending of the rib depends on it.",
                cheapest_way="A rib that stands in a nailed shoe is pinned. Fixed needs a designed "
                "connection.",
            ),
        ),
    )
    stiffness: float | None = field(
        default=None,
        metadata=says(
            "Sideways stiffness of one foot per metre of vault, for elastic feet.",
            Quantity("spring", "0.1 MN/m2", "10000 MN/m2", "softer is spreading, stiffer is pinned"),
            example="20 MN/m2",
            ask=Ask(
                asks="How far do the walls under the feet give way for a push of a known size?",
                why="A vault whose feet move apart bends more.",
                cheapest_way="Pull the two walls together at springing level with a hand winch and a "
                "spring balance, and "
                "read the movement against a string.",
                needed=lambda feet: feet.hold is Hold.ELASTIC,
            ),
        ),
    )
    wall_width: float | None = field(
        default=None,
        metadata=says(
            "Thickness of the wall, or width of the footing.",
            Quantity("length", "0.1 m", "3 m", "a thinner one carries no shoe"),
            example="0.4 m",
            ask=Ask(
                asks="How wide is the wall or footing under the feet?",
                why="The foot force has to stay inside it.",
                cheapest_way="Decide it; 0.4 m is a usual first guess to be checked.",
            ),
        ),
    )
    wall_material: str | None = field(
        default=None,
        metadata=says(
            "What the wall or footing is made of, in plain words.",
            Words(),
            example="dry-laid stone",
            missing="foot forces are given, the wall itself is not checked",
        ),
    )
    shoe_length: float | None = field(
        default=None,
        metadata=says(
            "Length of the bearing under the foot of a rib, across the wall.",
            Quantity("length", "0.03 m", "1 m", "a shorter shoe splits off"),
            example="195 mm",
            missing="the whole depth of the rib bears",
        ),
    )
    crown_hinge: bool = field(
        default=False,
        metadata=says(
            "Whether the two halves of a rib meet in a hinge at the crown.",
            YesNo(),
            example="no",
            source="a nail-laminated rib runs through at the crown unless the file says otherwise",
        ),
    )


def _unlike_planks(cover: Cover) -> bool:
    """Whether heat and vapour of a layer are left open by its kind and its own values."""
    return cover.kind is not CoverKind.LAGGING and (cover.conductivity is None or cover.vapour is None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """One layer over the ribs; layers are listed from the inside out."""

    kind: CoverKind = field(metadata=says("What the layer is.", Choice(CoverKind), example="lagging"))
    thickness: float = field(
        metadata=says(
            "Thickness of the layer.",
            Quantity("thickness", "0.1 mm", "600 mm", "thinner is a coat of paint, thicker is a wall"),
            example="50 mm",
        )
    )
    name: str = field(
        default="",
        metadata=says(
            "What it is called on the drawings.",
            Words(),
            example="spruce planks",
            missing="its kind is its name",
        ),
    )
    unit_weight: float | None = field(
        default=None,
        metadata=says(
            "Weight of the layer as built in.",
            Quantity("unit weight", "0.1 kN/m3", "27 kN/m3", "foam is about 0.3 kN/m3, gravel 20"),
            example="5 kN/m3",
            ask=Ask(
                asks="How heavy is this layer?",
                why="The ribs carry it from the day it is laid.",
                cheapest_way="Weigh a piece and divide by its volume; the maker's sheet says it too.",
            ),
        ),
    )
    timber: str | None = field(
        default=None,
        metadata=says(
            "Strength class of the planks (EN 338).",
            Words(options=STRENGTH_CLASSES),
            example="C18",
            ask=Ask(
                asks="Of which strength class are the planks?",
                why="They carry the soil from rib to rib.",
                cheapest_way="Read the grading stamp, or ask the sawmill. Ungraded planks count as nothing.",
                needed=lambda cover: cover.kind is CoverKind.LAGGING,
            ),
        ),
    )
    width: float | None = field(
        default=None,
        metadata=says(
            "Width of one plank.",
            Quantity("thickness", "40 mm", "450 mm", "wider planks do not follow the curve"),
            example="150 mm",
            ask=Ask(
                asks="How wide is one plank?",
                why="Wide planks do not lie on the curve; the cut list counts them.",
                cheapest_way="Measure a plank of the stack.",
                needed=lambda cover: cover.kind is CoverKind.LAGGING,
            ),
        ),
    )
    nail: Nail | None = field(
        default=None,
        metadata=says(
            "Diameter and length of the nails of the planks.",
            Size(
                Nail,
                Quantity("thickness", "1.8 mm", "8 mm", "EN 1995-1-1 has rules for nails up to 8 mm"),
                Quantity("thickness", "20 mm", "400 mm", "longer ones are rods"),
                ("diameter", "length"),
            ),
            example="3.1 x 90 mm",
            ask=Ask(
                asks="Which nails hold the planks to the ribs?",
                why="The planks and their nails keep the ribs upright along the house.",
                cheapest_way="Read the packet, or measure one with a caliper.",
                needed=lambda cover: cover.kind is CoverKind.LAGGING,
            ),
        ),
    )
    nails: int | None = field(
        default=None,
        metadata=says(
            "How many nails hold one plank to each rib.",
            Whole(1, 12, "more split the plank"),
            example="2",
            ask=Ask(
                asks="How many nails hold one plank to each rib?",
                why="Two are a couple that keeps the house from leaning along its axis; one is a hinge.",
                cheapest_way="Decide it: two, one near each edge.",
                needed=lambda cover: cover.kind is CoverKind.LAGGING,
            ),
        ),
    )
    predrilled: bool | None = field(
        default=None,
        metadata=says(
            "Whether the holes of the plank nails are drilled before, eight tenths of the nail wide.",
            YesNo(),
            example="no",
            ask=Ask(
                asks="Are the holes of the plank nails drilled before?",
                why="Hardwood over 500 kg/m3 splits, and no rule holds for nails driven into it.",
                cheapest_way='Decide it: a drill of 0.8 of the nail\'s diameter. Dense hardwood needs "yes".',
                needed=lambda cover: cover.timber is not None and needs_holes(cover.timber),
            ),
        ),
    )
    friction: Range | None = field(
        default=None,
        metadata=says(
            "Angle of friction of the soil against this membrane.",
            Quantity("angle", "0 deg", "45 deg", "no membrane is rougher than soil on soil", ranged=True),
            example="14..20 deg",
            ask=Ask(
                asks="At which angle does the soil slide on this membrane?",
                why="A slippery membrane lets the soil press harder, and turf may slide off it.",
                cheapest_way="Glue a piece of it to a board, put a bottomless box of damp soil on it, tilt "
                "until it slides, "
                "measure the angle; do it five times and write the range.",
                needed=lambda cover: cover.kind is CoverKind.MEMBRANE,
            ),
        ),
    )
    strength: float | None = field(
        default=None,
        metadata=says(
            "Long-term strength of the layer in compression.",
            Quantity("pressure", "1 kPa", "5 MPa", "softer is wool"),
            example="90 kPa",
            ask=Ask(
                asks="Which pressure does this layer carry for good?",
                why="Soil presses on it for the life of the house.",
                cheapest_way="The maker's sheet gives the long-term (creep) strength, not only the one at "
                "10 % squeeze.",
                needed=lambda cover: cover.kind is CoverKind.INSULATION,
            ),
        ),
    )
    material: str | None = field(
        default=None,
        metadata=says(
            "What it is made of: a name of the table of materials.",
            Words(options=tuple(MATERIALS)),
            example="extruded polystyrene",
            ask=Ask(
                asks="What is this layer made of?",
                why="How much heat and how much vapour it lets through follows from it; a roof whose vapour "
                "cannot get out rots unseen.",
                cheapest_way="Read the label of a roll or a board, and take the nearest name of the table.",
                needed=_unlike_planks,
            ),
        ),
    )
    conductivity: float | None = field(
        default=None,
        metadata=says(
            "Thermal conductivity, wet as it will be.",
            Quantity("conductivity", "0.01 W/mK", "5 W/mK", "nothing in a house conducts less or more"),
            example="0.038 W/mK",
            missing="that of its material counts",
        ),
    )
    vapour: float | None = field(
        default=None,
        metadata=says(
            "Its resistance to vapour, as the thickness of still air that resists as much (sd).",
            Quantity(
                "length", "0.01 m", "5000 m", "thinner air resists nothing, thicker is a sheet of metal"
            ),
            example="20 m",
            missing="that of its material counts",
        ),
    )

    @property
    def title(self) -> str:
        """Its own name, else its kind."""
        return self.name or str(self.kind)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """The soil that is placed around the vault: one of the site's, or its own values."""

    soil: str | None = field(
        default=None,
        metadata=says(
            "Name of the site's soil that is used; values given here besides it go before that soil's.",
            Words(),
            example="silty till",
            missing="the values given here are the fill's own",
        ),
    )
    unit_weight: Range | None = field(
        default=None,
        metadata=says("Weight as placed, moist.", UNIT_WEIGHT, example="18..20 kN/m3", ask=ASK_WEIGHT),
    )
    saturated_unit_weight: Range | None = field(
        default=None,
        metadata=says(
            "Weight with all pores full of water.", SATURATED, example="20..21.5 kN/m3", ask=ASK_SATURATED
        ),
    )
    friction_angle: Range | None = field(
        default=None,
        metadata=says("Angle of friction, drained.", FRICTION, example="30..34 deg", ask=ASK_FRICTION),
    )
    cohesion: Range | None = field(
        default=None,
        metadata=says("Cohesion, drained.", COHESION, example="0..2 kPa", missing="none is counted on"),
    )
    stiffness: Range | None = field(
        default=None,
        metadata=says(
            "Young's modulus at a mean pressure of 50 kPa, compacted as it will be.",
            STIFFNESS,
            example="8..20 MPa",
            missing="the soil presses but is not counted on to hold the vault back",
        ),
    )
    frost: Frost | None = field(
        default=None,
        metadata=says(
            "Whether it heaves when it freezes.", Choice(Frost), example="not susceptible", ask=ASK_FROST
        ),
    )
    drained: bool | None = field(
        default=None,
        metadata=says(
            "Whether a drain at the foot of the fill takes its water away.",
            YesNo(),
            example="yes",
            ask=Ask(
                asks="Is there a drain at the foot of the fill, with an open way out?",
                why="Wet fill is heavier, presses more and freezes.",
                cheapest_way="Decide it; a slotted pipe in gravel with a visible outlet is the least there "
                "should be.",
            ),
        ),
    )
    kind: SoilKind | None = field(
        default=None,
        metadata=says(
            "Which kind of soil it is, for heat and frost.",
            Choice(SoilKind),
            example="sand or gravel",
            missing="it carries and holds heat as ISO 13370 says of a ground that nobody knows",
        ),
    )
    conductivity: float | None = field(
        default=None,
        metadata=says(
            "Thermal conductivity, as moist as it lies.",
            CONDUCTS,
            example="1.8 W/mK",
            missing="that of its kind counts",
        ),
    )
    frozen_conductivity: float | None = field(
        default=None,
        metadata=says(
            "Thermal conductivity when it is frozen.",
            CONDUCTS,
            example="2.4 W/mK",
            missing="it follows from its kind and water",
        ),
    )
    water_content: float | None = field(
        default=None,
        metadata=says(
            "Water in it, over the dry mass.",
            Number(0.0, 4.0, "dry is 0, drowned peat is 4"),
            example="0.12",
            missing="that of its kind counts",
        ),
    )
    source: str = field(
        default="",
        metadata=says(
            "Who measured these values, or which table they are from.",
            Words(),
            example="bucket test of May",
            missing="the values count as the builder's own",
        ),
    )


def _by_slopes(mound: Mound) -> bool:
    return not mound.line


@dataclass(frozen=True, slots=True, kw_only=True)
class Mound:
    """The finished ground over the vault: crown and slopes, or a drawn line."""

    crown: float | None = field(
        default=None,
        metadata=says(
            "Soil over the crown, turf included, measured from the outside of the cover layers.",
            Quantity("length", "0 m", "1.2 m", "over 1.2 m the methods used here do not hold"),
            example="0.35 m",
            ask=Ask(
                asks="How much soil, turf included, lies over the crown?",
                why="It is the load that counts most, and the one that presses the crown back in place.",
                cheapest_way="Decide it: 0.3 m keeps grass alive in a cool damp climate.",
                needed=_by_slopes,
            ),
        ),
    )
    left: float | None = field(
        default=None,
        metadata=says(
            'Slope on the left, as seen walking in; "1:2.5" is 1 up in 2.5 along.',
            _MOUND_SLOPE,
            example="1:2.5",
            ask=Ask(
                asks="How steep is the mound on the left, as seen walking in?",
                why="The soil beside the haunches presses sideways and keeps the vault from spreading.",
                cheapest_way="Decide it: 1:2.5 can be mown and does not wash off.",
                needed=_by_slopes,
            ),
        ),
    )
    right: float | None = field(
        default=None,
        metadata=says(
            "Slope on the right, as seen walking in.",
            _MOUND_SLOPE,
            example="1:3",
            ask=Ask(
                asks="How steep is the mound on the right, as seen walking in?",
                why="Two unlike sides bend the vault.",
                cheapest_way="Decide it, as on the left.",
                needed=_by_slopes,
            ),
        ),
    )
    front: float | None = field(
        default=None,
        metadata=says(
            "Slope at the front end.", _MOUND_SLOPE, example="1:2", missing="the ends are not checked yet"
        ),
    )
    back: float | None = field(
        default=None,
        metadata=says(
            "Slope at the back end.", _MOUND_SLOPE, example="1:2", missing="the ends are not checked yet"
        ),
    )
    flat: float = field(
        default=0.0,
        metadata=says(
            "Half the width of the level top of the mound.",
            Quantity("length", "0 m", "20 m", "a wider top is a field"),
            example="0.8 m",
            source="crown and slopes alone describe a mound whose slopes meet over the crown",
        ),
    )
    left_toe: float | None = field(
        default=None,
        metadata=says(
            "Level at which the left slope ends and the ground goes on level.",
            _LEVEL,
            example="0.4 m",
            missing="the slope runs down to the natural ground",
        ),
    )
    right_toe: float | None = field(
        default=None,
        metadata=says(
            "Level at which the right slope ends and the ground goes on level.",
            _LEVEL,
            example="0.4 m",
            missing="the slope runs down to the natural ground",
        ),
    )
    turf: float | None = field(
        default=None,
        metadata=says(
            "Thickness of the turf, part of the soil over the crown.",
            Quantity("thickness", "0 mm", "400 mm", "thicker is topsoil"),
            example="100 mm",
            ask=Ask(
                asks='How thick is the turf (or topsoil) on top? "0 mm" for none.',
                why="It is laid last, weighs less than the fill and is counted by the square metre.",
                cheapest_way="Cut one sod where it will come from and measure it.",
            ),
        ),
    )
    turf_unit_weight: Range | None = field(
        default=None,
        metadata=says(
            "Weight of the turf, wet.",
            UNIT_WEIGHT,
            example="13..16 kN/m3",
            missing="it counts as heavy as the fill",
        ),
    )
    line: tuple[tuple[float, float], ...] = field(
        default=(),
        metadata=says(
            "The finished ground as points from left to right (across from the axis, level), instead of "
            "slopes.",
            Path(2, rising=True),
            example='[["-8 m", "0 m"], ["-1 m", "3.4 m"], ["1 m", "3.4 m"], ["8 m", "0 m"]]',
            missing="crown and slopes describe it",
        ),
    )
    natural: tuple[tuple[float, float], ...] = field(
        default=(),
        metadata=says(
            "The natural ground as points from left to right (across from the axis, level).",
            Path(2, rising=True),
            example='[["-10 m", "-0.6 m"], ["10 m", "1.4 m"]]',
            missing="it follows from the site's slope and the floor level",
        ),
    )
