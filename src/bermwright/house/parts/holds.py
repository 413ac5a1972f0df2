"""What ties and holds the feet of a vault: bond beams, floor ties, shoes and sockets."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.house.around import STRENGTH_CLASSES
from bermwright.house.fields import Ask, Choice, Quantity, Size, Whole, Words, says
from bermwright.house.parts.support_words import (
    ANGLE,
    BAR,
    CONCRETE,
    FORCE,
    LEVEL,
    MEASURE,
    STEEL,
    THICK,
    WHICH_SIDE,
    WHICH_VAULT,
    Behind,
    Sides,
    SocketKind,
    TieKind,
    strength_of_bars,
)
from bermwright.house.values import Board

if TYPE_CHECKING:
    from bermwright.base.ranges import Range


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A bond beam of concrete on a wall, or a ring round a round room."""

    name: str = field(metadata=says("What it is called.", Words(name=True), example="bond beam"))
    vault: str = field(metadata=WHICH_VAULT)
    side: Sides = field(default=Sides.BOTH, metadata=WHICH_SIDE)
    width: float | None = field(
        default=None,
        metadata=says(
            "Width across the wall.",
            THICK,
            example="0.4 m",
            ask=Ask(asks="How wide is the bond beam?", why="It bends across it.", cheapest_way=MEASURE),
        ),
    )
    height: float | None = field(
        default=None,
        metadata=says(
            "Height.",
            THICK,
            example="0.25 m",
            ask=Ask(asks="How high is the bond beam?", why="It is pressed on it.", cheapest_way=MEASURE),
        ),
    )
    concrete: float | None = field(
        default=None,
        metadata=says(
            "Characteristic cylinder strength of its concrete.",
            CONCRETE,
            example="25 MPa",
            ask=Ask(
                asks="Of which class is the concrete of the bond beam?",
                why="Its bars hold in it.",
                cheapest_way="Order C25/30: write 25 MPa.",
            ),
        ),
    )
    bars: float | None = field(
        default=None,
        metadata=says(
            "Diameter of its long bars.",
            BAR,
            example="12 mm",
            ask=Ask(asks="Which bars run in it?", why="They alone pull.", cheapest_way=MEASURE),
        ),
    )
    count: int | None = field(
        default=None,
        metadata=says(
            "How many of them in each side face.",
            Whole(1, 8, "more leave no room for concrete"),
            example="2",
            ask=Ask(
                asks="How many bars in each side face?",
                why="They alone pull.",
                cheapest_way="Decide it: two.",
            ),
        ),
    )
    bar_strength: float = field(default=500e6, metadata=strength_of_bars())
    lap: float | None = field(
        default=None,
        metadata=says(
            "How far two bars overlap, and how far corner bars reach.",
            Quantity("length", "0.1 m", "3 m", "shorter is no lap"),
            example="0.75 m",
            ask=Ask(
                asks="How far do the bars overlap?",
                why="A bar that ends holds only as far as its lap.",
                cheapest_way="Write 60 diameters.",
            ),
        ),
    )
    held_every: float | None = field(
        default=None,
        metadata=says(
            "Distance of what holds it sideways: cross walls, end walls, buttresses, ties.",
            Quantity("length", "0.3 m", "20 m", "longer needs a wall between"),
            example="2.5 m",
            ask=Ask(
                asks="How far apart are the things that hold the bond beam sideways?",
                why="It bends between them.",
                cheapest_way="Measure it on the plan.",
                needed=lambda ring: ring.radius is None,
            ),
        ),
    )
    radius: float | None = field(
        default=None,
        metadata=says(
            "Radius, for a ring round a round room.",
            Quantity("length", "0.5 m", "15 m", "a wider one is no ring"),
            example="2.5 m",
            missing="it is straight",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorTie:
    """What joins the feet of both sides for good, under or in the floor."""

    name: str = field(metadata=says("What it is called.", Words(name=True), example="floor slab"))
    vault: str = field(metadata=WHICH_VAULT)
    kind: TieKind = field(
        metadata=says(
            "What it is; a rod only pulls, a slab without bars only presses.", Choice(TieKind), example="slab"
        )
    )
    level: float = field(metadata=says("Level of its middle.", LEVEL, example="-0.05 m"))
    thickness: float | None = field(
        default=None,
        metadata=says(
            "Thickness of a slab.",
            Quantity("length", "50 mm", "0.5 m", "thinner is a screed"),
            example="0.1 m",
            ask=Ask(
                asks="How thick is the floor slab?",
                why="It is pressed from both sides once soil lies on the house.",
                cheapest_way=MEASURE,
                needed=lambda tie: tie.kind is TieKind.SLAB,
            ),
        ),
    )
    concrete: float | None = field(
        default=None,
        metadata=says(
            "Characteristic cylinder strength of a slab's concrete.",
            CONCRETE,
            example="20 MPa",
            ask=Ask(
                asks="Of which class is the concrete of the slab?",
                why="It is pressed from both sides.",
                cheapest_way="Order C20/25: write 20 MPa. By hand count on 12 MPa at most.",
                needed=lambda tie: tie.kind is TieKind.SLAB,
            ),
        ),
    )
    section: Board | None = field(
        default=None,
        metadata=says(
            "Section of a timber, across the floor.",
            Size(
                Board,
                Quantity("thickness", "40 mm", "400 mm", "thinner is a lath"),
                Quantity("thickness", "40 mm", "400 mm", "thinner is a lath"),
                ("its least side", "its other side"),
            ),
            example="100 x 150 mm",
            ask=Ask(
                asks="Which section has the timber under the floor?",
                why="Pressed, it may bow out.",
                cheapest_way=MEASURE,
                needed=lambda tie: tie.kind is TieKind.TIMBER,
            ),
        ),
    )
    timber: str | None = field(
        default=None,
        metadata=says(
            "Strength class of the timber (EN 338).",
            Words(options=STRENGTH_CLASSES),
            example="C24",
            ask=Ask(
                asks="Of which strength class is the timber under the floor?",
                why="It carries the thrust for good, in the damp.",
                cheapest_way="Read the grading stamp.",
                needed=lambda tie: tie.kind is TieKind.TIMBER,
            ),
        ),
    )
    propped: float | None = field(
        default=None,
        metadata=says(
            "Distance of what keeps the timber from bowing out.",
            Quantity("length", "0.2 m", "12 m", "a floor is not wider"),
            example="1.2 m",
            missing="it runs free from one side to the other",
        ),
    )
    rod: float | None = field(
        default=None,
        metadata=says(
            "Diameter of a steel rod, or of the bars in a slab that run from side to side.",
            BAR,
            example="12 mm",
            ask=Ask(
                asks="Which rod is the tie?",
                why="It holds the feet together.",
                cheapest_way=MEASURE,
                needed=lambda tie: tie.kind is TieKind.ROD,
            ),
        ),
    )
    hold: float | None = field(
        default=None,
        metadata=says(
            "What one end of a timber holds when it is pulled, design value.",
            FORCE,
            example="8 kN",
            missing="timber counts only when it is pressed",
        ),
    )
    spacing: float | None = field(
        default=None,
        metadata=says(
            "Distance of the timbers, rods or bars along the vault.",
            Quantity("length", "0.1 m", "5 m", "further apart they hold nothing between"),
            example="1.2 m",
            ask=Ask(
                asks="How far apart are they along the vault?",
                why="Each holds that length of vault.",
                cheapest_way="Decide it.",
                needed=lambda tie: tie.kind is not TieKind.SLAB or tie.rod is not None,
            ),
        ),
    )
    steel: float = field(
        default=235e6,
        metadata=says(
            "Yield strength of rod or bars.",
            STEEL,
            example="500 MPa",
            source="plain mild steel, the least that is sold (EN 10025, from memory)",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Socket:
    """How the foot of each rib is held on its support."""

    name: str = field(metadata=says("What it is called.", Words(name=True), example="foot shoes"))
    vault: str = field(metadata=WHICH_VAULT)
    side: Sides = field(default=Sides.BOTH, metadata=WHICH_SIDE)
    kind: SocketKind = field(
        metadata=says(
            "A steel or timber shoe on a plate, or a socket cut in a log.", Choice(SocketKind), example="shoe"
        )
    )
    friction: Range | None = field(
        default=None,
        metadata=says(
            "Angle of friction of the shoe or plate on its support.",
            ANGLE,
            example="20..25 deg",
            ask=Ask(
                asks="At which angle does the plate slide on the wall?",
                why="The foot pushes sideways as well as down.",
                cheapest_way="Tilt a block of the wall with a piece of the plate on it; timber on concrete "
                "slides at about 20 degrees.",
                needed=lambda socket: socket.kind is SocketKind.SHOE,
            ),
        ),
    )
    hold_across: float | None = field(
        default=None,
        metadata=says(
            "What bolts or a kerb hold sideways under one foot, design value.",
            FORCE,
            example="6 kN",
            missing="friction alone counts",
        ),
    )
    hold_down: float | None = field(
        default=None,
        metadata=says(
            "What one foot is held down with, design value.",
            FORCE,
            example="4 kN",
            missing="its weight alone holds it down",
        ),
    )
    log: float | None = field(
        default=None,
        metadata=says(
            "Diameter or height of the log in which the socket is cut.",
            Quantity("thickness", "80 mm", "900 mm", "thinner is a pole"),
            example="300 mm",
            ask=Ask(
                asks="How thick is the log?",
                why="The socket takes its strength away.",
                cheapest_way=MEASURE,
                needed=lambda socket: socket.kind is SocketKind.LOG,
            ),
        ),
    )
    depth: float | None = field(
        default=None,
        metadata=says(
            "Depth of the socket.",
            Quantity("thickness", "10 mm", "900 mm", "shallower holds nothing"),
            example="80 mm",
            ask=Ask(
                asks="How deep is the socket?",
                why="The foot presses on its side.",
                cheapest_way=MEASURE,
                needed=lambda socket: socket.kind is SocketKind.LOG,
            ),
        ),
    )
    lip: float | None = field(
        default=None,
        metadata=says(
            "Least thickness of the wood left beside the socket, across the log.",
            Quantity("thickness", "10 mm", "600 mm", "thinner breaks off by hand"),
            example="70 mm",
            ask=Ask(
                asks="How much wood is left beside the socket?",
                why="The thrust may split it off.",
                cheapest_way=MEASURE,
                needed=lambda socket: socket.kind is SocketKind.LOG,
            ),
        ),
    )
    timber: str | None = field(
        default=None,
        metadata=says(
            "Strength class of the log (EN 338).",
            Words(options=STRENGTH_CLASSES),
            example="C18",
            ask=Ask(
                asks="Of which strength class is the log?",
                why="The socket presses, shears and splits it.",
                cheapest_way="Take C14 for an ungraded sound log only after somebody who grades has seen it.",
                needed=lambda socket: socket.kind is SocketKind.LOG,
            ),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Geogrid:
    """Fill in steps, each wrapped in geogrid, behind a foot wall or an end, with a soft layer between."""

    name: str = field(metadata=says("What it is called.", Words(name=True), example="steps at the back"))
    vault: str = field(metadata=says("Name of the vault beside it.", Words(), example="day room"))
    behind: Behind = field(
        metadata=says(
            "Behind what it stands: the wall under the feet of a side, or an end.",
            Choice(Behind),
            example="back",
        )
    )
    spacing: float | None = field(
        default=None,
        metadata=says(
            "Upright distance of the layers: the height of one step.",
            Quantity("length", "0.1 m", "0.8 m", "higher steps bulge between the layers"),
            example="0.3 m",
            ask=Ask(
                asks="How far apart are the layers of geogrid, upright?",
                why="Each layer holds the soil of its own step.",
                cheapest_way="Decide it: two lifts of fill, 0.3 to 0.4 m, are usual.",
            ),
        ),
    )
    length: float | None = field(
        default=None,
        metadata=says(
            "How far each layer reaches back from its face.",
            Quantity("length", "0.5 m", "12 m", "shorter ones hold nothing"),
            example="2.4 m",
            ask=Ask(
                asks="How far back does each layer of geogrid reach?",
                why="It is held only by what lies behind the wedge that would slide.",
                cheapest_way="Decide it: seven tenths of the height, and 1 m behind the wedge, is the least.",
            ),
        ),
    )
    strength: float | None = field(
        default=None,
        metadata=says(
            "Long-term strength of the grid: what is left after creep, damage and ageing.",
            Quantity("line load", "1 kN/m", "200 kN/m", "weaker is a net for peas"),
            example="15 kN/m",
            ask=Ask(
                asks="How strong is the geogrid in the long term?",
                why="The strength on the roll is that of a quick test; two to four times what lasts.",
                cheapest_way="Ask the seller for the maker's sheet and read the long-term design strength "
                "for your soil; without one, a seventh of the strength on the roll.",
            ),
        ),
    )
    bottom: float | None = field(
        default=None,
        metadata=says(
            "Level of the lowest layer.",
            LEVEL,
            example="0 m",
            missing="it lies at the underside of the wall, or at the floor behind an end",
        ),
    )
    soft_gives: float | None = field(
        default=None,
        metadata=says(
            "How far the soft layer between the steps and the wall can be squeezed.",
            Quantity("length", "5 mm", "0.5 m", "less is a board, more is a gap"),
            example="60 mm",
            ask=Ask(
                asks="How far can the soft layer between the wrapped steps and the wall be squeezed?",
                why="The face of the steps moves out while they are built; it must not reach the wall.",
                cheapest_way="Half the thickness of a soft foam made for that; the maker's sheet says it.",
            ),
        ),
    )
    soft_passes: float | None = field(
        default=None,
        metadata=says(
            "What the soft layer presses with when it is squeezed so far, in the long term.",
            Quantity("pressure", "0 kPa", "100 kPa", "more is a hard foam"),
            example="6 kPa",
            ask=Ask(
                asks="With which pressure does the soft layer press when it is squeezed so far?",
                why="That is all that the wall then feels of the soil.",
                cheapest_way="Read it off the maker's curve of stress over strain; an open gap passes 0 kPa.",
            ),
        ),
    )
