"""Whether the people in the house get fresh air enough."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.vapour_sources import CARBON_AWAKE, FRESH
from bermwright.data.works.fabric import WHORADON
from bermwright.handbook.air import OUTDOOR_CARBON, air_for, carbon_dioxide
from bermwright.house import Supply
from bermwright.rules.damp.layers import not_said
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.ribs.common import ratio_step, step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.rules.nouns import Whole

RADON = Cite(
    work=WHORADON,
    place="radon enters from the soil and grows with poor ventilation",
    provenance=Provenance.MEMORY,
)
WINDOWS = (
    " Windows give that only while somebody opens them: a fixed opening, a tube or a fan gives it at "
    "night too."
)


def _decide(whole: Whole) -> Iterator[Said]:
    house = whole.house
    air, people = house.air, house.about.people
    missing = [] if people is not None else ["house.people"]
    missing += ["air"] if air is None else []
    if air is not None:
        missing += [f"air.{name}" for name in ("supply", "flow") if getattr(air, name) is None]
    if air is None or air.flow is None or people is None or missing:
        yield not_said(tuple(missing))
        return
    if people == 0:
        yield Said(verdict=Verdict.DOES_NOT_APPLY, template="Nobody lives in the house.")
        return
    yield _known(people, air.flow, windows=air.supply is Supply.WINDOWS)


def _known(people: int, flow: float, *, windows: bool) -> Said:
    made = people * CARBON_AWAKE.value
    limit = OUTDOOR_CARBON + FRESH.value
    need = float(air_for(made, limit))
    share = float(carbon_dioxide(made, flow))
    ratio = need / flow if flow > 0.0 else np.inf
    verdict = verdict_of(ratio)
    template = (
        "{flow} of fresh air for {people} people: carbon dioxide goes to {carbon} ppm; {limit} ppm may be."
    )
    if flow == 0.0:
        template = "No fresh air comes in: carbon dioxide, damp and radon rise without bound."
    wanted = Shown(np.ceil(need * 3600.0 / 5.0) * 5.0 / 3600.0, "m3/h", 0).text()
    return Said(
        verdict=verdict,
        template=template,
        values={
            "flow": Shown(flow, "m3/h", 0),
            "people": str(people),
            "carbon": f"{share * 1e6:.0f}" if flow > 0.0 else "∞",
            "limit": f"{limit * 1e6:.0f}",
        },
        demand=need,
        capacity=flow,
        unit="m3/h",
        ratio=ratio,
        advice=""
        if verdict is Verdict.HOLDS
        else f'Bring in more: [air] flow = "{wanted}" keeps it under.' + (WINDOWS if windows else ""),
        steps=tuple(_steps(people, flow, (need, share, ratio))),
    )


def _steps(people: int, flow: float, found: tuple[float, float, float]) -> Iterator[Step]:
    need, share, ratio = found
    made = people * CARBON_AWAKE.value
    yield step("Carbon dioxide of the people, awake", "G", "n·20 l/h", f"{people}·20 l/h",
               Shown(made, "m3/h", 3), CARBON_AWAKE.cite)  # fmt: skip
    if flow > 0.0:
        yield step("Carbon dioxide after some hours, share of the air", "C", "C_0 + G/V̇",
                   f"{OUTDOOR_CARBON:.6f} + {made:.3g}/{flow:.4f}", Shown(share, "%", 3))  # fmt: skip
    yield step("Fresh air that keeps it 800 ppm over outdoors", "V̇_min", "G/(C − C_0)", f"{made:.3g}/800e-6",
               Shown(need, "m3/h", 0), FRESH.cite)  # fmt: skip
    yield ratio_step("Air needed over air that comes in", "V̇_min/V̇", f"{need:.4f}/{flow:.4f}", ratio)


FRESH_AIR = HouseRule(
    name="air-is-fresh",
    title="Air is fresh",
    why="An earth-covered house is tight. Stale air brings headaches, then damp and mould; where the ground "
    "gives "
    "off radon, too little air lets it gather: have it measured through the first winter.",
    cites=(CARBON_AWAKE.cite, FRESH.cite, RADON),
    decide=_decide,
    asks=("house.people", "air", "air.supply", "air.flow"),
)
