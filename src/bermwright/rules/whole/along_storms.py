"""Wind and earthquake along the axis: the lagged shell without soil, the finished house shaken."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.terrain import GROUND_CITE, STRONG_SHAKING
from bermwright.data.works.actions import EN1991_1_4, QUAKE_CITE
from bermwright.handbook import soils
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step, timber_cite
from bermwright.rules.whole.along import GRIP_CITE, HELP, end_push, racking, unlike
from bermwright.rules.whole.slopes import quake_share
from bermwright.rules.whole.storms import LOW_DUCTILITY, WIND_FACTOR, site_gust, soil_shaken
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.rules.study import Study
    from bermwright.rules.whole.along import Racking

FRONT_AND_BACK = 0.8 + 0.5
"""Push on one end and pull on the other (-)."""
END_CITE = Cite(work=EN1991_1_4, place="table 7.1, zones D and E", provenance=Provenance.MEMORY)
NAILS = "how the planks are nailed"


def _decide(study: Study) -> Iterator[Said]:
    held = racking(study)
    gust, share = site_gust(study), quake_share(study)
    if gust is None:
        yield _unknown("wind", "the file gives no wind", "[site] wind")
    elif held.nails is None:
        yield _unknown("wind", f"the file does not say {NAILS}", "[[vault.cover]] nail and nails")
    else:
        yield _wind(study, held, gust)
    if share is None:
        yield _unknown("an earthquake", "no ground acceleration is given", "[site] ground_acceleration")
    elif share > 0.0:
        yield _quake(study, held, share)


def _unknown(what: str, why: str, write: str) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="Whether {what} leans the house along its axis is not known: {why}.",
        values={"what": what, "why": why},
        advice=f"Answer the question about {write}.",
    )


def end_area(study: Study) -> float:
    """Of one end, between the ribs and above their feet (m2): what is below pushes on the walls."""
    inside = study.form.rib.inside
    return float(np.trapezoid(np.maximum(inside.z - study.form.springing, 0.0), inside.x))


def _wind(study: Study, held: Racking, gust: float) -> Said:
    """The lagged shell: no soil holds it yet, and the ends are closed."""
    area = end_area(study)
    asked = WIND_FACTOR * gust * FRONT_AND_BACK * area
    there = (held.nails or 0.0) + held.boards
    ratio = asked / there if there > 0.0 else float("inf")
    steps = (
        step("One end between ribs and feet", "A", "∫ z dx", "", Shown(area, "m2", 2)),
        step("Push on one end and pull on the other, with its factor", "W_d", "1.5·q_p·1.3·A",
             f"1.5 · {gust / 1e3:.3f} · {FRONT_AND_BACK:g} · {area:.2f}", Shown(asked, "kN", 2), END_CITE),
        *_held_steps(held, there, sides=False),
        ratio_step("Asked over there", "W_d / R_d", f"{asked / 1e3:.3f} / {there / 1e3:.3f}", ratio),
    )  # fmt: skip
    return _said(
        "Lagged, before any soil: wind along it pushes with {asked}; nails and boards hold {there}.",
        (asked, there, ratio), steps, stage=_name(study, StageKind.LAGGED),
    )  # fmt: skip


def _quake(study: Study, held: Racking, share: float) -> Said:
    """The finished house: its own inertia, and the soil of one end pushing more; all factors 1."""
    try:
        more = soil_shaken(study, share)
    except OutOfRangeError as error:
        return _unknown("an earthquake", str(error).rstrip("."), "[vault.fill] friction_angle")
    own = shell_weight(study)
    inertia = share * STRONG_SHAKING / LOW_DUCTILITY * own
    soil, grown = _ends(study, more)
    asked, there = inertia + soil + grown, (held.nails or 0.0) + held.boards + held.sides
    if held.nails is None and asked > there:
        return _unknown("an earthquake", f"the file does not say {NAILS}", "[[vault.cover]] nail and nails")
    ratio = asked / there if there > 0.0 else float("inf")
    steps = (
        step("Weight of ribs, planks and layers", "W", "", "", Shown(own, "kN", 1)),
        step("Their inertia", "E_i", "a_g·S/g · 2.5/1.5 · W",
             f"{share:.3f} · {STRONG_SHAKING:g} / {LOW_DUCTILITY:g} · {own / 1e3:.1f}",
             Shown(inertia, "kN", 2), GROUND_CITE),
        step("Soil at rest, one end less the other, into the shell", "E_0", "", "", Shown(soil, "kN", 2)),
        step("What shaking adds at the end with more soil", "ΔE", "ΔK/K_0 · E", "", Shown(grown, "kN", 2),
             QUAKE_CITE),
        *_held_steps(held, there, sides=True),
        ratio_step("Asked over there", "E / R_d", f"{asked / 1e3:.3f} / {there / 1e3:.3f}", ratio),
    )  # fmt: skip
    return _said(
        "Shaken along its axis the house asks for {asked}; nails, boards and soil at the sides hold {there}.",
        (asked, there, ratio), steps, stage=study.stages[-1].name,
    )  # fmt: skip


def shell_weight(study: Study) -> float:
    """Ribs, planks and layers of the whole vault, without soil (N)."""
    wrapped = [stage for stage in study.stages if stage.kind is StageKind.WRAPPED] or list(study.stages[:1])
    own = [one.down for one in wrapped[0].cases[0].actions if one.permanent and one.down is not None]
    return float(sum(float(np.sum(down)) for down in own)) * study.form.length


def _ends(study: Study, more: float) -> tuple[float, float]:
    """What soil at the ends gives the shell: the difference at rest, and what shaking adds (N)."""
    fill = study.house.fill(study.vault)
    angle = fill.friction_angle.low if fill is not None and fill.friction_angle is not None else 0.0
    own = [end for end in study.house.ends if end.vault == study.vault.name and end.soil_to is not None]
    forces = {str(end.at): end_push(study, end, angle).force for end in own}
    rest = float(soils.at_rest_ratio(angle))
    most = max(forces.values(), default=0.0)
    return abs(unlike(study, forces)), most * more / max(rest, 1e-9)


def _held_steps(held: Racking, there: float, *, sides: bool) -> Iterator[Step]:
    yield step("Couples of the planks' nails over both slopes", "R_n", "2·L·F_d·e/(b·s)", held.couples,
               Shown(held.nails or 0.0, "kN", 2), timber_cite("8.2.2"))  # fmt: skip
    yield step("Boards that stay", "R_b", "", "", Shown(held.boards, "kN", 2), timber_cite("8.2.2"))
    if sides:
        yield step("Half of the soil's grip", "R_s", "", "", Shown(held.sides, "kN", 2), GRIP_CITE)
    yield step("Together", "R_d", "", "", Shown(there, "kN", 2))


def _name(study: Study, kind: StageKind) -> str | None:
    return next((stage.name for stage in study.stages if stage.kind is kind), None)


def _said(
    template: str, sums: tuple[float, float, float], steps: tuple[Step, ...], *, stage: str | None
) -> Said:
    asked, there, ratio = sums
    verdict = verdict_of(ratio)
    return Said(
        verdict=verdict,
        template=template,
        values={"asked": Shown(asked, "kN", 1), "there": Shown(there, "kN", 1)},
        stage=stage,
        demand=asked,
        capacity=there,
        unit="kN",
        ratio=ratio if np.isfinite(ratio) else None,
        advice="" if verdict is Verdict.HOLDS else HELP,
        steps=steps,
    )


STORMS_ALONG = Rule(
    name="storms-do-not-lean-it-along",
    title="Wind and earthquake do not lean it along its axis",
    why="Across, a vault is an arch. Along its axis ribs stand like cards, and until soil lies at the sides "
    "only nails and slanting boards hold them.",
    cites=(END_CITE, QUAKE_CITE, timber_cite("8.2.2")),
    decide=_decide,
    reads_ribs=False,
    asks=("site.wind", "site.ground_acceleration", "vault.cover.nail", "vault.cover.nails"),
)
