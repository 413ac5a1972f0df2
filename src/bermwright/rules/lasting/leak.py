"""Whether the ribs stand when the membrane leaks and they stay wet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.rules.lasting.accident import (
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
from bermwright.rules.ribs.common import timber_cite

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.rules.study import Study

WET = 3
"""Service class of wood that a leak keeps wet."""


def _decide(study: Study) -> Iterator[Said]:
    wet = after(study, study.service, service_class=WET)
    found = worst_check(wet)
    if found is None:
        yield not_covered()
        return
    what, worst = found
    if worst.ratio is None:
        yield common.not_known(worst)
        return
    said = Said(
        verdict=worst.verdict,
        template="{when}: wetted by a leak, the ribs use {used} their strength, {what}.",
        values={"what": what},
        demand=worst.ratio,
        capacity=1.0,
        advice="Make [vault] spacing smaller, or layers and depth larger; and lay the membrane so that every "
        "part of it can be dug up and mended: rot comes on top within years.",
        steps=steps(wet, what, worst),
    )
    yield common.at_worst(wet, worst, node_of(wet, what, worst), said)


LEAK = Rule(
    name="ribs-stand-a-leak",
    title="The ribs stand a leak",
    why="Every sheet leaks some day, and nobody sees it under the turf. Wet wood carries a fifth less until "
    "it is found; after that it rots.",
    cites=(timber_cite("table 3.1, service class 3"), LOADS, STRENGTHS),
    decide=_decide,
    asks=("vault.nails", "vault.service_class"),
)
