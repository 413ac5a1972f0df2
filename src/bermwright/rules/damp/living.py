"""How people live in the house, month by month: warmth, fresh air and the damp they make."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.findings import Shown, Step
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import MONTH_NAMES
from bermwright.data.climates import MONTHS, PREFIX, MonthlyNormals, normals
from bermwright.data.vapour_sources import BOILING, LOAD, PERSON, SHOWER
from bermwright.data.works.fabric import ISO13788
from bermwright.handbook.damp import indoor_pressure, saturation_pressure
from bermwright.house import Heated
from bermwright.rules.ribs.common import step

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.house import Heat, House

    Array = NDArray[np.float64]

DAY = 86_400.0
WEEK = 7.0 * DAY
HOURS = 24
BALANCE = Cite(work=ISO13788, place="balance of vapour: made indoors, carried out by air",
               provenance=Provenance.MEMORY)  # fmt: skip
ASKED = (
    "house.people", "site.climate", "heat", "heat.heated", "heat.day", "air", "air.flow", "moisture",
    "moisture.cooking", "moisture.showers", "moisture.laundry",
)  # fmt: skip
"""Places in the file without which the damp of the rooms is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Living:
    """Twelve months in the rooms and outdoors, January to December."""

    climate: MonthlyNormals
    people: int
    flow: float
    """Fresh air (m3/s)."""
    production: float
    """Vapour (kg/s)."""
    inside: Array
    """°C."""
    outside: Array
    pressure_inside: Array
    """Vapour pressure, never over saturation (Pa)."""
    pressure_outside: Array
    overflows: tuple[int, ...]
    """Months in which more vapour is made than the air carries off at all: water runs down the walls."""

    @property
    def humidity(self) -> Array:
        """Of the room, share of saturation."""
        return np.asarray(self.pressure_inside / saturation_pressure(self.inside))

    @property
    def coldest(self) -> int:
        """Number of the coldest month, January is 0."""
        return int(np.argmin(self.outside))


def missing_for_living(house: House) -> tuple[str, ...]:
    """What has to be said before the damp of the rooms can be reckoned, as plain paths."""
    heat, air, moisture = house.heat, house.air, house.moisture
    known = {
        "house.people": house.about.people,
        "site.climate": house.site.climate,
        "heat": heat,
        "air": air,
        "moisture": moisture,
    }
    missing = [place for place, value in known.items() if value is None]
    if heat is not None and heat.heated is None:
        missing.append("heat.heated")
    elif heat is not None and heat.heated is Heated.YES and heat.day is None:
        missing.append("heat.day")
    if air is not None and air.flow is None:
        missing.append("air.flow")
    if moisture is not None:
        missing += [
            f"moisture.{name}"
            for name in ("cooking", "showers", "laundry")
            if getattr(moisture, name) is None
        ]
    return tuple(missing)


def living_of(house: House) -> Living:
    """The months; raises when something is missing, or is known only to a year by the hour."""
    missing = missing_for_living(house)
    if missing or house.heat is None or house.air is None or house.air.flow is None:
        raise OutOfRangeError(f"The file does not say {', '.join(missing)}.")
    climate = _climate(house)
    outside = np.array(climate.mean)
    # Air that is said to hold more than frost allows has been read over water: cut to saturation.
    outdoors = np.minimum(_vapour(climate), saturation_pressure(outside))
    inside = np.maximum(_held(house.heat), outside)
    production = vapour_made(house)
    pressure = indoor_pressure(outdoors, production, house.air.flow, temperature=inside)
    most = saturation_pressure(inside)
    return Living(
        climate=climate,
        people=house.about.people or 0,
        flow=house.air.flow,
        production=production,
        inside=inside,
        outside=outside,
        pressure_inside=np.minimum(pressure, most),
        pressure_outside=outdoors,
        overflows=tuple(int(month) for month in np.flatnonzero(pressure > most)),
    )


def vapour_made(house: House) -> float:
    """Vapour that people, pots, showers and laundry give off, as the mean of a day (kg/s)."""
    moisture = house.moisture
    if moisture is None:
        return float("nan")
    people = house.about.people or 0
    return (
        people * PERSON.value * moisture.presence / DAY
        + BOILING.value * (moisture.cooking or 0.0) / DAY
        + SHOWER.value * (moisture.showers or 0) / DAY
        + LOAD.value * (moisture.laundry or 0) / WEEK
        + (moisture.others or 0.0)
    )


def living_steps(house: House, living: Living, month: int) -> tuple[Step, ...]:
    """The working of the humidity in one month."""
    moisture = house.moisture
    showers = 0 if moisture is None else moisture.showers or 0
    return (
        step(
            f"Vapour of {living.people} people, pots, {showers} showers and laundry, a day",
            "G",
            "n·g·t + g_c·t_c + n_s·m_s + n_l·m_l/7",
            "",
            Shown(living.production, "kg/d", 2),
            PERSON.cite,
        ),
        step(
            f"Vapour pressure of the room, {MONTH_NAMES[month]}",
            "p_i",
            "p_e + G·461.5·(T_i + 273.15)/V̇",
            f"{living.pressure_outside[month]:.0f} + {living.production:.3g}·461.5·"
            f"{living.inside[month] + 273.15:.1f}/{living.flow:.4f}",
            Shown(float(living.pressure_inside[month]), "Pa", 0),
            BALANCE,
        ),
        step(
            f"Humidity at {living.inside[month]:.1f} °C",
            "φ_i",
            "p_i/p_sat(T_i)",
            f"{living.pressure_inside[month]:.0f}/{saturation_pressure(living.inside[month]):.0f}",
            Shown(float(living.humidity[month]), "%", 0),
        ),
    )


def _climate(house: House) -> MonthlyNormals:
    name = house.site.climate or ""
    if not name.startswith(PREFIX):
        raise OutOfRangeError(
            "The climate is a file by the hour; the months are reckoned from packaged normals "
            f'(site.climate = "{PREFIX}NAME").'
        )
    return normals(name)


def _vapour(climate: MonthlyNormals) -> Array:
    """As published; where nothing is, the nights are taken to reach the dew point."""
    if climate.vapour_pressure is not None:
        return np.array(climate.vapour_pressure)
    if climate.humidity is None:
        return saturation_pressure(np.array(climate.minimum))
    return np.asarray(np.array(climate.humidity) * saturation_pressure(np.array(climate.mean)))


def _held(heat: Heat) -> Array:
    """Temperature that the rooms are kept at, day and night together (°C)."""
    if heat.heated is not Heated.YES or heat.day is None:
        raise OutOfRangeError(
            "The rooms are not kept warm, so their temperature is not known without the year by the hour: "
            "`bermwright winter` reckons it."
        )
    night = heat.day if heat.night is None else heat.night
    share = (heat.day_ends - heat.day_begins) % HOURS / HOURS
    return np.full(MONTHS, heat.day * share + night * (1.0 - share))
