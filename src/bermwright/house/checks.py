"""What does not fit together although each value alone is allowed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bermwright.house.model import House

Key = tuple[str | int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradiction:
    """Two or more values that cannot all be true. `path` are the keys of the file, entries counted from 0."""

    path: Key
    given: str
    allowed: str
    advice: str


def contradictions(house: House) -> tuple[Contradiction, ...]:
    """Everything that does not fit together, in the order of the file."""
    return ()
