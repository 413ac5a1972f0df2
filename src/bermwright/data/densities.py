"""Densities that quantities need and a house file does not give."""

from __future__ import annotations

from typing import Final

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.rates import NAILTABLE

STEEL: Final = 7850.0
"""Steel of nails (kg/m3)."""
STEEL_CITE: Final = Cite(
    work=NAILTABLE, place="7850 kg/m3 gives the printed numbers to the pound", provenance=Provenance.DERIVED
)
GRAVITY: Final = 9.80665
"""Standard acceleration of free fall (m/s2): from weight to mass."""
