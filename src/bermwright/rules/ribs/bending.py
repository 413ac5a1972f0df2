"""Whether the ribs stand bending with thrust, in every phase of building."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict
from bermwright.base.marks import Comb, Ring
from bermwright.base.sources import Cite, Provenance
from bermwright.data.timber_classes import GAMMA_TIMBER
from bermwright.data.works.frames import FILLINGMODEL2026
from bermwright.rules.analysis.strength import bending_ratio
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs import common
from bermwright.rules.ribs.common import PHASES, step, timber_cite

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Finding, Step
    from bermwright.base.marks import Mark
    from bermwright.rules.ribs.common import Worst
    from bermwright.rules.study import Study

SOIL_CITE = Cite(work=FILLINGMODEL2026, place="soil law and its comparison", provenance=Provenance.DERIVED)
LOAD_ADVICE = "Make [vault] spacing smaller, or layers and depth larger; or draw a curve nearer to this load."
FILL_ADVICE = (
    "Try in this order: a smaller [stages] lead, a curve nearer to the soil's, [stages.ballast], deeper ribs."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bent:
    """One rib at the governing place: forces, and what stands against them."""

    raw: float
    """Bending by frame (N m)."""
    model: float
    moment: float
    """Design bending (N m)."""
    axial: float
    """Thrust (N), negative where the rib is pulled."""
    share: float
    """Share of the layers that run through."""
    area: float
    modulus: float
    kmod: float
    bending: float
    """Design bending strength (Pa)."""
    along: float
    """Design strength in compression, or in tension where the rib is pulled (Pa)."""

    @property
    def pulled(self) -> bool:
        """Whether the rib is pulled along its length."""
        return self.axial < 0

    @property
    def stress(self) -> float:
        """Bending stress (Pa)."""
        return self.moment / self.modulus

    @property
    def pressed(self) -> float:
        """Size of the stress along the rib (Pa)."""
        return abs(self.axial) / (self.share * self.area)

    @property
    def capacity(self) -> float:
        """Bending that the rib takes beside its thrust (N m)."""
        used = self.pressed / self.along
        left = 1.0 - (used if self.pulled else used**2)
        return max(left, 0.0) * self.bending * self.modulus


def _bent(study: Study, worst: Worst) -> Bent:
    lane, situation, element, end = worst.peak.index
    strength, analysis = study.strength, worst.peak.analysis
    axial = float(analysis.response.axial[lane, situation, element])
    kmod = common.kmod_of(study, worst)
    along = strength.timber.tension if axial < 0 else strength.timber.compression
    return Bent(
        raw=abs(float(analysis.response.moment[worst.peak.index])),
        model=float(analysis.model[situation]),
        moment=abs(float(analysis.moment[worst.peak.index])),
        axial=axial,
        share=float(strength.shares(analysis.frame.elements)[element, end]),
        area=strength.area,
        modulus=strength.modulus,
        kmod=kmod,
        bending=float(strength.design(strength.bending_strength, kmod)),
        along=float(strength.design(along, kmod)),
    )


def _decide(study: Study) -> Iterator[Said]:
    for phase in PHASES:
        worst = common.worst_of(study, bending_ratio, common.in_phase(phase))
        if worst is not None:
            yield common.not_known(worst) if worst.ratio is None else _said(study, worst, phase)


def _said(study: Study, worst: Worst, phase: str) -> Said:
    element, end = worst.peak.place
    bent = _bent(study, worst)
    verdict, template, advice = _words(study, worst, phase)
    said = Said(
        verdict=verdict,
        template=template,
        values={
            "phase": phase,
            "moment": Shown(bent.moment, "kNm", 2),
            "capacity": Shown(bent.capacity, "kNm", 2),
            "run": worst.peak.corner.run,
        },
        demand=bent.moment,
        capacity=bent.capacity,
        unit="kNm",
        advice=advice,
        steps=(
            *_moment_steps(worst, bent),
            *_stress_steps(study, bent),
            *_strength_steps(study, worst, bent),
        ),
    )
    return common.at_worst(study, worst, element + end, said)


def _words(study: Study, worst: Worst, phase: str) -> tuple[Verdict, str, str]:
    """Verdict, sentence and advice."""
    advice = FILL_ADVICE if phase == "while it is filled" else LOAD_ADVICE
    if worst.verdict is Verdict.FAILS:
        return worst.verdict, "{when}: a rib must bend with {moment}; it can take {capacity}.", advice
    if study.strength.loose:
        # Without nails the layers may carry more unevenly than this: what holds is then not known.
        template = "{when}: bending uses at least {used} a rib's strength; the nails are not known."
        return Verdict.UNKNOWN, template, common.NAILS_ASKED
    return worst.verdict, "{when}: bending uses {used} a rib's strength.", advice


def _moment_steps(worst: Worst, bent: Bent) -> Iterator[Step]:
    analysis, counted = worst.peak.analysis, bent.moment / bent.model
    yield step(
        f"Bending of one rib by frame, {worst.peak.corner.run} soil run, soil and weight × "
        f"{analysis.factors.permanent:g}",
        "M",
        f"plane frame of {analysis.frame.elements} pieces, second order",
        "",
        Shown(bent.raw, "kNm", 3),
        SOIL_CITE,
    )
    if not math.isclose(counted, bent.raw, rel_tol=1e-9):
        yield step(
            "Of the relief that soil over the crown gives only a part counts",
            "M",
            "M − (1 − credit) · relief, where that is worse",
            "",
            Shown(counted, "kNm", 3),
            SOIL_CITE,
        )
    yield step(
        "Times the model factor",
        "M_d",
        "γ_model · M",
        f"{bent.model:g} · {counted / 1e3:.3f}",
        Shown(bent.moment, "kNm", 3),
        SOIL_CITE,
    )


def _stress_steps(study: Study, bent: Bent) -> tuple[Step, ...]:
    strength = study.strength
    (layers, board), depth = strength.beside, strength.depth * 1e3
    board *= 1e3
    return (
        step(
            "What slip of the nails leaves of the boards, bending and pull together"
            if strength.bent
            else "The layer that carries most has more than its equal share",
            "W",
            "n·t·h²/6 / peak",
            f"{layers} · {board:.0f} · {depth:.0f}² / 6 / {strength.peak:.3f}",
            Shown(bent.modulus, "mm3", 0),
            timber_cite("7.1, table 7.1"),
        ),
        step(
            "Bending stress",
            "σ_m",
            "M_d / W",
            f"{bent.moment / 1e3:.3f}·10⁶ / {bent.modulus * 1e9:.0f}",
            Shown(bent.stress, "N/mm2", 3),
        ),
        step(
            f"{'Tensile' if bent.pulled else 'Compressive'} stress in the layers that run through",
            "σ_t" if bent.pulled else "σ_c",
            "N / A",
            f"{abs(bent.axial):.0f} / ({bent.share:.3f} · {bent.area * 1e6:.0f})",
            Shown(bent.pressed, "N/mm2", 3),
        ),
    )


def _strength_steps(study: Study, worst: Worst, bent: Bent) -> tuple[Step, ...]:
    timber, gamma = study.strength.timber, f"{GAMMA_TIMBER.value:g}"
    shallow = study.strength.bending_strength / timber.bending
    along = timber.tension if bent.pulled else timber.compression
    kind, power = ("t", "") if bent.pulled else ("c", "²")
    return (
        common.factor_step(study, worst),
        step(
            "Design bending strength",
            "f_m,d",
            "k_mod·k_h·f_m,k / γ_M",
            f"{bent.kmod:g} · {shallow:.3f} · {timber.bending / 1e6:g} / {gamma}",
            Shown(bent.bending, "N/mm2", 2),
            timber_cite("2.4.1"),
        ),
        step(
            f"Design strength in {'tension' if bent.pulled else 'compression'}",
            f"f_{kind},d",
            f"k_mod·f_{kind},k / γ_M",
            f"{bent.kmod:g} · {along / 1e6:g} / {gamma}",
            Shown(bent.along, "N/mm2", 2),
            timber_cite("2.4.1"),
        ),
        common.ratio_step(
            "Strength used",
            f"(σ_{kind}/f_{kind},d){power} + σ_m/f_m,d",
            f"({bent.pressed / bent.along:.3f}){power} + {bent.stress / bent.bending:.3f}",
            worst.ratio,
            timber_cite("6.2.3, eq. 6.17" if bent.pulled else "6.2.4, eq. 6.19"),
        ),
    )


def _draws(study: Study, finding: Finding) -> tuple[Mark, ...]:
    """The bending of the governing stage as a comb in its corridor, and a ring where it is worst."""
    phase = _phase_of(study, finding)
    worst = common.worst_of(study, bending_ratio, common.in_phase(phase)) if phase else None
    if worst is None or worst.ratio is None:
        return ()
    analysis, (lane, situation, *_rest) = worst.peak.analysis, worst.peak.index
    bent, mesh = _bent(study, worst), study.form.mesh
    moment = np.append(analysis.moment[lane, situation, :, 0], analysis.moment[lane, situation, -1, 1])
    comb = Comb(
        x=tuple(mesh.x.tolist()),
        z=tuple(mesh.z.tolist()),
        moment=tuple(moment.tolist()),
        corridor=(bent.capacity,) * mesh.x.size,
        text=Shown(bent.moment, "kNm", 2).text(),
        allowed=f"of {Shown(bent.capacity, 'kNm', 2).text()}",
    )
    ring = (Ring(spot=finding.spot),) if finding.spot and finding.verdict is Verdict.FAILS else ()
    return (comb, *ring)


def _phase_of(study: Study, finding: Finding) -> str | None:
    kinds = {stage.kind for stage in study.stages if stage.name == finding.stage}
    return next((phase for phase, those in PHASES.items() if kinds & those), None)


RIBS_BEND = Rule(
    name="ribs-bend",
    title="The ribs stand bending and thrust",
    why="Soil presses a vault out of its shape, most of all while it is filled and the crown is still bare. "
    "Timber that bends too far breaks without warning.",
    cites=(timber_cite("6.2.3 and 6.2.4"), SOIL_CITE),
    decide=_decide,
    asks=(
        "vault.nails",
        "vault.nails_each_side",
        "vault.nail_spacing",
        "vault.service_class",
        "vault.seasoned",
    ),
    draws=_draws,
)
