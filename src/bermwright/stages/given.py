"""What the building sequence reads from the house, resolved once in SI.

Everything that is not known is None here and a question elsewhere; nothing is made up.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bermwright.base.ranges import Range


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
class Standing:
    """When a row of props or ties stands."""

    start: float
    """Fill level from which it stands (m)."""
    until: float
    """Fill level at which it comes out (m)."""
    tie: bool = False
    """A tie whose last level lies over the finished ground stays for good; props never do."""


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
    members: tuple[Standing, ...]
    """When each prop or tie of the house file stands, in the order in which the frame counts them."""
    workers: float = 1000.0
    """People with hand tools on a structure under construction (Pa), EN 1991-1-6, 4.11.1."""
    gathering: bool = False
    """Whether people may gather on the roof, so that they may meet snow there."""
    turf_weight: Range | None = None
    """Unit weight of the turf (N/m3); None: as heavy as the fill."""
    order: str = "left first"
    """Which side is filled first in every lift; either is checked for being ahead."""
    american_snow: bool = False
    """Whether snow is laid by ASCE 7 instead of EN 1991-1-3: one family, never both."""
    unheated: bool | None = None
    """Whether the first winter is unheated; None: not known, so that it counts."""

    @property
    def turf(self) -> tuple[float, float]:
        """Least and greatest unit weight of the turf (N/m3)."""
        span = self.turf_weight
        return (self.unit_weight, self.unit_weight) if span is None else (span.low, span.high)
