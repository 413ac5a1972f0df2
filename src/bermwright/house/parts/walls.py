"""What stands under the feet of a vault: walls, footings and buttresses.

Each table names its vault and its side. Levels count from the finished floor.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.house.fields import Ask, Choice, Quantity, Words, YesNo, says
from bermwright.house.parts.support_words import (
    ANGLE,
    BARRED,
    CONCRETE,
    LEVEL,
    MEASURE,
    STRENGTH,
    THICK,
    WEIGHT,
    WHICH_SIDE,
    WHICH_VAULT,
    Retains,
    Sides,
    WallKind,
    ask_weight,
    bar_cover_field,
    bar_spacing_field,
    bars_field,
    strength_of_bars,
)

if TYPE_CHECKING:
    from bermwright.base.ranges import Range


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """A wall under the feet of a vault, its soil on the outside."""

    name: str = field(metadata=says("What the wall is called.", Words(name=True), example="foot walls"))
    vault: str = field(metadata=WHICH_VAULT)
    side: Sides = field(default=Sides.BOTH, metadata=WHICH_SIDE)
    kind: WallKind | None = field(
        default=None,
        metadata=says(
            "What it is made of.",
            Choice(WallKind),
            example="filled blocks with bars",
            ask=Ask(
                asks="What is the wall made of?",
                why="Only bars give it strength against bending; without them its weight alone holds.",
                cheapest_way="Decide it.",
            ),
        ),
    )
    thickness: float | None = field(
        default=None,
        metadata=says(
            "Thickness.",
            THICK,
            example="0.4 m",
            ask=Ask(
                asks="How thick is the wall?",
                why="It stands on this width.",
                cheapest_way=MEASURE,
            ),
        ),
    )
    bottom: float | None = field(
        default=None,
        metadata=says(
            "Level of its underside: the top of its footing, or the ground it stands on.",
            LEVEL,
            example="-0.6 m",
            ask=Ask(
                asks="Down to which level does the wall go?",
                why="The soil outside pushes on its whole height.",
                cheapest_way=MEASURE,
            ),
        ),
    )
    top: float | None = field(
        default=None,
        metadata=says("Level of its top.", LEVEL, example="0.9 m", missing="it ends at the springing"),
    )
    unit_weight: float | None = field(
        default=None, metadata=says("Its weight.", WEIGHT, example="21 kN/m3", ask=ask_weight("the wall"))
    )
    strength: float | None = field(
        default=None,
        metadata=says(
            "Characteristic strength in compression of the wall, not of one block.",
            STRENGTH,
            example="8 MPa",
            ask=Ask(
                asks="How strong is the wall in compression?",
                why="The force leaves it on a narrow strip at its edge.",
                cheapest_way="The maker's sheet gives it; tamped earth without a test is 0.4 MPa at most.",
            ),
        ),
    )
    friction: Range | None = field(
        default=None,
        metadata=says(
            "Angle of friction between its courses.",
            ANGLE,
            example="30..35 deg",
            ask=Ask(
                asks="At which angle does one course slide on the next?",
                why="The thrust of the vault may push the upper courses off the lower ones.",
                cheapest_way="Tilt two blocks on their bed until the upper one slides; five times.",
                needed=lambda wall: wall.kind not in BARRED,
            ),
        ),
    )
    grip: float | None = field(
        default=None,
        metadata=says(
            "What its beds hold without weight, from mortar or wire.",
            Quantity("pressure", "0 kPa", "600 kPa", "no bed holds more"),
            example="50 kPa",
            missing="friction alone counts",
        ),
    )
    bars: float | None = field(default=None, metadata=bars_field("upright in each face"))
    bar_spacing: float | None = field(default=None, metadata=bar_spacing_field("along the wall"))
    bar_cover: float = field(default=0.055, metadata=bar_cover_field())
    bar_strength: float = field(default=500e6, metadata=strength_of_bars())
    foot: float | None = field(
        default=None,
        metadata=says(
            "From its face in the room to the middle of the foot of a rib.",
            THICK,
            example="0.2 m",
            missing="the foot stands on the middle of the wall",
        ),
    )
    retains: Retains = field(
        default=Retains.OUTSIDE,
        metadata=says(
            "Where soil lies against it.",
            Choice(Retains),
            example="outside",
            source="the fill of the vault lies against the wall under it unless the file says otherwise",
        ),
    )
    soil: str | None = field(
        default=None,
        metadata=says(
            "Name of the site's soil that lies against it.",
            Words(),
            example="silty till",
            missing="the vault's own fill lies against it",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Footing:
    """A strip under a wall, or under the feet themselves."""

    name: str = field(metadata=says("What the footing is called.", Words(name=True), example="strips"))
    vault: str = field(metadata=WHICH_VAULT)
    side: Sides = field(default=Sides.BOTH, metadata=WHICH_SIDE)
    width: float | None = field(
        default=None,
        metadata=says(
            "Width across the wall.",
            THICK,
            example="1.8 m",
            ask=Ask(asks="How wide is the footing?", why="Everything stands on it.", cheapest_way=MEASURE),
        ),
    )
    thickness: float | None = field(
        default=None,
        metadata=says(
            "Thickness.",
            THICK,
            example="0.3 m",
            ask=Ask(
                asks="How thick is the footing?",
                why="What sticks out beside the wall bends.",
                cheapest_way=MEASURE,
            ),
        ),
    )
    toe: float | None = field(
        default=None,
        metadata=says(
            "How far it sticks out into the room, before the wall.",
            Quantity("length", "0 m", "4 m", "more is a floor"),
            example="0.4 m",
            missing="the wall, or the foot, stands on its middle",
        ),
    )
    unit_weight: float = field(
        default=24e3,
        metadata=says(
            "Its weight.",
            WEIGHT,
            example="24 kN/m3",
            source="plain concrete (EN 1991-1-1, table A.1, from memory)",
        ),
    )
    concrete: float | None = field(
        default=None,
        metadata=says(
            "Characteristic cylinder strength of its concrete.",
            CONCRETE,
            example="25 MPa",
            ask=Ask(
                asks="Of which class is the concrete of the footing?",
                why="Its bars hold in it, and what sticks out bends.",
                cheapest_way="Order C25/30: write 25 MPa. By hand count on 12 MPa at most.",
            ),
        ),
    )
    bars: float | None = field(default=None, metadata=bars_field("across, at the face in tension"))
    bar_spacing: float | None = field(default=None, metadata=bar_spacing_field("across the footing"))
    bar_cover: float = field(default=0.055, metadata=bar_cover_field())
    bar_strength: float = field(default=500e6, metadata=strength_of_bars())
    cast: bool = field(
        default=True,
        metadata=says(
            "Whether it is poured straight on the ground, so that it grips it as the soil grips itself.",
            YesNo(),
            example="yes",
            source="concrete poured in the trench; a smooth precast piece grips less (EN 1997-1, 6.5.3)",
        ),
    )
    soil: str | None = field(
        default=None,
        metadata=says(
            "Name of the site's soil under it.",
            Words(),
            example="silty till",
            missing="the site's soil at its depth is under it",
        ),
    )
    presumed_bearing: float | None = field(
        default=None,
        metadata=says(
            "Pressure that local rules allow on this ground, where its friction is not known.",
            Quantity("pressure", "20 kPa", "2 MPa", "mud is no ground to build on, rock is more"),
            example="100 kPa",
            missing="what the ground carries is found from its friction and weight",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Buttress:
    """Bodies that stand against a wall at equal distances."""

    name: str = field(metadata=says("What they are called.", Words(name=True), example="buttresses"))
    vault: str = field(metadata=WHICH_VAULT)
    side: Sides = field(default=Sides.BOTH, metadata=WHICH_SIDE)
    inside: bool = field(
        default=False,
        metadata=says(
            "Whether they stand in the room, against a push inward; else outside, against a push outward.",
            YesNo(),
            example="no",
            source="a buttress stands outside unless the file says otherwise",
        ),
    )
    spacing: float | None = field(
        default=None,
        metadata=says(
            "Distance from middle to middle along the vault.",
            Quantity("length", "0.4 m", "8 m", "further apart they do not help the wall between"),
            example="1.5 m",
            ask=Ask(
                asks="How far apart are the buttresses?",
                why="Each holds that length of vault.",
                cheapest_way=MEASURE,
            ),
        ),
    )
    width: float | None = field(
        default=None,
        metadata=says(
            "Width along the vault.",
            THICK,
            example="0.5 m",
            ask=Ask(asks="How wide is one buttress?", why="Its weight holds.", cheapest_way=MEASURE),
        ),
    )
    depth: float | None = field(
        default=None,
        metadata=says(
            "How far it sticks out from the wall, at its base.",
            THICK,
            example="0.9 m",
            ask=Ask(asks="How far does it stick out?", why="It stands on that.", cheapest_way=MEASURE),
        ),
    )
    bottom: float | None = field(
        default=None,
        metadata=says(
            "Level of its underside.", LEVEL, example="-0.6 m", missing="it goes as deep as its wall"
        ),
    )
    top: float | None = field(
        default=None,
        metadata=says("Level of its top.", LEVEL, example="0.9 m", missing="it ends at the springing"),
    )
    unit_weight: float | None = field(
        default=None, metadata=says("Its weight.", WEIGHT, example="21 kN/m3", ask=ask_weight("the buttress"))
    )
    bond: float | None = field(
        default=None,
        metadata=says(
            "Shear strength of the joint with the wall, design value.",
            Quantity("pressure", "0 kPa", "2 MPa", "no bond is stronger"),
            example="60 kPa",
            missing="the wall's weight does not count with the buttress",
        ),
    )
