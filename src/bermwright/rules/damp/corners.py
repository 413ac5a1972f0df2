"""Whether the coldest corners of the rooms stay free of mould."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import MONTH_NAMES
from bermwright.data.works.fabric import DIN4108, ISO13788
from bermwright.form import missing_for_form
from bermwright.form.heat import missing_for_heat
from bermwright.handbook.damp import (
    DAMP_FACE,
    factor_with_film,
    least_surface,
    saturation_pressure,
    surface_factor,
)
from bermwright.rules.damp.field import WarmPlaces, outer_temperature, place_temperature, warm_places
from bermwright.rules.damp.layers import not_said
from bermwright.rules.damp.living import (
    ASKED,
    Living,
    living_of,
    living_steps,
    missing_for_living,
)
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.ribs.common import ratio_step, step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.house import House, Vault
    from bermwright.rules.nouns import Whole

    Array = NDArray[np.float64]

BEHIND = 0.25
"""Film of air in corners and behind furniture (m2K/W)."""
FLOOR_FILM, WALL_FILM, CROWN_FILM = 0.17, 0.13, 0.10
INDOORS = (
    "crown inside", "springing inside left", "springing inside right", "wall foot inside left",
    "wall foot inside right", "floor edge left", "floor edge right", "floor middle",
)  # fmt: skip
FACE = Cite(work=ISO13788, place="5: surface humidity of 0.8, film 0.25", provenance=Provenance.MEMORY)
GERMAN = Cite(
    work=DIN4108,
    place="part 2: 12.6 °C, factor 0.70 at −5 °C, 20 °C and 50 %",
    provenance=Provenance.READ,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ColdCorner:
    """The dampest place of the inner faces in the worst month."""

    place: str
    month: int
    """0 is January."""
    factor: float
    """With the film behind furniture."""
    temperature: float
    """°C."""
    humidity: float
    """At the face."""
    needed: float
    """Factor that would just keep it at 0.8."""


def film_of(place: str) -> float:
    """The film of air that the section was solved with at a place."""
    if place.startswith("floor"):
        return FLOOR_FILM
    return CROWN_FILM if place.startswith("crown") else WALL_FILM


def cold_corners(living: Living, places: WarmPlaces) -> tuple[ColdCorner, ...]:
    """Every inner place in its worst month, the dampest first."""
    found = []
    for place in INDOORS:
        plain = places.factors.get(place)
        if plain is None:
            continue
        factor = float(factor_with_film(min(max(plain, 0.0), 1.0), film_of(place), BEHIND))
        warm = place_temperature(living, places, place, factor)
        humidity = np.minimum(living.pressure_inside / saturation_pressure(warm), 1.0)
        month = int(np.argmax(humidity))
        found.append(
            ColdCorner(
                place=place,
                month=month,
                factor=factor,
                temperature=float(warm[month]),
                humidity=float(humidity[month]),
                needed=_needed(living, outer_temperature(living, places, place), month),
            )
        )
    return tuple(sorted(found, key=lambda corner: -corner.humidity))


def corner_humidity(living: Living, places: WarmPlaces, corner: ColdCorner) -> Array:
    """(12,) humidity at the face of a corner, with its film."""
    warm = place_temperature(living, places, corner.place, corner.factor)
    return np.asarray(np.minimum(living.pressure_inside / saturation_pressure(warm), 1.0))


def _needed(living: Living, outer: Array, month: int) -> float:
    least = float(least_surface(living.pressure_inside[month], humidity=DAMP_FACE))
    inside, outside = float(living.inside[month]), float(outer[month])
    return float(surface_factor(least, inside, outside)) if inside > outside else float("nan")


def _decide(whole: Whole) -> Iterator[Said]:
    if not whole.house.vaults:
        yield Said(verdict=Verdict.DOES_NOT_APPLY, template="The house has no vault.")
    for vault in whole.house.vaults:
        yield replace(_of_vault(whole.house, vault), part=f'vault "{vault.name}"')


def missing_for_places(house: House, vault: Vault) -> tuple[str, ...]:
    """What the section in its ground needs and the file does not say."""
    return (*missing_for_form(house, vault), *missing_for_heat(house, vault))


def _of_vault(house: House, vault: Vault) -> Said:
    missing = (*missing_for_living(house), *missing_for_places(house, vault))
    if missing:
        return not_said(missing)
    living, places = living_of(house), warm_places(house, vault)
    worst = cold_corners(living, places)[0]
    ratio = worst.humidity / DAMP_FACE
    verdict = verdict_of(ratio)
    return Said(
        verdict=verdict,
        template="{where}: air at the face is at {humidity} in {month}, at {warm}; mould grows from {limit}.",
        values={
            "where": worst.place[:1].upper() + worst.place[1:],
            "warm": Shown(worst.temperature, "degC", 1),
            "humidity": Shown(worst.humidity, "%", 0),
            "month": MONTH_NAMES[worst.month],
            "limit": Shown(DAMP_FACE, "%", 0),
        },
        place=worst.place,
        demand=worst.humidity,
        capacity=DAMP_FACE,
        ratio=ratio,
        advice="" if verdict is Verdict.HOLDS else _advice(worst),
        steps=(*living_steps(house, living, worst.month), *_steps(living, places, worst)),
    )


def _advice(worst: ColdCorner) -> str:
    outside = "below the floor and outside the walls ([ground_heat.floor] and [ground_heat.wall] insulation)"
    over = 'over the vault ([[vault.cover]] kind "insulation")'
    return (
        f"Insulate more {over if worst.place.startswith('crown') else outside}, bring in more fresh air "
        "([air] flow), make less damp, or keep it warmer; keep cupboards and beds a hand off the outer walls."
    )


def _steps(living: Living, places: WarmPlaces, worst: ColdCorner) -> Iterator[Step]:
    month = worst.month
    outer = float(outer_temperature(living, places, worst.place)[month])
    yield step(
        f"Temperature factor, {worst.place}, with a film of {BEHIND:g} m2K/W as behind furniture",
        "f_Rsi",
        "1 − R'/(R/(1 − f) + R' − R)",
        f"f = {places.factors[worst.place]:.3f}, R = {film_of(worst.place):g}, R' = {BEHIND:g}",
        Shown(worst.factor, "", 3),
        FACE,
    )
    yield step(
        f"Temperature there, {MONTH_NAMES[month]}; T_e is the colder of air and ground at its depth",
        "T_si",
        "T_e + f_Rsi·(T_i − T_e)",
        f"{outer:.1f} + {worst.factor:.3f}·({living.inside[month]:.1f} − {outer:.1f})",
        Shown(worst.temperature, "degC", 1),
    )
    yield step(
        "Humidity at the face",
        "φ_si",
        "p_i/p_sat(T_si)",
        f"{living.pressure_inside[month]:.0f}/{saturation_pressure(worst.temperature):.0f}",
        Shown(worst.humidity, "%", 0),
    )
    yield step(
        "Factor that would just do", "f_min", "(T_si,min − T_e)/(T_i − T_e)", "", Shown(worst.needed, "", 3),
        GERMAN,
    )  # fmt: skip
    yield ratio_step("Humidity over that of mould", "φ_si/0.8", f"{worst.humidity:.3f}/0.8",
                     worst.humidity / DAMP_FACE)  # fmt: skip


CORNERS = HouseRule(
    name="corners-stay-free-of-mould",
    title="Corners stay free of mould",
    why="Mould grows where a face stays damp for weeks, long before one sees dew: at the foot of the wall, "
    "behind a cupboard, in a cool house in summer. Its spores make people ill.",
    cites=(FACE, GERMAN),
    decide=_decide,
    asks=(
        *ASKED, "ground_heat", "ground_heat.floor.thickness", "ground_heat.floor.material",
        "ground_heat.floor.insulation", "ground_heat.wall.material", "ground_heat.wall.insulation",
        "ground_heat.wall.footing_depth", "vault.cover.material",
    ),
)  # fmt: skip
