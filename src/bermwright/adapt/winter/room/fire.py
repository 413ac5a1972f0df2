"""The stove as a fire by batches, and the wood it takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.nouns import HOURS, Wood
from bermwright.data.firewood import FIREWOOD, STACKS, TABLE_MOISTURE
from bermwright.data.warmth import STOVES
from bermwright.form.known import known
from bermwright.handbook.room import (
    Burning,
    charge_heat,
    dry_heating_value,
    heating_value,
    mean_output,
    release_curve,
    stack_volume,
    stacked_heat,
)

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.house import Heat, House, Stove, Vault

    Array = NDArray[np.float64]

FEW, HALF_A_DAY, EVENING = 2, 12, 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Fire:
    """One stove with its wood, as it is fired."""

    stove: Stove
    species: str
    moisture: float
    stacked: str
    dry_value: float
    """Of the dry wood (J/kg)."""
    value: float
    """As burned (J/kg)."""
    of_stack: float
    """Heat in a cubic metre as it lies (J/m3)."""
    efficiency: float
    burn: float
    direct: float
    fade: float
    charge: float | None
    """Heat of one full charge that stays in the house (J); None: how much it holds is not said."""
    output: float | None
    """The most it gives on average over a day (W)."""
    burning: Burning | None
    assumed: tuple[str, ...]

    def wood_for(self, heat: float) -> Wood:
        """The wood for a year's heat."""
        volume = float(stack_volume(heat, self.of_stack, self.efficiency))
        return Wood(
            species=self.species,
            moisture=self.moisture,
            stacked=self.stacked,
            heat=heat,
            efficiency=self.efficiency,
            of_stack=self.of_stack,
            volume=volume,
            mass=heat / self.efficiency / self.value,
            charges=None if not self.charge else heat / self.charge,
        )


def fire_of(house: House, vault: Vault) -> Fire | None:
    """The first stove of a vault with the wood of the file; None where either is not named."""
    stoves = [
        one for one in house.stoves if one.vault == vault.name or (not one.vault and vault == house.vaults[0])
    ]
    wood = house.wood
    if not stoves or wood is None or wood.species is None:
        return None
    stove, kind = stoves[0], FIREWOOD[wood.species.value]
    habit = STOVES[stove.kind.value]
    dry = float(dry_heating_value(kind.value, TABLE_MOISTURE))
    value = float(heating_value(wood.moisture, dry))
    stack = float(stacked_heat(kind.dry_mass, wood.moisture, dry)) / STACKS[wood.stacked.value]
    efficiency = habit.efficiency if stove.efficiency is None else stove.efficiency
    burn = habit.burn if stove.burn is None else stove.burn
    fade = habit.fade if stove.release is None else stove.release
    charge = None if stove.batch is None else float(charge_heat(stove.batch, value, efficiency))
    burning = None
    if charge is not None and stove.firings is not None:
        burning = Burning(
            curve=release_curve(charge, burn=burn, direct=habit.direct, fade=fade),
            lightings=lightings(known(house.heat, "heat"), stove.firings),
        )
    return Fire(
        stove=stove,
        species=wood.species.value,
        moisture=wood.moisture,
        stacked=wood.stacked.value,
        dry_value=dry,
        value=value,
        of_stack=stack,
        efficiency=efficiency,
        burn=burn,
        direct=habit.direct,
        fade=fade,
        charge=charge,
        output=None if burning is None else float(mean_output(charge or 0.0, stove.firings or 0)),
        burning=burning,
        assumed=_assumed(stove, efficiency, burn, fade),
    )


def lightings(heat: Heat, firings: int) -> Array:
    """1 in the hours in which somebody is there to fire.

    Once a day in the evening, twice half a day apart, more often spread over the hours of the day.
    """
    if firings == 1:
        hours = {max(heat.day_begins, heat.day_ends - EVENING)}
    elif firings == FEW:
        hours = {heat.day_begins, (heat.day_begins + HALF_A_DAY) % 24}
    else:
        apart = (heat.day_ends - heat.day_begins) / firings
        hours = {int(heat.day_begins + count * apart) % 24 for count in range(firings)}
    return np.isin(np.arange(HOURS) % 24, sorted(hours)).astype(float)


def _assumed(stove: Stove, efficiency: float, burn: float, fade: float) -> tuple[str, ...]:
    says = []
    if stove.efficiency is None:
        says.append(
            f"The stove counts as {efficiency:.2f} efficient, as its kind usually is (common practice)."
        )
    if stove.burn is None:
        says.append(f"A charge counts as burning {burn / 3600.0:.1f} h (common practice of its kind).")
    if stove.release is None:
        says.append(
            f"Its stored warmth counts as falling to 37 % in {fade / 3600.0:.0f} h (common practice)."
        )
    return tuple(says)
