"""Warmth that people, animals, cooking and lamps bring, hour by hour, and what is wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.nouns import HOURS, OFF, Gain
from bermwright.data.warmth import ANIMALS, ASLEEP, AWAKE
from bermwright.form.known import known
from bermwright.handbook.room import animal_warmth, person_warmth
from bermwright.house import Heated

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.house import Heat, House

    Array = NDArray[np.float64]

DAY = 86_400.0
INDOOR_VAPOUR = 900.0
"""Vapour pressure of the room's air for the warmth of people; it hardly matters (Pa)."""
AT_HOME = 0.5
"""Share of the people who are in by day, on average."""
STABLE = 12.0
"""Air temperature for the warmth of animals (°C)."""
COOKS = (7, 12, 18)
"""Hours at which meals are cooked."""
HOUR_OF_DAY = np.arange(HOURS) % 24


def by_day(heat: Heat) -> Array:
    """1 in the hours of the day, else 0."""
    return ((heat.day_begins <= HOUR_OF_DAY) & (heat.day_ends > HOUR_OF_DAY)).astype(float)


def set_point(heat: Heat) -> Array:
    """What is wanted, hour by hour (°C)."""
    if heat.heated is Heated.NO:
        return np.full(HOURS, OFF)
    if heat.heated is Heated.FROST_ONLY:
        return np.full(HOURS, heat.frost_guard)
    day = known(heat.day, "heat.day")
    night = day if heat.night is None else heat.night
    return np.where(by_day(heat) > 0.0, day, night)


def living_gains(house: House) -> Iterator[Gain]:
    """Everything warm that lives or is done inside."""
    heat, people = known(house.heat, "heat"), known(house.about.people, "house.people")
    awake, asleep = (float(person_warmth(activity, INDOOR_VAPOUR)) for activity in (AWAKE, ASLEEP))
    day = by_day(heat)
    yield Gain(
        name="people",
        heat=people * (day * AT_HOME * awake + (1.0 - day) * asleep),
        how=f"{people} people, by day half of them in at {awake:.0f} W, asleep {asleep:.0f} W each",
    )
    meals = np.isin(HOUR_OF_DAY, COOKS) / len(COOKS)
    yield Gain(
        name="cooking", heat=heat.cooking / 3600.0 * meals, how=f"{heat.cooking / 3.6e6:.1f} kWh a day"
    )
    if heat.electric > 0.0:
        yield Gain(
            name="electric",
            heat=np.full(HOURS, heat.electric / DAY),
            how=f"{heat.electric / 3.6e6:.1f} kWh a day",
        )
    if heat.animals:
        yield _animals(heat)


def _animals(heat: Heat) -> Gain:
    total, parts = 0.0, []
    for one in heat.animals:
        habit = ANIMALS[one.kind.value]
        mass = habit.mass if one.mass is None else one.mass
        each = float(animal_warmth(mass, habit.coefficient, STABLE))
        total += one.number * each
        parts.append(f"{one.number} {one.kind.value} of {mass:.0f} kg at {each:.0f} W")
    return Gain(name="animals", heat=np.full(HOURS, total), how=", ".join(parts))
