"""Boards that the builder grades by eye: salvaged ones, or straight from the saw."""

from __future__ import annotations

from dataclasses import dataclass, field

from bermwright.house.around import STRENGTH_CLASSES
from bermwright.house.fields import Ask, Choice, Quantity, Size, Whole, Words, YesNo, says
from bermwright.house.parts.choices import BoardSide
from bermwright.house.values import Board

_SMALL = Quantity("thickness", "0 mm", "400 mm", "no board is wider")


def _ask(asks: str, why: str, cheapest_way: str) -> Ask:
    return Ask(asks=asks, why=why, cheapest_way=cheapest_way)


@dataclass(frozen=True, slots=True, kw_only=True)
class GradedBoards:
    """A stack of boards, described by the worst faults that any board left in it has."""

    name: str = field(metadata=says("What the stack is called.", Words(name=True), example="barn joists"))
    section: Board = field(
        metadata=says(
            "Section of a board.",
            Size(
                Board,
                Quantity("thickness", "10 mm", "300 mm", "thinner is a lath"),
                Quantity("thickness", "40 mm", "450 mm", "wider boards are not sawn any more"),
                ("thickness", "width"),
            ),
            example="45 x 195 mm",
        )
    )
    counts_as: str | None = field(
        default=None,
        metadata=says(
            "Strength class for which the boards are used (EN 338).",
            Words(options=STRENGTH_CLASSES),
            example="C18",
            missing="the class that they earn is said, and nothing is compared with it",
        ),
    )
    count: int | None = field(
        default=None,
        metadata=says(
            "How many boards are left in the stack.",
            Whole(1, 100000, "more is a sawmill"),
            example="40",
            missing="nothing asks for it yet",
        ),
    )
    knot: float | None = field(
        default=None,
        metadata=says(
            "Diameter of the largest knot; a hole of a nail or bolt counts as one.",
            _SMALL,
            example="35 mm",
            ask=_ask(
                "How large is the largest knot, or hole, in any board of this stack?",
                "A board breaks at its knots first.",
                "Measure its smallest diameter with a ruler; put boards with larger ones on another stack.",
            ),
        ),
    )
    knot_in: BoardSide | None = field(
        default=None,
        metadata=says(
            "In which side that knot is.",
            Choice(BoardSide),
            example="wide side",
            ask=_ask(
                "Is the largest knot in the wide or in the narrow side?",
                "A knot at the edge of a board on edge costs most.",
                "Look at it; where both have knots, write the narrow side.",
            ),
        ),
    )
    grain: float | None = field(
        default=None,
        metadata=says(
            'Slope of the grain against the edge; "1:15" runs out 1 in 15 along.',
            Quantity("slope", "0 deg", "45 deg", "steeper is cross-grained"),
            example="1:15",
            ask=_ask(
                "How much does the grain run out of the board?",
                "A board with sloping grain splits off across.",
                "Drag a scriber with a swivel handle along the grain for a metre; measure how far it strays.",
            ),
        ),
    )
    rings: float | None = field(
        default=None,
        metadata=says(
            "Mean width of the yearly rings.",
            Quantity("thickness", "0.2 mm", "30 mm", "no softwood grows slower or faster"),
            example="3 mm",
            ask=_ask(
                "How wide are the yearly rings?",
                "Softwood that grew fast is weak.",
                "Count the rings over 75 mm on an end, the middle of the tree left out, and divide.",
            ),
        ),
    )
    wane: float | None = field(
        default=None,
        metadata=says(
            "Width of the missing edge.",
            _SMALL,
            example="0 mm",
            ask=_ask(
                "How much of an edge is missing (wane)?",
                "What is missing carries nothing, and nails find no wood.",
                "Measure across the missing edge where it is widest.",
            ),
        ),
    )
    cracks: float | None = field(
        default=None,
        metadata=says(
            "Depth of the deepest crack.",
            _SMALL,
            example="10 mm",
            ask=_ask(
                "How deep is the deepest crack?",
                "A cracked board shears.",
                "Push a feeler of 0.1 mm into it and measure how deep it goes.",
            ),
        ),
    )
    rotten: bool | None = field(
        default=None,
        metadata=says(
            "Whether any board has rot, or beetle holes over 2 mm.",
            YesNo(),
            example="no",
            ask=_ask(
                "Is there rot, or are there beetle holes over 2 mm?",
                "Rotten wood counts as nothing, and infects what is beside it.",
                "Stick a knife in every end and every dark place; soft or crumbling is rot.",
            ),
        ),
    )
