"""What a material is, and between which limits its conductivity must lie."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import TYPE_CHECKING

from bermwright.base.errors import BermwrightError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.base.sources import Cite


class MaterialClass(StrEnum):
    """Kinds of materials, each with its own limits of conductivity."""

    TIMBER = "timber"
    BOARD = "board"
    INSULATION = "insulation"
    MINERAL = "masonry, concrete and plaster"
    EARTH = "earth as building material"
    SHEET = "sheet"
    SOIL = "soil"
    SNOW = "snow and ice"
    METAL = "metal"


CLASS_LIMITS: Mapping[MaterialClass, tuple[float, float]] = MappingProxyType(
    {
        MaterialClass.TIMBER: (0.08, 0.25),
        MaterialClass.BOARD: (0.04, 0.35),
        MaterialClass.INSULATION: (0.015, 0.13),
        MaterialClass.MINERAL: (0.08, 4.0),
        MaterialClass.EARTH: (0.08, 2.0),
        MaterialClass.SHEET: (0.1, 0.6),
        MaterialClass.SOIL: (0.2, 4.5),
        MaterialClass.SNOW: (0.03, 2.5),
        MaterialClass.METAL: (10.0, 400.0),
    }
)
"""Least and largest conductivity of each class (W/m K): a row outside is a slip of units."""
EVERY_LIMIT = (0.005, 400.0)
"""Of any material at all (W/m K)."""
HEAVIEST = 12_000.0
"""kg/m3; lead is 11 300."""
HEAT_CAPACITIES = (300.0, 5000.0)
"""J/kg K; lead stores 130 but is no layer of a house, water 4200."""


class UnknownMaterialError(BermwrightError, KeyError):
    """A material was asked for that is not in the table; the message names near ones."""

    def __str__(self) -> str:
        return str(self.args[0])


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """One material as a dry layer in a house uses it. SI."""

    name: str
    kind: MaterialClass
    conductivity: float
    """Design value (W/m K)."""
    density: float
    """kg/m3."""
    heat_capacity: float
    """J/kg K."""
    vapour_dry: float
    """Vapour resistance factor where it is dry; infinite for what lets nothing through."""
    vapour_wet: float
    """The same where it is damp."""
    cites: tuple[Cite, ...]
    wet_limit: float = 0.5
    """Water that may gather on its face in a winter (kg/m2)."""
    rots: bool = False
    """Whether damp destroys it."""
    note: str = ""

    def __post_init__(self) -> None:
        low, high = CLASS_LIMITS[self.kind]
        sound = EVERY_LIMIT[0] <= low <= self.conductivity <= high <= EVERY_LIMIT[1]
        if not (sound and math.isfinite(self.conductivity)):
            raise ValueError(
                f"{self.name}: a conductivity of {self.conductivity:g} W/mK; {self.kind} lies from {low:g} to "
                f"{high:g}. Look for a slip of units."
            )
        least, most = HEAT_CAPACITIES
        if not (0 < self.density < HEAVIEST and least <= self.heat_capacity <= most):
            raise ValueError(f"{self.name}: density or heat capacity is no material's.")
        if not 1.0 <= self.vapour_wet <= self.vapour_dry:
            raise ValueError(f"{self.name}: vapour factors are 1 or more, and the damp one is the smaller.")

    @property
    def volumetric(self) -> float:
        """Heat capacity of a cubic metre (J/m3 K)."""
        return self.density * self.heat_capacity

    @property
    def vapour(self) -> float:
        """Mean of the dry and the damp vapour factor."""
        return 0.5 * (self.vapour_dry + self.vapour_wet)
