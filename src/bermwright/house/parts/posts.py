"""Posts, beams and upper floors, of sawn timber or of logs."""

from __future__ import annotations

from dataclasses import dataclass, field

from bermwright.house.around import STRENGTH_CLASSES
from bermwright.house.fields import Ask, Choice, Quantity, Size, Whole, Words, YesNo, says
from bermwright.house.parts.choices import FloorUse
from bermwright.house.values import Board

_SIDE = Quantity("thickness", "40 mm", "800 mm", "thinner is a lath, thicker is a trunk nobody lifts")
_ROUND = Quantity("thickness", "60 mm", "800 mm", "thinner is a pole, thicker is a trunk nobody lifts")
_LINE = Quantity("line load", "0 kN/m", "200 kN/m", "more is a bridge")
_FORCE = Quantity("force", "0 kN", "500 kN", "more needs a foundation of its own")
_SPAN = Quantity("length", "0.3 m", "10 m", "longer ones are not sawn")
_CLASS = Whole(1, 3, "EN 1995-1-1 has three")
_HOW_DAMP = Ask(
    asks="How damp will this timber be for years?",
    why="Damp timber is weaker and creeps more.",
    cheapest_way="In a heated, aired house write 2; in the ground or against soil write 3.",
)
_WHICH_CLASS = Ask(
    asks="Of which strength class is this timber?",
    why="Ungraded timber counts as nothing.",
    cheapest_way="Read the grading stamp, or grade it yourself: [[graded]].",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Post:
    """An upright post that carries a beam or a load of its own."""

    name: str = field(
        metadata=says("What it is called on the drawings.", Words(name=True), example="middle post")
    )
    length: float = field(
        metadata=says(
            "Length between the places where it is held sideways.",
            Quantity("length", "0.2 m", "8 m", "longer ones are masts"),
            example="2.4 m",
        )
    )
    section: Board | None = field(
        default=None,
        metadata=says(
            "Section of a sawn post.",
            Size(Board, _SIDE, _SIDE, ("thickness", "width")),
            example="150 x 150 mm",
            missing="diameter says it",
        ),
    )
    diameter: float | None = field(
        default=None,
        metadata=says(
            "Diameter of a round post at its thin end, under the bark.",
            _ROUND,
            example="200 mm",
            ask=Ask(
                asks="How thick is the post?",
                why="A thin post buckles.",
                cheapest_way="Measure around its thin end and divide by 3.14; for a sawn post write section.",
                needed=lambda post: post.section is None,
            ),
        ),
    )
    thick_end: float | None = field(
        default=None,
        metadata=says(
            "Diameter of a round post at its thick end.",
            _ROUND,
            example="220 mm",
            missing="the thin end counts over its whole length",
        ),
    )
    timber: str | None = field(
        default=None,
        metadata=says(
            "Strength class (EN 338).", Words(options=STRENGTH_CLASSES), example="C24", ask=_WHICH_CLASS
        ),
    )
    service_class: int | None = field(
        default=None, metadata=says("Service class of EN 1995-1-1.", _CLASS, example="2", ask=_HOW_DAMP)
    )
    under: str | None = field(
        default=None,
        metadata=says(
            "Name of the beam that rests on it.",
            Words(),
            example="middle beam",
            missing="load and snow or people say what it carries",
        ),
    )
    beams_meet: int = field(
        default=2,
        metadata=says(
            "How many ends of that beam rest on it.",
            Whole(1, 2, "a beam has two ends"),
            example="2",
            source="two ends meet on a post, the worse, unless the file says one",
        ),
    )
    load: float | None = field(
        default=None,
        metadata=says(
            "Permanent load on it besides the beam.",
            _FORCE,
            example="5 kN",
            ask=Ask(
                asks="What does this post carry?",
                why="Without its load nothing can be said of it.",
                cheapest_way="Name the beam: under. Or add up the weight of the roof or floor it holds.",
                needed=lambda post: post.under is None,
            ),
        ),
    )
    snow_or_people: float | None = field(
        default=None,
        metadata=says(
            "Load of snow or people on it besides the beam.",
            _FORCE,
            example="3 kN",
            ask=Ask(
                asks="How much snow or how many people rest on this post?",
                why="Without its load nothing can be said of it.",
                cheapest_way="Name the beam: under. Or multiply the area it holds by the snow load; 0 kN for "
                "none.",
                needed=lambda post: post.under is None,
            ),
        ),
    )
    off_middle: float = field(
        default=0.02,
        metadata=says(
            "How far from its middle the load may rest.",
            Quantity("length", "0 m", "0.3 m", "beyond that the load is beside the post"),
            example="20 mm",
            source="20 mm for hand work: a judgement, no source",
        ),
    )
    notch: float = field(
        default=0.0,
        metadata=says(
            "How deep the deepest notch in it is.",
            Quantity("length", "0 m", "0.4 m", "deeper leaves no post"),
            example="30 mm",
            source="no notch is cut unless the file says so",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """A beam or log on two supports."""

    name: str = field(
        metadata=says("What it is called on the drawings.", Words(name=True), example="middle beam")
    )
    span: float = field(metadata=says("Length between the middles of its supports.", _SPAN, example="2.4 m"))
    section: Board | None = field(
        default=None,
        metadata=says(
            "Section of a sawn beam: width x depth.",
            Size(Board, _SIDE, _SIDE, ("width", "depth")),
            example="150 x 200 mm",
            missing="diameter says it",
        ),
    )
    diameter: float | None = field(
        default=None,
        metadata=says(
            "Diameter of a log at its thin end, under the bark.",
            _ROUND,
            example="220 mm",
            ask=Ask(
                asks="How thick is the beam?",
                why="A thin one breaks.",
                cheapest_way="Measure around its thin end and divide by 3.14; for a sawn beam write section.",
                needed=lambda beam: beam.section is None,
            ),
        ),
    )
    thick_end: float | None = field(
        default=None,
        metadata=says(
            "Diameter of a log at its thick end.",
            _ROUND,
            example="250 mm",
            missing="the thin end counts over its whole length",
        ),
    )
    timber: str | None = field(
        default=None,
        metadata=says(
            "Strength class (EN 338).", Words(options=STRENGTH_CLASSES), example="C24", ask=_WHICH_CLASS
        ),
    )
    service_class: int | None = field(
        default=None, metadata=says("Service class of EN 1995-1-1.", _CLASS, example="2", ask=_HOW_DAMP)
    )
    carries: str | None = field(
        default=None,
        metadata=says(
            "Name of the floor that rests on it.",
            Words(),
            example="loft",
            missing="load and snow or people say what it carries",
        ),
    )
    load: float | None = field(
        default=None,
        metadata=says(
            "Permanent load along it, without its own weight.",
            _LINE,
            example="3 kN/m",
            ask=Ask(
                asks="What does this beam carry?",
                why="Without its load nothing can be said of it.",
                cheapest_way="Name the floor: carries. Or multiply the weight of a square metre above by the "
                "width it holds.",
                needed=lambda beam: beam.carries is None,
            ),
        ),
    )
    snow_or_people: float | None = field(
        default=None,
        metadata=says(
            "Load of snow or people along it.",
            _LINE,
            example="4 kN/m",
            ask=Ask(
                asks="How much snow or how many people rest on this beam?",
                why="Without its load nothing can be said of it.",
                cheapest_way="Name the floor: carries. Or multiply the snow load by the width it holds; 0 "
                "kN/m for none.",
                needed=lambda beam: beam.carries is None,
            ),
        ),
    )
    bearing: float | None = field(
        default=None,
        metadata=says(
            "Length over which each end rests.",
            Quantity("length", "20 mm", "1 m", "shorter slips off"),
            example="120 mm",
            ask=Ask(
                asks="Over which length does each end of the beam rest?",
                why="Timber is soft across its grain.",
                cheapest_way="Half the thickness of the post where two beams meet on it.",
            ),
        ),
    )
    bearing_width: float | None = field(
        default=None,
        metadata=says(
            "Width of the flat on which a log rests.",
            _SIDE,
            example="120 mm",
            missing="a log on an uncut seat counts as bearing on half its diameter",
        ),
    )
    notch: float = field(
        default=0.0,
        metadata=says(
            "Depth of the notch on the underside of each end.",
            Quantity("length", "0 m", "0.6 m", "deeper leaves no beam"),
            example="40 mm",
            source="no notch is cut unless the file says so",
        ),
    )
    notch_to_support: float = field(
        default=0.1,
        metadata=says(
            "From the middle of the support to the corner of the notch.",
            Quantity("length", "0 m", "1 m", "further away it is a joint of its own"),
            example="80 mm",
            source="0.1 m where the file does not say it: a judgement for hand work, no source",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """An upper floor of joists and boards."""

    name: str = field(metadata=says("What it is called.", Words(name=True), example="loft"))
    vault: str | None = field(
        default=None,
        metadata=says(
            "Name of the vault it is in.", Words(), example="day room", missing="it is in none of them"
        ),
    )
    level: float | None = field(
        default=None,
        metadata=says(
            "Level of its upper side above the finished floor.",
            Quantity("level", "0.5 m", "9 m", "lower is the floor itself"),
            example="2.3 m",
            ask=Ask(
                asks="At which level is this floor?",
                why="It decides the headroom, and how far it is to climb out.",
                cheapest_way="Decide it.",
            ),
        ),
    )
    span: float = field(
        metadata=says("Length of a joist between the middles of its supports.", _SPAN, example="3.2 m")
    )
    joist: Board = field(
        metadata=says(
            "Section of a joist: width x depth.",
            Size(Board, _SIDE, _SIDE, ("width", "depth")),
            example="45 x 195 mm",
        )
    )
    spacing: float = field(
        metadata=says(
            "From the middle of one joist to the middle of the next.",
            Quantity("length", "0.15 m", "1.5 m", "boards do not carry people over more"),
            example="0.4 m",
        )
    )
    width: float | None = field(
        default=None,
        metadata=says(
            "Width of the floor across its joists.",
            Quantity("length", "0.5 m", "60 m", "narrower is a shelf"),
            example="5 m",
            missing="no joist is counted on to help its neighbours when it shakes",
        ),
    )
    timber: str | None = field(
        default=None,
        metadata=says(
            "Strength class of the joists (EN 338).",
            Words(options=STRENGTH_CLASSES),
            example="C24",
            ask=_WHICH_CLASS,
        ),
    )
    service_class: int | None = field(
        default=None, metadata=says("Service class of EN 1995-1-1.", _CLASS, example="1", ask=_HOW_DAMP)
    )
    boards: float | None = field(
        default=None,
        metadata=says(
            "Thickness of the floor boards.",
            Quantity("thickness", "12 mm", "120 mm", "thinner breaks under a foot"),
            example="28 mm",
            ask=Ask(
                asks="How thick are the boards of this floor?",
                why="They carry people from joist to joist.",
                cheapest_way="Measure one.",
            ),
        ),
    )
    use: FloorUse | None = field(
        default=None,
        metadata=says(
            "What it is used for.",
            Choice(FloorUse),
            example="sleeping",
            ask=Ask(
                asks="What is this floor used for?",
                why="A store carries three times what a bedroom carries.",
                cheapest_way="Decide it, and think of who comes after you.",
            ),
        ),
    )
    weight: float | None = field(
        default=None,
        metadata=says(
            "Weight of everything on the joists for good: boards, clay, ceiling, partitions.",
            Quantity("pressure", "0 kN/m2", "10 kN/m2", "more is no floor of joists"),
            example="0.5 kN/m2",
            ask=Ask(
                asks="How heavy is what lies on the joists for good?",
                why="It bends the joists for as long as the house stands.",
                cheapest_way="Add up thickness times unit weight of each layer; plain boards are 0.15 kN/m2.",
            ),
        ),
    )
    bearing: float | None = field(
        default=None,
        metadata=says(
            "Length over which each end of a joist rests.",
            Quantity("length", "20 mm", "0.6 m", "shorter slips off"),
            example="60 mm",
            ask=Ask(
                asks="Over which length does each end of a joist rest?",
                why="Too short a bearing crushes or slips off.",
                cheapest_way="Decide it; 60 mm is a usual first guess to be checked.",
            ),
        ),
    )
    notch: float = field(
        default=0.0,
        metadata=says(
            "Depth of the notch on the underside of each end.",
            Quantity("length", "0 m", "0.3 m", "deeper leaves no joist"),
            example="0 mm",
            source="no notch is cut unless the file says so",
        ),
    )
    continuous: bool = field(
        default=False,
        metadata=says(
            "Whether the boards run over three bays and more.",
            YesNo(),
            example="yes",
            source="boards count as cut at every joist unless the file says otherwise",
        ),
    )
