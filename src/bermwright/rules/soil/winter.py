"""The first winter unheated: fill that freezes beside the vault."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Verdict
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.practice import TRADE
from bermwright.house import Frost
from bermwright.rules.nouns import Rule, Said

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.rules.study import Study


def _decide(study: Study) -> Iterator[Said]:
    fill = study.house.fill(study.vault)
    frost = fill.frost if fill else None
    drained = fill.drained if fill else None
    if study.house.stages.unheated_first_winter is False:
        yield Said(
            verdict=Verdict.DOES_NOT_APPLY,
            template="The house is heated through its first winter, as the file says.",
        )
    elif frost is Frost.NOT_SUSCEPTIBLE and drained:
        yield Said(
            verdict=Verdict.HOLDS,
            template="The fill does not heave and is drained; it may freeze in an unheated first winter.",
        )
    elif frost is Frost.SUSCEPTIBLE or drained is False:
        yield _pressed("heaves when it freezes" if frost is Frost.SUSCEPTIBLE else "is not drained")
    else:
        yield _not_said("whether the fill heaves" if frost is None else "whether the fill is drained")


def _pressed(what: str) -> Said:
    return Said(
        verdict=Verdict.FAILS,
        template="The fill {what}. Frozen in an unheated first winter, it presses with a force nobody can "
        "state.",
        values={"what": what},
        advice="Choose a [vault.fill] soil that does not heave and is drained, insulate over it, or heat "
        'the house from the first winter on: [stages] unheated_first_winter = "no".',
    )


def _not_said(missing: str) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="The file does not say {missing}. Unheated in its first winter, the vault may be pressed "
        "by ice.",
        values={"missing": missing},
        advice="Answer the questions about [vault.fill] frost and drained, and [stages] "
        "unheated_first_winter.",
    )


FIRST_WINTER = Rule(
    name="stands-its-first-winter",
    title="Stands its first winter unheated",
    why="Walls have been pushed in by frozen fill beside houses that stood unheated. No trustworthy "
    "pressure of freezing soil exists, so only fill that cannot heave, or warmth, answers it.",
    cites=(Cite(work=TRADE, place="backfill beside unheated walls", provenance=Provenance.PRACTICE),),
    decide=_decide,
    reads_ribs=False,
    asks=("vault.fill.frost", "vault.fill.drained", "stages.unheated_first_winter"),
)
