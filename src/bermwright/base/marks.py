"""What a rule may draw into a section: marks as data, in metres and newtons of the house.

A rule that wants to be seen returns marks; `bermwright.book.sheets.draw_mark` draws them, so a new
rule needs no change in the drawings.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bermwright.base.findings import Spot


class Side(StrEnum):
    """A side as seen when walking in."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class StopMark:
    """A painted bar that the fill on one side must not pass."""

    level: float
    """Level of the mark above the finished floor (m), already rounded down."""
    side: Side
    filled_to: float | None = None
    """Level the fill stands at (m); soil above the mark is drawn as overfilled."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A ring of the red pencil round a place that does not hold, with a few words."""

    spot: Spot
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Comb:
    """Bending drawn on the side in tension, inside the corridor of what the rib can take.

    All entries have one value for each node, from the left foot over the crown to the right foot.
    """

    x: tuple[float, ...]
    z: tuple[float, ...]
    """Nodes of the centreline (m)."""
    moment: tuple[float, ...]
    """Bending moment (N m, any width), positive where the room side is in tension."""
    corridor: tuple[float, ...]
    """Moment the rib can take beside its thrust (same unit, not negative)."""
    text: str = ""
    """Figure at the place where the moment is the largest share of the corridor."""
    allowed: str = ""
    """Line under it: what the rib can take."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrows:
    """Loads on a face: soft arrows that end on it, one scale in a view."""

    x: tuple[float, ...]
    z: tuple[float, ...]
    """Places on the face (m)."""
    across: tuple[float, ...]
    down: tuple[float, ...]
    """Pressure (Pa): + to the right and + down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FootForce:
    """What one foot of the vault gives its support, as a range over the soil runs."""

    side: Side
    spot: Spot
    down: tuple[float, float]
    """Least and largest force down (N per metre of vault)."""
    inward: tuple[float, float]
    """Least and largest force towards the room (N per metre of vault); negative is outward."""
    words: bool = True
    """Whether the figures stand beside the arrow; on a phone they stand under the drawing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelMark:
    """A level triangle with its figure."""

    spot: Spot
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlumbLine:
    """A plumb line from a point of the shell, to be read on the floor."""

    top: Spot
    bottom: float
    """Level of the bob's point (m)."""
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """An italic note, with a thin line to what it speaks of."""

    spot: Spot
    text: str
    to: Spot | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundHeat:
    """Frozen ground and how warm the rest of it is, in one week of a year."""

    ice: tuple[tuple[tuple[float, float], ...], ...]
    """Outlines of frozen ground (m); what lies in the house, or above the ground, is not drawn."""
    frost: tuple[tuple[tuple[float, float], ...], ...]
    """The lower edge of it: lines of points (m)."""
    isotherms: tuple[tuple[str, tuple[tuple[tuple[float, float], ...], ...]], ...] = ()
    """Lines of equal temperature by their figure (m)."""
    figures: tuple[tuple[Spot, str], ...] = ()
    """Temperatures at places."""
    depth: str = ""
    """Words for the depth of the frost."""
    says: str = ""
    """Whose ground this is, how it was reckoned and when in the year."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bags:
    """Ballast that lies on the crown for a while."""

    half: float
    """Half the width of the strip (m)."""
    height: float
    """As it is drawn (m)."""
    text: str


Mark = StopMark | Ring | Comb | Arrows | FootForce | LevelMark | PlumbLine | Note | GroundHeat | Bags
"""Everything a rule may draw."""
