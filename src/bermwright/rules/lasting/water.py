"""Whether ground water stays below the floor, and its damp below the slab."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import level_text
from bermwright.data.works.actions import EN1997
from bermwright.data.works.lasting import CAPILLARY
from bermwright.handbook.lasting import lifting_head
from bermwright.house.choices import SoilKind
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.rules.study import Study

COARSE, FINE = 0.3, 1.2
"""How far water rises by itself in sand or gravel, and in fine soil (m)."""
CONCRETE = 24e3
"""Weight of a slab (N/m3)."""
FAVOURABLE = 0.9
RISE = Cite(work=CAPILLARY, place="coarse sand up to 0.3 m, fine sand and silt up to 1.2 m",
            provenance=Provenance.READ)  # fmt: skip
UPLIFT = Cite(
    work=EN1997, place="2.4.7.4 and table A.15: 0.9 on what holds down", provenance=Provenance.MEMORY
)
HIGHER = (
    "Raise the floor ([site] floor) over the highest water, or build higher up the slope. Pumps fail in the "
    "storm that needs them."
)
GRAVEL = "Lay 150 mm of clean washed gravel and a tight sheet under the floor, or raise it."


def _decide(study: Study) -> Iterator[Said]:
    water = study.form.ground.water_high
    floor = study.house.ground_heat.floor if study.house.ground_heat else None
    if water is None or floor is None or floor.thickness is None or floor.insulation is None:
        what = (
            "how deep the ground water is" if water is None else "how thick the floor and its insulation are"
        )
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The file does not say {what}: whether water comes under the floor is not known.",
            values={"what": what},
            advice="Answer the questions about [site] water_depth and [ground_heat.floor].",
        )
        return
    underside = -(floor.thickness + floor.insulation)
    yield _said(study, underside, underside - water, floor.thickness)


def _signed(level: float) -> str:
    """A level with a minus sign that is no hyphen."""
    return f"{level:.2f}".replace("-", "−")


def _said(study: Study, underside: float, gap: float, slab: float) -> Said:
    soil = study.house.site.soil[0] if study.house.site.soil else None
    reach = COARSE if soil is not None and soil.kind is SoilKind.SAND else FINE
    floats = float(lifting_head(slab * CONCRETE, favourable=FAVOURABLE))
    under = step("Underside of slab and insulation", "z", "", "", Shown(underside, "m", 2))
    highest = step(
        "From there down to the highest ground water",
        "a",
        "z − z_w",
        f"({_signed(underside)}) − ({_signed(underside - gap)})",
        Shown(gap, "m", 2),
    )
    lifted = step("A head of water that would lift the bare slab", "h", "γ·g/γ_w",
                  f"{FAVOURABLE:g} · {slab:.3f} · 24 / 9.81", Shown(floats, "m", 2), UPLIFT)  # fmt: skip
    if gap <= 0.0:
        return Said(
            verdict=Verdict.FAILS,
            template="Ground water rises to {water}, over the underside of the floor at {under}; a head of "
            "{floats} lifts the slab.",
            values={"water": level_text(underside - gap), "under": level_text(underside),
                    "floats": Shown(floats, "m", 2)},
            advice=HIGHER,
            steps=(under, highest, lifted),
        )  # fmt: skip
    ratio = reach / gap
    holds = ratio <= 1.0
    return Said(
        verdict=Verdict.HOLDS if holds else Verdict.TIGHT,
        template="The highest ground water stays {gap} under the floor; damp rises {reach} in this soil.",
        values={"gap": Shown(gap, "m", 2), "reach": Shown(reach, "m", 1)},
        demand=reach,
        capacity=gap,
        unit="m",
        ratio=ratio,
        advice="" if holds else GRAVEL,
        steps=(
            under, highest, lifted,
            ratio_step("Rise of damp over the room there is for it", "h_c/a", f"{reach:g}/{gap:.2f}",
                       ratio, RISE),
        ),
    )  # fmt: skip


FLOOR_DRY = Rule(
    name="water-stays-below-the-floor",
    title="Water stays below the floor",
    why="A house in the ground fills where ground water stands over its floor; snow melt shows it, not the "
    "day on which one digs. Water under a slab lifts it.",
    cites=(RISE, UPLIFT),
    decide=_decide,
    asks=("site.water_depth", "ground_heat.floor.thickness", "ground_heat.floor.insulation"),
    reads_ribs=False,
)
