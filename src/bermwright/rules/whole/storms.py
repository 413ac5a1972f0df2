"""Wind on the shell before it is buried, and an earthquake once it is: small analyses of their own."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.data.rule_sets import SERVICE
from bermwright.data.terrain import GROUND_CITE, ROUGHNESS, ROUGHNESS_CITE, STRONG_SHAKING
from bermwright.data.works.actions import QUAKE_CITE, WIND_CITE
from bermwright.handbook import soils
from bermwright.handbook.actions import gust_pressure, wind_on_vault
from bermwright.handbook.retaining import earthquake_active_ratio
from bermwright.rules.analysis.response import first_largest
from bermwright.rules.analysis.states import situations_of
from bermwright.rules.analysis.strength import rib_ratios
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import STIFFER, moment_of, place_of, ratio_step, spot_of, step
from bermwright.rules.whole.slopes import quake_share
from bermwright.stages.nouns import Action, Duration, StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.study import Study
    from bermwright.stages.nouns import Case, Stage

    Array = NDArray[np.float64]

BARE_FORM = 2.0
"""Force coefficient of a bar with sharp edges (-): EN 1991-1-4, 7.7."""
OUTSIDE = -0.7
"""Wind along the axis on a vault's outside (-): as on a side wall near its windward end."""
OPEN_END = 0.8
"""Pressure inside with the windward end open (-): that on the closed wall that is missing."""
INSIDE = 0.2
"""Pressure inside with both ends closed (-)."""
LOW_DUCTILITY = 1.5
"""Behaviour factor of timber structures that are not detailed for earthquakes (-)."""
QUARTER = 0.25
"""Share of the width of the first and of the last zone (-)."""
WIND_FACTOR, HELPFUL = 1.5, 0.9
"""Partial factors of EN 1990 on wind, and on a weight that helps (set EQU)."""
MOUND_REACH, RAISED = 40.0, 0.05
"""How far out the mound is looked for, and from which height it counts (m)."""
SHELL_STAGES = {StageKind.RIBS, StageKind.LAGGED, StageKind.WRAPPED}


def site_gust(study: Study) -> float | None:
    """Pressure of a gust at the top of the vault (Pa); None while the file gives no wind."""
    site = study.house.site
    if site.wind is None:
        return None
    rough, least = ROUGHNESS[str(site.terrain)]
    height = study.form.crown_level - float(study.form.ground.natural.level(0.0))
    return float(gust_pressure(site.wind, max(height, 0.1), roughness=rough, least_height=least))


def wind_cases(study: Study, stage: Stage, gust: float) -> Iterator[Case]:
    """Wind across from either side, and into an open end; on bare ribs each rib is a bar."""
    own = stage.cases[0]
    light = replace(own, actions=tuple(replace(one, favourable=True) for one in own.actions))
    for side in ("left", "right"):
        for base in (own, light):
            down, across = _wind_across(study, stage.kind, gust, from_left=side == "left")
            yield _windy(base, f"wind from the {side}", down, across)
    if stage.kind is not StageKind.RIBS:
        out = gust * (OUTSIDE - OPEN_END)
        mesh = study.form.mesh
        yield _windy(light, "wind into an open end", out * mesh.plan, out * mesh.rise)


def _windy(base: Case, name: str, down: Array, across: Array) -> Case:
    wind = Action(name="wind", permanent=False, cite=WIND_CITE, down=down, across=across, psi0=0.6)
    return replace(base, name=name, title=name, duration=Duration.INSTANT, actions=(*base.actions, wind))


def _wind_across(study: Study, kind: StageKind, gust: float, *, from_left: bool) -> tuple[Array, Array]:
    """Upright and level load on each node (N per metre of vault)."""
    form, mesh = study.form, study.form.mesh
    way = 1.0 if from_left else -1.0
    if kind is StageKind.RIBS:
        share = BARE_FORM * gust * form.rib.width / form.spacing
        # Both halves of a bare rib are blown the same way.
        return np.zeros_like(mesh.x), way * share * np.abs(mesh.rise)
    width = float(mesh.soil_x[-1] - mesh.soil_x[0])
    height = form.crown_level - float(form.ground.natural.level(0.0))
    zones = wind_on_vault(max(height, 0.0), width)
    place = (mesh.soil_x - mesh.soil_x[0]) / width
    place = place if from_left else 1.0 - place
    shape = np.where(
        place < QUARTER, zones.windward, np.where(place <= 1.0 - QUARTER, zones.crown, zones.leeward)
    )
    pressure = gust * (shape - INSIDE)
    return pressure * mesh.plan, pressure * mesh.rise


def wind_analyses(study: Study, gust: float) -> tuple[Analysis, ...]:
    """The shell's stages with wind in place of everything else that comes and goes."""
    stages = [
        replace(stage, cases=(stage.cases[0], *wind_cases(study, stage, gust)))
        for stage in study.stages
        if stage.kind in SHELL_STAGES
    ]
    first = study.analyses
    only = {one.factors.name: frozenset(one.lanes[:1]) for one in first}
    return study.model.analyse_situations(situations_of(stages), only=only)


def quake_analysis(study: Study, share: float) -> Analysis:
    """The finished house shaken to either side: its own weight, and the soil of one side pushing more."""
    stages = [
        replace(
            stage,
            cases=(stage.cases[0], *(_shaken(study, stage, share, left=left) for left in (True, False)))
            if stage.kind in {StageKind.SETTLED, StageKind.LONG_TERM}
            else stage.cases[:1],
        )
        for stage in study.stages
    ]
    return study.model.serve(stages, replace(SERVICE, name="earthquake, all factors 1"))


def soil_shaken(study: Study, share: float) -> float:
    """How much the active ratio grows in the earthquake (-)."""
    fill = study.house.fill(study.vault)
    if fill is None or fill.friction_angle is None:
        raise OutOfRangeError("The file does not give the friction angle of the fill.")
    angle = fill.friction_angle.low
    worst = max(
        (1.0 + way * 0.5 * share)
        * float(earthquake_active_ratio(angle, 0.0, sideways=share, upward=-way * 0.5 * share))
        for way in (-1.0, 1.0)
    )
    return worst - float(soils.active_ratio(angle))


def _shaken(study: Study, stage: Stage, share: float, *, left: bool) -> Case:
    """Shaken so that the soil of one side pushes: the inertia of shell and ribs goes the same way."""
    own, mesh = stage.cases[0], study.form.mesh
    way = 1.0 if left else -1.0
    inertia = sum(one.down for one in own.actions if one.down is not None)
    more = soil_shaken(study, share) * study.given.unit_weight * own.depth * mesh.rise
    pushing = more if left else -more
    side = np.where(np.arange(mesh.x.size) <= mesh.crown, left, not left)
    across = way * (share * STRONG_SHAKING / LOW_DUCTILITY * inertia + np.where(side, pushing, 0.0))
    quake = Action(name="earthquake", permanent=False, cite=QUAKE_CITE, across=np.asarray(across))
    name = f"earthquake, the {'left' if left else 'right'} soil pushing"
    return replace(own, name=name, title=name, duration=Duration.INSTANT, actions=(*own.actions, quake))


@dataclass(frozen=True, slots=True, kw_only=True)
class Worst:
    """The most that is used of a rib, and the least down at a foot, over the storm's cases."""

    analysis: Analysis
    lane: int
    situation: int
    ratio: float
    lift: float
    """Of one foot of one rib (N), + up."""
    lifted: int
    """Situation in which it is lifted most."""
    foot: int


def worst_of(study: Study, analyses: tuple[Analysis, ...], word: str) -> Worst | None:
    """Over all situations whose case begins with a word; None where no state of rest was found."""
    found = []
    for one in analyses:
        rows = one.where_situation(lambda now: now.case.name.startswith(word))
        used = np.where(rows[None, :], rib_ratios(one, study.strength), -np.inf)
        if not one.response.converged[:, rows].all() or np.isnan(used).any():
            return None
        down = np.where(rows[None, :, None], one.response.feet[..., 1], np.inf)
        lane, situation = first_largest(used)
        low = first_largest(-down)
        found.append(
            Worst(
                analysis=one,
                lane=lane,
                situation=situation,
                ratio=float(used[lane, situation]),
                lift=-float(down[low]),
                lifted=int(low[1]),
                foot=int(low[2]),
            )
        )
    return max(found, key=lambda one: one.ratio, default=None)


def hold_down(study: Study) -> float | None:
    """What one foot is held down with (N); None while the file does not say."""
    holds = [one.hold_down for one in study.house.sockets if one.vault == study.vault.name]
    known = [one for one in holds if one is not None]
    return min(known) if known and len(known) == len(holds) else None


def _wind(study: Study) -> Iterator[Said]:
    gust = site_gust(study)
    if gust is None:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="Whether the bare shell stands the wind is not known: the file gives no wind.",
            advice="Answer the question about [site] wind.",
        )
        return
    worst = worst_of(study, wind_analyses(study, gust), "wind")
    if worst is None:
        yield _lost("wind")
        return
    yield _rib_said(worst, "wind", (*_gust_steps(study, gust),))
    yield _lift_said(study, worst, gust)
    yield from _covered(study)


def _covered(study: Study) -> Iterator[Said]:
    """Wind over the finished mound: what it sucks up at the crown, against the cover that lies there."""
    site, mound, fill = study.house.site, study.vault.mound, study.house.fill(study.vault)
    if site.wind is None or mound is None or mound.crown is None:
        return
    if fill is None or fill.unit_weight is None:
        return
    height, wide = _mound_size(study)
    if not height > 0.0 or not wide > 0.0:
        return
    rough, least = ROUGHNESS[str(site.terrain)]
    gust = float(gust_pressure(site.wind, height, roughness=rough, least_height=least))
    up = WIND_FACTOR * gust * abs(float(wind_on_vault(height, wide).crown))
    down = HELPFUL * fill.unit_weight.low * mound.crown
    ratio = up / down if down > 0.0 else np.inf
    verdict = verdict_of(ratio)
    yield Said(
        verdict=verdict,
        template="Once it is covered, a gust sucks at the crown with {up}; the soil there weighs {down}.",
        values={"up": Shown(up, "kN/m2", 2), "down": Shown(down, "kN/m2", 2)},
        demand=up,
        capacity=down,
        unit="kN/m2",
        ratio=ratio if np.isfinite(ratio) else None,
        advice="" if verdict is Verdict.HOLDS else "Lay more soil over the crown: [vault.mound] crown.",
        steps=(
            step("Gust over the top of the mound", "q_p", "", "", Shown(gust, "kN/m2", 3), ROUGHNESS_CITE),
            step("Suction at the crown, as on a vault of the mound's size", "w", "1.5·q_p·c_B",
                 f"{WIND_FACTOR:g} · {gust / 1e3:.4f} · {up / WIND_FACTOR / gust:.4f}",
                 Shown(up, "kN/m2", 3), WIND_CITE),
            step("Moist soil over the crown, what helps × 0.9", "g", "0.9·γ·h",
                 f"{HELPFUL:g} · {fill.unit_weight.low / 1e3:.1f} · {mound.crown:.2f}",
                 Shown(down, "kN/m2", 3)),
            ratio_step("Suction over weight", "w / g", f"{up / 1e3:.4f} / {down / 1e3:.4f}", ratio),
        ),
    )  # fmt: skip


def _mound_size(study: Study) -> tuple[float, float]:
    """Height of the finished mound over the ground as it grew, and its width there (m)."""
    ground = study.form.ground
    x = np.linspace(-MOUND_REACH, MOUND_REACH, 2001)
    over = ground.finished.level(x) - ground.natural.level(x)
    raised = x[over > RAISED]
    return float(np.max(over)), float(raised[-1] - raised[0]) if raised.size else 0.0


def _lost(word: str) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="In {word} the ribs find no state of rest, or their nails are not known.",
        values={"word": word},
        advice=STIFFER,
    )


def _rib_said(worst: Worst, word: str, before: tuple[Step, ...]) -> Said:
    now, verdict = worst.analysis.situations[worst.situation], verdict_of(worst.ratio)
    lane = worst.analysis.lanes[worst.lane]
    return Said(
        verdict=verdict,
        template="{when}: {word} uses {used} of a rib's strength.",
        values={**moment_of(now), "word": word, "used": Shown(worst.ratio, "", 2)},
        stage=now.stage.name,
        case=now.case.name,
        ratio=worst.ratio,
        corner={"soil run": lane.run, "factors": worst.analysis.factors.name},
        advice="" if verdict is Verdict.HOLDS else CALMER[word],
        steps=(
            *before,
            ratio_step("Most of bending, shear and nails", "σ_d / f_d", "plane frame", worst.ratio),
        ),
    )


CALMER = {
    "wind": "Bury it before the windy season, prop it inside with [[stages.prop]], or build stiffer ribs.",
    "earthquake": "Make both sides of the fill alike, with more friction, or build stiffer ribs.",
}


STRAP = "Write [[socket]] hold_down: strap every foot to its wall, and the wall to its footing."


def _lift_said(study: Study, worst: Worst, gust: float) -> Said:
    now = worst.analysis.situations[worst.lifted]
    node = 0 if worst.foot == 0 else study.form.mesh.x.size - 1
    if worst.lift <= 0.0:
        return Said(
            verdict=Verdict.HOLDS,
            template="In a gust of {gust} the weight of the shell keeps its feet down.",
            values={"gust": Shown(gust, "kN/m2", 2)},
            stage=now.stage.name,
            case=now.case.name,
        )
    holds = hold_down(study)
    ratio = worst.lift / holds if holds else None
    verdict = Verdict.UNKNOWN if ratio is None else verdict_of(ratio)
    return Said(
        verdict=verdict,
        template="{when}: a foot of one rib lifts with {lift}; {held}.",
        values={
            **moment_of(now),
            "lift": Shown(worst.lift, "kN", 2),
            "held": "what holds it down is not said"
            if holds is None
            else f"it is held down with {Shown(holds, 'kN', 2).text()}",
        },
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, node),
        demand=worst.lift,
        capacity=holds,
        unit="kN",
        ratio=ratio,
        advice="" if verdict is Verdict.HOLDS else STRAP,
        steps=(
            *_gust_steps(study, gust),
            step("Lift of one foot, weight as it is, wind with its factor", "F", "plane frame", "",
                 Shown(worst.lift, "kN", 3)),
            *_held_steps(worst.lift, holds),
        ),
        spot=spot_of(study, node),
    )  # fmt: skip


def _held_steps(lift: float, holds: float | None) -> tuple[Step, ...]:
    """What holds a foot down, where that is said."""
    if not holds:
        return ()
    return (
        step("What holds one foot down, by the file", "R", "", "", Shown(holds, "kN", 3)),
        ratio_step("Lift over there", "F / R", f"{lift / 1e3:.4f} / {holds / 1e3:.4f}", lift / holds),
    )


def _gust_steps(study: Study, gust: float) -> Iterator[Step]:
    site = study.house.site
    rough, _ = ROUGHNESS[str(site.terrain)]
    yield step(
        f"Gust over {site.terrain}, roughness {rough:g} m, at the crown",
        "q_p",
        "(1 + 7·I_v)·ρ/2·(c_r·v_b)²",
        f"v_b = {site.wind or 0.0:g} m/s",
        Shown(gust, "kN/m2", 3),
        ROUGHNESS_CITE,
    )


def _quake(study: Study) -> Iterator[Said]:
    share = quake_share(study)
    if share is None:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="Whether the house stands an earthquake is not known: no ground acceleration is given.",
            advice="Answer the question about [site] ground_acceleration; on calm ground it is 0 g.",
        )
    elif share == 0.0:
        yield Said(
            verdict=Verdict.DOES_NOT_APPLY,
            template="The ground shakes so little here that no earthquake need be looked at.",
        )
    else:
        worst = worst_of(study, (quake_analysis(study, share),), "earthquake")
        if worst is None:
            yield _lost("an earthquake")
        else:
            yield _rib_said(worst, "earthquake", tuple(_quake_steps(study, share)))


def _quake_steps(study: Study, share: float) -> Iterator[Step]:
    yield step(
        "Ground acceleration with its ground factor",
        "a_g·S/g",
        "S = 1.8",
        "",
        Shown(share, "", 3),
        GROUND_CITE,
    )
    yield step(
        "More active pressure of the soil that pushes",
        "ΔK",
        "K_AE(k_h, k_v)·(1 ± k_v) − K_A",
        f"k_h = {share:.3f}, k_v = {0.5 * share:.3f}",
        Shown(soil_shaken(study, share), "", 3),
        QUAKE_CITE,
    )


WIND_STANDS = Rule(
    name="shell-stands-the-wind",
    title="Bare ribs, lagged shell and covered mound stand the wind",
    why="Until soil lies on it the shell is a light sail. Wind sucks at its crown and blows into its open "
    "end, and the feet lift. Once it is covered the soil must outweigh the suction.",
    cites=(WIND_CITE, ROUGHNESS_CITE),
    decide=_wind,
    asks=("site.wind", "socket.hold_down"),
)
QUAKE_STANDS = Rule(
    name="house-stands-an-earthquake",
    title="Shell and soil stand an earthquake",
    why="In an earthquake the soil of one side pushes more while the other lets go, then the other way.",
    cites=(QUAKE_CITE, GROUND_CITE),
    decide=_quake,
    asks=("site.ground_acceleration",),
)
