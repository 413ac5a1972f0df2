"""What is asked of a cutting plan, and what it says."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Pieces of one length and width."""

    length: float
    """m."""
    count: int
    width: float = 1.0
    """m; 1 where only lengths count."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Clear stretches of board of one length and width: without faults, ends trimmed."""

    length: float
    """m."""
    count: int | None = None
    """None where as many as wanted can be had."""
    width: float = 1.0
    """m; 1 where only lengths count."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A way to cut a stretch, and how many stretches are cut that way."""

    stretch: int
    """Its place in the stock given."""
    times: int
    pieces: tuple[int, ...]
    """Places in the list of pieces given, in order of cutting: longest first."""
    rest: float
    """What is left of each after its last saw cut (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingPlan:
    """A cutting plan and how good it is at best possible."""

    cuts: tuple[Cut, ...]
    missing: tuple[int, ...]
    """Pieces of each kind that found no board, in the order given."""
    used: float
    """Length times width of all stretches cut into; plain length where widths are 1 (m2 or m)."""
    bound: float | None
    """No plan can use less (m2 or m); None where pieces are missing or nothing is cut."""
    found_by: str
    """Which of the two ways gave it."""

    @property
    def excess(self) -> float | None:
        """Share by which it lies above the bound at most (-)."""
        return None if not self.bound else max(0.0, self.used / self.bound - 1.0)

    @property
    def stretches(self) -> int:
        """How many stretches are cut into."""
        return sum(cut.times for cut in self.cuts)

    def rests(self) -> Iterator[float]:
        """What is left of every stretch that was cut into (m)."""
        for cut in self.cuts:
            yield from (cut.rest for _ in range(cut.times))

    def kept(self, least: float) -> float:
        """Length of all rests worth keeping (m)."""
        return sum(rest for rest in self.rests() if rest >= least)
