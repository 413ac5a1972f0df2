"""Whether what carries the feet stands an earthquake: soil that pushes more, and its own inertia."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.supports import EQU
from bermwright.data.works.supports import EN1998_5
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step
from bermwright.rules.supports.acting import Shake, in_earthquake
from bermwright.rules.supports.base import both_ways, found, worst_first
from bermwright.rules.supports.common import acting_steps, at, each_part, feet_unknown, spot_marks, widen
from bermwright.rules.supports.ground import pressed
from bermwright.rules.whole.slopes import quake_share
from bermwright.rules.whole.storms import quake_analysis, soil_shaken

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.study import Study
    from bermwright.rules.supports.base import Base, Governing
    from bermwright.rules.supports.standing import Standing

    Array = NDArray[np.float64]

SHAKING_CITE = Cite(work=EN1998_5, place="7.3.2 and annex E", provenance=Provenance.MEMORY)


def _decide(study: Study) -> Iterator[Said]:
    share = quake_share(study)
    if share is None:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="Not known: the file gives no ground acceleration.",
            advice="Answer the question about [site] ground_acceleration; on calm ground it is 0 g.",
        )
    elif share == 0.0:
        yield Said(
            verdict=Verdict.DOES_NOT_APPLY,
            template="The ground shakes so little here that no earthquake need be looked at.",
        )
    else:
        shake = Shake(share=share, more=soil_shaken(study, share))
        analysis = quake_analysis(study, share)
        # Strengths of the soil are design values, actions are not factored.
        factors = replace(analysis.factors, friction=EQU.friction)
        shaken = replace(analysis, factors=factors)
        yield from each_part(study, lambda _study, sides: _part(study, sides, shaken, shake), needs=_needed)


def _needed(standing: Standing) -> tuple[str, ...]:
    return () if standing.ground is not None else ("site.soil.friction_angle",)


def _part(study: Study, sides: tuple[Standing, ...], analysis: Analysis, shake: Shake) -> Iterator[Said]:
    every = [base for side in sides for base in both_ways(in_earthquake(study, side, analysis, shake))]
    if not all(found(base) for base in every):
        yield feet_unknown(sides[0].part)
        return
    tops = {
        "turn over": worst_first(every, lambda base: base.overturning),
        "slide": worst_first(every, lambda base: base.sliding),
        "press the ground": worst_first(every, _ground),
    }
    known = {does: top for does, top in tops.items() if top is not None}
    does, top = max(known.items(), key=lambda one: np.inf if np.isnan(one[1].ratio) else one[1].ratio)
    yield at(top, _said(does, top, shake))


def _ground(base: Base) -> Array:
    return pressed(base, heavy=False).ratio


def _said(does: str, top: Governing, shake: Shake) -> Said:
    return Said(
        verdict=verdict_of(top.ratio),
        template="{when}: the {side} side would {does}, {way}; that uses {used} of what holds.",
        values={"does": does, "used": Shown(top.ratio, "", 2)},
        advice=widen(top.base.standing) + ".",
        steps=(*acting_steps(top), *_steps(does, top, shake)),
    )


def _steps(does: str, top: Governing, shake: Shake) -> tuple[Step, ...]:
    base = top.base
    return (
        step(
            "Inertia of wall, footing and soil on it, and the soil's surplus",
            "F_E",
            "k_h·W + ΔK·γ·h²/2",
            f"k_h = {shake.share:.3f}, ΔK = {shake.more:.3f}, acts {top.at(base.shaken.arm):.2f} m up",
            Shown(top.at(base.shaken.force), "kN/m", 1),
            SHAKING_CITE,
        ),
        step(
            "Weights are lifted by half of that",
            "k_v",
            "k_h / 2",
            f"{shake.share:.3f} / 2",
            Shown(0.5 * shake.share, "", 3),
            SHAKING_CITE,
        ),
        ratio_step(f"Used until it would {does}", "demand / capacity", "", top.ratio),
    )


SUPPORTS_SHAKEN = Rule(
    name="supports-stand-an-earthquake",
    title="What carries the feet stands an earthquake",
    why="A wall is heavy and the soil behind it is heavier; both push it at once, and what lies on its base "
    "holds it less.",
    cites=(SHAKING_CITE,),
    decide=_decide,
    draws=spot_marks,
    asks=("site.ground_acceleration",),
)
