"""What the building sequence reads from the house, resolved once in SI.

Everything that is not known is None here and a question elsewhere; nothing is made up.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Ballast:
    """Bags on the crown while the sides are filled."""

    weight: float
    """Pressure (Pa)."""
    width: float
    start: float
    """Fill level from which they lie there (m)."""
    until: float
    """Fill level at which they come off (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """The inputs of `building_sequence`."""

    timber_density: float
    """Mean density of the ribs' timber (kg/m3)."""
    unit_weight: float
    """Greatest unit weight of the fill (N/m3)."""
    saturated_unit_weight: float | None
    snow: float | None
    """Snow load on the ground (Pa)."""
    snow_short: bool
    """Whether snow counts as short-term (else medium-term)."""
    overflow: float | None
    """Level to which water backs up with a blocked drain (m)."""
    roof_load: float | None
    """Imposed load on the finished roof (Pa); None while the file does not say who may walk there."""
    roof_title: str
    lift: float
    lead: float
    """Worst permitted lead of one side (m)."""
    compaction: str
    crown_first: float
    """Thickness of crown soil that goes up before the sides are filled (m); 0 for none."""
    crown_first_width: float
    ballast: Ballast | None
    members: tuple[tuple[float, float], ...]
    """Fill levels from and until which each prop or tie stands (m)."""
