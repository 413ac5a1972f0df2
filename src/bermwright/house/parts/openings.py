"""Openings: doors, windows, hatches, rooflights and flues, and what is built around them."""

from __future__ import annotations

from dataclasses import dataclass, field

from bermwright.house.around import STRENGTH_CLASSES
from bermwright.house.fields import Ask, Choice, Quantity, Size, Whole, Words, YesNo, says
from bermwright.house.parts.choices import OpeningKind, OpeningSide, Panes
from bermwright.house.values import Board, Nail

_CLEAR = Quantity("length", "0.1 m", "4 m", "smaller is a hole")
_TIMBER = Quantity("thickness", "20 mm", "450 mm", "thinner splits, thicker is a trunk nobody lifts")


def _cuts_ribs(opening: Opening) -> bool:
    return not opening.side.in_end


def _opens(opening: Opening) -> bool:
    return bool(opening.opens)


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """One opening in the shell of a vault or in one of its ends."""

    name: str = field(
        metadata=says("What it is called on the drawings.", Words(name=True), example="front door")
    )
    vault: str = field(metadata=says("Name of the vault.", Words(), example="day room"))
    side: OpeningSide = field(
        metadata=says(
            "Where it is, as seen walking in: in an end wall (front, back) or in the shell (left, right, "
            "crown).",
            Choice(OpeningSide),
            key="in",
            example="front",
        )
    )
    kind: OpeningKind = field(metadata=says("What it is.", Choice(OpeningKind), example="door"))
    width: float = field(
        metadata=says(
            "Width of the hole in the wall or shell: across in an end, along the axis in the shell.",
            Quantity("length", "0.05 m", "6 m", "smaller is a pipe, larger is an open end"),
            example="0.9 m",
        )
    )
    height: float = field(
        metadata=says(
            "Height of the hole; in the crown its length across the vault.",
            Quantity("length", "0.05 m", "4 m", "smaller is a pipe, larger is an open end"),
            example="2.0 m",
        )
    )
    sill: float | None = field(
        default=None,
        metadata=says(
            "Level of its lower edge above the finished floor.",
            Quantity("level", "-1 m", "6 m", "levels count from the finished floor"),
            example="0.05 m",
            ask=Ask(
                asks="At which level is the lower edge of this opening?",
                why="It decides which part of the wall or rib is cut, and whether one can climb out.",
                cheapest_way="Decide it.",
                needed=lambda opening: opening.side is not OpeningSide.CROWN,
            ),
        ),
    )
    along: float | None = field(
        default=None,
        metadata=says(
            "In the shell: from the front end along the axis to its middle.",
            Quantity("length", "0 m", "60 m", "no vault is longer"),
            example="3.6 m",
            ask=Ask(
                asks="How far from the front is the middle of this opening?",
                why="It decides which ribs are cut, and how near the end wall is.",
                cheapest_way="Decide it.",
                needed=_cuts_ribs,
            ),
        ),
    )
    across: float = field(
        default=0.0,
        metadata=says(
            "In an end: from the middle of the vault to its middle, to the right as seen walking in.",
            Quantity("length", "-5 m", "5 m", "no vault is wider"),
            example="0 m",
            source="an opening in an end is in its middle unless the file says otherwise",
        ),
    )
    opens: bool | None = field(
        default=None,
        metadata=says(
            "Whether a person can open it from inside without a key or tool.",
            YesNo(),
            example="yes",
            ask=Ask(
                asks="Can a person open it from inside without a key or tool?",
                why="Only what opens counts as a way out.",
                cheapest_way="Decide it.",
                needed=lambda opening: opening.kind is not OpeningKind.FLUE,
            ),
        ),
    )
    clear_width: float | None = field(
        default=None,
        metadata=says(
            "Width that is free when it stands open.",
            _CLEAR,
            example="0.8 m",
            ask=Ask(
                asks="How wide is it when it stands open?",
                why="A grown person must get through.",
                cheapest_way="Width of the hole less both frames, about 0.1 m less for a door.",
                needed=_opens,
            ),
        ),
    )
    clear_height: float | None = field(
        default=None,
        metadata=says(
            "Height that is free when it stands open.",
            _CLEAR,
            example="1.95 m",
            ask=Ask(
                asks="How high is it when it stands open?",
                why="A grown person must get through.",
                cheapest_way="Height of the hole less both frames.",
                needed=_opens,
            ),
        ),
    )
    header: Board | None = field(
        default=None,
        metadata=says(
            "Board over (and under) the hole in the shell, or lintel in an end: thickness x depth.",
            Size(Board, _TIMBER, _TIMBER, ("thickness", "depth")),
            example="45 x 220 mm",
            ask=Ask(
                asks="Which board carries what was cut, from side to side of the hole?",
                why="Cut ribs hang on the header; the wall over a door rests on the lintel.",
                cheapest_way="Begin with the board of the ribs and look at the finding.",
            ),
        ),
    )
    header_boards: int = field(
        default=1,
        metadata=says(
            "How many such boards lie side by side.",
            Whole(1, 6, "more cannot be nailed through"),
            example="2",
            source="one board, the least, unless the file says more",
        ),
    )
    header_timber: str | None = field(
        default=None,
        metadata=says(
            "Strength class of the header or lintel (EN 338).",
            Words(options=STRENGTH_CLASSES),
            example="C24",
            ask=Ask(
                asks="Of which strength class is the header or lintel?",
                why="It carries what was cut.",
                cheapest_way="Read the grading stamp, or grade the board: [[graded]].",
                needed=lambda opening: opening.header is not None,
            ),
        ),
    )
    bearing: float | None = field(
        default=None,
        metadata=says(
            "Length over which a lintel lies on the wall at each end.",
            Quantity("length", "20 mm", "1 m", "shorter slips off"),
            example="150 mm",
            ask=Ask(
                asks="How far does the lintel lie on the wall at each end?",
                why="Too short a bearing crushes the wall or the lintel.",
                cheapest_way="Decide it; 150 mm is a usual first guess to be checked.",
                needed=lambda opening: opening.side.in_end and opening.header is not None,
            ),
        ),
    )
    doubled: int = field(
        default=1,
        metadata=says(
            "In the shell: how many ribs stand side by side as trimmer on each side of the hole.",
            Whole(1, 4, "more is a wall"),
            example="2",
            source="the ribs beside a hole are single unless the file says that they are doubled",
        ),
    )
    header_nails: int | None = field(
        default=None,
        metadata=says(
            "Nails through the trimmer into each end of a header (square to its load).",
            Whole(2, 80, "more would split it"),
            example="10",
            missing="hanger says how the header is held",
        ),
    )
    header_nail: Nail | None = field(
        default=None,
        metadata=says(
            "Diameter and length of those nails.",
            Size(
                Nail,
                Quantity("thickness", "1.8 mm", "8 mm", "EN 1995-1-1 has rules for nails up to 8 mm"),
                Quantity("thickness", "20 mm", "400 mm", "longer ones are rods"),
                ("diameter", "length"),
            ),
            example="5.0 x 130 mm",
            missing="the nails of the ribs are used",
        ),
    )
    hanger: float | None = field(
        default=None,
        metadata=says(
            "Design strength of the steel hanger or cleat at one end of a header.",
            Quantity("force", "0.5 kN", "200 kN", "a weaker one is a bracket"),
            example="12 kN",
            ask=Ask(
                asks="What holds the ends of the header, and how much can it take?",
                why="Everything that was cut goes through these two places.",
                cheapest_way="From the maker's sheet of the hanger; or write header_nails.",
                needed=lambda opening: _cuts_ribs(opening) and opening.header_nails is None,
            ),
        ),
    )
    collar: float | None = field(
        default=None,
        metadata=says(
            "Height of the upstand around the hole above the finished ground.",
            Quantity("length", "0 m", "3 m", "higher is a tower"),
            example="0.3 m",
            ask=Ask(
                asks="How high does the collar stand above the ground around it?",
                why="Soil, water and snow come in over a low one.",
                cheapest_way="Decide it: 0.3 m over the turf, more where snow lies deep.",
                needed=_cuts_ribs,
            ),
        ),
    )
    panes: Panes | None = field(
        default=None,
        metadata=says(
            "How it is glazed.",
            Choice(Panes),
            example="triple, coated",
            ask=Ask(
                asks="How is this window glazed?",
                why="Most of the winter's heat goes out, and all of the sun comes in, through the glass.",
                cheapest_way="Hold a flame before it and count the pairs of mirror images; one of another "
                "colour is a coating.",
                needed=lambda opening: opening.kind.glazed,
            ),
        ),
    )
    u_value: float | None = field(
        default=None,
        metadata=says(
            "Heat loss of the whole window or door, frame included.",
            Quantity("transmittance", "0.3 W/m2K", "7 W/m2K", "nothing loses less or more"),
            example="1.1 W/m2K",
            missing="it follows from the panes",
        ),
    )
    g_value: float | None = field(
        default=None,
        metadata=says(
            "Share of the sun that the glass lets in.",
            Quantity("number", "0.05", "0.95", "no glass lets in less or more"),
            example="0.5",
            missing="it follows from the panes",
        ),
    )
    frame_share: float | None = field(
        default=None,
        metadata=says(
            "Share of the hole that frame and bars take.",
            Quantity("number", "0", "0.9", "there must be some glass"),
            example="0.3",
            missing="it follows from a usual width of frame",
        ),
    )
    shutter: bool | None = field(
        default=None,
        metadata=says(
            "Whether an insulated shutter is closed at night.",
            YesNo(),
            example="no",
            missing="none is counted on",
        ),
    )
    overhang: float | None = field(
        default=None,
        metadata=says(
            "How far the roof or reveal stands out over it.",
            Quantity("length", "0 m", "4 m", "further is a porch"),
            example="0.4 m",
            missing="none is counted on",
        ),
    )
    salvaged: bool | None = field(
        default=None,
        metadata=says(
            "Whether the glass is second-hand, so that its values are worse than when new.",
            YesNo(),
            example="no",
            missing="it counts as new",
        ),
    )

    @property
    def in_end(self) -> bool:
        """Whether it is in an end wall and cuts no rib."""
        return self.side.in_end

    @property
    def head(self) -> float | None:
        """Level of its upper edge (m); None where the sill is not known."""
        return None if self.sill is None else self.sill + self.height

    @property
    def area(self) -> float:
        """Area of the hole (m2)."""
        return self.width * self.height
