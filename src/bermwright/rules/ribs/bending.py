"""Do the ribs bend too much, with thrust, in any stage?"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict
from bermwright.base.marks import Comb, Ring
from bermwright.data.works.frames import FILLINGMODEL2026
from bermwright.base.sources import Cite, Provenance
from bermwright.rules.analysis.strength import bending_ratio
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import (
    PHASES,
    Worst,
    corner_of,
    factor_step,
    in_phase,
    not_known,
    place_of,
    spot_of,
    step,
    timber_cite,
    worst_of,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Finding, Step
    from bermwright.base.marks import Mark
    from bermwright.rules.study import Study

SOIL_CITE = Cite(work=FILLINGMODEL2026, place="soil law and its comparison", provenance=Provenance.DERIVED)


def _decide(study: Study) -> Iterator[Said]:
    for phase in PHASES:
        worst = worst_of(study, bending_ratio, in_phase(phase))
        if worst is not None:
            yield _said(study, worst, phase)


def _said(study: Study, worst: Worst, phase: str) -> Said:
    if worst.ratio is None:
        template, values = not_known(worst)
        return Said(verdict=Verdict.UNKNOWN, template=template, values=values, stage=worst.peak.now.stage.name)
    element, end = worst.peak.place
    now, node = worst.peak.now, element + end
    moment = abs(float(worst.peak.analysis.moment[worst.peak.index]))
    capacity = _capacity(study, worst)
    verdict, template = worst.verdict, _template(worst)
    if study.strength.joint is None and verdict is not Verdict.FAILS:
        # Without nails the layers may carry more unevenly than this: what holds is then not known.
        verdict, template = Verdict.UNKNOWN, "Before the nails are known bending takes at least {used} at {stage}."
    return Said(
        verdict=verdict,
        template=template,
        values={
            "phase": phase, "stage": now.stage.name, "case": now.case.name,
            "moment": Shown(moment, "kNm", 2), "capacity": Shown(capacity, "kNm", 2),
            "used": Shown(worst.ratio, "", 2), "expected": Shown(worst.expected, "", 2),
            "run": worst.peak.corner.run,
        },
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, node),
        demand=moment,
        capacity=capacity,
        unit="kNm",
        ratio=worst.ratio,
        corner=corner_of(worst),
        advice=_advice(worst, phase),
        steps=_working(study, worst),
        spot=spot_of(study, node),
    )  # fmt: skip


def _template(worst: Worst) -> str:
    if worst.only_expected:
        return (
            "At {stage} ({case}) the ribs hold only thanks to the soil giving way: {expected} of their strength in "
            "the expected soil, {used} in the {run} run."
        )
    if worst.verdict is Verdict.FAILS:
        return "At {stage} ({case}) a rib must bend with {moment}; it can take {capacity}."
    return "At {stage} ({case}) bending takes {used} of the strength of a rib."


def _advice(worst: Worst, phase: str) -> str:
    if worst.verdict is Verdict.HOLDS:
        return ""
    if phase == "while it is filled":
        return "Try in this order: a smaller lead, a curve nearer to the soil's own, ballast, then deeper ribs nearer together."
    return "Deeper ribs, nearer together, or a curve that bends less under this load."


def _capacity(study: Study, worst: Worst) -> float:
    """Bending that a rib takes beside its thrust at the governing place (N m)."""
    lane, situation, element, end = worst.peak.index
    strength, analysis = study.strength, worst.peak.analysis
    kmod = strength.kmods(analysis)[situation]
    area = strength.shares(analysis.frame.elements)[element, end] * strength.area
    axial = float(analysis.response.axial[lane, situation, element]) / area
    bending = float(strength.design(strength.bending_strength, kmod))
    if axial >= 0:
        left = 1.0 - (axial / float(strength.design(strength.timber.compression, kmod))) ** 2
    else:
        left = 1.0 + axial / float(strength.design(strength.timber.tension, kmod))
    return max(left, 0.0) * bending * strength.modulus


def _working(study: Study, worst: Worst) -> tuple[Step, ...]:
    lane, situation, element, end = worst.peak.index
    strength, analysis = study.strength, worst.peak.analysis
    raw = abs(float(analysis.response.moment[worst.peak.index]))
    model = float(analysis.model[situation])
    design = abs(float(analysis.moment[worst.peak.index]))
    axial = float(analysis.response.axial[lane, situation, element])
    share = float(strength.shares(analysis.frame.elements)[element, end])
    kmod = float(strength.kmods(analysis)[situation])
    fm, fc = (
        float(strength.design(value, kmod)) for value in (strength.bending_strength, strength.timber.compression)
    )
    n, t, h = strength.layers, strength.board * 1e3, strength.depth * 1e3
    return (
        step("Bending of one rib by plane frame, second order, design loads", "M", f"frame of {analysis.frame.elements} pieces",
             f"{worst.peak.corner.run} soil run, soil and weight × {analysis.factors.permanent:g}", raw, "kNm", 2, SOIL_CITE),
        step("Times the model factor; relief by crown cover only in part", "M_d", "γ_model · M",
             f"{model:g} · {raw / 1e3:.2f}", design, "kNm", 2, SOIL_CITE),
        step("The layer that carries most has more than its equal share", "W", "n·t·h²/6 / peak",
             f"{n} · {t:.0f} · {h:.0f}² / 6 / {strength.peak:.2f}", strength.modulus, "mm3", 0, timber_cite("7.1, table 7.1")),
        step("Bending stress", "σ_m", "M_d / W", f"{design / 1e3:.2f} kNm / {strength.modulus * 1e9:.0f} mm³",
             design / strength.modulus, "N/mm2", 2),
        step("Compressive stress in the layers that run through", "σ_c", "N / A",
             f"{axial / 1e3:.2f} kN / ({share:.2f} · {strength.area * 1e6:.0f} mm²)", axial / (share * strength.area), "N/mm2", 2),
        factor_step(study, worst),
        step("Design bending strength", "f_m,d", "k_mod·k_h·f_m,k / γ_M",
             f"{kmod:g} · {strength.bending_strength / strength.timber.bending:.3f} · {strength.timber.bending / 1e6:g} / 1.3",
             fm, "N/mm2", 2, timber_cite("2.4.1")),
        step("Design compressive strength", "f_c,d", "k_mod·f_c,k / γ_M", f"{kmod:g} · {strength.timber.compression / 1e6:g} / 1.3",
             fc, "N/mm2", 2, timber_cite("2.4.1")),
        step("Strength used", "ratio", "(σ_c/f_c,d)² + σ_m/f_m,d",
             f"({axial / share / strength.area / fc:.3f})² + {design / strength.modulus / fm:.3f}", worst.ratio or np.nan, "", 2,
             timber_cite("6.2.4, eq. 6.19")),
    )  # fmt: skip


def _draws(study: Study, finding: Finding) -> tuple[Mark, ...]:
    """The bending of the governing stage as a comb in its corridor, and a ring where it is worst."""
    phase = next((p for p, kinds in PHASES.items() for s in study.stages if s.name == finding.stage and s.kind in kinds), None)
    worst = worst_of(study, bending_ratio, in_phase(phase)) if phase else None
    if worst is None or worst.ratio is None:
        return ()
    analysis, (lane, situation, *_rest) = worst.peak.analysis, worst.peak.index
    moment = np.append(analysis.moment[lane, situation, :, 0], analysis.moment[lane, situation, -1, 1])
    mesh = study.form.mesh
    corridor = np.full(mesh.x.size, _capacity(study, worst))
    comb = Comb(
        x=tuple(mesh.x.tolist()), z=tuple(mesh.z.tolist()), moment=tuple(moment.tolist()), corridor=tuple(corridor.tolist()),
        text=Shown(finding.demand or np.nan, "kNm", 2).text(), allowed=f"of {Shown(finding.capacity or np.nan, 'kNm', 2).text()}",
    )  # fmt: skip
    ring = (Ring(spot=finding.spot),) if finding.spot and finding.verdict is Verdict.FAILS else ()
    return (comb, *ring)


RIBS_BEND = Rule(
    name="ribs-bend",
    title="The ribs stand bending and thrust",
    why="Soil presses a vault out of its shape, most of all while it is filled and the crown is still bare. "
    "Timber that bends too far breaks without warning.",
    cites=(timber_cite("6.2.3 and 6.2.4"), SOIL_CITE),
    decide=_decide,
    asks=("vault.nails", "vault.nails_each_side", "vault.nail_spacing", "vault.service_class", "vault.seasoned"),
    draws=_draws,
)
