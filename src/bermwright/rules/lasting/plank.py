"""Whether planks carry over two bays where a rib is lost, and what bridges the hole of a lost plank."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import share_text
from bermwright.data.timber_classes import K_CRACK, TIMBER_CLASSES
from bermwright.data.works.lasting import EN13163
from bermwright.handbook import timber as ec5
from bermwright.house import CoverKind
from bermwright.rules.analysis.response import first_largest
from bermwright.rules.analysis.strength import ACCIDENT
from bermwright.rules.lasting.accident import LOADS, STRENGTHS, finished
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import corner_of, moment_of, place_of, ratio_step, step, timber_cite
from bermwright.rules.ribs.lagging import NO_REST, plank_pressure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.data.timber_classes import TimberClass
    from bermwright.house import Cover
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]

OVER_TWO, BESIDE = 2.0, 1.5
"""Bays that a plank spans where a rib is lost; widths that a plank carries beside a hole."""
FOAM = Cite(
    work=EN13163,
    place="boards bend with at least their strength in compression; the long-term one counts here",
    provenance=Provenance.MEMORY,
)
LOOK = "Look at planks and ribs once a year, from inside."


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """Where the planks of the finished house are used most, all factors 1."""

    lane: int
    situation: int
    node: int
    pressure: float
    """Square to the planks (Pa)."""
    ratio: float


def planks_of(study: Study) -> tuple[Cover, TimberClass] | None:
    """The lagging and its strength; None where the file does not say them."""
    planks = next((one for one in study.vault.cover if one.kind is CoverKind.LAGGING), None)
    if planks is None or planks.timber is None or planks.timber not in TIMBER_CLASSES:
        return None
    return planks, TIMBER_CLASSES[planks.timber]


def plank_use(timber: TimberClass, *, thickness: float, span: float, pressure: Array, kmod: Array) -> Array:
    """Strength used in bending or shear of planks over a span, partial factor 1."""
    demand = ec5.plank_demand(pressure, span)
    shallow = float(ec5.depth_factor(thickness))
    bending = ec5.design_strength(timber.bending * shallow, kmod, gamma=ACCIDENT)
    stress = ec5.shear_stress(demand.shear, 1.0, depth=thickness, crack_factor=K_CRACK.value)
    shear = ec5.design_strength(timber.shear, kmod, gamma=ACCIDENT)
    return np.asarray(np.maximum(demand.moment / (thickness**2 / 6) / bending, stress / shear))


def most_loaded(study: Study, *, span: float, share: float) -> Loaded | None:
    """Where they are used most over `span` under `share` of the pressure; None where it is not known."""
    found = planks_of(study)
    service = study.service
    there = service.bends & service.where_situation(finished)
    if found is None or not there.any():
        return None
    planks, timber = found
    pressure = plank_pressure(study, service)
    if not (service.response.converged[there].all() and np.isfinite(pressure[there]).all()):
        return None
    kmod = study.strength.kmods(service)[None, :, None]
    filled = np.where(there[:, :, None], share * pressure, 0.0)
    used = plank_use(timber, thickness=planks.thickness, span=span, pressure=filled, kmod=kmod)
    lane, situation, node = first_largest(used)
    return Loaded(
        lane=lane, situation=situation, node=node, ratio=float(used[lane, situation, node]),
        pressure=float(pressure[lane, situation, node]),
    )  # fmt: skip


def _decide(study: Study) -> Iterator[Said]:
    found = planks_of(study)
    if found is None:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The planks or their strength class are not known, nor what happens when one is lost.",
            advice='Add a [[vault.cover]] table with kind = "lagging" and its timber.',
        )
        return
    spacing = study.form.spacing
    two = most_loaded(study, span=OVER_TWO * spacing, share=1.0)
    beside = most_loaded(study, span=spacing, share=BESIDE)
    if two is None or beside is None:
        yield NO_REST
        return
    planks = found[0]
    yield _over(study, two, "where a rib is lost, planks over two bays use {used} their strength",
                (OVER_TWO * spacing, 1.0))  # fmt: skip
    yield _over(study, beside, "beside a lost plank the next ones use {used} their strength",
                (spacing, BESIDE))  # fmt: skip
    yield _bridged(study, planks, beside)


def _over(study: Study, at: Loaded, words: str, over: tuple[float, float]) -> Said:
    span, share = over
    verdict = verdict_of(at.ratio)
    now = study.service.situations[at.situation]
    said = Said(
        verdict=verdict,
        template="{when}: " + words + ".",
        values={**moment_of(now), "used": share_text(at.ratio)},
        demand=at.ratio,
        capacity=1.0,
        advice="" if verdict is Verdict.HOLDS else f"Put thicker planks, or write a smaller [vault] spacing. "
        f"{LOOK}",
        steps=(
            step("Pressure square to the planks, all factors 1", "p", "", "",
                 Shown(at.pressure, "kPa", 3), LOADS),
            step("Span, from rib to rib that is left", "l", "", "", Shown(span, "m", 3)),
            ratio_step(
                f"Strength used under {share:g} of that pressure, in bending or shear, factor 1 on strength",
                "max(σ/f_m, τ/f_v)", "", at.ratio, timber_cite("6.1.6 and 6.1.7"),
            ),
        ),
    )  # fmt: skip
    return _placed(study, at, said, at.ratio)


def _placed(study: Study, at: Loaded, said: Said, ratio: float) -> Said:
    now, mesh = study.service.situations[at.situation], study.form.mesh
    return replace(
        said,
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, at.node),
        ratio=ratio,
        corner=corner_of(study.service, at.lane),
        spot=Spot(float(mesh.soil_x[at.node]), float(mesh.soil_z[at.node])),
    )


def _bridged(study: Study, planks: Cover, at: Loaded) -> Said:
    """What keeps the soil out of a hole as wide as one plank: rigid boards over it, or nothing known."""
    boards = next(
        (one for one in study.vault.cover if one.kind is CoverKind.INSULATION and one.strength), None
    )
    if planks.width is None or boards is None or boards.strength is None:
        what = "the width of a plank" if planks.width is None else "rigid boards over the planks"
        return Said(
            verdict=Verdict.UNKNOWN,
            template="The file names no {what}: whether soil comes through the hole of a lost plank is not "
            "known.",
            values={"what": what.removeprefix("the ")},
            advice="Write [[vault.cover]] width of the lagging, and lay rigid insulation with its strength "
            f"over the planks, or a second layer of planks. {LOOK}",
        )
    slender = planks.width / boards.thickness
    bent = 0.75 * at.pressure * slender**2
    ratio = bent / boards.strength
    verdict = verdict_of(ratio)
    said = Said(
        verdict=verdict,
        template="The boards over a lost plank bend with {bent} over its hole; they take {strength}.",
        values={"bent": Shown(bent, "kPa", 1), "strength": Shown(boards.strength, "kPa", 0)},
        demand=bent,
        capacity=boards.strength,
        unit="kPa",
        advice="" if verdict is Verdict.HOLDS else "Take narrower planks, or thicker or stronger boards over "
        f"them. {LOOK}",
        steps=(
            step("Bending of a board over the hole", "σ", "3/4·p·(w/t)²",
                 f"0.75 · {at.pressure / 1e3:.3f} · {slender:.3f}²", Shown(bent, "kPa", 3), FOAM),
            ratio_step("Strength used, long-term", "σ/f", f"{bent / 1e3:.3f}/{boards.strength / 1e3:g}",
                       ratio, FOAM),
        ),
    )  # fmt: skip
    return _placed(study, at, said, ratio)


LOST_PLANK = Rule(
    name="a-lost-plank-lets-nothing-through",
    title="A lost plank lets nothing through",
    why="Where one plank rots or breaks the soil must not run into the room, and where a rib is lost its "
    "planks hang over two bays.",
    cites=(LOADS, STRENGTHS, FOAM),
    decide=_decide,
    asks=("vault.cover", "vault.cover.timber", "vault.cover.width", "vault.cover.strength"),
)
