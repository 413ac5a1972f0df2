"""What has to last unseen: the wood of each part, and the pipes that lie under the earth."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from bermwright.house.fields import Ask, Choice, Quantity, Whole, Words, YesNo, says
from bermwright.house.living.air import TubeWall

_YEARS = Quantity("time", "2 years", "100 years", "a shorter life is a scaffold, a longer one nobody attests")


class Tree(StrEnum):
    """What the wood is of."""

    SPRUCE = "spruce"
    FIR = "fir"
    PINE = "pine"
    LARCH = "larch"
    DOUGLAS_FIR = "Douglas fir"
    RED_CEDAR = "western red cedar"
    YEW = "yew"
    OAK = "oak"
    ROBINIA = "robinia"
    ASH = "ash"
    BEECH = "beech"
    BIRCH = "birch"


class Timbers(StrEnum):
    """Which timbers of the house."""

    RIBS = "ribs"
    PLANKS = "planks"
    PLATES = "plates"
    SOCKETS = "sockets"
    END_PLANKS = "end planks"
    END_POSTS = "end posts"
    POSTS = "posts"
    BEAMS = "beams"
    FLOORS = "floors"


class PipeKind(StrEnum):
    """What the pipe is for."""

    DRAIN = "drain"
    AIR = "air tube"
    WATER = "water"
    WASTE = "waste"
    CABLE = "cable"


class Bedding(StrEnum):
    """What lies around the pipe."""

    STONE = "crushed stone"
    GRAVEL = "gravel or sand"
    SOIL = "fine soil"


class Outlet(StrEnum):
    """Where a drain ends."""

    OPEN = "open"
    SOAKAWAY = "soakaway"
    PUMP = "pump"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodPart:
    """Of which wood some timbers are, and what keeps it from rotting."""

    part: Timbers | None = field(
        default=None,
        metadata=says(
            "Which timbers.",
            Choice(Timbers),
            example="end posts",
            missing="all timbers that have no table of their own",
        ),
    )
    vault: str | None = field(
        default=None,
        metadata=says(
            "Name of the vault they belong to.", Words(), example="day room", missing="those of all vaults"
        ),
    )
    at: str | None = field(
        default=None,
        metadata=says(
            "At which end, for planks and posts of an end.",
            Words(options=("front", "back")),
            example="back",
            missing="those at both ends",
        ),
    )
    species: Tree | None = field(
        default=None,
        metadata=says(
            "What tree the wood is of.",
            Choice(Tree),
            example="larch",
            ask=Ask(
                asks="What tree is the wood of?",
                why="In the ground one wood lasts five years and another five times as long.",
                cheapest_way="Ask the sawmill; it stands on the bill.",
                needed=lambda part: part.treated_for is None,
            ),
        ),
    )
    heartwood_only: bool = field(
        default=False,
        metadata=says(
            "Whether all sapwood, the pale outer wood, is cut off.",
            YesNo(),
            example="no",
            source="sawn and round timber has sapwood in it unless somebody sorted it out",
        ),
    )
    treated_for: int | None = field(
        default=None,
        metadata=says(
            "Use class of EN 335 for which it is pressure-treated, as its certificate says.",
            Whole(1, 5, "EN 335 has five"),
            example="4",
            missing="it is not treated",
        ),
    )
    treated_years: float | None = field(
        default=None,
        metadata=says(
            "How long the treatment is to serve, as its certificate says: 15, 30 or 60 years.",
            _YEARS,
            example="30 years",
            ask=Ask(
                asks="For how many years is the treatment made?",
                why="The same class is sold for 15 and for 30 years; the house is to stand longer.",
                cheapest_way="Read the certificate of the treatment, or ask for one.",
                needed=lambda part: part.treated_for is not None,
            ),
        ),
    )
    damp_course: bool | None = field(
        default=None,
        metadata=says(
            "Whether tar felt or a sheet keeps it off masonry, concrete and soil.",
            YesNo(),
            example="yes",
            ask=Ask(
                asks="Does tar felt or a sheet keep the wood off masonry and concrete?",
                why="Wood that stands on stone drinks from it.",
                cheapest_way="Decide it: a strip of felt under every plate and foot.",
                needed=lambda part: part.part in {None, Timbers.PLATES, Timbers.SOCKETS},
            ),
        ),
    )
    ends_aired: bool | None = field(
        default=None,
        metadata=says(
            "Whether air reaches the ends of the timbers: a finger wide around them, open to the room.",
            YesNo(),
            example="yes",
            ask=Ask(
                asks="Does air reach the ends of these timbers?",
                why="Ends drink and dry through their pores: an end walled in rots first.",
                cheapest_way="Decide it: a gap as wide as a finger around every end, open to the room.",
            ),
        ),
    )
    looked_at: str = field(
        default="",
        metadata=says(
            "Where one can look at it, and press a knife into it, every year.",
            Words(),
            example="strip of lining on screws along the foot",
            missing="it cannot be looked at",
        ),
    )
    renewed_every: float | None = field(
        default=None,
        metadata=says(
            "After how many years it is renewed as planned.",
            _YEARS,
            example="25 years",
            missing="it has to last as long as the vault is to stand",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Pipe:
    """A pipe under the earth: drains first."""

    name: str = field(metadata=says("What it is called.", Words(name=True), example="foot drain"))
    kind: PipeKind = field(metadata=says("What it is for.", Choice(PipeKind), example="drain"))
    diameter: float = field(
        metadata=says(
            "Diameter outside.",
            Quantity("thickness", "20 mm", "800 mm", "thinner is a hose, wider is a tunnel"),
            example="110 mm",
        )
    )
    material: TubeWall | None = field(
        default=None,
        metadata=says(
            "What its wall is.",
            Choice(TubeWall),
            example="smooth plastic",
            ask=Ask(
                asks="What is the pipe made of?",
                why="Plastic gives way and lets the soil carry; clay and concrete carry themselves or crack.",
                cheapest_way="Look at it.",
            ),
        ),
    )
    stiffness: float | None = field(
        default=None,
        metadata=says(
            "Ring stiffness of a plastic pipe (SN), as it stands on the pipe.",
            Quantity("pressure", "1 kN/m2", "64 kN/m2", "softer is a hose, stiffer is not sold in plastic"),
            example="8 kN/m2",
            ask=Ask(
                asks="How stiff is the pipe: which SN is printed on it?",
                why="Soft yellow drain hose is flat under two metres of earth.",
                cheapest_way="Read it off the pipe: SN 4 is 4 kN/m2, SN 8 is 8 kN/m2.",
            ),
        ),
    )
    soil_over: float | None = field(
        default=None,
        metadata=says(
            "Depth of soil over its top, where it lies deepest.",
            Quantity("length", "0 m", "10 m", "deeper is a mine"),
            example="2.2 m",
            ask=Ask(
                asks="How much soil lies over this pipe where it is deepest?",
                why="Beside the foot of a mound it is more than anybody thinks.",
                cheapest_way="Measure it on the section: from the pipe straight up to the turf.",
            ),
        ),
    )
    bedding: Bedding | None = field(
        default=None,
        metadata=says(
            "What lies around it.",
            Choice(Bedding),
            example="gravel or sand",
            ask=Ask(
                asks="What lies around the pipe, a hand wide on all sides?",
                why="A plastic pipe is only as strong as what stands beside it.",
                cheapest_way="Decide it: washed stone or gravel.",
            ),
        ),
    )
    tamped: bool | None = field(
        default=None,
        metadata=says(
            "Whether its bed is tamped on both sides up to its middle.",
            YesNo(),
            example="yes",
            ask=Ask(
                asks="Is the bed tamped beside the pipe?",
                why="Tipped soil gives way three times as far as tamped soil.",
                cheapest_way="Decide it: tread and tamp by hand, in step on both sides.",
            ),
        ),
    )
    fall: float | None = field(
        default=None,
        metadata=says(
            "How steep a drain falls.",
            Quantity("slope", "0 %", "50 %", "steeper is a shaft"),
            example="1 %",
            ask=Ask(
                asks="How steep does the drain fall?",
                why="The ground settles; a drain laid level then runs backwards.",
                cheapest_way="Lay it with a level and a wedge: 1 cm in a metre.",
                needed=lambda pipe: pipe.kind is PipeKind.DRAIN,
            ),
        ),
    )
    filter: bool | None = field(
        default=None,
        metadata=says(
            "Whether fleece or a graded filter keeps soil out of the bed of a drain.",
            YesNo(),
            example="yes",
            ask=Ask(
                asks="Does a fleece or a graded filter go round the bed of the drain?",
                why="Without it the drain fills with silt, and nobody can reach it.",
                cheapest_way="Decide it: a fleece that laps by a hand, round the stone and not round the "
                "pipe.",
                needed=lambda pipe: pipe.kind is PipeKind.DRAIN,
            ),
        ),
    )
    outlet: Outlet | None = field(
        default=None,
        metadata=says(
            "Where a drain ends: open in a bank where it is seen, in a soakaway, at a pump, or nowhere.",
            Choice(Outlet),
            example="open",
            ask=Ask(
                asks="Where does the drain end?",
                why="A drain that ends nowhere is a well.",
                cheapest_way="Decide it: open in the bank below the house, with a grate, below the frost.",
                needed=lambda pipe: pipe.kind is PipeKind.DRAIN,
            ),
        ),
    )
    rinsed: bool | None = field(
        default=None,
        metadata=says(
            "Whether a hose can rinse a drain from a shaft or riser at its upper end.",
            YesNo(),
            example="yes",
            ask=Ask(
                asks="Can the drain be rinsed from its upper end?",
                why="Roots and silt come; under a mound nobody digs it up.",
                cheapest_way="Decide it: a riser with a lid at each corner.",
                needed=lambda pipe: pipe.kind is PipeKind.DRAIN,
            ),
        ),
    )
