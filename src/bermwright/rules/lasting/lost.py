"""Whether the finished house stands when one rib is lost: its neighbours, and planks over two bays."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.base.sources import Cite, Provenance
from bermwright.data.rule_sets import SERVICE
from bermwright.data.works.actions import EN1990
from bermwright.rules.lasting.accident import (
    FINISHED,
    LOADS,
    STRENGTHS,
    after,
    node_of,
    not_covered,
    steps,
    worst_check,
)
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs import common
from bermwright.rules.ribs.common import step
from bermwright.rules.study import rib_model

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.rules.study import Study
    from bermwright.stages.nouns import Stage

WIDER = 1.5
"""Bays on a neighbour: half of one on its far side and half of the doubled one."""
SHARE = Cite(work=EN1990, place="statics: half of each bay beside a rib", provenance=Provenance.DERIVED)
ADVICE = (
    "Make [vault] spacing smaller, or layers and depth larger. Until then look at every rib once a year, and "
    "prop its neighbours before you repair one."
)


def without_a_rib(study: Study) -> Study:
    """The neighbours of a lost rib: the same ribs, each with one bay and a half on it."""
    wide = replace(study.form, spacing=WIDER * study.form.spacing)
    share = study.model.share
    model = replace(rib_model(study.house, study.vault, wide, study.strength), share=share)
    return after(replace(study, form=wide, model=model), model.serve(_leading_to(study.stages), SERVICE))


def _leading_to(stages: Sequence[Stage]) -> tuple[Stage, ...]:
    """The finished stages whole; those before with their own state alone, as no case of theirs leads on."""
    return tuple(
        stage if stage.kind in FINISHED else replace(stage, cases=stage.cases[:1]) for stage in stages
    )


def _decide(study: Study) -> Iterator[Said]:
    lost = without_a_rib(study)
    found = worst_check(lost)
    if found is None:
        yield not_covered()
        return
    what, worst = found
    if worst.ratio is None:
        yield common.not_known(worst)
        return
    said = Said(
        verdict=worst.verdict,
        template="{when}: with one rib lost, its neighbours use {used} their strength, {what}.",
        values={"what": what},
        demand=worst.ratio,
        capacity=1.0,
        advice=ADVICE,
        steps=(
            step("Width on a neighbour: half a bay, and half of the doubled one", "b", "s/2 + 2s/2",
                 f"{WIDER:g} · {study.form.spacing * 1e3:.0f}", Shown(lost.form.spacing, "mm", 0), SHARE),
            *steps(lost, what, worst),
        ),
    )  # fmt: skip
    yield common.at_worst(lost, worst, node_of(lost, what, worst), said)


NEIGHBOURS = Rule(
    name="neighbours-carry-a-lost-rib",
    title="The neighbours carry for a lost rib",
    why="A rib that rots at its foot or that a tree falls on must not bring down the house: what it "
    "carried comes on the ribs beside it, for as long as nobody sees it.",
    cites=(LOADS, STRENGTHS, SHARE),
    decide=_decide,
    asks=("vault.nails", "vault.service_class"),
)
