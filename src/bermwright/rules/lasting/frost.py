"""Whether frost stays out from under the footings, or does no harm there."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import level_text
from bermwright.data.climates import PREFIX, normals
from bermwright.data.materials import material
from bermwright.data.works.lasting import ALDRICH1953, FROSTDATUM, FROSTTHREE, STEFANWSDOT
from bermwright.data.works.practice import TRADE
from bermwright.form.heat.ground import soil_material
from bermwright.handbook.lasting import frost_depth, insulated_frost_depth
from bermwright.handbook.weather import freezing_index_simple
from bermwright.handbook.weather.frost import DAYS_OF_MONTHS
from bermwright.house import Frost
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step
from bermwright.rules.supports.standing import Missing, standings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.house import House, Soil
    from bermwright.rules.study import Study
    from bermwright.rules.supports.standing import Standing

COLDER = 3.0
"""How much colder than its average every month of a hard winter is (K)."""
BESIDE = 1.0
"""Where the ground beside the house is read, out from its wall (m)."""
DAY = 86_400.0
BERGGREN = Cite(work=ALDRICH1953, place="modified Berggren equation, solved", provenance=Provenance.DERIVED)
HARD = Cite(
    work=TRADE, place="a winter of which every month is 3 K colder; no snow", provenance=Provenance.PRACTICE
)
THREE = Cite(work=FROSTTHREE, place="susceptible soil, freezing and water: one away, no heave",
             provenance=Provenance.READ)  # fmt: skip
LOWEST = Cite(work=FROSTDATUM, place="depth counts from the lowest ground beside the footing",
              provenance=Provenance.READ)  # fmt: skip
UNDER = Cite(work=STEFANWSDOT, place="with a resistance on top", provenance=Provenance.DERIVED)
ADVICE = (
    "Take the footings deeper, lay [ground_heat.umbrella] wider than frost is deep, or dig the soil under "
    "them out to that depth and lay drained gravel."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ColdGround:
    """How deep a hard winter freezes open ground."""

    index: float
    """K s."""
    conductivity: float
    latent: float
    """Of the water in it (J/m3)."""
    open: float
    """Depth without insulation (m)."""
    depth: float
    """With the umbrella, where it is wide enough (m)."""

    @property
    def bare(self) -> float:
        """The same if the ground had no warmth of its own (m)."""
        return float(np.sqrt(2.0 * self.conductivity * self.index / self.latent))


def _decide(study: Study) -> Iterator[Said]:
    sides = standings(study)
    known = [one for one in sides if not isinstance(one, Missing)]
    places = [place for one in sides if isinstance(one, Missing) for place in one.places]
    climate = study.house.site.climate
    if not known or len(known) < len(sides) or climate is None or not climate.startswith(PREFIX):
        what = "a packaged climate" if not places and known else "what the feet stand on"
        yield _not_known(what)
        return
    deepest = [_said(study, one) for one in known]
    # Both sides often say the same: the one that is nearer to failing speaks.
    yield max(deepest, key=lambda said: (said.verdict is Verdict.FAILS, said.verdict is Verdict.UNKNOWN,
                                         said.demand or 0.0))  # fmt: skip


def _not_known(what: str) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="The file does not say {what}: how deep frost goes under the footings is not known.",
        values={"what": what},
        advice="Write [[wall]] and [[footing]] tables with their levels, and [site] climate; or ask the "
        "building office for the depth that stays unfrozen.",
    )


def cold_ground(house: House, soil: Soil | None, called: str) -> ColdGround:
    """Frost in open ground of that soil in a hard winter, without snow."""
    climate = normals(house.site.climate or "")
    months = np.array(climate.mean) - COLDER
    index = float(freezing_index_simple(months))
    carries = soil_material(soil, called, [])
    frozen = carries.frozen_conductivity or carries.conductivity
    conductivity = 0.5 * (carries.conductivity + frozen)
    mean = float(np.mean(climate.mean))
    if mean < 0.0:
        raise OutOfRangeError("The ground is frozen all year here: no footing of this kind holds.")
    duration = max(float(DAYS_OF_MONTHS[months < 0.0].sum()), 1.0) * DAY
    deep = frost_depth(conductivity, index, mean=mean, duration=duration, latent=carries.latent,
                       capacity=carries.capacity)  # fmt: skip
    found = ColdGround(index=index, conductivity=conductivity, latent=carries.latent, open=deep, depth=deep)
    hat = house.ground_heat.umbrella if house.ground_heat else None
    if hat is None or hat.reach < deep or hat.depth >= deep:
        return found
    resistance = hat.thickness / material(hat.material).conductivity
    below = float(insulated_frost_depth(deep - hat.depth, conductivity, resistance))
    return replace(found, depth=min(deep, hat.depth + hat.thickness + below))


def lowest_ground(study: Study, side: Standing) -> float:
    """The lowest ground beside a footing: along its side, and at the ends of the vault (m)."""
    sign = (-1.0, 1.0)[side.side]
    out = 0.5 * study.form.span + side.outer_face - side.foot + BESIDE
    beside = float(study.form.ground.finished.level(np.array([sign * out]))[0])
    name = study.vault.name
    ends = [one.soil_to for one in study.house.ends if one.vault == name and one.soil_to is not None]
    return min([beside, *ends])


def _said(study: Study, side: Standing) -> Said:
    soil = study.house.soil(side.ground.name) if side.ground else None
    cold = cold_ground(study.house, soil, soil.name if soil else "the ground")
    grade = lowest_ground(study, side)
    cover = grade - side.base
    ratio = cold.depth / cover if cover > 0.0 else float("inf")
    values: dict[str, Shown | str] = {
        "depth": Shown(cold.depth, "m", 2), "cover": Shown(cover, "m", 2), "grade": level_text(grade),
    }  # fmt: skip
    template = "Frost of a hard winter goes {depth} deep, the footings {cover}."
    said = Said(verdict=Verdict.HOLDS, template=template, values=values, demand=cold.depth, capacity=cover,
                unit="m", steps=_steps(cold, side, grade))  # fmt: skip
    if ratio <= 1.0:
        verdict = verdict_of(ratio)
        reached = ratio_step("Frost over the depth of the footings", "X/d",
                             f"{cold.depth:.2f}/{cover:.2f}", ratio)  # fmt: skip
        return replace(said, verdict=verdict, ratio=ratio, steps=(*said.steps, reached),
                       advice="" if verdict is Verdict.HOLDS else ADVICE)  # fmt: skip
    frost = soil.frost if soil else None
    if frost is Frost.NOT_SUSCEPTIBLE:
        return replace(said, template=template + " The soil there does not heave.")
    if frost is None:
        return replace(said, verdict=Verdict.UNKNOWN,
                       template=template + " Whether that soil heaves is not said.",
                       advice="Answer the question about [[site.soil]] frost. " + ADVICE)  # fmt: skip
    return replace(said, verdict=Verdict.FAILS, advice=ADVICE,
                   template=template + " The soil there heaves and lifts them.")  # fmt: skip


def _steps(cold: ColdGround, side: Standing, grade: float) -> tuple[Step, ...]:
    return (
        step(f"Cold of a hard winter, every month {COLDER:g} K colder than its mean", "F", "Σ −T·d",
             f"{cold.index / DAY:.0f} °C·d", Shown(cold.index, "K d", 0), HARD),
        step(f"Frost in open ground without snow, {cold.conductivity:.2f} W/(m K)", "X", "λ·√(2·k·F/L)",
             f"{cold.open / cold.bare:.3f} · √(2 · {cold.conductivity:.3f} · {cold.index / DAY:.0f} · "
             f"86400 / ({cold.latent / 1e6:.2f} · 10^6))",
             Shown(cold.open, "m", 2), BERGGREN),
        step("The same under the umbrella, where it reaches out further than that", "X'",
             "√((k·R)² + X²) − k·R, from its underside down", "", Shown(cold.depth, "m", 2), UNDER),
        step("Lowest ground beside the footing, less its underside", "d", "z_g − z_f",
             f"{grade:.2f} − ({side.base:.2f})".replace("-", "−"), Shown(grade - side.base, "m", 2), LOWEST),
    )  # fmt: skip


FROST = Rule(
    name="frost-stays-under-the-footings",
    title="Frost stays away from under the footings",
    why="Soil that freezes under a footing lifts it, a little more every winter; the vault on it then "
    "spreads or cracks. It begins at the open front, where no mound keeps the ground warm.",
    cites=(BERGGREN, HARD, THREE, LOWEST),
    decide=_decide,
    asks=("site.climate", "site.soil.frost", "wall", "footing"),
    reads_ribs=False,
)
