"""What the tables of supports share: sides, kinds, limits and questions."""

from __future__ import annotations

from enum import StrEnum

from bermwright.house.fields import Ask, Choice, Quantity, Words, says


class Sides(StrEnum):
    """On which sides of a vault a support stands, as seen walking in."""

    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"


class WallKind(StrEnum):
    """What a wall under the feet is made of."""

    BARRED_BLOCKS = "filled blocks with bars"
    CONCRETE = "concrete with bars"
    MORTARED = "mortared"
    DRY_STONE = "dry stone"
    EARTH = "earth tubes or bags"


class Retains(StrEnum):
    """Where soil lies against a wall."""

    OUTSIDE = "outside"
    NOTHING = "nothing"


class Behind(StrEnum):
    """Which upright face of a vault a fill with geogrid stands behind, as seen walking in."""

    LEFT = "left"
    RIGHT = "right"
    SIDES = "both sides"
    FRONT = "front"
    BACK = "back"


class TieKind(StrEnum):
    """What joins the feet of both sides under the floor."""

    SLAB = "slab"
    TIMBER = "timber"
    ROD = "rod"


class SocketKind(StrEnum):
    """How the foot of a rib is held on its support."""

    SHOE = "shoe"
    LOG = "socket in a log"


BARRED = frozenset({WallKind.BARRED_BLOCKS, WallKind.CONCRETE})
LEVEL = Quantity("level", "-6 m", "10 m", "levels count from the finished floor")
THICK = Quantity("length", "0.05 m", "4 m", "a thinner one carries nothing, a thicker one is a dam")
WEIGHT = Quantity("unit weight", "8 kN/m3", "28 kN/m3", "lighter floats, heavier is ore")
STRENGTH = Quantity("pressure", "50 kPa", "60 MPa", "softer is loose earth, stronger is no wall of this kind")
CONCRETE = Quantity("pressure", "8 MPa", "50 MPa", "the rules used here hold for these")
BAR = Quantity("thickness", "5 mm", "32 mm", "thinner is mesh wire, thicker is for bridges")
PITCH = Quantity("length", "50 mm", "0.6 m", "nearer leaves no room for concrete, further is no row")
COVER = Quantity("thickness", "15 mm", "150 mm", "nearer to the face a bar rusts")
ANGLE = Quantity("angle", "0 deg", "55 deg", "no bed is rougher", ranged=True)
FORCE = Quantity("force", "0 kN", "500 kN", "more needs a foundation of its own")
STEEL = Quantity("pressure", "200 MPa", "700 MPa", "mild steel to high-yield bars")

WHICH_VAULT = says("Name of the vault whose feet it carries.", Words(), example="day room")
WHICH_SIDE = says(
    "On which side of the vault, as seen walking in.",
    Choice(Sides),
    example="both",
    source="both sides are alike unless the file says otherwise",
)
MEASURE = "Decide it, or measure what stands."


def strength_of_bars() -> dict[str, object]:
    """What is said of the strength of bars."""
    return says(
        "Yield strength of the bars.",
        STEEL,
        example="500 MPa",
        source="ribbed bars are sold as 500 MPa (EN 10080; from memory: read the label)",
    )


def bars_field(what: str) -> dict[str, object]:
    """What is said of the diameter of bars."""
    return says(f"Diameter of the bars {what}.", BAR, example="12 mm", missing="there are none")


def bar_spacing_field(what: str) -> dict[str, object]:
    """What is said of the distance of bars."""
    return says(
        f"Distance of the bars {what}.",
        PITCH,
        example="0.2 m",
        ask=Ask(
            asks="How far apart are these bars?",
            why="What they carry on a metre follows from it.",
            cheapest_way="Decide it: 0.2 m is usual.",
            needed=lambda part: part.bars is not None,
        ),
    )


def bar_cover_field() -> dict[str, object]:
    """What is said of where bars lie."""
    return says(
        "From the face in tension to the middle of a bar.",
        COVER,
        example="55 mm",
        source="50 mm of concrete against soil and half a thin bar (EN 1992-1-1, 4.4.1, from memory)",
    )


def ask_weight(what: str) -> Ask:
    """The question how heavy a body is."""
    return Ask(
        asks=f"How heavy is {what}?",
        why="Its weight is what keeps it standing.",
        cheapest_way="Weigh a block or a bucket of it: concrete is about 24 kN/m3, filled blocks 21, stone "
        "in mortar 22, dry stone 18, tamped earth 18.",
    )
