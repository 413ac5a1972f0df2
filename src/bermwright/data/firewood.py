"""What a stacked cubic metre of each kind of wood weighs and is worth, as published."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.practice import TRADE
from bermwright.data.works.room import BOILERMANUAL

TABLE_MOISTURE: Final = 0.15
"""Water in the wood of the table, as share of its mass."""
KWH: Final = 3.6e6
"""J."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Firewood:
    """A kind of wood at 15 % water, split logs of one metre, stacked."""

    name: str
    value: float
    """Net heating value at 15 % water (J/kg)."""
    stacked: float
    """Mass of a stacked cubic metre at 15 % water (kg/m3)."""

    @property
    def dry_mass(self) -> float:
        """Dry wood in a stacked cubic metre (kg/m3)."""
        return self.stacked * (1.0 - TABLE_MOISTURE)


def _kind(name: str, kwh_a_kilogram: float, kilograms: float) -> Firewood:
    return Firewood(name=name, value=kwh_a_kilogram * KWH, stacked=kilograms)


FIREWOOD: Final = {
    kind.name: kind
    for kind in (
        _kind("spruce", 4.49, 293.0),
        _kind("pine", 4.32, 360.0),
        _kind("larch", 4.27, 370.0),
        _kind("birch", 4.01, 391.0),
        _kind("beech", 4.13, 435.0),
        _kind("oak", 4.10, 429.0),
        _kind("ash", 4.10, 429.0),
        _kind("poplar", 3.99, 256.0),
        _kind("robinia", 4.11, 467.0),
    )
}
"""By name. The heating value of robinia follows from its stacked value, 1920 kWh over 467 kg."""

CITE: Final = Cite(work=BOILERMANUAL, place="page 69, at 15 % water", provenance=Provenance.READ)

STACKS: Final = {"split 1 m": 1.0, "short logs": 1.2 / 1.4, "loose": 2.0 / 1.4}
"""Volume of the same wood in other piles, over that of split logs of one metre, stacked."""
STACKS_CITE: Final = Cite(
    work=TRADE,
    place="1 solid m3 = 1.4 stacked at 1 m = 1.2 short logs = 2.0 loose",
    provenance=Provenance.PRACTICE,
)
