"""Does the soil grip the outermost layer as much as the soil runs take for granted?"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict
from bermwright.handbook.soils import active_ratio, largest_needed_wall_friction
from bermwright.rules import readings
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.bending import SOIL_CITE
from bermwright.rules.ribs.common import step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.rules.study import Study


def _decide(study: Study) -> Iterator[Said]:
    fill = study.house.fill(study.vault)
    assert fill is not None
    assert fill.friction_angle is not None
    there = readings.membrane_friction(study.vault)
    if there is None:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="Nobody said at which angle the soil slides on the outermost layer; a slippery one raises bending by a third.",
            advice="Answer the question about the membrane's friction.",
        )
        return
    needed = float(largest_needed_wall_friction(active_ratio(fill.friction_angle.low)))
    slippery = needed > there
    yield Said(
        verdict=Verdict.HOLDS,
        template="The soil slides on the outermost layer at {there}; the low soil run would need {needed}, so it is {how}.",
        values={
            "there": Shown(there, "deg", 0),
            "needed": Shown(needed, "deg", 0),
            "how": "left out and the soil at rest takes its place" if slippery else "counted",
        },
        corner={"friction angle": Shown(fill.friction_angle.low, "deg", 0)},
        steps=(
            step("Friction that the active ratio needs on the face", "δ", "atan((1 − K)/(2·√K))", f"K {float(active_ratio(fill.friction_angle.low)):.3f}",
                 needed, "deg", 1, SOIL_CITE),
        ),
    )  # fmt: skip


SOIL_GRIPS = Rule(
    name="soil-runs-fit-the-membrane",
    title="The soil runs fit the membrane",
    why="How hard soil presses sideways depends on how it grips the vault; on a slippery sheet it cannot hang on the "
    "shell and presses more.",
    cites=(SOIL_CITE,),
    decide=_decide,
    asks=("vault.cover.friction",),
)
