"""Whether ribs, planks and the ends in their sockets stay dry enough to last."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import MONTH_NAMES
from bermwright.data.climates import MONTHS
from bermwright.data.works.fabric import VIITANEN2010, WOODHANDBOOK
from bermwright.data.works.timber import EN1995
from bermwright.form.fabric import assembly_of
from bermwright.handbook.damp import rot_dose, saturation_pressure, wood_moisture
from bermwright.handbook.weather.frost import DAYS_OF_MONTHS
from bermwright.rules.damp.corners import missing_for_places
from bermwright.rules.damp.field import place_temperature, warm_places
from bermwright.rules.damp.layers import DampYear, damp_year, not_said, studied_assembly
from bermwright.rules.damp.living import ASKED, DAY, living_of, missing_for_living
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.ribs.common import ratio_step, step

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.house import House, Vault
    from bermwright.rules.nouns import Whole

    Array = NDArray[np.float64]

LIMITS: Mapping[int, float] = {1: 0.12, 2: 0.20, 3: 0.20}
"""Water in the wood, by the service class that the strength was reckoned with; over 0.20 it may rot."""
CLASSES = Cite(work=EN1995, place="2.3.1.3: 12 and 20 % of moisture", provenance=Provenance.MEMORY)
WOOD = Cite(work=WOODHANDBOOK, place="eq. 4-5; its coefficients from memory, its values read elsewhere",
            provenance=Provenance.MEMORY)  # fmt: skip
ROT = Cite(work=VIITANEN2010, place="critical time for decay", provenance=Provenance.MEMORY)
WARMEST_ROT = 30.0
"""°C: the model of decay ends there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DampWood:
    """Wood at one place over the year."""

    place: str
    temperature: Array
    humidity: Array
    """(12,) of the air in its pores."""
    moisture: Array
    """(12,) water over dry wood."""

    @property
    def month(self) -> int:
        """The dampest, 0 is January."""
        return int(np.argmax(self.moisture))

    @property
    def wettest(self) -> float:
        """Largest moisture of the year."""
        return float(np.max(self.moisture))

    @property
    def dose(self) -> float:
        """Share of the way to rot that one year goes."""
        warm = np.minimum(self.temperature, WARMEST_ROT)
        return float(rot_dose(warm, self.humidity, DAYS_OF_MONTHS * DAY))


def wood_at(place: str, temperature: Array, pressure: Array) -> DampWood:
    """Wood of a temperature in air of a vapour pressure; what is over saturation is wet."""
    humidity = np.minimum(pressure / saturation_pressure(temperature), 1.0)
    return DampWood(
        place=place,
        temperature=temperature,
        humidity=humidity,
        moisture=np.asarray(wood_moisture(temperature, humidity)),
    )


def woods_of(house: House, vault: Vault, damp: DampYear) -> tuple[DampWood, ...]:
    """The ribs in the room's air, the outside of the planks, and the feet in their sockets."""
    living = damp.living
    places = warm_places(house, vault)
    woods = [wood_at("ribs in the room's air", living.inside, living.pressure_inside)]
    if damp.assembly.covers and damp.assembly.covers[0].kind == "lagging":
        woods.append(_planks(damp))
    woods += [
        wood_at(
            f"{name.replace('rib foot', 'feet and sockets,')}",
            place_temperature(living, places, name, min(max(places.factors[name], 0.0), 1.0)),
            living.pressure_inside,
        )
        for name in ("rib foot left", "rib foot right")
        if name in places.factors
    ]
    return tuple(woods)


def _planks(damp: DampYear) -> DampWood:
    """The outer face of the planks, by the profile of vapour through the layers."""
    face = int(np.flatnonzero(damp.owner == 0)[-1]) + 1
    temperature = np.array([damp.temperatures(month)[face] for month in range(MONTHS)])
    pressure = np.array([damp.profile(month).pressure[face] for month in range(MONTHS)])
    return wood_at("outside of the planks", temperature, pressure)


WETTEST = "{where}: {moisture} of water in the wood in {month}; service class {served} allows {limit}."
ROTS = "{where}: wood with {moisture} of water in {month} begins to rot within {days} damp, warm days."
DAYS_OF_A_YEAR = 365


def _decide(whole: Whole) -> Iterator[Said]:
    if not whole.house.vaults:
        yield Said(verdict=Verdict.DOES_NOT_APPLY, template="The house has no vault.")
    for vault in whole.house.vaults:
        yield replace(_of_vault(whole, vault), part=f'vault "{vault.name}"')


def _of_vault(whole: Whole, vault: Vault) -> Said:
    house = whole.house
    missing = (
        *assembly_of(house, vault).missing,
        *missing_for_living(house),
        *missing_for_places(house, vault),
        *(("vault.service_class",) if vault.service_class is None else ()),
    )
    if missing or vault.service_class is None:
        return not_said(missing)
    living = living_of(house)
    damp = damp_year(studied_assembly(whole, vault), living)
    worst = max(woods_of(house, vault, damp), key=lambda wood: (max(wood.dose, 1.0), wood.wettest))
    limit = LIMITS[vault.service_class]
    rots = worst.dose >= 1.0
    ratio = worst.dose if rots else worst.wettest / limit
    verdict = Verdict.FAILS if rots else verdict_of(ratio)
    return Said(
        verdict=verdict,
        template=ROTS if rots else WETTEST,
        values={
            "days": Shown(DAYS_OF_A_YEAR / worst.dose, "", 0) if rots else "",
            "where": worst.place[:1].upper() + worst.place[1:],
            "moisture": Shown(worst.wettest, "%", 1),
            "month": MONTH_NAMES[worst.month],
            "limit": Shown(limit, "%", 0),
            "served": str(vault.service_class),
        },
        place=worst.place,
        demand=worst.wettest,
        capacity=limit,
        ratio=ratio,
        advice="" if verdict is Verdict.HOLDS else _advice(vault),
        steps=tuple(_steps(worst, limit)),
    )


def _advice(vault: Vault) -> str:
    drier = (
        "Bring in more fresh air ([air] flow), make less damp, insulate outside the wood, keep feet out of "
        "the soil, on stone or tar felt with air around them"
    )
    if vault.service_class == 1:
        return drier + "; or reckon the strength with [[vault]] service_class = 2."
    return drier + ". Wood that a leak reaches rots whatever is reckoned here: look at it every year."


def _steps(worst: DampWood, limit: float) -> Iterator[Step]:
    month = worst.month
    yield step(
        f"Air at the wood, {MONTH_NAMES[month]}, at {worst.temperature[month]:.1f} °C",
        "φ",
        "p/p_sat(T)",
        "",
        Shown(float(worst.humidity[month]), "%", 0),
    )
    yield step("Water in wood that lies long in that air", "u", "eq. 4-5", "", Shown(worst.wettest, "%", 1),
               WOOD)  # fmt: skip
    yield step(
        "Share of the way to rot in one year, by damp, warmth and time",
        "α",
        "Σ t/t_rot(T, φ)",
        "",
        Shown(worst.dose, "", 2),
        ROT,
    )
    yield ratio_step("Water over what may be in it", "u/u_max", f"{worst.wettest:.3f}/{limit:g}",
                     worst.wettest / limit, CLASSES)  # fmt: skip


RIBS_DRY = HouseRule(
    name="buried-ribs-stay-dry-enough",
    title="Buried ribs stay dry enough",
    why="Damp wood is weaker and creeps more, and over a fifth of water it rots. Nobody sees the outside of "
    "the planks or a foot in its socket again.",
    cites=(CLASSES, WOOD, ROT),
    decide=_decide,
    asks=(*ASKED, "vault.cover.material", "vault.service_class", "ground_heat"),
)
