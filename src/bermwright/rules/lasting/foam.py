"""Whether insulation outside the walls and under the floor carries for good what presses it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.actions import EN1991_1_1
from bermwright.data.works.practice import TRADE
from bermwright.rules.lasting.crushed import LONG
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step
from bermwright.rules.supports.standing import Standing, standings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.rules.study import Study

CONCRETE, EARTH = 24e3, 20e3
"""Weight of a slab, and of an earth floor, which counts as one (N/m3)."""
PEOPLE = 2e3
"""What people and furniture bring on a dwelling's floor (Pa)."""
SPREAD = 0.3
"""Side of the smallest plate that a stove or a post stands on (m)."""
STOVE = 12e3
"""A stove or a post on that plate (N)."""
FLOOR_CITE = Cite(
    work=EN1991_1_1, place="table 6.2: floors of dwellings 2 kN/m2", provenance=Provenance.MEMORY
)
HEAVY = Cite(work=TRADE, place="a heavy stove or post of 12 kN, spread at 45 degrees through the slab",
             provenance=Provenance.PRACTICE)  # fmt: skip
TAMPED = Cite(work=TRADE, place="soil tamped against a wall presses as much sideways as down at most",
              provenance=Provenance.PRACTICE)  # fmt: skip
ADVICE = "Take insulation that carries more for good: [ground_heat.%s] strength."


def _decide(study: Study) -> Iterator[Said]:
    ground = study.house.ground_heat
    floor, wall = (None, None) if ground is None else (ground.floor, ground.wall)
    if floor is None or floor.insulation is None:
        yield _unknown("how much insulation lies under the floor", "[ground_heat.floor] insulation")
    elif floor.insulation > 0.0:
        yield _under_floor(floor.strength, floor.thickness)
    if wall is None or wall.insulation is None:
        yield _unknown("how much insulation stands outside the walls", "[ground_heat.wall] insulation")
    elif wall.insulation > 0.0:
        yield _beside_wall(study, wall.strength)
    if floor is not None and wall is not None and floor.insulation == 0.0 and wall.insulation == 0.0:
        yield Said(verdict=Verdict.DOES_NOT_APPLY, template="No insulation lies in the ground.")


def _unknown(what: str, write: str) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="The file does not say {what}, so whether it is crushed is not known.",
        values={"what": what},
        advice=f"Write {write}.",
    )


def _under_floor(strength: float | None, thickness: float | None) -> Said:
    if strength is None or thickness is None:
        return _unknown("what the floor's insulation carries, or how thick the floor is",
                        "[ground_heat.floor] strength and thickness")  # fmt: skip
    side = SPREAD + 2.0 * thickness
    spread = STOVE / side**2
    pressure = thickness * CONCRETE + max(PEOPLE, spread)
    ratio = pressure / strength
    steps = (
        step("Slab on it", "g", "t·γ", f"{thickness * 1e3:.0f}·{CONCRETE / 1e6:g}",
             Shown(thickness * CONCRETE, "kPa", 2)),
        step("A heavy stove or post through the slab", "q", "F/(0.3 + 2·t)²",
             f"{STOVE / 1e3:g}/({SPREAD:g} + 2·{thickness:g})^2", Shown(spread, "kPa", 1), HEAVY),
        step("People and furniture instead, at least", "q", "", "", Shown(PEOPLE, "kPa", 1), FLOOR_CITE),
    )  # fmt: skip
    return _said("The insulation under the floor", pressure, strength, ratio, steps=steps, table="floor")


def _beside_wall(study: Study, strength: float | None) -> Said:
    known = [one for one in standings(study) if isinstance(one, Standing)]
    fill = study.house.fill(study.vault)
    weight = None if fill is None else fill.saturated_unit_weight or fill.unit_weight
    if strength is None or not known or weight is None:
        return _unknown("what the walls' insulation carries, or what soil presses it",
                        "[ground_heat.wall] strength, [[wall]] and the weight of the fill")  # fmt: skip
    deepest = max(_depth(study, one) for one in known)
    pressure = weight.high * deepest
    steps = (
        step("Soil over the foot of the wall", "h", "", "", Shown(deepest, "m", 2)),
        step("Soaked and tamped soil presses sideways at most", "p", "γ_sat·h",
             f"{weight.high / 1e3:.1f}·{deepest:.2f}", Shown(pressure, "kPa", 1), TAMPED),
    )  # fmt: skip
    return _said("The insulation outside the walls", pressure, strength, pressure / strength, steps=steps,
                 table="wall")  # fmt: skip


def _depth(study: Study, side: Standing) -> float:
    """From the finished ground over the outer face down to the underside of the wall (m)."""
    sign = (-1.0, 1.0)[side.side]
    out = 0.5 * study.form.span + max(side.outer_face - side.foot, 0.0)
    return max(float(study.form.ground.finished.level(np.array([sign * out]))[0]) - side.bottom, 0.0)


def _said(
    what: str, pressure: float, strength: float, ratio: float, *, steps: tuple[Step, ...], table: str
) -> Said:
    verdict = verdict_of(ratio)
    last = ratio_step(
        "Long-term strength used", "p/f", f"{pressure / 1e3:.3f}/{strength / 1e3:g}", ratio, LONG
    )
    found = Said(
        verdict=verdict,
        template="{what} is pressed with {pressure}; for good it carries {strength}.",
        values={"what": what, "pressure": Shown(pressure, "kPa", 1), "strength": Shown(strength, "kPa", 0)},
        demand=pressure,
        capacity=strength,
        unit="kPa",
        ratio=ratio,
        steps=(*steps, last),
    )
    return found if verdict is Verdict.HOLDS else replace(found, advice=ADVICE % table)


FOAM_HOLDS = Rule(
    name="insulation-in-the-ground-carries",
    title="Insulation in the ground carries",
    why="Foam beside a wall is pressed for the life of the house, and foam under a floor carries the stove. "
    "Squeezed flat it keeps less warmth in, and the floor or the sheet on it moves.",
    cites=(LONG,),
    decide=_decide,
    asks=("ground_heat.wall.insulation", "ground_heat.wall.strength", "ground_heat.floor.insulation",
          "ground_heat.floor.strength", "ground_heat.floor.thickness"),
    reads_ribs=False,
)  # fmt: skip
