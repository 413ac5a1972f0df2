"""Whether the layers over the ribs dry out again what a winter leaves in them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import MONTH_NAMES
from bermwright.data.works.fabric import ISO6946, ISO13788
from bermwright.form.fabric import Assembly, AssemblyLayer, assembly_of
from bermwright.handbook.conduction import layer_temperatures, rain_correction
from bermwright.handbook.damp import (
    MonthlyAir,
    Profile,
    WetYear,
    cut_layers,
    saturation_pressure,
    vapour_profile,
    wet_year,
)
from bermwright.handbook.weather.frost import DAYS_OF_MONTHS
from bermwright.rules.damp.living import (
    ASKED,
    Living,
    living_of,
    living_steps,
    missing_for_living,
)
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.ribs.common import step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.house import House, Vault
    from bermwright.rules.nouns import Whole

    Array = NDArray[np.float64]

CONTROLS = (2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 300.0, 1500.0)
"""Thickness of still air (m) that vapour control layers are offered with."""
MONTHLY = Cite(work=ISO13788, place="6: condensation month by month", provenance=Provenance.MEMORY)
LIMIT = Cite(work=ISO13788, place="annex: limits of condensate by material", provenance=Provenance.MEMORY)
LAYERED = Cite(work=ISO6946, place="6.7: layers; bent ones as cylinders", provenance=Provenance.MEMORY)
RAIN = Cite(work=ISO6946, place="annex F: insulation above the sheet", provenance=Provenance.MEMORY)
HEATING_BELOW = 10.0
"""°C: months with a colder mean are heated."""
THINNEST_AIR = 1e-3
"""m: less resists nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DampYear:
    """A year of vapour in one assembly, with what each face lies between."""

    assembly: Assembly
    living: Living
    heat: Array
    """Resistances of inside film, slices and everything outside them (m2K/W)."""
    air: Array
    """Thickness of still air of each slice (m)."""
    owner: NDArray[np.int_]
    """The cover that each slice belongs to."""
    year: WetYear
    outer: Array
    """(12,) temperature of the outer face of the covers (°C)."""

    @property
    def faces(self) -> tuple[str, ...]:
        """What each face between slices is called, the two outer ones included."""
        names = [layer.name for layer in self.assembly.covers]
        inner = [
            f"inside the {names[before]}"
            if before == after
            else f"between {names[before]} and {names[after]}"
            for before, after in zip(self.owner[:-1].tolist(), self.owner[1:].tolist(), strict=True)
        ]
        return (f"on the room's face of the {names[0]}", *inner, f"on the outside of the {names[-1]}")

    @property
    def wettest(self) -> int:
        """The month in which most water gathers, the coldest one where none does; 0 is January."""
        gathered = self.year.gathered.sum(axis=1)
        if not np.any(gathered > 0.0):
            return self.living.coldest
        return self.year.months[int(np.argmax(gathered))]

    def temperatures(self, month: int) -> Array:
        """Of the faces between slices in a month, both outer faces included (°C)."""
        living = self.living
        return layer_temperatures(self.heat, float(living.inside[month]), float(living.outside[month]))[1:-1]

    def profile(self, month: int) -> Profile:
        """Vapour through the slices in a month, with water where it lies at the end of it."""
        faces = self.temperatures(month)
        lying = self.year.lying[self.year.months.index(month)]
        soaked = saturation_pressure(faces[-1]) if self.assembly.soil else None
        beyond = self.living.pressure_outside[month] if soaked is None else soaked
        return vapour_profile(
            self.air,
            faces,
            inside=float(self.living.pressure_inside[month]),
            outside=float(beyond),
            wet=[int(face) for face in np.flatnonzero(lying > 0.0)],
        )

    @property
    def limits(self) -> Array:
        """Water that may lie at each face (kg/m2)."""
        layers = [self.assembly.covers[at].limit for at in self.owner.tolist()]
        return np.minimum([*layers, np.inf], [np.inf, *layers])

    @property
    def used(self) -> float:
        """Water at the worst face and month over what may lie there."""
        return float(np.max(self.year.lying / self.limits))

    @property
    def worst(self) -> tuple[int, int]:
        """Month (0 is January) and face with the most water for its limit."""
        row, face = np.unravel_index(int(np.argmax(self.year.lying / self.limits)), self.year.lying.shape)
        return self.year.months[int(row)], int(face)


def damp_year(assembly: Assembly, living: Living) -> DampYear:
    """Vapour through the covers month by month; the soil over them is damp all the year."""
    resistances = assembly.resistances
    count = len(assembly.covers)
    covers = resistances[1 : 1 + count]
    beyond = float(resistances[1 + count :].sum())
    thick = np.maximum([layer.air for layer in assembly.covers], THINNEST_AIR)
    heat, air, owner = cut_layers(covers, thick)
    whole = np.array([resistances[0], *heat, beyond])
    outer = np.array(
        [
            layer_temperatures(whole, float(inside), float(outside))[-2]
            for inside, outside in zip(living.inside, living.outside, strict=True)
        ]
    )
    months = MonthlyAir(
        inside=living.inside,
        outside=living.outside,
        pressure_inside=living.pressure_inside,
        pressure_outside=saturation_pressure(outer) if assembly.soil else living.pressure_outside,
    )
    return DampYear(
        assembly=assembly,
        living=living,
        heat=whole,
        air=air,
        owner=owner,
        year=wet_year(whole, air, months),
        outer=outer,
    )


def _decide(whole: Whole) -> Iterator[Said]:
    if not whole.house.vaults:
        yield Said(verdict=Verdict.DOES_NOT_APPLY, template="The house has no vault.")
    for vault in whole.house.vaults:
        yield replace(_of_vault(whole, vault), part=f'vault "{vault.name}"')


def studied_assembly(whole: Whole, vault: Vault) -> Assembly:
    """The assembly of a vault, bent where its form is known."""
    study = whole.studies.get(vault.name)
    return assembly_of(whole.house, vault, None if study is None else study.form)


def not_said(missing: tuple[str, ...]) -> Said:
    """Said of what the file leaves open."""
    return Said(
        verdict=Verdict.UNKNOWN,
        template="The file does not say {missing}.",
        values={"missing": ", ".join(dict.fromkeys(missing))},
        advice="Answer the questions below; each tells the cheapest way.",
    )


def _of_vault(whole: Whole, vault: Vault) -> Said:
    assembly = studied_assembly(whole, vault)
    missing = (*assembly.missing, *missing_for_living(whole.house))
    if missing:
        return not_said(missing)
    living = living_of(whole.house)
    damp = damp_year(assembly, living)
    if not np.any(damp.year.lying > 0.0):
        return _dry(whole.house, damp)
    return _wet(whole.house, damp)


def rain_under(damp: DampYear) -> float:
    """What rain adds that runs between the insulation outside a sheet and that sheet (W/m2K); 0 without."""
    covers = damp.assembly.covers
    sheets = [at for at, layer in enumerate(covers) if layer.kind == "membrane"]
    if not sheets:
        return 0.0
    resistances = damp.assembly.resistances
    above = sum(
        float(resistances[1 + at])
        for at, layer in enumerate(covers)
        if at > sheets[-1] and layer.kind == "insulation"
    )
    climate = damp.living.climate
    cold = np.array(climate.mean) < HEATING_BELOW
    rain = float(
        np.sum(np.array(climate.precipitation)[cold]) / max(1.0, float(np.sum(DAYS_OF_MONTHS[cold])))
    )
    return float(rain_correction(rain, above, float(resistances.sum())))


def _dry(house: House, damp: DampYear) -> Said:
    living, month = damp.living, damp.living.coldest
    return Said(
        verdict=Verdict.HOLDS,
        template="No water gathers between the layers in any month; in {month} the room's air is at "
        "{humidity}, and the roof loses {loss}.",
        values={
            "month": MONTH_NAMES[month],
            "humidity": Shown(float(living.humidity[month]), "%", 0),
            "loss": Shown(damp.assembly.transmittance + rain_under(damp), "W/m2K", 3),
        },
        demand=0.0,
        capacity=float(np.min(damp.limits)),
        unit="kg/m2",
        ratio=0.0,
        steps=(*_heat_steps(damp), *living_steps(house, living, month)),
    )


def _wet(house: House, damp: DampYear) -> Said:
    month, face = damp.worst
    amount, limit = damp.used * float(damp.limits[face]), float(damp.limits[face])
    stays = not damp.year.dries
    verdict = Verdict.FAILS if stays else verdict_of(damp.used)
    left = " {left} of it never dries, and every year adds as much." if stays else " It dries by autumn."
    return Said(
        verdict=verdict,
        template="{amount} of water lies {where} in {month}; {limit} may." + left,
        values={
            "amount": Shown(amount, "kg/m2", 3),
            "where": damp.faces[face],
            "month": MONTH_NAMES[month],
            "limit": Shown(limit, "kg/m2", 2),
            "left": Shown(damp.year.left, "kg/m2", 3),
        },
        place=damp.faces[face],
        demand=amount,
        capacity=limit,
        unit="kg/m2",
        ratio=max(damp.used, 1.0 + damp.year.left / limit) if stays else damp.used,
        advice="" if verdict is Verdict.HOLDS else _advice(damp),
        steps=(
            *_heat_steps(damp),
            *living_steps(house, damp.living, damp.living.coldest),
            step(
                f"Most water {damp.faces[face]}, by the months",
                "M",
                "Σ g·t, drying taken off",
                "",
                Shown(amount, "kg/m2", 3),
                MONTHLY,
            ),
            step("Water over what may lie there", "ratio", "M/M_max", f"{amount:.3f}/{limit:.2f}",
                 Shown(damp.used, "", 3), LIMIT),
        ),
    )  # fmt: skip


def _heat_steps(damp: DampYear) -> Iterator[Step]:
    total, rain = float(damp.assembly.resistances.sum()), rain_under(damp)
    yield step(
        "Resistance over the crown: film, layers bent as they are, soil, film",
        "R_T",
        "R_si + Σ R + R_se",
        " + ".join(f"{value:.3f}" for value in damp.assembly.resistances),
        Shown(total, "m2K/W", 3),
        LAYERED,
    )
    yield step(
        "Heat through a square metre of the room's face",
        "U",
        "1/R_T",
        f"1/{total:.3f}",
        Shown(1.0 / total, "W/m2K", 3),
    )
    if rain > 0.0:
        yield step(
            "What rain adds that runs under the insulation outside the sheet",
            "ΔU",
            "p·0.04·(R_1/R_T)²",
            "mean rain of the months under 10 °C, in mm a day",
            Shown(rain, "W/m2K", 3),
            RAIN,
        )


def _advice(damp: DampYear) -> str:
    """The smallest changes that let it dry, each reckoned."""
    found = [text for text in (_with_control(damp), _turned(damp)) if text]
    if not found:
        return (
            "No vapour control layer and no other order of these layers lets it dry: bring in more fresh air "
            "([air] flow), or make less damp ([moisture])."
        )
    return "; or ".join(found) + ". Tight joints count for more than the sheet."


def _with_control(damp: DampYear) -> str:
    """The least vapour control layer inside the insulation that keeps it dry."""
    covers = damp.assembly.covers
    at = next((count for count, layer in enumerate(covers) if layer.kind == "insulation"), len(covers))
    for air in CONTROLS:
        sheet = _control(air)
        changed = replace(damp.assembly, covers=(*covers[:at], sheet, *covers[at:]))
        if _holds(damp_year(changed, damp.living)):
            before = f"inside the {covers[at].name}" if at < len(covers) else "outermost"
            return f'Add a [[vault.cover]] kind = "vapour control" with vapour = "{air:g} m" {before}'
    return ""


def _control(air: float) -> AssemblyLayer:
    return AssemblyLayer(
        name="vapour control layer", kind="vapour control", thickness=2e-4, conductivity=0.33, density=920.0,
        heat_capacity=2200.0, air=air, limit=0.5, rots=False, source="tried",
    )  # fmt: skip


def _turned(damp: DampYear) -> str:
    """The tightest sheet laid inside the insulation, if that keeps it dry."""
    covers = list(damp.assembly.covers)
    sheets = [count for count, layer in enumerate(covers) if layer.kind == "membrane"]
    warm = next((count for count, layer in enumerate(covers) if layer.kind == "insulation"), None)
    if warm is None or not sheets or sheets[0] < warm:
        return ""
    sheet = covers.pop(sheets[0])
    covers.insert(warm, sheet)
    changed = replace(damp.assembly, covers=tuple(covers))
    if not _holds(damp_year(changed, damp.living)):
        return ""
    return (
        f"Lay the {sheet.name} inside the insulation, and only insulation that bears water (extruded "
        "foam, foam glass) outside it"
    )


def _holds(damp: DampYear) -> bool:
    return damp.year.dries and damp.used <= 1.0


LAYERS_DRY = HouseRule(
    name="layers-dry-out",
    title="The layers over the ribs dry out",
    why="Vapour of the room goes outwards through the layers in winter and turns to water where they are "
    "cold. What summer does not dry stays for good, in wood and insulation that nobody sees.",
    cites=(MONTHLY, LAYERED),
    decide=_decide,
    asks=(*ASKED, "vault.cover", "vault.cover.material", "vault.mound.crown"),
)
