"""Whether the air tube in the ground drains, does not freeze shut, and gets its air."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import MONTH_NAMES
from bermwright.data.works.fabric import CARSLAW1959, INCROPERA, WHORADON
from bermwright.data.works.practice import TRADE
from bermwright.form.heat.ground import soil_material
from bermwright.handbook.air import (
    TubeAir,
    frozen_length,
    ground_resistance,
    pipe_pressure,
    stack_pressure,
    tube_air,
    tube_water,
)
from bermwright.house import Drive, TubeWall
from bermwright.rules.damp.field import ground_months
from bermwright.rules.damp.layers import not_said
from bermwright.rules.damp.living import Living, living_of, missing_for_living
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.ribs.common import ratio_step, step

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.house import House, Tube
    from bermwright.rules.nouns import Whole

    Array = NDArray[np.float64]

LEAST_SLOPE = math.atan(0.01)
"""Water and dirt run off from one in a hundred on."""
ROUGHNESS: Mapping[TubeWall, float] = {
    TubeWall.SMOOTH_PLASTIC: 1.5e-5,
    TubeWall.CORRUGATED_PLASTIC: 3e-3,
    TubeWall.CONCRETE: 1e-3,
    TubeWall.CLAY: 3e-4,
    TubeWall.STEEL: 1.5e-4,
}
"""m."""
SEASON = 90.0 * 86_400.0
"""How long a tube has drawn heat from the ground by midwinter, by which its wall is colder (s)."""
SPELLS = 2.0
"""Spreads of the daily mean below the month's mean that a cold spell is taken at."""
GROUND = Cite(work=CARSLAW1959, place="10.4: line source and its image", provenance=Provenance.MEMORY)
PIPE = Cite(work=INCROPERA, place="ch. 8: transfer units, friction", provenance=Provenance.MEMORY)
DRAINS = Cite(work=TRADE, place="1 to 2 in 100 down to a drain", provenance=Provenance.PRACTICE)
GAS = Cite(work=WHORADON, place="soil gas in air from the ground", provenance=Provenance.MEMORY)
NEEDED = ("depth", "material", "slope", "drain", "sealed", "drive", "inlet_height")


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeYear:
    """What the tube does to the air, month by month and in a cold spell."""

    ground: Array
    """(12,) undisturbed at its depth (°C)."""
    resistance: float
    """Of the ground (m K/W)."""
    air: TubeAir
    """(12,) at the months' means."""
    spell: TubeAir
    """In a cold spell of the coldest month."""
    spell_outdoors: float
    """°C."""
    water: Array
    """(12,) dew in the tube (kg/s)."""
    frozen: float
    """How far in the wall freezes in the spell (m)."""
    pressure: float
    """That the flow takes (Pa)."""
    given: float | None
    """That fan or stack gives in the worst month; None when not known (Pa)."""


def tube_year(house: House, tube: Tube, living: Living) -> TubeYear:
    """The tube through the months; needs what `NEEDED` names."""
    climate = living.climate
    mean = np.array(climate.mean)
    soil = soil_material(house.site.soil[0] if house.site.soil else None, "the soil of the tube", [])
    depth, radius = tube.depth or math.nan, 0.5 * tube.diameter
    ground = ground_months(climate, depth, soil.conductivity / soil.capacity)
    resistance = float(
        ground_resistance(radius, depth, SEASON, conductivity=soil.conductivity, capacity=soil.capacity)
    )
    cold = living.coldest
    spread = (
        climate.daily_spread[cold] if climate.daily_spread else 0.5 * (mean[cold] - climate.minimum[cold])
    )
    outdoors = float(mean[cold] - SPELLS * spread)
    months = tube_air(
        living.flow, mean, ground, diameter=tube.diameter, length=tube.length, resistance=resistance
    )
    spell = tube_air(
        living.flow, outdoors, ground[cold], diameter=tube.diameter, length=tube.length, resistance=resistance
    )
    return TubeYear(
        ground=np.asarray(ground),
        resistance=resistance,
        air=months,
        spell=spell,
        spell_outdoors=outdoors,
        water=np.asarray(tube_water(living.flow, living.pressure_outside, ground)),
        frozen=float(
            frozen_length(tube.length, spell.units, start=spell.wall_start, ground=float(ground[cold]))
        ),
        pressure=_pressure(tube, living),
        given=_given(tube, living),
    )


def _pressure(tube: Tube, living: Living) -> float:
    rough = ROUGHNESS[tube.material] if tube.material is not None else math.nan
    return float(
        pipe_pressure(
            living.flow, tube.diameter, tube.length, temperature=0.0, roughness=rough, losses=tube.losses
        )
    )


def _given(tube: Tube, living: Living) -> float | None:
    """What drives the air in the worst month (Pa): a stack is weakest when it is warm outdoors."""
    if tube.drive is Drive.FAN:
        return tube.fan_pressure
    if tube.stack_height is None:
        return None
    return float(np.min(stack_pressure(tube.stack_height, living.inside, living.outside)))


def _decide(whole: Whole) -> Iterator[Said]:
    house = whole.house
    if house.air is None:
        yield not_said(("air",))
        return
    tube = house.air.tube
    if tube is None:
        yield Said(verdict=Verdict.DOES_NOT_APPLY, template="No air comes through a tube in the ground.")
        return
    missing = [f"air.tube.{name}" for name in NEEDED if getattr(tube, name) is None]
    wanted = "fan_pressure" if tube.drive is Drive.FAN else "stack_height"
    if tube.drive is not None and getattr(tube, wanted) is None:
        missing.append(f"air.tube.{wanted}")
    missing += missing_for_living(house)
    if missing:
        yield not_said(tuple(missing))
        return
    living = living_of(house)
    if living.flow <= 0.0:
        yield Said(
            verdict=Verdict.FAILS,
            template="No air goes through the tube: [air] flow is nothing. What lies in it grows mould.",
            advice="Write how much air is to come in, and give the tube a fan.",
        )
        return
    yield _known(tube, tube_year(house, tube, living))


def _known(tube: Tube, year: TubeYear) -> Said:
    faults = tuple(_faults(tube, year))
    ratio = year.pressure / year.given if year.given and year.given > 0.0 else math.inf
    driven = verdict_of(ratio)
    verdict = Verdict.FAILS if faults else driven
    month = int(np.argmax(year.water))
    template = "At {outdoors} outdoors air comes in at {inlet}; {pressure} drive it."
    if year.water[month] > 0.0:
        template += " In {month} up to {water} of dew a day run in it."
    if year.frozen > 0.0:
        template += " In the spell its first {frozen} freeze."
    if faults:
        template += " But {faults}."
    return Said(
        verdict=verdict,
        template=template,
        values={
            "outdoors": Shown(year.spell_outdoors, "degC", 0),
            "inlet": Shown(float(year.spell.outlet), "degC", 1),
            "month": MONTH_NAMES[month],
            "water": Shown(float(year.water[month]), "kg/d", 1),
            "pressure": Shown(year.pressure, "Pa", 0),
            "frozen": Shown(year.frozen, "m", 1),
            "faults": ", and ".join(faults),
        },
        part="air tube",
        demand=year.pressure,
        capacity=year.given,
        unit="Pa",
        ratio=max(ratio, 1.01) if faults and math.isfinite(ratio) else ratio,
        advice="" if verdict is Verdict.HOLDS else _advice(faults, driven),
        steps=tuple(_steps(tube, year, ratio)),
    )


def _faults(tube: Tube, year: TubeYear) -> Iterator[str]:
    wet = bool(np.any(year.water > 0.0)) or year.frozen > 0.0
    if wet and (tube.slope or 0.0) < LEAST_SLOPE:
        yield "it falls less than 1 in 100, so water lies in it"
    if wet and not tube.drain:
        yield "it has no drain, so water stays in it, grows mould and freezes"
    if year.frozen >= tube.length:
        yield "in a cold spell it freezes all the way to its drain"
    if tube.material is TubeWall.CORRUGATED_PLASTIC:
        yield "the ribs of its wall hold water and dirt that nobody gets out"
    if not tube.sealed:
        yield "its joints are not tight: it draws radon and ground water"
    if year.given is not None and year.given <= 0.0:
        yield "the stack does not draw in the warm months"


def _advice(faults: tuple[str, ...], driven: Verdict) -> str:
    mend = (
        "Lay it deeper and longer, smooth and tight, with 2 cm of fall in a metre to a drain in a pit that "
        "can be opened"
    )
    if driven in {Verdict.FAILS, Verdict.UNKNOWN, Verdict.TIGHT}:
        push = "take a wider tube or a stronger fan ([air.tube] diameter, fan_pressure)"
        return f"{mend}; {push}." if faults else f"{push[:1].upper()}{push[1:]}."
    return f"{mend}. Wash it every year, and look for mould before every winter."


def _steps(tube: Tube, year: TubeYear, ratio: float) -> Iterator[Step]:
    cold = int(np.argmin(year.ground))
    yield step(
        f"Undisturbed ground at its depth, coldest in {MONTH_NAMES[cold]}",
        "T_g",
        "T_m − A·e^(−z/d)·cos(…)",
        f"z = {tube.depth:g} m",
        Shown(float(year.ground[cold]), "degC", 1),
        GROUND,
    )
    yield step(
        "Resistance of the ground after 90 days of use",
        "R",
        "[E₁(r²/4at) − E₁(z²/at)]/(4πλ)",
        "",
        Shown(year.resistance, "", 3),
        GROUND,
    )
    yield step(
        "Transfer units",
        "N",
        "L/(ṁ·c·(1/(h·π·D) + R))",
        f"L = {tube.length:g} m, D = {tube.diameter:g} m",
        Shown(float(year.spell.units), "", 2),
        PIPE,
    )
    yield step(
        "Air into the house in the cold spell",
        "T_out",
        "T_g + (T_in − T_g)·e^(−N)",
        f"T_in = {year.spell_outdoors:.1f}",
        Shown(float(year.spell.outlet), "degC", 1),
        PIPE,
    )
    yield step("Pressure that the flow takes", "Δp", "(f·L/D + Σζ)·ρ·v²/2", f"Σζ = {tube.losses:g}",
               Shown(year.pressure, "Pa", 1), PIPE)  # fmt: skip
    yield ratio_step("Pressure taken over pressure given", "Δp/Δp_given",
                     f"{year.pressure:.1f}/{year.given or 0.0:.1f}", ratio)  # fmt: skip


INTAKE_TUBE = HouseRule(
    name="intake-tube-drains-and-does-not-freeze",
    title="The intake tube drains and does not freeze",
    why="Dew runs in a cool tube in summer. Where it stands, mould grows that everybody breathes; in winter "
    "it "
    "freezes. A tube that is not tight draws radon out of the ground.",
    cites=(PIPE, GROUND, DRAINS, GAS),
    decide=_decide,
    asks=("air", "air.tube", *(f"air.tube.{name}" for name in NEEDED), "air.tube.fan_pressure"),
)
