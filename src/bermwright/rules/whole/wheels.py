"""The smallest wheel or axle that breaks the vault, and how far off anything heavier must stay."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict, verdict_of
from bermwright.base.marks import Note
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.practice import TRADE
from bermwright.data.works.soils import DAS
from bermwright.handbook.actions import pressure_under_patch, spread_pressure
from bermwright.rules.analysis.states import situations_of
from bermwright.rules.analysis.strength import rib_ratios
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import STIFFER, ratio_step, step
from bermwright.rules.whole.ground import base_level
from bermwright.stages.nouns import Action, Duration, StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from bermwright.base.findings import Finding, Step
    from bermwright.base.marks import Mark
    from bermwright.rules.analysis.lanes import Lane
    from bermwright.rules.study import Study
    from bermwright.stages.nouns import Case

    Array = NDArray[np.float64]

SPREAD_CITE = Cite(
    work=DAS, place="2 to 1 method, and Boussinesq under the middle", provenance=Provenance.MEMORY
)
MOVING_CITE = Cite(work=TRADE, place="a wheel that moves and jolts", provenance=Provenance.PRACTICE)
LENGTH, WIDTH = 0.2, 0.3
"""Where a tyre touches the ground, along and across its way (m)."""
TRACK = 1.6
"""From wheel to wheel of an axle (m)."""
JOLT = 1.3
"""On a wheel that moves (-)."""
BARROW = 1.2e3
"""Wheel of a loaded barrow (N): 90 litres of wet soil."""
TRIED = (0.5e3, 1e3, 2e3, 4e3, 8e3, 16e3, 32e3, 60e3)
"""Loads that are tried everywhere (N)."""
HEAVIEST = TRIED[-1]
CLOSE = 6
"""Loads tried between two of them."""
NEARLY = 1.5
"""Places where it comes no later than at this times the least load are looked at closely (-)."""
HOOF = 2e3
"""What a grown cow puts on one foot as she walks (N)."""
LOST = 1e3
"""Strength used where no state of rest is found (-)."""
KINDS: Mapping[str, tuple[float, ...]] = {"wheel": (0.0,), "axle": (-0.5 * TRACK, 0.5 * TRACK)}
KINDS_SAID: Mapping[str, str] = {"wheel": "a wheel", "axle": "an axle"}
SHARES = (-0.45, -0.3, -0.2, 0.0, 0.2, 0.3, 0.45)
"""Where it stands across the vault, in shares of its width; an axle is worst with one wheel outside (-)."""
STAGE = StageKind.SETTLED


NO_LOAD = 50.0
"""A load that is less is none (N)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Breaks:
    """The least load of one kind that uses up a rib; infinite where none that was tried does."""

    kind: str
    load: float
    x: float
    stage: str


Place = tuple[str, float]
"""Kind of load, and where it stands in shares of the width."""


def _case(study: Study, own: Case, place: Place, load: float) -> Case:
    face, (kind, share) = study.form.soil_face, place
    x = share * float(face.x.max() - face.x.min())
    pressure = wheel_pressure(study, own, x, load, KINDS[kind])
    action = Action(name=kind, permanent=False, cite=SPREAD_CITE, on_fill=pressure)
    name = f"{kind} {share:g} {load:g}"
    return replace(own, name=name, title=name, duration=Duration.SHORT, actions=(*own.actions, action))


def wheel_pressure(study: Study, case: Case, x: float, load: float, offsets: tuple[float, ...]) -> Array:
    """On the soil over each node (Pa): a wheel spreads 2 down to 1 out, over one rib at least.

    Right under it the elastic pressure counts where it is larger.
    """
    mesh, width = study.form.mesh, study.form.spacing
    total = np.zeros_like(mesh.x)
    for offset in offsets:
        place = x + offset
        deep = float(np.interp(place, mesh.soil_x, case.depth))
        deep = max(deep, 0.02)
        each = JOLT * load / len(offsets)
        under = {"length": LENGTH, "width": WIDTH, "depth": deep}
        peak = float(pressure_under_patch(each, **under)) / float(spread_pressure(each, **under))
        along = max(LENGTH + deep, width)
        reach = 0.5 * (WIDTH + deep)
        edges_low, edges_high = place - reach, place + reach
        share = _overlap(mesh.soil_x, np.maximum(mesh.plan, 0.0), edges_low, edges_high)
        total += max(peak, 1.0) * each / (along * 2.0 * reach) * share
    return total


def _overlap(middle: Array, width: Array, low: float, high: float) -> Array:
    """Share of each cell between two places."""
    start, end = middle - 0.5 * width, middle + 0.5 * width
    cut = np.minimum(end, high) - np.maximum(start, low)
    return np.where(width > 0.0, np.clip(cut / np.maximum(width, 1e-9), 0.0, 1.0), 0.0)


def _governing(study: Study, kind: StageKind = STAGE) -> Mapping[str, frozenset[Lane]] | None:
    """The lanes that bend the ribs most in any situation in which wheels may come.

    None where a lane that counts for bending came to no number: it might have been the one that governs.
    """
    found = {}
    for one in study.analyses:
        rows = one.where_situation(lambda now: now.stage.kind is kind)
        bent = np.abs(one.moment[:, rows]).max(axis=(2, 3))
        if not np.isfinite(bent[one.bends[:, rows]]).all():
            return None
        known = np.where(np.isfinite(bent), bent, -1.0)
        worst = {one.lanes[int(k)] for k in np.unique(np.argmax(known, axis=0))}
        found[one.factors.name] = frozenset(worst)
    return found


def breaking(study: Study) -> tuple[Breaks, ...] | None:
    """The least wheel and axle in the lanes that govern; None where a rib's strength or force is not known.

    Loads far apart are tried at every place; between the two where the strength is used up, loads near each
    other are, at every place that may be the worst. A wheel may also relieve a rib before it breaks it.
    """
    lanes = _governing(study)
    if lanes is None:
        return None
    first = _used(study, dict.fromkeys(product(KINDS, SHARES), TRIED), lanes)
    if first is None:
        return None
    own, line = first
    if own >= 1.0:
        return tuple(_at_once(study, kind) for kind in KINDS)
    rough = {place: _crossing(own, TRIED, used) for place, used in line.items()}
    least = {kind: min(load for place, load in rough.items() if place[0] == kind) for kind in KINDS}
    chosen = [one for one, load in rough.items() if load <= NEARLY * least[one[0]] and np.isfinite(load)]
    loads = {place: _between(rough[place]) for place in chosen}
    second = _used(study, loads, lanes) if loads else first
    if second is None:
        return None
    width = float(np.ptp(study.form.soil_face.x))
    stage = next(one for one in study.stages if one.kind is STAGE)
    return tuple(
        min(
            (
                Breaks(
                    kind=kind,
                    load=_crossing(own, loads[place], second[1][place]),
                    x=place[1] * width,
                    stage=stage.name,
                )
                for place in chosen
                if place[0] == kind
            ),
            key=lambda one: one.load,
            default=Breaks(kind=kind, load=float("inf"), x=0.0, stage=stage.name),
        )
        for kind in KINDS
    )


def _between(rough: float) -> tuple[float, ...]:
    """Loads from the last that was tried below one to the first above it."""
    tried = np.array([0.0, *TRIED])
    above = int(np.searchsorted(tried, rough))
    return tuple(np.linspace(tried[above - 1], tried[above], CLOSE + 1)[1:].tolist())


def _at_once(study: Study, kind: str) -> Breaks:
    """Ribs that are used up without any wheel."""
    stage = next(one for one in study.stages if one.kind is STAGE)
    return Breaks(kind=kind, load=0.0, x=0.0, stage=stage.name)


def _used(
    study: Study,
    loads: Mapping[Place, tuple[float, ...]],
    lanes: Mapping[str, frozenset[Lane]],
    kind: StageKind = STAGE,
) -> tuple[float, dict[Place, tuple[float, ...]]] | None:
    """Strength used with nothing on it, and under every load at every place; None: not known."""
    stages = []
    for stage in study.stages:
        own = stage.cases[0]
        more: tuple[Case, ...] = ()
        if stage.kind is kind:
            more = tuple(_case(study, own, place, load) for place, each in loads.items() for load in each)
        if stage.kind is not StageKind.LONG_TERM:
            stages.append(replace(stage, cases=(own, *more)))
    worst: dict[str, float] = {}
    bare = 0.0
    for one in study.model.analyse_situations(situations_of(stages), only=lanes):
        used = rib_ratios(one, study.strength).max(axis=0)
        for value, now in zip(used.tolist(), one.situations, strict=True):
            if now.stage.kind is kind and now.case is now.stage.cases[0]:
                bare = max(bare, value) if np.isfinite(value) else np.nan
            # Ribs that find no rest under a load are over it.
            worst[now.case.name] = max(worst.get(now.case.name, 0.0), value if np.isfinite(value) else LOST)
    if np.isnan(bare):
        return None
    return bare, {
        place: tuple(worst[f"{place[0]} {place[1]:g} {load:g}"] for load in each)
        for place, each in loads.items()
    }


def _crossing(own: float, loads: tuple[float, ...], used: tuple[float, ...]) -> float:
    """Load at which the strength used passes 1; infinite where it does not."""
    tried, line = np.array([0.0, *loads]), np.array([own, *used])
    over = np.flatnonzero(line > 1.0)
    if not over.size:
        return float("inf")
    k = int(over[0])
    return 0.0 if k == 0 else float(np.interp(1.0, line[k - 1 : k + 1], tried[k - 1 : k + 1]))


def barrier(study: Study) -> tuple[float, float]:
    """Places left and right from which on wheels press on no wall: 45 degrees up from its underside (m)."""
    face, ground, base = study.form.soil_face, study.form.ground.finished, base_level(study)
    found = []
    for foot, side in ((float(face.x.min()), -1.0), (float(face.x.max()), 1.0)):
        x = foot + side * np.linspace(0.0, 15.0, 601)
        free = (x - foot) * side >= ground.level(x) - base
        found.append(float(x[int(np.argmax(free))]) if free.any() else float(x[-1]))
    return found[0], found[1]


def _decide(study: Study) -> Iterator[Said]:
    found = breaking(study)
    if not found:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="Which wheel breaks the vault is not known: the ribs find no rest, or "
            "nails are missing.",
            advice=STIFFER,
        )
        return
    left, right = barrier(study)
    for one in found:
        yield _said(one, (left, right))
    yield _barrow(study)


def _barrow(study: Study) -> Said:
    """A barrow that brings the last soil, on a cover that lies loose and thin yet."""
    places = {("wheel", share): (BARROW,) for share in SHARES}
    lanes = _governing(study, StageKind.COVER)
    found = None if lanes is None else _used(study, places, lanes, StageKind.COVER)
    stage = next(one for one in study.stages if one.kind is StageKind.COVER)
    if found is None:
        return Said(
            verdict=Verdict.UNKNOWN,
            template="What a barrow does to the cover while it is laid is not known: the ribs find no rest.",
            stage=stage.name,
            advice=STIFFER,
        )
    place, used = max(((one, each[0]) for one, each in found[1].items()), key=lambda pair: pair[1])
    ratio = min(used, LOST)
    verdict = verdict_of(ratio)
    return Said(
        verdict=verdict,
        template="{stage}: a barrow of {load} on its wheel uses {used} of a rib's strength.",
        values={
            "stage": stage.name.capitalize(),
            "load": Shown(BARROW, "kN", 1),
            "used": Shown(ratio, "", 2) if ratio < LOST else "all",
        },
        stage=stage.name,
        case="barrow",
        demand=BARROW,
        unit="kN",
        ratio=ratio,
        advice="" if verdict is Verdict.HOLDS else "Carry the last soil up by hand, from both sides.",
        steps=(
            step("Wheel, moving, spread 2 down to 1 out", "p", "1.3·Q/((l + z)·(b + z))", "",
                 Shown(BARROW, "kN", 2), SPREAD_CITE),
            ratio_step("Most of bending, shear and nails", "σ_d / f_d", "plane frame", ratio),
        ),
        spot=Spot(place[1] * float(np.ptp(study.form.soil_face.x)), 0.0),
    )  # fmt: skip


def _said(one: Breaks, barriers: tuple[float, float]) -> Said:
    least = BARROW if one.kind == "wheel" else 2.0 * BARROW
    ratio = least / one.load if one.load >= NO_LOAD else float("inf")
    verdict = verdict_of(ratio)
    holds = np.isfinite(one.load)
    load = Shown(one.load if holds else HEAVIEST, "kN", 1)
    what = "{kind} of {load} breaks a rib" if holds else "no {kind} up to {load} breaks one"
    stays = "heavier ones stay"
    if one.load < NO_LOAD:
        what, stays = "without any {kind} a rib breaks", "all wheels stay"
    return Said(
        verdict=verdict,
        template=f"{{stage}}: {what}; {stays} {{left}} left, {{right}} right of the axis.",
        values={
            "stage": one.stage.capitalize(),
            "kind": KINDS_SAID[one.kind] if holds and one.load >= NO_LOAD else one.kind,
            "load": load,
            "left": Shown(abs(barriers[0]), "m", 1),
            "right": Shown(abs(barriers[1]), "m", 1),
        },
        stage=one.stage,
        case=one.kind,
        demand=least,
        capacity=one.load if holds else HEAVIEST,
        unit="kN",
        ratio=ratio if np.isfinite(ratio) else None,
        advice=_barrier_advice(one, barriers)
        if verdict is Verdict.HOLDS
        else "No barrow on the roof: carry by hand, or make the cover thicker or the ribs stiffer.",
        steps=tuple(_steps(one, least, ratio)),
        spot=Spot(one.x, 0.0),
    )


def _barrier_advice(one: Breaks, barriers: tuple[float, float]) -> str:
    far = Shown(max(map(abs, barriers)), "m", 1).text()
    cattle = " Fence cattle off too: a cow's foot brings 2 kN." if one.load < HOOF / JOLT else ""
    return (
        f"Put up a barrier of stones or posts {far} from the axis, both sides and before the front.{cattle}"
    )


def _steps(one: Breaks, least: float, ratio: float) -> Iterator[Step]:
    yield step(
        f"Tyre of {LENGTH:g} by {WIDTH:g} m, moving, spread 2 down to 1 out, one rib at least",
        "p",
        "1.3·Q/((l + z)·(b + z))",
        "",
        Shown(JOLT, "", 2),
        SPREAD_CITE,
    )
    if np.isfinite(one.load):
        yield step(
            f"Least {one.kind} that uses a rib up, factors included, {one.x:+.1f} m from the axis",
            "Q",
            "between two loads that were tried",
            "",
            Shown(one.load, "kN", 2),
            MOVING_CITE,
        )
    yield step("What a barrow brings", "Q_b", "", "", Shown(least, "kN", 2), MOVING_CITE)
    filled = f"{least:.0f} / {one.load:.0f}" if 0.0 < one.load < HEAVIEST else ""
    yield ratio_step("Asked over there", "Q_b / Q", filled, ratio)


def _draws(study: Study, finding: Finding) -> tuple[Mark, ...]:
    """A barrier on both sides, where it belongs."""
    if finding.case != "wheel":
        return ()
    ground = study.form.ground.finished
    return tuple(
        Note(
            spot=Spot(x, float(ground.level(x)) + 0.9),
            text=f"no wheels inside {abs(x):.1f} m",
            to=Spot(x, float(ground.level(x))),
        )
        for x in barrier(study)
    )


WHEELS_KEEP_OFF = Rule(
    name="wheels-keep-off",
    title="Wheels keep off the vault",
    why="Nobody sees under the grass that there is a room. A car turned round on the mound, or a digger that "
    "brings the last soil, is the heaviest load that the vault will ever meet.",
    cites=(SPREAD_CITE, MOVING_CITE),
    decide=_decide,
    draws=_draws,
)
