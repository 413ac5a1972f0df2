"""Pegs, strings, boards, lengths and levels of one vault (m)."""

from __future__ import annotations

from dataclasses import dataclass

from bermwright.base.errors import BermwrightError

Spot = tuple[float, float]
"""Along the axis from the front rib, and across to the right (m)."""


class SetOutError(BermwrightError, ValueError):
    """What cannot be set out or dug as it is described; the text says the way out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Peg:
    """A peg in the ground."""

    name: str
    at: Spot
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StringLine:
    """A string between two boards."""

    number: int
    words: str
    along: bool
    """Whether it runs along the axis; else across it."""
    place: float
    """Across the axis for one that runs along, along the axis for one that runs across (m)."""
    offset: float
    """From the line of the feet, or of the end rib, outward positive (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BatterBoard:
    """A board outside the dig that carries the ends of strings."""

    name: str
    start: Spot
    end: Spot
    strings: tuple[int, ...]
    ground: float
    """Highest natural ground under it (m)."""
    top: float
    """Level of its upper edge (m)."""

    @property
    def high(self) -> float:
        """Its upper edge over the ground (m)."""
        return self.top - self.ground


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckLength:
    """A length that is measured to prove the pegs."""

    between: str
    length: float
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelRow:
    """A height that is brought over from the datum."""

    words: str
    level: float
    """From the finished floor (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything of the plan."""

    pegs: tuple[Peg, ...]
    strings: tuple[StringLine, ...]
    boards: tuple[BatterBoard, ...]
    checks: tuple[CheckLength, ...]
    triangle: float
    """Multiplier of the triangle of three, four and five on the corners (m); 0 where it does not fit."""
    low: Spot
    """Corner of the ring of boards at the front, left."""
    high: Spot
    """Corner at the back, right."""

    def peg(self, name: str) -> Peg:
        """The peg of that name."""
        return next(peg for peg in self.pegs if peg.name == name)
