"""Whether the ribs stand shear, with a layer cut at every butt joint."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.data.timber_classes import GAMMA_TIMBER, K_CRACK
from bermwright.rules.analysis.strength import shear_ratio
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs import common
from bermwright.rules.ribs.common import step, timber_cite

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.rules.ribs.common import Worst
    from bermwright.rules.study import Study


def _decide(study: Study) -> Iterator[Said]:
    worst = common.worst_of(study, shear_ratio)
    if worst is None:
        return
    if worst.ratio is None:
        yield common.not_known(worst)
        return
    limit = float(study.strength.design(study.strength.timber.shear, common.kmod_of(study, worst)))
    said = Said(
        verdict=worst.verdict,
        template="{when}: shear uses {used} a rib's strength.",
        demand=worst.ratio * limit,
        capacity=limit,
        unit="N/mm2",
        advice=common.STIFFER,
        steps=_working(study, worst, worst.ratio * limit, limit),
    )
    yield common.at_worst(study, worst, worst.peak.place[0], said)


def _working(study: Study, worst: Worst, stress: float, limit: float) -> tuple[Step, ...]:
    strength, analysis = study.strength, worst.peak.analysis
    share = float(strength.shares(analysis.frame.elements)[worst.peak.place[0]].min())
    model = float(analysis.model[worst.peak.situation])
    force = abs(float(analysis.response.shear[worst.peak.index])) * model
    width, depth = share * strength.width * 1e3, strength.depth * 1e3
    return (
        step(
            "Shear of one rib by frame, times the model factor",
            "V",
            "γ_model · V",
            f"{model:g} · {force / model / 1e3:.3f}",
            Shown(force, "kN", 3),
        ),
        step(
            "Shear stress in the layers that run through, cracked",
            "τ",
            "1.5·V / (k_cr·b·h)",
            f"1.5 · {force:.0f} / ({K_CRACK.value:g} · {width:.0f} · {depth:.0f})",
            Shown(stress, "N/mm2", 3),
            timber_cite("6.1.7, eq. 6.13a"),
        ),
        common.factor_step(study, worst),
        step(
            "Design shear strength",
            "f_v,d",
            "k_mod·f_v,k / γ_M",
            f"{common.kmod_of(study, worst):g} · {strength.timber.shear / 1e6:g} / {GAMMA_TIMBER.value:g}",
            Shown(limit, "N/mm2", 3),
            timber_cite("2.4.1"),
        ),
        common.ratio_step(
            "Strength used", "τ / f_v,d", f"{stress / 1e6:.3f} / {limit / 1e6:.3f}", worst.ratio
        ),
    )


RIBS_SHEAR = Rule(
    name="ribs-shear",
    title="The ribs stand shear",
    why="Beside a butt joint only the other layers carry across; boards split along the grain there.",
    cites=(timber_cite("6.1.7"),),
    decide=_decide,
    asks=("vault.service_class",),
)
