"""The ends of a vault: what closes them, and the soil that lies against them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.house.around import STRENGTH_CLASSES
from bermwright.house.fields import Ask, Choice, Quantity, Size, Whole, Words, YesNo, says
from bermwright.house.parts.choices import EndKind, EndSide
from bermwright.house.values import Board

if TYPE_CHECKING:
    from bermwright.base.ranges import Range

_LEVEL = Quantity("level", "-6 m", "10 m", "levels count from the finished floor")
_POST = Quantity("thickness", "60 mm", "600 mm", "thinner is a lath, thicker is a trunk nobody lifts")
_HOLD = Quantity("force", "0 kN", "200 kN", "more needs a foundation of its own")


def _closed(end: End) -> bool:
    return end.kind is not EndKind.OPEN


def _timber(end: End) -> bool:
    return end.kind in {EndKind.PLANKS, EndKind.LOGS}


def _heavy(end: End) -> bool:
    return end.kind in {EndKind.BLOCKS, EndKind.EARTH_TUBES}


def _posts(end: End) -> bool:
    return _timber(end) and end.post_spacing is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """One end of one vault."""

    vault: str = field(metadata=says("Name of the vault.", Words(), example="day room"))
    at: EndSide = field(
        metadata=says("Which end; the front is where one walks in.", Choice(EndSide), example="back")
    )
    kind: EndKind = field(metadata=says("What closes it.", Choice(EndKind), example="planks"))
    thickness: float | None = field(
        default=None,
        metadata=says(
            "Thickness of the planks, of a log where it bears, or of the wall.",
            Quantity("length", "20 mm", "2 m", "thinner is a curtain, thicker is a dam"),
            example="60 mm",
            ask=Ask(
                asks="How thick is this end wall?",
                why="It has to carry what lies against it.",
                cheapest_way="Measure a plank or a block, or decide it.",
                needed=_closed,
            ),
        ),
    )
    soil_to: float | None = field(
        default=None,
        metadata=says(
            "Level up to which soil lies against it outside; write the floor's level where none does.",
            _LEVEL,
            example="0.6 m",
            ask=Ask(
                asks="Up to which level does soil lie against this end?",
                why="Soil that lies against an end wall pushes it into the room.",
                cheapest_way="Decide it, or read it off the drawing of the mound.",
            ),
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
    rises: float = field(
        default=0.0,
        metadata=says(
            "Slope at which the ground rises away behind it, as in a hillside.",
            Quantity("slope", "0 deg", "35 deg", "a steeper bank does not stand by itself"),
            example="0 deg",
            source="ground behind an end is level unless the file says that it rises",
        ),
    )
    hillside: bool = field(
        default=False,
        metadata=says(
            "Whether the end is dug into a hillside, so that the ground there is as it grew.",
            YesNo(),
            example="no",
            source="an end stands free and is filled against unless the file says otherwise",
        ),
    )
    drained: bool | None = field(
        default=None,
        metadata=says(
            "Whether a drain at its foot takes the water away.",
            YesNo(),
            example="yes",
            ask=Ask(
                asks="Is there a drain at the foot of this end, with an open way out?",
                why="Water behind a wall pushes more than soil does.",
                cheapest_way="Decide it; a slotted pipe in gravel with a visible outlet is the least there "
                "should be.",
                needed=_closed,
            ),
        ),
    )
    water: Range | None = field(
        default=None,
        metadata=says(
            "Level of standing water against it where there is no drain.",
            Quantity("level", "-6 m", "10 m", "levels count from the finished floor", ranged=True),
            example="-0.5..0 m",
            missing="without a drain water counts up to the level of the soil",
        ),
    )
    timber: str | None = field(
        default=None,
        metadata=says(
            "Strength class of its planks, logs and posts (EN 338).",
            Words(options=STRENGTH_CLASSES),
            example="C18",
            ask=Ask(
                asks="Of which strength class are the planks, logs and posts of this end?",
                why="They carry the soil.",
                cheapest_way="Read the grading stamp, or grade the boards: [[graded]].",
                needed=_timber,
            ),
        ),
    )
    service_class: int | None = field(
        default=None,
        metadata=says(
            "Service class of EN 1995-1-1: 1 heated and dry, 2 under a roof, 3 wet.",
            Whole(1, 3, "EN 1995-1-1 has three"),
            example="3",
            ask=Ask(
                asks="How damp will this end be for years?",
                why="Damp timber is weaker.",
                cheapest_way="Against soil write 3, inside of a membrane 2.",
                needed=_timber,
            ),
        ),
    )
    post_spacing: float | None = field(
        default=None,
        metadata=says(
            "Distance of upright posts that the planks or logs lie against.",
            Quantity("length", "0.3 m", "4 m", "nearer is a palisade"),
            example="0.7 m",
            missing="the planks or logs run from side to side of the vault",
        ),
    )
    post: Board | None = field(
        default=None,
        metadata=says(
            "Section of a sawn post: along the wall x towards the soil.",
            Size(Board, _POST, _POST, ("along the wall", "towards the soil")),
            example="150 x 200 mm",
            missing="post_diameter says it",
        ),
    )
    post_diameter: float | None = field(
        default=None,
        metadata=says(
            "Diameter of a round post at its thin end.",
            _POST,
            example="200 mm",
            ask=Ask(
                asks="How thick are the posts of this end?",
                why="Each carries the soil of its whole spacing.",
                cheapest_way="Measure one at its thin end; for a sawn post write post instead.",
                needed=lambda end: _posts(end) and end.post is None,
            ),
        ),
    )
    post_head: float | None = field(
        default=None,
        metadata=says(
            "Level at which the heads of the posts are held, by a beam or by the end rib.",
            _LEVEL,
            example="2.4 m",
            missing="the posts stand free like a fence and are held in the ground alone",
        ),
    )
    post_depth: float | None = field(
        default=None,
        metadata=says(
            "How deep the posts stand in the ground below the floor.",
            Quantity("length", "0 m", "4 m", "deeper is a pile"),
            example="0.6 m",
            ask=Ask(
                asks="How deep do the posts of this end stand in the ground?",
                why="The ground in front of them holds their feet.",
                cheapest_way="Decide it; 0 m where they stand on a sill.",
                needed=_posts,
            ),
        ),
    )
    head_holds: float | None = field(
        default=None,
        metadata=says(
            "Design strength of what holds one post's head, towards the room.",
            _HOLD,
            example="6 kN",
            ask=Ask(
                asks="How much can the fixing at the head of one post take?",
                why="The soil pushes the heads of the posts into the room.",
                cheapest_way="From the maker's sheet of the bolt or bracket, or ask an engineer.",
                needed=lambda end: _posts(end) and end.post_head is not None,
            ),
        ),
    )
    foot_holds: float | None = field(
        default=None,
        metadata=says(
            "Design strength of what holds one post's foot sideways where it stands on a sill.",
            _HOLD,
            example="10 kN",
            ask=Ask(
                asks="How much can the fixing at the foot of one post take sideways?",
                why="The soil pushes hardest at the foot.",
                cheapest_way="From the maker's sheet of the shoe, or let the post stand in the ground.",
                needed=lambda end: _posts(end) and end.post_depth == 0.0,
            ),
        ),
    )
    unit_weight: Range | None = field(
        default=None,
        metadata=says(
            "Weight of a wall of blocks or earth tubes as built.",
            Quantity("unit weight", "4 kN/m3", "27 kN/m3", "foam is lighter, granite is 27", ranged=True),
            example="18..20 kN/m3",
            ask=Ask(
                asks="How heavy is this wall?",
                why="A wall of blocks or tubes holds soil by its weight alone.",
                cheapest_way="Weigh one block, or a bucket of the packed earth, and divide by its volume.",
                needed=_heavy,
            ),
        ),
    )
