"""Fire: how long the house has to stand it, what covers the wood, where people sleep and get out."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from bermwright.house.fields import Ask, Choice, Quantity, Whole, Words, YesNo, says


class Lining(StrEnum):
    """What covers the ribs and planks towards the room."""

    NONE = "none"
    BOARDS = "boards"
    GYPSUM = "gypsum board"
    CLAY = "clay plaster"
    LIME = "lime plaster"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fire:
    """What is asked of the house in a fire."""

    resists: float | None = field(
        default=None,
        metadata=says(
            "How long the structure has to stand a fire inside.",
            Quantity("time", "0 min", "120 min", "more is asked of towers"),
            example="30 min",
            ask=Ask(
                asks="How long must the structure stand a fire?",
                why="Ribs under earth fall with all of it; the time to get out and to be fetched follows.",
                cheapest_way="Ask the building office: 30 minutes is usual for one storey, 60 for two. Where "
                "nothing is asked, write the time that everybody needs to be out, and who fetches them.",
            ),
        ),
    )
    lining: Lining | None = field(
        default=None,
        metadata=says(
            "What covers ribs and planks towards the room.",
            Choice(Lining),
            example="gypsum board",
            ask=Ask(
                asks='What covers the ribs and planks towards the room? "none" where they stay bare.',
                why="A lining keeps the fire off the wood for as long as it stays up.",
                cheapest_way="Decide it. Plasters count for nothing here: the rules have no value for them.",
            ),
        ),
    )
    lining_thickness: float | None = field(
        default=None,
        metadata=says(
            "Thickness of that lining.",
            Quantity("thickness", "9 mm", "100 mm", "thinner burns through at once"),
            example="15 mm",
            ask=Ask(
                asks="How thick is the lining?",
                why="Its time grows with its thickness.",
                cheapest_way="Measure it.",
                needed=lambda fire: fire.lining in {Lining.BOARDS, Lining.GYPSUM},
            ),
        ),
    )
    lining_gaps: bool = field(
        default=True,
        metadata=says(
            "Whether joints of the lining stay open by more than 2 mm.",
            YesNo(),
            example="no",
            source="the worse counts until somebody has looked",
        ),
    )
    smoke_alarms: int | None = field(
        default=None,
        metadata=says(
            "How many smoke alarms there are.",
            Whole(0, 50, "more is a hotel"),
            example="2",
            ask=Ask(
                asks="How many smoke alarms are there?",
                why="Smoke kills sleepers before they wake.",
                cheapest_way="One in every room where somebody sleeps, one on the way out, linked.",
            ),
        ),
    )
    co_alarms: int | None = field(
        default=None,
        metadata=says(
            "How many carbon monoxide alarms there are.",
            Whole(0, 50, "more is a hotel"),
            example="1",
            ask=Ask(
                asks="How many carbon monoxide alarms are there?",
                why="The gas of a smouldering fire has no smell; a tight earth house keeps it in.",
                cheapest_way="One in every room with a stove or flue, at head height, 1 to 3 m away.",
            ),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Bedroom:
    """A place where people sleep."""

    name: str = field(metadata=says("What it is called.", Words(name=True), example="sleeping loft"))
    vault: str = field(metadata=says("Name of the vault it is in.", Words(), example="day room"))
    people: int = field(
        metadata=says("How many sleep there.", Whole(1, 40, "more is a dormitory"), example="2")
    )
    begins: float = field(
        metadata=says(
            "Where it begins, from the front end along the axis.",
            Quantity("length", "0 m", "60 m", "no vault is longer"),
            example="4.5 m",
        )
    )
    ends: float = field(
        metadata=says(
            "Where it ends, from the front end along the axis.",
            Quantity("length", "0 m", "60 m", "no vault is longer"),
            example="7.5 m",
        )
    )
    closed: bool = field(
        metadata=says("Whether a wall and a door part it from the rest of the vault.", YesNo(), example="no")
    )
    level: float = field(
        default=0.0,
        metadata=says(
            "Level of its floor above the finished floor.",
            Quantity("level", "-1 m", "9 m", "higher is a tower"),
            example="2.3 m",
            source="on the finished floor unless the file says otherwise",
        ),
    )
