"""How the bare ribs are raised and held until the lagging is on: boards, guys, anchors, wind."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from bermwright.house.around import STRENGTH_CLASSES
from bermwright.house.fields import Ask, Choice, Quantity, Size, Tables, Whole, Words, YesNo, says
from bermwright.house.values import Board, Nail

_FORCE = Quantity("force", "0.1 kN", "100 kN", "less is string, more needs a crane's anchor")


class Anchor(StrEnum):
    """What holds the lower end of a guy."""

    STAKE = "stakes"
    DEADMAN = "buried log"
    WALL = "wall or footing"
    TREE = "living tree"


class Raised(StrEnum):
    """How a rib goes up."""

    WHOLE = "whole"
    HALVES = "halves"


class Lifted(StrEnum):
    """What lifts it."""

    HANDS = "hands"
    GIN_POLE = "gin pole"
    HOIST = "hoist"
    CRANE = "crane"


@dataclass(frozen=True, slots=True, kw_only=True)
class BraceBoards:
    """Boards nailed slantwise across the ribs, on both sides of the vault."""

    section: Board = field(
        metadata=says(
            "Section of one board.",
            Size(
                Board,
                Quantity("thickness", "15 mm", "75 mm", "thinner splits, thicker is a beam"),
                Quantity("thickness", "60 mm", "300 mm", "narrower has no room for nails"),
                ("thickness", "width"),
            ),
            example="25 x 100 mm",
        )
    )
    count: int = field(
        metadata=says(
            "How many on each side of the vault, half of them slanting each way.",
            Whole(1, 100, "more is lagging"),
            example="2",
        )
    )
    timber: str | None = field(
        default=None,
        metadata=says(
            "Strength class of the boards (EN 338).",
            Words(options=STRENGTH_CLASSES),
            example="C18",
            ask=Ask(
                asks="Of which strength class are the brace boards?",
                why="They carry the wind until the lagging is on.",
                cheapest_way="Take graded boards of the ribs' own stack.",
            ),
        ),
    )
    ribs: int = field(
        default=4,
        metadata=says(
            "How many ribs each board crosses and is nailed to.",
            Whole(2, 60, "one rib braces nothing"),
            example="4",
            source="a board of 2 m over ribs half a metre apart",
        ),
    )
    slant: float = field(
        default=0.7853981633974483,
        metadata=says(
            "Slant of the board against the axis, as it lies on the ribs.",
            Quantity("angle", "15 deg", "75 deg", "flatter or steeper braces little"),
            example="45 deg",
            source="half a right angle braces most",
        ),
    )
    nail: Nail | None = field(
        default=None,
        metadata=says(
            "Diameter and length of its nails.",
            Size(
                Nail,
                Quantity("thickness", "1.8 mm", "8 mm", "EN 1995-1-1 has rules for nails up to 8 mm"),
                Quantity("thickness", "20 mm", "400 mm", "longer ones are rods"),
                ("diameter", "length"),
            ),
            example="3.1 x 80 mm",
            ask=Ask(
                asks="Which nails hold the brace boards?",
                why="A brace is as strong as its nails.",
                cheapest_way="Read the packet. Nails with two heads come out again.",
            ),
        ),
    )
    nails: int | None = field(
        default=None,
        metadata=says(
            "How many nails in every rib that it crosses.",
            Whole(1, 20, "more split the board"),
            example="3",
            ask=Ask(
                asks="How many nails hold a brace board to each rib?",
                why="A brace is as strong as its nails.",
                cheapest_way="Decide it: three is usual.",
            ),
        ),
    )
    predrilled: bool = field(
        default=False,
        metadata=says(
            "Whether the holes of its nails are drilled before.",
            YesNo(),
            example="no",
            source="nails of braces are driven without holes unless the file says otherwise",
        ),
    )
    stays: bool = field(
        default=False,
        metadata=says(
            "Whether the boards stay in the house for good.",
            YesNo(),
            example="no",
            source="braces come off unless the file says otherwise, and then count for nothing later",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Guy:
    """Ropes or straps along the axis from the first or the last rib down to anchors."""

    level: float = field(
        metadata=says(
            "Level at which it is tied to the rib.",
            Quantity("level", "0.3 m", "12 m", "lower holds nothing, higher is in the air"),
            example="2.4 m",
        )
    )
    reach: float = field(
        metadata=says(
            "Level distance from the rib to the anchor.",
            Quantity("length", "0.5 m", "30 m", "nearer pulls straight down"),
            example="2.5 m",
        )
    )
    count: int = field(
        metadata=says(
            "How many pull each way along the axis.", Whole(1, 40, "more are in the way"), example="2"
        )
    )
    holds: float | None = field(
        default=None,
        metadata=says(
            "Working load of the rope or strap, as marked on it.",
            _FORCE,
            example="5 kN",
            ask=Ask(
                asks="Which working load is marked on the guys?",
                why="They hold the ribs in the wind until the lagging is on.",
                cheapest_way="Read the label of a ratchet strap (LC or WLL); a rope without one is none.",
            ),
        ),
    )
    anchor: Anchor | None = field(
        default=None,
        metadata=says(
            "What holds its lower end.",
            Choice(Anchor),
            example="buried log",
            ask=Ask(
                asks="What are the guys tied to?",
                why="Anchors give way before ropes do.",
                cheapest_way="Decide it: a buried log is the surest. A parked car is no anchor.",
            ),
        ),
    )
    anchor_holds: float | None = field(
        default=None,
        metadata=says(
            "Pull that one anchor was tried with and did not move.",
            _FORCE,
            example="6 kN",
            ask=Ask(
                asks="With which pull was an anchor tried?",
                why="No equation knows a stake in unknown soil.",
                cheapest_way="Pull one with a winch and a spring balance along the guy; two people "
                "leaning hard on a rope pull about 0.6 kN.",
            ),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Erection:
    """Raising the ribs."""

    raised: Raised | None = field(
        default=None,
        metadata=says(
            "Whether a rib goes up whole or in two halves.",
            Choice(Raised),
            example="halves",
            ask=Ask(
                asks="Do the ribs go up whole or in two halves?",
                why="Long ribs are heavy, and break while they are raised.",
                cheapest_way="Decide it: halves when two people cannot carry a whole one.",
            ),
        ),
    )
    lifted: Lifted | None = field(
        default=None,
        metadata=says(
            "What lifts it.",
            Choice(Lifted),
            example="hands",
            ask=Ask(
                asks="What lifts the ribs?",
                why="A rib falls on whoever lifts more than they can.",
                cheapest_way="Decide it from the weights in the book.",
            ),
        ),
    )
    hoist_holds: float | None = field(
        default=None,
        metadata=says(
            "Working load of pole, hoist or crane at the reach where it is used.",
            _FORCE,
            example="2.5 kN",
            ask=Ask(
                asks="Which working load has the pole, hoist or crane?",
                why="It must carry the heaviest rib at that reach.",
                cheapest_way="Read its plate.",
                needed=lambda erection: erection.lifted not in {None, Lifted.HANDS},
            ),
        ),
    )
    wind_limit: float | None = field(
        default=None,
        metadata=says(
            "Gust in which work on the ribs stops.",
            Quantity("speed", "3 m/s", "20 m/s", "below is a breeze, above nobody stands on a scaffold"),
            example="8 m/s",
            ask=Ask(
                asks="In which gust does raising stop?",
                why="A rib that is not braced yet is a sail.",
                cheapest_way="Decide it: 8 m/s moves small trees. A hand wind gauge costs little.",
            ),
        ),
    )
    unbraced: int = field(
        default=1,
        metadata=says(
            "How many ribs may stand at once that only hands or props hold.",
            Whole(1, 4, "more fall like cards"),
            example="1",
            source="each is braced before the next goes up",
        ),
    )
    braces: tuple[BraceBoards, ...] = field(
        default=(),
        metadata=says("Boards across the ribs.", Tables(BraceBoards), key="brace", missing="there are none"),
    )
    guys: tuple[Guy, ...] = field(
        default=(), metadata=says("Guys.", Tables(Guy), key="guy", missing="there are none")
    )
