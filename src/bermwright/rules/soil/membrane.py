"""Whether the soil grips the outermost layer as much as the soil runs take for granted."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict
from bermwright.handbook.soils import active_ratio, largest_needed_wall_friction
from bermwright.rules import readings
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.bending import SOIL_CITE
from bermwright.rules.ribs.common import step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.rules.study import Study


def _decide(study: Study) -> Iterator[Said]:
    fill = study.house.fill(study.vault)
    angle = fill.friction_angle.low if fill and fill.friction_angle else math.nan
    there = readings.membrane_friction(study.vault)
    if math.isnan(angle):
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The file does not give the friction angle of the fill.",
            advice="Answer the question about [vault.fill] friction_angle.",
        )
    elif there is None:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="At which angle soil slides on the outermost layer is not known; a slippery one "
            "bends ribs more.",
            advice="Answer the question about [[vault.cover]] friction of the outermost layer.",
        )
    else:
        yield _known(angle, there)


def _known(angle: float, there: float) -> Said:
    ratio = float(active_ratio(angle))
    needed = float(largest_needed_wall_friction(ratio))
    slippery = needed > there
    return Said(
        verdict=Verdict.HOLDS,
        template="Soil slides on the outermost layer at {there}; the low run needs {needed}, so {how}.",
        values={
            "there": Shown(there, "deg", 0),
            "needed": Shown(needed, "deg", 0),
            "how": "soil at rest takes its place" if slippery else "it counts",
        },
        corner={"friction angle": Shown(angle, "deg", 0)},
        steps=(_needed(ratio, needed),),
    )


def _needed(ratio: float, needed: float) -> Step:
    return step(
        "Friction that the active ratio needs on the face",
        "δ",
        "atan((1 − K)/(2·√K))",
        f"atan((1 − {ratio:.3f}) / (2 · √({ratio:.3f})))",
        Shown(needed, "deg", 1),
        SOIL_CITE,
    )


SOIL_GRIPS = Rule(
    name="soil-runs-fit-the-membrane",
    title="The soil runs fit the membrane",
    why="How hard soil presses sideways depends on how it grips the vault. On a slippery sheet it cannot "
    "hang on the shell and presses more.",
    cites=(SOIL_CITE,),
    decide=_decide,
    reads_ribs=False,
    asks=("vault.cover.friction",),
)
