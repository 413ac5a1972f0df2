"""What the rules on loss and leaks share: the finished house after an accident, all partial factors 1."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.actions import EN1990
from bermwright.rules.analysis.response import among
from bermwright.rules.analysis.strength import bending_ratio, nail_ratio, shear_ratio, slip_ratio
from bermwright.rules.nouns import Said
from bermwright.rules.ribs import common
from bermwright.rules.ribs.common import step, timber_cite
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    import numpy as np
    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.analysis.states import Situation
    from bermwright.rules.analysis.strength import RibStrength
    from bermwright.rules.ribs.common import Worst
    from bermwright.rules.study import Study

FINISHED = frozenset({StageKind.COVER, StageKind.TURF, StageKind.SETTLED, StageKind.LONG_TERM})
LOADS = Cite(work=EN1990, place="6.4.3.3, eq. 6.11: factors 1; every load stays whole here",
             provenance=Provenance.MEMORY)  # fmt: skip
STRENGTHS = timber_cite("table 2.3: accidental combinations, factor 1")
CHECKS: Mapping[str, Callable[[Analysis, RibStrength], NDArray[np.float64]]] = {
    "bending with thrust": bending_ratio,
    "shear": shear_ratio,
    "nails at a butt joint": nail_ratio,
    "nails between bent boards": slip_ratio,
}


def finished(now: Situation) -> bool:
    """Whether the house is covered."""
    return now.stage.kind in FINISHED


def after(study: Study, service: Analysis, *, service_class: int | None = None) -> Study:
    """The finished house read with factors of 1 only, its ribs after an accident."""
    damp = study.strength.service_class if service_class is None else service_class
    ribs = replace(study.strength, accidental=True, service_class=damp)
    covered = among(service, service.where_situation(finished))
    return replace(study, analyses=(covered,), strength=ribs)


def checked(study: Study) -> tuple[str, ...]:
    """What is looked at in these ribs."""
    kinds = ["bending with thrust", "shear"]
    if study.strength.bent:
        kinds.append("nails between bent boards")
    elif study.strength.joint_nodes.size:
        kinds.append("nails at a butt joint")
    return tuple(kinds)


def worst_check(study: Study) -> tuple[str, Worst] | None:
    """What the ribs of the finished house stand least, and where."""
    found = [
        (what, worst)
        for what in checked(study)
        if (worst := common.worst_of(study, CHECKS[what], finished)) is not None
    ]
    if not found:
        return None
    return max(found, key=lambda one: (one[1].verdict is Verdict.FAILS, one[1].ratio is None,
                                       one[1].ratio or 0.0))  # fmt: skip


def node_of(study: Study, what: str, worst: Worst) -> int:
    """The node of the mesh that governs."""
    place = worst.peak.place
    if what == "nails at a butt joint":
        return int(study.strength.joint_nodes[place[0]])
    return place[0] + (place[1] if len(place) > 1 else 0)


def steps(study: Study, what: str, worst: Worst) -> tuple[Step, ...]:
    """How strength counts after an accident, and what is used of it."""
    return (
        common.factor_step(study, worst),
        step("Partial factor on strength after an accident", "γ_M", "table 2.3", "",
             Shown(study.strength.gamma, "", 2), STRENGTHS),
        common.ratio_step(f"Strength used, {what}, all loads × 1", "E/R", "", worst.ratio, LOADS),
    )  # fmt: skip


def not_covered() -> Said:
    """Said of a vault that has no finished stage."""
    return Said(
        verdict=Verdict.UNKNOWN,
        template="No stage of the file is the finished house, so no loss was looked at.",
        advice="Write the [vault.mound].",
    )
