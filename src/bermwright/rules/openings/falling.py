"""Ribs near an end, under a mound that falls away along the axis."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import level_text
from bermwright.data.works.frames import FILLINGMODEL2026
from bermwright.handbook import timber as ec5
from bermwright.house import EndSide
from bermwright.rules.analysis.strength import bending_ratio, nail_ratio, shear_ratio
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.openings.timbers import missing
from bermwright.rules.ribs import common
from bermwright.rules.ribs.common import ratio_step, step, timber_cite
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.house import End
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.analysis.states import Situation
    from bermwright.rules.analysis.strength import RibStrength
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]

LASTING = "permanent"
STEEPEST = math.atan(1 / 1.5)
"""Steeper soil is outside what the methods hold for (rad)."""
SECTION_CITE = Cite(
    work=FILLINGMODEL2026, place="a rib under a lower level of fill", provenance=Provenance.DERIVED
)


def _here(now: Situation) -> bool:
    """Fill that stands level on both sides, at any height below the finished mound."""
    filled = now.stage.kind in {StageKind.FILL, StageKind.CROWN_SOIL, StageKind.COVER}
    return filled and abs(now.case.lead) < 1e-9 and not now.case.ballast  # noqa: PLR2004  (level)


def lasting_ratio(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S) strength used in bending, shear and nails where fill stays for good at the level of a stage.

    What is only permanent counts as permanent, although the stage itself passes soon.
    """
    used = np.maximum(
        bending_ratio(analysis, strength).max(axis=(2, 3)), shear_ratio(analysis, strength).max(axis=2)
    )
    if strength.joint_nodes.size:
        used = np.maximum(used, nail_ratio(analysis, strength).max(axis=2))
    lasts = ec5.modification_factor(strength.service_class, LASTING)
    stays = np.array([now.case.name.startswith(common.OWN_STATE) for now in analysis.situations])
    longer = np.where(stays, strength.kmods(analysis) / lasts, 1.0)
    return np.where(analysis.bends, used * longer[None, :], -np.inf)


def reach_of(study: Study, side: EndSide, end: End) -> float | str:
    """How far from an end the mound falls (m); in words what is not known."""
    mound = study.vault.mound
    slope = None if mound is None else (mound.front if side is EndSide.FRONT else mound.back)
    if end.soil_to is None:
        return "up to which level soil lies against it"
    top = study.form.ground.top
    drop = top - end.soil_to
    if drop <= 1e-3:  # noqa: PLR2004  (a millimetre)
        return 0.0
    if slope is None:
        return f"how the mound falls towards it ([vault.mound] {side})"
    return drop / math.tan(slope) if slope > 0.0 else "how the mound ends: it does not fall towards this end"


def _decide(study: Study) -> Iterator[Said]:
    worst: common.Worst | None = None
    for side in EndSide:
        early = _early(study, side)
        if early is not None:
            yield early
            continue
        # Both ends rest on the same numbers, looked for once.
        worst = worst or common.worst_of(study, lasting_ratio, _here)
        yield _end(study, side, worst)


def _early(study: Study, side: EndSide) -> Said | None:
    """What is said of an end before any rib is looked at."""
    part = f'end "{study.vault.name}", {side}'
    end = next((one for one in study.house.ends if one.vault == study.vault.name and one.at is side), None)
    if end is None:
        return missing(part, "what closes it", f'Write an [[end]] table with at = "{side}".')
    reach = reach_of(study, side, end)
    if isinstance(reach, str):
        return missing(part, reach, "Answer the questions about this end and [vault.mound].")
    if reach == 0.0:
        return Said(part=part, verdict=Verdict.DOES_NOT_APPLY, template="The mound does not fall towards it.")
    slope = _slope(study, side)
    if slope > STEEPEST + 1e-9:
        return Said(
            part=part,
            verdict=Verdict.UNKNOWN,
            template="The mound falls towards it at {slope}; steeper than 1:1.5 nothing is known.",
            values={"slope": Shown(slope, "deg", 0)},
            advice=f"Make it flatter: [vault.mound] {side}.",
        )
    return None


def _end(study: Study, side: EndSide, worst: common.Worst | None) -> Said:
    part = f'end "{study.vault.name}", {side}'
    end = next(one for one in study.house.ends if one.vault == study.vault.name and one.at is side)
    reach = reach_of(study, side, end)
    if isinstance(reach, str):
        return missing(part, reach, "Answer the questions about this end and [vault.mound].")
    if worst is None or worst.ratio is None:
        return missing(part, "how the ribs stand under lower fill", "Mend the ribs first.")
    return _said(study, part, worst, (end.soil_to or 0.0, min(reach, study.form.length)))


def _slope(study: Study, side: EndSide) -> float:
    mound = study.vault.mound
    slope = None if mound is None else (mound.front if side is EndSide.FRONT else mound.back)
    return math.nan if slope is None else slope


def _said(study: Study, part: str, worst: common.Worst, about: tuple[float, float]) -> Said:
    level, reach = about
    count = int(reach / study.form.spacing) + 1
    said = Said(
        part=part,
        verdict=worst.verdict,
        template="The mound falls to {level} over {reach}: {count} ribs there use {used} their strength.",
        values={
            "reach": Shown(reach, "m", 1),
            "level": level_text(level),
            "count": str(min(count, study.form.ribs)),
        },
        demand=worst.ratio,
        capacity=1.0,
        advice="Make the ribs there stronger, the mound steeper there, or the end wall higher.",
        steps=(
            step(
                "A rib there stands for good as any rib stands while fill is that high",
                "ratio", "bending, shear, nails of the fill stages, level on both sides", "",
                Shown(worst.ratio or math.nan, "", 3), SECTION_CITE,
            ),
            step(
                f"What stays counts as permanent, service class {study.strength.service_class}", "k_mod",
                "table 3.1", "",
                Shown(ec5.modification_factor(study.strength.service_class, LASTING), "", 2),
                timber_cite("table 3.1"),
            ),
            ratio_step("Strength used", "ratio", "", worst.ratio),
        ),
    )  # fmt: skip
    node = study.form.mesh.crown
    placed = common.at_worst(study, worst, node, said)
    return replace(placed, place=None)


RIBS_UNDER_FALL = Rule(
    name="ribs-stand-near-the-ends",
    title="Ribs near the ends stand under a mound that falls away",
    why="Where the mound falls, less soil lies on the crown than on the sides, and it stays so for good.",
    cites=(SECTION_CITE, timber_cite("table 3.1")),
    decide=_decide,
    asks=("end", "end.soil_to", "vault.mound.front", "vault.mound.back"),
)
