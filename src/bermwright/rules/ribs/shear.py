"""Do the ribs shear, with a layer cut at every butt joint?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict
from bermwright.rules.analysis.strength import shear_ratio
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import corner_of, factor_step, not_known, place_of, spot_of, step, timber_cite, worst_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.rules.ribs.common import Worst
    from bermwright.rules.study import Study


def _decide(study: Study) -> Iterator[Said]:
    worst = worst_of(study, shear_ratio, lambda _now: True)
    if worst is None:
        return
    if worst.ratio is None:
        template, values = not_known(worst)
        yield Said(verdict=Verdict.UNKNOWN, template=template, values=values, stage=worst.peak.now.stage.name)
        return
    now, (element, *_) = worst.peak.now, worst.peak.place
    stress, limit = _stresses(study, worst)
    yield Said(
        verdict=worst.verdict,
        template="At {stage} ({case}) shear takes {used} of the strength of a rib.",
        values={"stage": now.stage.name, "case": now.case.name, "used": Shown(worst.ratio, "", 2)},
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, element),
        demand=stress,
        capacity=limit,
        unit="N/mm2",
        ratio=worst.ratio,
        corner=corner_of(worst),
        advice="" if worst.verdict is Verdict.HOLDS else "Deeper ribs, more layers, or ribs nearer together.",
        steps=_working(study, worst, stress, limit),
        spot=spot_of(study, element),
    )


def _stresses(study: Study, worst: Worst) -> tuple[float, float]:
    kmod = float(study.strength.kmods(worst.peak.analysis)[worst.peak.situation])
    limit = float(study.strength.design(study.strength.timber.shear, kmod))
    return (worst.ratio or 0.0) * limit, limit


def _working(study: Study, worst: Worst, stress: float, limit: float) -> tuple[Step, ...]:
    strength, analysis, (element, *_) = study.strength, worst.peak.analysis, worst.peak.place
    share = float(strength.shares(analysis.frame.elements)[element].min())
    force = abs(float(analysis.response.shear[worst.peak.index])) * float(analysis.model[worst.peak.situation])
    width = share * strength.width
    return (
        step("Shear of one rib by frame, times the model factor", "V", "frame", worst.peak.corner.run, force, "kN", 2),
        step("Largest shear stress in the layers that run through, cracked", "τ", "1.5·V / (k_cr·b·h)",
             f"1.5 · {force:.0f} N / (0.67 · {width * 1e3:.0f} · {strength.depth * 1e3:.0f})", stress, "N/mm2", 2,
             timber_cite("6.1.7, eq. 6.13a")),
        factor_step(study, worst),
        step("Design shear strength", "f_v,d", "k_mod·f_v,k / γ_M", f"… · {strength.timber.shear / 1e6:g} / 1.3", limit, "N/mm2", 2,
             timber_cite("2.4.1")),
    )  # fmt: skip


RIBS_SHEAR = Rule(
    name="ribs-shear",
    title="The ribs stand shear",
    why="Beside a butt joint only the other layers carry across; boards split along the grain there.",
    cites=(timber_cite("6.1.7"),),
    decide=_decide,
    asks=("vault.service_class",),
)
