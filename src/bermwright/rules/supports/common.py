"""What the rules on supports share: what is said at the governing moment, what is not known, marks."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict
from bermwright.base.marks import Arrows, Note, Ring
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import ratio_text
from bermwright.data.supports import EQU
from bermwright.data.works.actions import EN1997
from bermwright.rules.nouns import Said
from bermwright.rules.ribs.common import RIBS_FIRST, step
from bermwright.rules.supports.acting import BLOCKED
from bermwright.rules.supports.base import found, sides_of
from bermwright.rules.supports.standing import across
from bermwright.stages.loads import WATER

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from bermwright.base.findings import Finding, Step
    from bermwright.base.marks import Mark
    from bermwright.rules.study import Study
    from bermwright.rules.supports.base import Base, Governing
    from bermwright.rules.supports.standing import Missing, Standing

WALL_CITE = Cite(work=EN1997, place="section 9, walls", provenance=Provenance.MEMORY)
NOTHING_THERE = (
    "Write a [[wall]] table (vault, kind, thickness, bottom, unit_weight, strength) and a [[footing]] under "
    "it, or a [[footing]] alone."
)
ARROWS = 9


def each_part(
    study: Study,
    decide: Callable[[Study, tuple[Standing, ...]], Iterator[Said]],
    *,
    needs: Callable[[Standing], tuple[str, ...]] = lambda _standing: (),
    only: str = "",
) -> Iterator[Said]:
    """What a rule says of every part, both sides of one part together, and of sides that are not known.

    A rule on `only` one kind of part does not apply where nothing is described: others say that.
    """
    known, missing = sides_of(study)
    if only and not known and not any(one.places for one in missing):
        yield does_not_apply(only)
        return
    yield from _missing(missing)
    parts: dict[str, list[Standing]] = {}
    for one in known:
        parts.setdefault(one.part, []).append(one)
    for part, sides in parts.items():
        lost = tuple(dict.fromkeys(place for side in sides for place in needs(side)))
        if lost:
            yield _not_said(part, lost)
        else:
            yield from decide(study, tuple(sides))


def _missing(sides: tuple[Missing, ...]) -> Iterator[Said]:
    nothing = [one for one in sides if not one.places]
    if nothing:
        where = "the feet" if len(nothing) > 1 else f"the {('left', 'right')[nothing[0].side]} foot"
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The file does not say what stands under {where}.",
            values={"where": where},
            advice=NOTHING_THERE,
        )
    seen = set()
    for one in sides:
        if one.places and one.part not in seen:
            seen.add(one.part)
            yield _not_said(one.part, one.places)


def _not_said(part: str, places: tuple[str, ...]) -> Said:
    listed = ", ".join(places)
    return Said(
        verdict=Verdict.UNKNOWN,
        template="Not known: the file does not say {places}.",
        values={"places": listed},
        advice=f"Answer the questions about {listed}.",
        part=part,
    )


def feet_lost(bases: list[Base]) -> bool:
    """Whether some soil run found no state of rest of the ribs, so that the feet's forces are not known."""
    return not all(found(base) for base in bases)


def feet_unknown(part: str) -> Said:
    """Said where the forces of the feet are not known."""
    return Said(
        verdict=Verdict.UNKNOWN,
        template="Not known: some soil run finds no state of rest of the ribs, so the feet's forces are not "
        "known.",
        advice=RIBS_FIRST,
        part=part,
    )


def when(top: Governing) -> str:
    """Stage and case, to begin a sentence with."""
    now = top.now
    case = BLOCKED if top.blocked and now.case is now.stage.cases[0] else now.case.name
    stage = now.stage.name
    return stage[:1].upper() + stage[1:] + ("" if case == "permanent" else f", {case}")


def at(top: Governing, said: Said) -> Said:
    """What is said of the governing moment, with stage, case, place, corner and spot."""
    standing, now = top.base.standing, top.now
    corner: Mapping[str, Shown | str] = {**top.corner.corner, "factors": top.base.acting.name}
    return replace(
        said,
        values={"when": when(top), "way": top.base.word, "side": standing.side_name, **said.values},
        stage=now.stage.name,
        case=BLOCKED if top.blocked else now.case.name,
        place=f"{standing.side_name}, {top.base.word}",
        ratio=top.ratio if math.isfinite(top.ratio) else None,
        corner=corner,
        advice="" if said.verdict is Verdict.HOLDS else said.advice,
        spot=spot_of(top),
        part=standing.part,
    )


def spot_of(top: Governing) -> Spot:
    """The edge over which it would give way, at its base."""
    standing = top.base.standing
    edge = top.base.tip
    return Spot(across(top.base.acting.study, standing, edge), standing.base)


def acting_steps(top: Governing) -> tuple[Step, ...]:
    """The forces that press at the governing moment, factored."""
    base = top.base
    soil, helpful = base.soil, base.acting.helpful
    set_cite = EQU.cite if base.acting.balance else base.acting.analysis.factors.cite
    drive = "drives" if base.inward else "holds back"
    push, down = top.at(base.push), top.at(base.down)
    heel, lift = top.at(base.heel), top.at(base.acting.uplift())
    stands = helpful * base.weight + heel
    frame = "plane frame, factored"
    return (
        step(
            f"Push of the foot {base.word}, {top.corner.run} soil run", "H", frame, "",
            Shown(push, "kN/m", 1), set_cite,
        ),
        step("Force of the foot down", "V", frame, "", Shown(down, "kN/m", 1)),
        step(
            f"Soil beside it {drive}, at the outer edge of the base", "P",
            *soil_terms(top, base.standing.width, base.standing.base), Shown(top.at(soil.force), "kN/m", 1),
            WALL_CITE,
        ),
        step("It acts so high over the base", "z", "", "", Shown(top.at(soil.arm), "m", 2)),
        step(
            "Weight of what stands and of the soil on its base, with its factor", "W",
            "γ_G·(wall + footing) + soil on it",
            f"{helpful:g} · {base.weight / 1e3:.1f} + {heel / 1e3:.1f}", Shown(stands, "kN/m", 1),
        ),
        step(
            "Force down on the base", "N", "V + W − water under it",
            f"{plain(down)} + {stands / 1e3:.1f} − {lift / 1e3:.1f}", Shown(top.at(base.total), "kN/m", 1),
        ),
    )  # fmt: skip


def plain(force: float, digits: int = 1) -> str:
    """A force in kN as text, with a minus sign that is not a hyphen."""
    return f"{force / 1e3:.{digits}f}".replace("-", "−")


DRY = "γ_G·K·(γ·h²/2 + q·h)"
WET = "γ_G·[K·(γ·h²/2 + q·h) + (γ_w − K·(γ + γ_w − γ_sat))·w²/2]"
HELD = "γ_G·(what the soft layer passes, soil below the steps, water, and what the block shears down)"


def soil_terms(top: Governing, place: float, low: float) -> tuple[str, str]:
    """Formula of the soil's push on an upright plane, and the numbers that stand in it."""
    acting, standing = top.base.acting, top.base.standing
    one = acting.beside(place, low, full=top.base.inward)
    if not standing.retains:
        return DRY, "no soil lies against it"
    if standing.block is not None and acting.shake is None:
        return HELD, f"soft layer {standing.block.passes / 1e3:.2f} kPa"
    height, load = top.at(one.height), top.at(one.load) / 1e3
    ratio, weight = top.at(one.ratio), top.at(one.weight) / 1e3
    water = min(max(top.at(one.water), 0.0), height)
    dry = f"{ratio:.3f} · ({weight:.1f} · {height:.3f}²/2 + {load:.2f} · {height:.3f})"
    if water <= 0.0:
        return DRY, f"{one.factor:g} · {dry}"
    full = top.at(one.saturated) / 1e3
    still = WATER / 1e3
    wet = f"({still:.2f} − {ratio:.3f} · ({weight:.1f} + {still:.2f} − {full:.1f})) · {water:.3f}²/2"
    return WET, f"{one.factor:g} · [{dry} + {wet}]"


def does_not_apply(what: str, part: str = "") -> Said:
    """Said where the file describes no such part."""
    return Said(
        verdict=Verdict.DOES_NOT_APPLY,
        template="The file describes no {what}.",
        values={"what": what},
        part=part,
    )


def widen(standing: Standing) -> str:
    """What to write so that it stands better."""
    if standing.footing is not None:
        return "Write a wider [[footing]] width, longer outside under the soil, or a [[tie]] under the floor"
    return "Write a [[footing]] wider than the wall, a thicker [[wall]], or a [[tie]] under the floor"


def spot_marks(_study: Study, finding: Finding) -> tuple[Mark, ...]:
    """The place a finding speaks of, with the share that is used; nothing where it has no place."""
    if finding.spot is None:
        return ()
    spot, used = finding.spot, ratio_text(finding.ratio)
    note = Note(spot=Spot(spot.x, spot.z - 0.35), text=f"{finding.title}: {used}", to=spot)
    return (Ring(spot=spot), note) if finding.verdict is Verdict.FAILS else (note,)


def pressure_marks(top: Governing, text: str) -> tuple[Mark, ...]:
    """Soil pressing on the outer plane of the base, and what is said of it."""
    base = top.base
    standing, acting = base.standing, base.acting
    sign = (1.0, -1.0)[standing.side]
    plane = across(acting.study, standing, standing.width)
    surface = float(acting.levels(standing.width)[top.moment])
    levels = np.linspace(standing.base, max(min(surface, standing.plane_top), standing.base + 0.01), ARROWS)
    ratio = top.at(base.acting.ratio if base.inward else base.acting.least_ratio)
    pressure = ratio * top.corner.unit_weight * np.maximum(surface - levels, 0.0)
    if standing.block is not None and acting.shake is None:
        pressure = np.where(levels >= standing.block.bottom, standing.block.passes, pressure)
    corner = spot_of(top)
    return (
        Arrows(
            x=(plane,) * ARROWS,
            z=tuple(float(z) for z in levels),
            across=tuple(float(sign * p) for p in pressure),
            down=(0.0,) * ARROWS,
        ),
        Note(spot=Spot(corner.x, corner.z - 0.3), text=text, to=corner),
    )
