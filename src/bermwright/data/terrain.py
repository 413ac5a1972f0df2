"""How rough land is to the wind, and how ground swells an earthquake."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.actions import EN1991_1_4, EN1998

if TYPE_CHECKING:
    from collections.abc import Mapping

ROUGHNESS: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "sea": (0.003, 1.0),
        "lake or flat field": (0.01, 1.0),
        "open country": (0.05, 2.0),
        "village or forest": (0.3, 5.0),
        "town": (1.0, 10.0),
    }
)
"""Roughness length and least height (m)."""
ROUGHNESS_CITE = Cite(work=EN1991_1_4, place="table 4.1", provenance=Provenance.MEMORY)

WORST_GROUND = 1.8
"""Largest ground factor S of the recommended tables (type 2, ground D): counts, as no file says the ground's (-)."""
STRONG_SHAKING = 2.5
"""Plateau of the response spectrum over the ground's acceleration (-)."""
CALM = 0.05 * 9.80665
"""Ground acceleration with its ground factor up to which no earthquake need be looked at (m/s2)."""
GROUND_CITE = Cite(work=EN1998, place="tables 3.2 and 3.3, 3.2.1(5)", provenance=Provenance.MEMORY)
