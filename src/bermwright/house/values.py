"""Small values that a field may hold, and what was assumed where the file is silent."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Board:
    """A board as it measures, not as the trade calls it (m)."""

    thickness: float
    width: float


@dataclass(frozen=True, slots=True)
class Nail:
    """A round nail (m)."""

    diameter: float
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """A value that the file does not give and that is honest to assume; every face prints it."""

    place: str
    """Path in the house file, such as `rules.set`."""
    value: str
    """As it would be written in the file."""
    source: str
    """Why this value."""
