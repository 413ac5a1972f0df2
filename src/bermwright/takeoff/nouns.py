"""What a take-off gives: quantities with their working, tables of pieces and lifts, and cost."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Step
from bermwright.base.ranges import Range
from bermwright.base.units import show, show_range

if TYPE_CHECKING:
    from bermwright.base.sources import Cite, Provenance
    from bermwright.base.units import Money
    from bermwright.stages.nouns import StageKind

UNKNOWN = math.nan
"""An amount that cannot be known; it shows as "unknown", and the note says why."""


class Group(StrEnum):
    """The heading a quantity stands under."""

    RIBS = "ribs"
    DOME = "courses of the dome"
    LAYERS = "layers over the ribs"
    OPENINGS = "openings and floors"
    EARTH = "earth"
    TEMPORARY = "temporary works"
    LIFTING = "lifting"
    WORK = "work"


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """How much of one thing, as a number or from low to high, with its working."""

    name: str
    group: Group
    low: float
    high: float
    unit: str
    digits: int
    working: tuple[Step, ...]
    stage: StageKind | None = None
    """The stage that needs it."""
    note: str = ""
    """What is left out, or why it is unknown."""

    @property
    def known(self) -> bool:
        """Whether there is a number at all."""
        return math.isfinite(self.low) and math.isfinite(self.high)

    @property
    def amount(self) -> Shown:
        """The upper end: what to have ready."""
        return Shown(self.high, self.unit, self.digits)

    def text(self, system: str = "metric") -> str:
        """The amount for people: one number, or low to high."""
        if not self.known or self.low == self.high:
            return show(self.high if self.known else UNKNOWN, self.unit, self.digits, system)
        return show_range(Range(self.low, self.high), self.unit, self.digits, system)

    @property
    def cites(self) -> tuple[Cite, ...]:
        """Sources of the working, each once."""
        return tuple(dict.fromkeys(step.cite for step in self.working if step.cite))

    @property
    def provenances(self) -> tuple[Provenance, ...]:
        """How the numbers behind it are known."""
        return tuple(sorted({cite.provenance for cite in self.cites}))

    @property
    def needs_review(self) -> bool:
        """Whether it rests on memory or on unpublished practice."""
        return any(provenance.needs_review for provenance in self.provenances)


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceRow:
    """Rib pieces of one name: every rib has one."""

    name: str
    layer: int
    count: int
    length: float
    width: float
    """The straight board it is cut from (m)."""
    mass: float
    """Finished piece (kg); not a number where the timber's density is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftRow:
    """Soil of one lift of the fill, compacted and as it comes in barrows."""

    below: float
    above: float
    """Levels from the finished floor (m)."""
    left: float
    right: float
    """Compacted (m3)."""
    left_loose: Range
    right_loose: Range
    """Loose (m3)."""
    left_loads: Range
    right_loads: Range
    """Barrow loads."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CostRow:
    """What one thing costs at the price in the house file."""

    name: str
    low: Money
    high: Money
    working: Step
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantities:
    """Everything counted for one vault."""

    vault: str
    rows: tuple[Quantity, ...]
    pieces: tuple[PieceRow, ...]
    lifts: tuple[LiftRow, ...]
    costs: tuple[CostRow, ...]
    totals: tuple[tuple[Money, Money], ...]
    """Low and high sum of `costs`, one pair for each currency; of what has a price, not of the vault."""
    not_priced: tuple[str, ...]
    not_timed: tuple[str, ...]
    """Work for which nobody has published hours."""
    remarks: tuple[str, ...]

    def of(self, group: Group) -> tuple[Quantity, ...]:
        """The rows under one heading."""
        return tuple(row for row in self.rows if row.group is group)

    def row(self, name: str) -> Quantity:
        """The row of that name."""
        return next(row for row in self.rows if row.name == name)

    @property
    def needs_review(self) -> bool:
        """Whether any row rests on memory or on unpublished practice."""
        return any(row.needs_review for row in self.rows)
