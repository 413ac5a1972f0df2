"""What stoves of a kind usually do, and what animals give off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.practice import TRADE
from bermwright.data.works.room import CIGR1984, ISO7730


@dataclass(frozen=True, slots=True, kw_only=True)
class StoveHabit:
    """What is usual for a kind of stove, where the file says nothing."""

    burn: float
    """s."""
    efficiency: float
    direct: float
    """Share given off while it burns (-)."""
    fade: float
    """Time in which the stored heat falls to 37 % (s)."""


HOUR: Final = 3600.0
STOVES: Final = {
    "iron": StoveHabit(burn=1.0 * HOUR, efficiency=0.70, direct=0.8, fade=1.0 * HOUR),
    "masonry": StoveHabit(burn=1.5 * HOUR, efficiency=0.80, direct=0.15, fade=10.0 * HOUR),
    "rocket mass": StoveHabit(burn=2.0 * HOUR, efficiency=0.80, direct=0.30, fade=12.0 * HOUR),
}
STOVES_CITE: Final = Cite(
    work=TRADE, place="stoves by kind: burning time, efficiency, release", provenance=Provenance.PRACTICE
)


@dataclass(frozen=True, slots=True, kw_only=True)
class AnimalHabit:
    """Warmth of a kind of animal at upkeep."""

    mass: float
    """kg, a usual grown one."""
    coefficient: float
    """W/kg^0.75."""


ANIMALS: Final = {
    "cow": AnimalHabit(mass=500.0, coefficient=5.6),
    "horse": AnimalHabit(mass=500.0, coefficient=6.1),
    "goat": AnimalHabit(mass=60.0, coefficient=6.3),
    "sheep": AnimalHabit(mass=60.0, coefficient=6.4),
    "pig": AnimalHabit(mass=80.0, coefficient=5.09),
    "dog": AnimalHabit(mass=25.0, coefficient=6.0),
    "hen": AnimalHabit(mass=2.0, coefficient=6.28),
}
ANIMALS_CITE: Final = Cite(
    work=CIGR1984, place="heat of animals at upkeep, by kind", provenance=Provenance.MEMORY
)

AWAKE, ASLEEP = 1.2, 0.8
"""Activity of people in the house by day and at night (met)."""
PEOPLE_CITE: Final = Cite(
    work=ISO7730, place="table B.1: sitting 1.0 to 1.2 met, lying 0.8 met", provenance=Provenance.MEMORY
)
