"""Whether all actions are known that a buried vault must be checked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Verdict
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.actions import EN1990
from bermwright.rules import readings
from bermwright.rules.nouns import Rule, Said

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.rules.study import Study


def _decide(study: Study) -> Iterator[Said]:
    left_out = list(readings.unknown_actions(study.house, study.vault))
    for place, cases in left_out:
        table, key = place.rsplit(".", 1)
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The file does not give {place}, so {cases} was left out.",
            values={"place": place, "cases": cases},
            place=place,
            advice=f"Answer the question about [{table}] {key}.",
        )
    if not left_out:
        yield Said(
            verdict=Verdict.HOLDS,
            template="Snow, people, soaked fill and a blocked drain are known, and in the cases.",
        )


ACTIONS_ARE_KNOWN = Rule(
    name="actions-are-known",
    title="All actions are known",
    why="A load that nobody asked for is the one that breaks the house. What is not known is left out of the "
    "cases, and then nothing can be said to hold under it.",
    cites=(Cite(work=EN1990, place="4.1.1", provenance=Provenance.MEMORY),),
    decide=_decide,
    reads_ribs=False,
    asks=(
        "site.ground_snow",
        "site.accessible_roof",
        "site.overflow",
        "vault.fill.saturated_unit_weight",
    ),
)
