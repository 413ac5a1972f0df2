"""Panels that climb along a wall: one lift is filled, they are loosened and set on it for the next."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from bermwright.house.around import STRENGTH_CLASSES
from bermwright.house.fields import Ask, Choice, Quantity, Size, Words, says
from bermwright.house.values import Board

_STUD = Quantity("thickness", "30 mm", "200 mm", "thinner bends, thicker is a beam nobody carries")


class Filling(StrEnum):
    """What is put between the panels."""

    WET = "wet"
    RAMMED = "rammed earth"


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipForm:
    """Two panels with ties between them, for one lift of a wall."""

    name: str = field(metadata=says("What the form is called.", Words(name=True), example="wall form"))
    wall: str = field(metadata=says("Name of the wall it climbs along.", Words(), example="foot walls"))
    filling: Filling = field(
        metadata=says(
            "What goes between the panels: concrete, earth or stones in wet mortar; or earth that is rammed.",
            Choice(Filling),
            example="wet",
        )
    )
    lift: float = field(
        metadata=says(
            "Height that is filled in one go.",
            Quantity("length", "0.15 m", "1.2 m", "lower is a course, higher panels nobody lifts by hand"),
            example="0.5 m",
        )
    )
    length: float = field(
        metadata=says(
            "Length of one panel.",
            Quantity("length", "0.5 m", "4 m", "shorter is a box, longer ones nobody lifts by hand"),
            example="2 m",
        )
    )
    boards: float = field(
        metadata=says(
            "Thickness of the boards or sheet of a panel, laid along the wall.",
            Quantity("thickness", "12 mm", "60 mm", "thinner breaks, thicker is a plank nobody lifts"),
            example="27 mm",
        )
    )
    stud: Board = field(
        metadata=says(
            "Section of the upright studs behind the boards: along the wall x away from it.",
            Size(Board, _STUD, _STUD, ("along the wall", "away from it")),
            example="45 x 95 mm",
        )
    )
    stud_spacing: float = field(
        metadata=says(
            "Distance of the studs from middle to middle; a tie holds each pair above and below.",
            Quantity("length", "0.2 m", "1.5 m", "nearer is a wall, farther lets the boards bend"),
            example="0.5 m",
        )
    )
    unit_weight: float | None = field(
        default=None,
        metadata=says(
            "Weight of what is filled in, fresh.",
            Quantity("unit weight", "10 kN/m3", "27 kN/m3", "fresh earth is 15 to 20, concrete 24 to 25"),
            example="24 kN/m3",
            ask=Ask(
                asks="How heavy is what is filled in, fresh?",
                why="It presses on the panels as water of its weight would.",
                cheapest_way="Weigh a bucket of it: a 10 l bucket of concrete is 24 to 25 kg.",
                needed=lambda form: form.filling is Filling.WET,
            ),
        ),
    )
    timber: str | None = field(
        default=None,
        metadata=says(
            "Strength class of boards and studs (EN 338).",
            Words(options=STRENGTH_CLASSES),
            example="C18",
            ask=Ask(
                asks="Of which strength class are boards and studs of the form?",
                why="They bend between the ties.",
                cheapest_way="Read the grading stamp, or grade the boards: [[graded]].",
            ),
        ),
    )
    tie_holds: float | None = field(
        default=None,
        metadata=says(
            "Design strength of one tie with its washers or wedges.",
            Quantity("force", "0.5 kN", "150 kN", "less is a wire, more is an anchor"),
            example="15 kN",
            ask=Ask(
                asks="How much can one tie of the form take?",
                why="The ties alone keep the panels together.",
                cheapest_way="From the maker's sheet of the tie rod.",
                needed=lambda form: form.filling is Filling.WET,
            ),
        ),
    )
