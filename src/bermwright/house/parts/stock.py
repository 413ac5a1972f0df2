"""What lies in the yard: boards of many lengths, logs, salvaged windows and doors, and the saw."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from bermwright.house.fields import Choice, Cost, Path, Quantity, Size, Whole, Words, YesNo, says
from bermwright.house.parts.choices import Panes
from bermwright.house.values import Board

if TYPE_CHECKING:
    from bermwright.base.units import Money

_SECTION = Size(
    Board,
    Quantity("thickness", "10 mm", "300 mm", "thinner is a lath"),
    Quantity("thickness", "20 mm", "600 mm", "wider boards are not sawn any more"),
    ("thickness", "width"),
)
_SAW = Quantity("thickness", "0 mm", "20 mm", "a saw cuts something, and the widest cut 10 mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Boards of one section and length that are at hand."""

    name: str = field(
        metadata=says(
            "What is chalked on the board or on the stack.", Words(name=True), example="barn floor A"
        )
    )
    section: Board = field(
        metadata=says("Section as it measures today.", _SECTION, example="45 x 225 mm"),
    )
    length: float = field(
        metadata=says(
            "Length from end to end.",
            Quantity("length", "0.1 m", "15 m", "shorter is a block, longer is no board"),
            example="3.6 m",
        )
    )
    count: int = field(
        default=1,
        metadata=says(
            "How many boards are like this one.",
            Whole(1, 10000, "more is a sawmill"),
            example="12",
            source="a line describes one board unless it says how many",
        ),
    )
    faults: tuple[tuple[float, float], ...] = field(
        default=(),
        metadata=says(
            "Knots, splits, rot and nail holes to cut out: from where to where, counted from the marked end.",
            Path(1),
            example='[["0.8 m", "0.95 m"]]',
            missing="the whole board is sound",
        ),
    )
    price: Money | None = field(
        default=None,
        metadata=says(
            "What a metre of it costs.",
            Cost("m"),
            example="1.20 EUR/m",
            missing="its cost is not added up",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """Logs of one size that are to be sawn through and through."""

    name: str = field(metadata=says("What is chalked on its end.", Words(name=True), example="larch 1"))
    diameter: float = field(
        metadata=says(
            "Diameter of the thin end inside the bark.",
            Quantity("length", "0.08 m", "1.2 m", "thinner is a pole, thicker fits no small mill"),
            example="0.32 m",
        )
    )
    length: float = field(
        metadata=says(
            "Length.",
            Quantity("length", "0.5 m", "12 m", "longer logs are cut before they are sawn"),
            example="4.2 m",
        )
    )
    thickness: float = field(
        metadata=says(
            "Thickness of the boards, dry and ready.",
            Quantity("thickness", "10 mm", "200 mm", "thinner is a lath, thicker is a beam"),
            example="45 mm",
        )
    )
    thick_end: float | None = field(
        default=None,
        metadata=says(
            "Diameter of the thick end inside the bark.",
            Quantity("length", "0.08 m", "2 m", "thicker fits no small mill"),
            example="0.37 m",
            missing="the volume of the log is not told; boards follow from the thin end",
        ),
    )
    count: int = field(
        default=1,
        metadata=says(
            "How many logs are like this one.",
            Whole(1, 10000, "more is a sawmill"),
            example="3",
            source="a line describes one log unless it says how many",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """How boards are cut, and what is kept."""

    kerf: float = field(
        default=0.004,
        metadata=says(
            "Width of the cut across a board.",
            _SAW,
            example="4 mm",
            source="hand-held circular saw, 3 to 4 mm (common practice): measure a cut",
        ),
    )
    trim: float = field(
        default=0.02,
        metadata=says(
            "What is cut off each end of every board first, its cut included.",
            Quantity("length", "0 mm", "500 mm", "more is another board"),
            example="20 mm",
            source="20 mm off each end for grit and fine splits (common practice): look at the ends",
        ),
    )
    keep: float = field(
        default=0.4,
        metadata=says(
            "Shortest offcut that is kept.",
            Quantity("length", "0.05 m", "3 m", "shorter is kindling"),
            example="0.4 m",
            source="shorter ones find no place in a rib or a wall (common practice)",
        ),
    )
    log_kerf: float = field(
        default=0.003,
        metadata=says(
            "Width of the cut along a log.",
            _SAW,
            example="3 mm",
            source="narrow band of a small mill, 1.6 to 3.2 mm (a sawyers' forum)",
        ),
    )
    shrinks: float = field(
        default=0.05,
        metadata=says(
            "Share of its thickness and width that a board from a log loses while it dries.",
            Quantity("number", "0", "0.15", "no wood shrinks more"),
            example="0.05",
            source="softwood from the log to 15 % moisture, 3 to 6 % across the grain (from memory)",
        ),
    )


class SalvagedKind(StrEnum):
    """What it is."""

    WINDOW = "window"
    DOOR = "door"
    PANE = "pane"


class SafetyGlass(StrEnum):
    """Whether it breaks without blades."""

    NONE = "none"
    TOUGHENED = "toughened"
    LAMINATED = "laminated"


@dataclass(frozen=True, slots=True, kw_only=True)
class Salvaged:
    """A window, door or bare pane that is at hand."""

    name: str = field(
        metadata=says("What is written on its tape.", Words(name=True), example="school window 1")
    )
    kind: SalvagedKind = field(metadata=says("What it is.", Choice(SalvagedKind), example="window"))
    width: float = field(
        metadata=says(
            "Outer width: of the frame, or of the pane where there is none.",
            Quantity("length", "0.1 m", "4 m", "smaller is a peephole"),
            example="1.05 m",
        )
    )
    height: float = field(
        metadata=says(
            "Outer height.",
            Quantity("length", "0.1 m", "4 m", "smaller is a peephole"),
            example="1.05 m",
        )
    )
    count: int = field(
        default=1,
        metadata=says(
            "How many are alike.",
            Whole(1, 500, "more is a factory"),
            example="2",
            source="a line describes one unless it says how many",
        ),
    )
    panes: Panes | None = field(
        default=None,
        metadata=says(
            "How it is glazed.",
            Choice(Panes),
            example="double",
            missing="its loss and sun cannot be compared, and it is offered last",
        ),
    )
    u_value: float | None = field(
        default=None,
        metadata=says(
            "Heat loss of the whole, frame included, where it is known.",
            Quantity("transmittance", "0.3 W/m2K", "7 W/m2K", "nothing loses less or more"),
            example="2.8 W/m2K",
            missing="it follows from the panes",
        ),
    )
    glass: float | None = field(
        default=None,
        metadata=says(
            "Thickness of its outer pane.",
            Quantity("thickness", "2 mm", "25 mm", "no window glass is thinner or thicker"),
            example="4 mm",
            missing="whether it takes the wind is not told",
        ),
    )
    safety: SafetyGlass = field(
        default=SafetyGlass.NONE,
        metadata=says(
            "Whether it breaks without blades; a stamp in the corner says so.",
            Choice(SafetyGlass),
            example="none",
            source="glass without a stamp counts as ordinary glass",
        ),
    )
    opens: bool = field(
        default=False,
        metadata=says(
            "Whether a person can open it.",
            YesNo(),
            example="yes",
            source="what is not said to open counts as fixed",
        ),
    )
    price: Money | None = field(
        default=None,
        metadata=says(
            "What one of them costs.",
            Cost("piece"),
            example="25 EUR/piece",
            missing="its cost is not added up",
        ),
    )
