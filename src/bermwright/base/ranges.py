"""Values that are known only within bounds, and the corners of several such values."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Range:
    """A value known between `low` and `high` (equal when it is exact), in SI."""

    low: float
    high: float

    def __post_init__(self) -> None:
        # `not (a <= b)` also refuses NaN, which must never pass for a value.
        if not (self.low <= self.high):
            message = f"A range runs from low to high, not from {self.low} to {self.high}."
            raise ValueError(message)

    @property
    def exact(self) -> bool:
        """Whether there is only one value."""
        return self.low == self.high

    @property
    def middle(self) -> float:
        """The mean of both ends."""
        return 0.5 * (self.low + self.high)

    @property
    def ends(self) -> tuple[float, ...]:
        """Both ends, or the one value."""
        return (self.low,) if self.exact else (self.low, self.high)
