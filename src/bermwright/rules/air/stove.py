"""Whether every stove has air, and whether the house draws its smoke back."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.fabric import STOICHIOMETRY
from bermwright.data.works.practice import TRADE
from bermwright.handbook.air import stove_air, underpressure
from bermwright.house import StoveAir, Supply
from bermwright.rules.damp.layers import not_said
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.ribs.common import ratio_step, step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.house import Air, House, Stove
    from bermwright.rules.nouns import Whole

MOST = 4.0
"""Pa below outdoors at which a stove that takes its air from the room may burn."""
EXCESS = 2.5
"""Air over the least that burns the wood: closed iron and masonry stoves."""
WATER = 0.2
"""Water in the wood as it goes in, if [wood] does not say it."""
LIMIT = Cite(work=TRADE, place="4 Pa for stoves on the room's air", provenance=Provenance.PRACTICE)
BURNS = Cite(work=STOICHIOMETRY, place="air for dry wood", provenance=Provenance.DERIVED)
ALARM = " Carbon monoxide alarms belong in the room with the stove and where people sleep."


@dataclass(frozen=True, slots=True, kw_only=True)
class Draw:
    """What is drawn out of the house, and what comes in by plan."""

    stove: float
    """m3/s."""
    fans: float
    planned: float
    """By tube, openings or fan, not by windows (m3/s)."""
    volume: float
    """m3."""

    @property
    def through_leaks(self) -> float:
        """What must come in through chinks (m3/s)."""
        return max(0.0, self.stove + self.fans - self.planned)


def volume_of(whole: Whole) -> float | None:
    """Air in all vaults (m3); None where one has no form yet."""
    if len(whole.studies) < len(whole.house.vaults) or not whole.studies:
        return None
    total = 0.0
    for study in whole.studies.values():
        inside = study.form.rib.inside
        # The room under the ribs: the arch over its feet, and the walls down to the floor.
        arch = float(np.trapezoid(np.maximum(inside.z, 0.0), inside.x))
        total += arch * study.form.length
    return total


def _decide(whole: Whole) -> Iterator[Said]:
    if not whole.house.stoves:
        yield Said(verdict=Verdict.DOES_NOT_APPLY, template="The house has no stove.")
    for stove in whole.house.stoves:
        yield replace(_of_stove(whole, stove), part=f'stove "{stove.name}"')


def _of_stove(whole: Whole, stove: Stove) -> Said:
    air = whole.house.air
    if stove.air is None:
        return not_said(("stove.air",))
    if stove.air is StoveAir.OWN_DUCT:
        return Said(
            verdict=Verdict.HOLDS,
            template="It draws its air through a duct of its own; the room's air is not burned.",
        )
    if air is None:
        return not_said(("air",))
    return _from_room(whole, stove, air)


def _from_room(whole: Whole, stove: Stove, air: Air) -> Said:
    missing = [f"stove.{name}" for name in ("batch", "burn") if getattr(stove, name) is None]
    missing += [
        f"air.{name}" for name in ("leakage", "extract", "supply", "flow") if getattr(air, name) is None
    ]
    volume = volume_of(whole)
    if missing:
        return not_said(tuple(missing))
    if volume is None or stove.batch is None or stove.burn is None or air.leakage is None:
        return Said(
            verdict=Verdict.UNKNOWN,
            template="The volume of the rooms is not known before their vaults can be built.",
            advice="Answer the questions about the vaults.",
        )
    draw = Draw(
        stove=float(stove_air(_dry(whole.house) * stove.batch / stove.burn, EXCESS)),
        fans=air.extract or 0.0,
        planned=0.0 if air.supply is Supply.WINDOWS else air.flow or 0.0,
        volume=volume,
    )
    below = float(underpressure(draw.through_leaks, air.leakage / 3600.0, volume))
    verdict = verdict_of(below / MOST)
    return Said(
        verdict=verdict,
        template="It burns {stove} of the room's air, fans draw {fans}, {planned} comes in by plan: the "
        "house goes "
        "{below} below outdoors; {most} may be.",
        values={
            "stove": Shown(draw.stove, "m3/h", 0),
            "fans": Shown(draw.fans, "m3/h", 0),
            "planned": Shown(draw.planned, "m3/h", 0),
            "below": Shown(below, "Pa", 1),
            "most": Shown(MOST, "Pa", 0),
        },
        demand=below,
        capacity=MOST,
        unit="Pa",
        ratio=below / MOST,
        advice="" if verdict is Verdict.HOLDS else _advice(),
        steps=tuple(_steps(draw, air.leakage, below)),
    )


def _advice() -> str:
    return (
        'Give it a duct of its own from outdoors ([[stove]] air = "own duct"), or planned air that does not '
        "hang on "
        "an open window; never run a kitchen hood with it." + ALARM
    )


def _dry(house: House) -> float:
    """Share of dry wood in what is put in."""
    return 1.0 - (WATER if house.wood is None else house.wood.moisture)


def _steps(draw: Draw, leakage: float, below: float) -> Iterator[Step]:
    yield step("Air that the wood burns", "V̇_s", "ṁ·λ·L/ρ", f"λ = {EXCESS:g}, L = 5.96",
               Shown(draw.stove, "m3/h", 1), BURNS)  # fmt: skip
    yield step(
        "Air that must come through chinks",
        "V̇_l",
        "V̇_s + V̇_fans − V̇_planned, not below 0",
        f"{draw.stove:.4f} + {draw.fans:.4f} − {draw.planned:.4f}",
        Shown(draw.through_leaks, "m3/h", 1),
    )
    yield step(
        "Pressure below outdoors",
        "Δp",
        "50·(V̇_l/(n_50·V))^(1/0.65)",
        f"n_50 = {leakage:g}/h, V = {draw.volume:.0f} m3",
        Shown(below, "Pa", 2),
    )
    yield ratio_step("Pressure over what may be", "Δp/4", f"{below:.2f}/4", below / MOST, LIMIT)


STOVE_AIR = HouseRule(
    name="stove-has-its-air",
    title="Every stove has its air",
    why="A fire burns the air of the room. In a tight house it draws against fans and hoods, and loses: "
    "smoke and "
    "carbon monoxide come back into the room.",
    cites=(BURNS, LIMIT),
    decide=_decide,
    asks=("stove.air", "stove.batch", "stove.burn", "air", "air.leakage", "air.extract"),
)
