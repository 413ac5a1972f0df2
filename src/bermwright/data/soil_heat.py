"""How soils of a kind carry and hold heat when nobody has measured them."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.fabric import EN12524, ISO13370
from bermwright.data.works.groundheat import JOHANSEN1975

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilHeat:
    """One kind of soil as it usually lies."""

    name: str
    conductivity: float
    """Moist (W/(m K))."""
    capacity: float
    """Of a volume (J/(m3 K))."""
    dry_density: float
    """kg/m3; for frost only."""
    water_content: float
    """Over dry mass (-); for frost only."""
    quartz: float
    """Share of the grains (-)."""
    fine: bool
    cites: tuple[Cite, ...]


_READ = Cite(work=EN12524, place="soils, as the default values of ISO 13370", provenance=Provenance.READ)
_UNKNOWN = Cite(work=ISO13370, place="soil properties where nothing is known", provenance=Provenance.MEMORY)
_WATER = Cite(work=JOHANSEN1975, place="usual moisture of natural soils", provenance=Provenance.MEMORY)
_PEAT = Cite(work=JOHANSEN1975, place="peat, unfrozen and wet", provenance=Provenance.MEMORY)

_ROWS = (
    SoilHeat(
        name="sand or gravel", conductivity=2.0, capacity=2.0e6, dry_density=1750.0, water_content=0.08,
        quartz=0.5, fine=False, cites=(_READ, _WATER),
    ),
    SoilHeat(
        name="clay or silt", conductivity=1.5, capacity=3.0e6, dry_density=1550.0, water_content=0.22,
        quartz=0.35, fine=True, cites=(_READ, _WATER),
    ),
    SoilHeat(
        name="rock", conductivity=3.5, capacity=2.0e6, dry_density=2650.0, water_content=0.0,
        quartz=0.3, fine=False, cites=(_READ,),
    ),
    SoilHeat(
        name="peat", conductivity=0.5, capacity=3.5e6, dry_density=200.0, water_content=3.0,
        quartz=0.0, fine=True, cites=(_PEAT,),
    ),
)  # fmt: skip
SOIL_HEAT: Mapping[str, SoilHeat] = MappingProxyType({row.name: row for row in _ROWS})
"""By kind, as a house file writes it."""

UNKNOWN_SOIL: Final = SoilHeat(
    name="ground that nobody knows",
    conductivity=2.0,
    capacity=2.0e6,
    dry_density=1750.0,
    water_content=0.08,
    quartz=0.5,
    fine=False,
    cites=(_UNKNOWN,),
)
"""What counts where the file names no kind."""
