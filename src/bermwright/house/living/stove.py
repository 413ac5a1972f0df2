"""The stove, its flue, and the wood."""

from __future__ import annotations

from dataclasses import dataclass, field

from bermwright.house.fields import Ask, Choice, Number, Quantity, Whole, Words, YesNo, says
from bermwright.house.living.words import Species, Stacked, StoveAir, StoveKind

_NEAR = Quantity("length", "0 m", "5 m", "what stands farther off is not meant")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stove:
    """One stove, fired by batches of wood."""

    name: str = field(metadata=says("What it is called.", Words(name=True), example="bench stove"))
    kind: StoveKind = field(metadata=says("What the fire is made in.", Choice(StoveKind), example="masonry"))
    vault: str = field(
        default="", metadata=says("Name of the vault it stands in.", Words(), example="day room",
                                  missing="it stands in the first one")
    )  # fmt: skip
    batch: float | None = field(
        default=None,
        metadata=says(
            "Wood that one full charge holds.",
            Quantity("mass", "0.3 kg", "60 kg", "less is kindling, more is a boiler"),
            example="6 kg",
            ask=Ask(
                asks="How much wood does one charge of the stove hold?",
                why="Firings a day follow from it.",
                cheapest_way="Fill it as you would, take the wood out again and weigh it; or read its plate.",
            ),
        ),
    )
    firings: int | None = field(
        default=None,
        metadata=says(
            "How often a day somebody is there to light or charge it, at most.",
            Whole(1, 24, "nobody fires more often"),
            example="2",
            ask=Ask(
                asks="How often a day is somebody there to fire?",
                why="With the charge it sets the most warmth that the stove can give.",
                cheapest_way="Decide it: twice a day suits a heavy stove, an iron one wants wood every hour "
                "or two.",
            ),
        ),
    )
    burn: float | None = field(
        default=None,
        metadata=says(
            "How long a full charge burns.",
            Quantity("time", "20 min", "12 h", "shorter is a flash, longer is smouldering"),
            example="1.5 h",
            missing="a usual time of its kind counts, and is printed",
        ),
    )
    efficiency: float | None = field(
        default=None,
        metadata=says(
            "Share of the wood's heating value that stays in the house.",
            Number(0.1, 0.95, "an open fire has 0.15, nothing passes 0.95"),
            example="0.8",
            missing="a usual share of its kind counts, and is printed",
        ),
    )
    storage: float | None = field(
        default=None,
        metadata=says(
            "Mass of brick, stone or clay that it warms; kept for its builder: `release` is what counts.",
            Quantity("mass", "0 kg", "20 t", "more is a wall: write it as [[heat.mass]]"),
            example="1200 kg",
            missing="nothing rests on it",
        ),
    )
    release: float | None = field(
        default=None,
        metadata=says(
            "Time in which the stored warmth falls to 37 % after the fire.",
            Quantity("time", "10 min", "72 h", "shorter stores nothing, longer is a hill"),
            example="9 h",
            missing="a usual time of its kind counts, and is printed",
        ),
    )
    output: float | None = field(
        default=None,
        metadata=says(
            "Heat output on its plate.",
            Quantity("power", "0.3 kW", "60 kW", "less is a lamp, more is a boiler"),
            example="6 kW",
            missing="it follows from charge, burning time and efficiency",
        ),
    )
    air: StoveAir | None = field(
        default=None,
        metadata=says(
            "Where the air of the fire comes from.",
            Choice(StoveAir),
            example="own duct",
            ask=Ask(
                asks="Does the fire draw its air from the room or by a duct of its own?",
                why="In a tight house a fire without its own air sucks smoke back into the room.",
                cheapest_way="Look behind or under the stove for a pipe that goes outdoors.",
            ),
        ),
    )
    flue: float | None = field(
        default=None,
        metadata=says(
            "Inside diameter of the flue.",
            Quantity("thickness", "60 mm", "400 mm", "narrower does not draw"),
            example="150 mm",
            ask=Ask(
                asks="How wide is the flue inside?",
                why="Draught and the room it needs in the roof follow from it.",
                cheapest_way="Measure the pipe, or read it from the stove's plate.",
            ),
        ),
    )
    flue_height: float | None = field(
        default=None,
        metadata=says(
            "Height of the flue from the stove's outlet to its end; kept for who sizes the flue.",
            Quantity("length", "0.5 m", "15 m", "shorter is no flue"),
            example="4.5 m",
            missing="nothing rests on it: no rule checks the draught",
        ),
    )
    terminal_height: float | None = field(
        default=None,
        metadata=says(
            "Height of the flue's end above the finished ground around it.",
            Quantity("length", "0 m", "10 m", "higher is a mast"),
            example="1.0 m",
            ask=Ask(
                asks="How high does the flue end above the turf?",
                why="Snow closes it, sparks light dry turf, and wind presses smoke down.",
                cheapest_way="Decide it: over the deepest drift, and as high as the local rule asks.",
            ),
        ),
    )
    lagging_distance: float | None = field(
        default=None,
        metadata=says(
            "Least distance from the stove or its pipe to wood.", _NEAR, example="0.5 m",
            ask=Ask(
                asks="How far is the stove or its pipe from the nearest wood?",
                why="Wood that stays hot for years lights at far lower temperatures than fresh wood.",
                cheapest_way="Measure it; the stove's plate says how far it must be.",
            ),
        ),
    )  # fmt: skip
    shield: bool | None = field(
        default=None,
        metadata=says(
            "Whether a shield with an open gap behind stands between stove and wood.",
            YesNo(),
            example="yes",
            missing="no shield is counted",
        ),
    )
    shield_gap: float | None = field(
        default=None,
        metadata=says(
            "Width of the open gap behind the shield.", _NEAR, example="0.03 m",
            missing="no shield is counted",
        ),
    )  # fmt: skip
    hearth_depth: float | None = field(
        default=None,
        metadata=says(
            "How far the floor before the fire door cannot burn.", _NEAR, example="0.5 m",
            missing="the floor before the door is not checked",
        ),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Wood:
    """The firewood, as it is when it is burned."""

    species: Species | None = field(
        default=None,
        metadata=says(
            "What it is of.",
            Choice(Species),
            example="birch",
            ask=Ask(
                asks="Which wood is burned?",
                why="A stacked cubic metre of beech holds almost twice as much as one of poplar.",
                cheapest_way="Ask who sells or fells it.",
            ),
        ),
    )
    moisture: float = field(
        default=0.2,
        metadata=says(
            "Share of water in the mass of the wood as burned.",
            Number(0.05, 0.6, "fresh wood has 0.5 to 0.6, wood under a roof for two summers 0.15 to 0.2"),
            example="0.2",
            source="split wood after one or two summers under a roof (common practice); fresh wood has half "
            "the heat",
        ),
    )
    stacked: Stacked = field(
        default=Stacked.LONG,
        metadata=says(
            "How it is measured.",
            Choice(Stacked),
            example="split 1 m",
            source="the trade sells stacked cubic metres of split logs",
        ),
    )
    ready: float | None = field(
        default=None,
        metadata=says(
            "Wood that is there, as it lies.",
            Quantity("volume", "0 m3", "200 m3", "more is a wood yard"),
            example="6 m3",
            missing="whether it suffices is not said",
        ),
    )
