"""Do the ribs buckle in their own plane, or tip sideways?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.data.works.frames import TIMOSHENKO1961
from bermwright.base.sources import Cite, Provenance
from bermwright.handbook import timber as ec5
from bermwright.handbook.frames import buckling_factor
from bermwright.rules.analysis.strength import where_known
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import corner_of, factor_step, not_known, place_of, spot_of, step, timber_cite, worst_of
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.analysis.strength import RibStrength
    from bermwright.rules.ribs.common import Worst
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]


def critical_factors(analysis: Analysis, strength: RibStrength) -> Array:
    """(S,) how many times its thrust a rib stands before it buckles in its plane, low modulus.

    In each situation the lane with the largest thrust counts; soil springs are left out.
    """
    axial = analysis.response.axial
    largest = axial.max(axis=2)
    lane = np.argmax(np.where(np.isfinite(largest), largest, -np.inf), axis=0)
    chosen = axial[lane, np.arange(axial.shape[1])]
    factors = buckling_factor(
        analysis.frame,
        chosen,
        stiffness=analysis.states.stiffness * strength.timber.modulus_low / strength.timber.modulus,
        joint_stiffness=analysis.states.joint_stiffness * strength.timber.modulus_low / strength.timber.modulus,
    )
    return np.asarray(factors, dtype=float)


def buckling_ratio(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S, n) strength used by thrust with the reduction for buckling in the plane, and bending.

    EN 1995-1-1, 6.23 with the critical force of the whole rib in that situation.
    """
    area = strength.area * strength.left_at_joint
    axial = np.maximum(analysis.response.axial, 0.0) / area
    bending = np.abs(analysis.moment).max(axis=3) / strength.modulus
    kc = _reductions(analysis, strength)[None, :, None]
    kmod = strength.kmods(analysis)[None, :, None]
    fc = strength.design(strength.timber.compression, kmod)
    fm = strength.design(strength.bending_strength, kmod)

    def used(pressed: Array, bent: Array) -> Array:
        return ec5.buckling_and_bending(pressed, bent, compression_strength=fc, bending_strength=fm, k_c=kc)

    return where_known(used, axial, bending)


def _reductions(analysis: Analysis, strength: RibStrength) -> Array:
    """(S,) kc in the plane of the rib; 1 where nothing presses."""
    thrust = np.max(np.where(np.isfinite(analysis.response.axial), analysis.response.axial, 0.0), axis=(0, 2))
    critical = critical_factors(analysis, strength) * thrust
    pressed = np.isfinite(critical) & (critical > 0)
    relative = ec5.relative_slenderness_of_force(
        strength.area * strength.left_at_joint,
        strength.timber.compression,
        critical_force=np.where(pressed, critical, 1e9),
    )
    return np.where(pressed, ec5.buckling_factor(relative), 1.0)


def _in_plane(study: Study) -> Iterator[Said]:
    worst = worst_of(study, buckling_ratio, lambda _now: True)
    if worst is None:
        return
    if worst.ratio is None:
        template, values = not_known(worst)
        yield Said(verdict=Verdict.UNKNOWN, template=template, values=values, stage=worst.peak.now.stage.name)
        return
    now, (element, *_) = worst.peak.now, worst.peak.place
    factor = float(critical_factors(worst.peak.analysis, study.strength)[worst.peak.situation])
    yield Said(
        verdict=worst.verdict,
        template="At {stage} ({case}) thrust and bending take {used} of a rib that may buckle in its plane; it buckles "
        "at {factor} times its thrust.",
        values={
            "stage": now.stage.name,
            "case": now.case.name,
            "used": Shown(worst.ratio, "", 2),
            "factor": Shown(factor, "", 1),
        },
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, element),
        demand=worst.ratio,
        capacity=1.0,
        ratio=worst.ratio,
        corner=corner_of(worst),
        advice="" if worst.verdict is Verdict.HOLDS else "Deeper ribs, more nails along the layers, or longer boards.",
        steps=_plane_working(study, worst, factor),
        spot=spot_of(study, element),
    )


def _plane_working(study: Study, worst: Worst, factor: float) -> tuple[Step, ...]:
    analysis, strength = worst.peak.analysis, study.strength
    lane, situation, element = worst.peak.index
    axial = float(analysis.response.axial[lane, situation, element])
    kc = float(_reductions(analysis, strength)[situation])
    area = strength.area * strength.left_at_joint
    return (
        step("Thrust of one rib", "N", "frame, second order", worst.peak.corner.run, axial, "kN", 2),
        step("Times that thrust at which the rib buckles, modulus E₀.₀₅, joints as springs, soil left out", "λ_cr", "smallest eigenvalue",
             f"E₀.₀₅ {strength.timber.modulus_low / 1e9:g} GPa", factor, "", 2, Cite(work=TIMOSHENKO1961, place="chapter 7", provenance=Provenance.MEMORY)),
        step("Reduction for buckling", "k_c", "eq. 6.25 with λ_rel = √(f_c,k·A / N_cr)", f"A {area * 1e6:.0f} mm²", kc, "", 3,
             timber_cite("6.3.2, eq. 6.25 to 6.29")),
        factor_step(study, worst),
        step("Strength used; bending by second order is taken in full beside k_c (careful)", "ratio", "σ_c/(k_c·f_c,d) + σ_m/f_m,d",
             f"σ_c {axial / area / 1e6:.2f} N/mm²", worst.ratio or math.nan, "", 2, timber_cite("6.3.2, eq. 6.23")),
    )  # fmt: skip


RIBS_BUCKLE = Rule(
    name="ribs-do-not-buckle",
    title="The ribs do not buckle in their plane",
    why="A slender rib under thrust gives way sideways of its curve at a fraction of its strength; joints that slip "
    "and creep make it worse.",
    cites=(timber_cite("6.3.2"), Cite(work=TIMOSHENKO1961, place="chapter 7", provenance=Provenance.MEMORY)),
    decide=_in_plane,
    asks=("vault.nails", "vault.nail_spacing"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tipping:
    """A rib that may tip sideways in one way of being held."""

    where: str
    length: float
    critical: float
    """Critical bending moment (N m)."""
    k_crit: float
    k_c_flat: float


def _tipping(study: Study, *, lagged: bool) -> Tipping:
    """Loose layers side by side: their stiffness sideways is the sum of single boards'."""
    strength, curve = study.strength, study.form.rib.centreline
    section = ec5.laminated_section(strength.layers, thickness=strength.board, depth=strength.depth)
    timber = strength.timber
    # Braces hold a bare rib at both feet and at the crown; lagging holds its outer edge all along.
    length = curve.length if lagged else 0.5 * curve.length
    held = {"modulus_low": timber.modulus_low, "shear_modulus_low": timber.shear_modulus_low}
    flat, torsion = float(section.inertia_flat), float(section.torsion)
    if lagged:
        critical = float(ec5.critical_moment_held_edge(flat, torsion, depth=strength.depth, length=length, **held))
    else:
        stiffness = flat * held["modulus_low"] * torsion * held["shear_modulus_low"]
        critical = math.pi / length * math.sqrt(stiffness)
    relative = ec5.relative_slenderness_bending(timber.bending, critical / strength.modulus)
    flat_slender = ec5.slenderness(length, flat, area=strength.area)
    k_flat = ec5.buckling_factor(
        ec5.relative_slenderness(flat_slender, timber.compression, modulus_low=timber.modulus_low)
    )
    return Tipping(
        where="with its outer edge held by the lagging" if lagged else "bare, braced at feet and crown",
        length=length,
        critical=critical,
        k_crit=float(ec5.sideways_factor(relative)),
        k_c_flat=1.0 if lagged else float(k_flat),
    )


def _sideways(study: Study) -> Iterator[Said]:
    for lagged in (False, True):
        tip = _tipping(study, lagged=lagged)

        def ratio(analysis: Analysis, strength: RibStrength, tip: Tipping = tip) -> Array:
            return _sideways_ratio(analysis, strength, tip)

        bare = {StageKind.RIBS}
        worst = worst_of(study, ratio, lambda now, lagged=lagged: (now.stage.kind not in bare) is lagged)  # type: ignore[misc]
        if worst is not None:
            yield _sideways_said(study, worst, tip)


def _sideways_ratio(analysis: Analysis, strength: RibStrength, tip: Tipping) -> Array:
    kmod = strength.kmods(analysis)[None, :, None]
    axial = np.maximum(analysis.response.axial, 0.0) / (strength.area * strength.left_at_joint)
    bending = np.abs(analysis.moment).max(axis=3) / strength.modulus
    fm = strength.design(strength.bending_strength, kmod)
    fc = strength.design(strength.timber.compression, kmod)

    def used(bent: Array, pressed: Array) -> Array:
        return ec5.sideways_ratio(
            bent, pressed, bending_strength=fm, compression_strength=fc, k_crit=tip.k_crit, k_c_flat=tip.k_c_flat
        )

    return where_known(used, bending, axial)


def _sideways_said(study: Study, worst: Worst, tip: Tipping) -> Said:
    now = worst.peak.now
    if worst.ratio is None:
        template, values = not_known(worst)
        return Said(verdict=Verdict.UNKNOWN, template=template, values=values, stage=now.stage.name)
    element = worst.peak.place[0]
    return Said(
        verdict=verdict_of(worst.ratio) if not worst.only_expected else worst.verdict,
        template="At {stage} ({case}) a rib, {where}, uses {used} of its strength against tipping sideways.",
        values={
            "stage": now.stage.name, "case": now.case.name, "where": tip.where, "used": Shown(worst.ratio, "", 2),
        },
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, element),
        demand=worst.ratio,
        capacity=1.0,
        ratio=worst.ratio,
        corner=corner_of(worst),
        advice="" if worst.verdict is Verdict.HOLDS else "Brace the ribs at more places, or take thicker layers.",
        steps=(
            step("Free length", "l", "between places held against twisting", tip.where, tip.length, "m", 2),
            step("Critical moment, layers side by side and loose", "M_cr", "π/l·√(E·I_z·G·I_t), held edge: (π²·E·I_z·a²/l² + G·I_t)/(2·a)",
                 f"l {tip.length:.2f} m", tip.critical, "kNm", 1, timber_cite("6.3.3, eq. 6.31")),
            step("Reduction", "k_crit", "eq. 6.34", "", tip.k_crit, "", 3, timber_cite("6.3.3, eq. 6.34")),
            factor_step(study, worst),
            step("Strength used", "ratio", "(σ_m/(k_crit·f_m,d))² + σ_c/(k_c,z·f_c,d)", f"k_c,z {tip.k_c_flat:.3f}", worst.ratio, "", 2,
                 timber_cite("6.3.3, eq. 6.35")),
        ),
        spot=spot_of(study, element),
    )  # fmt: skip


RIBS_TIP = Rule(
    name="ribs-do-not-tip",
    title="The ribs do not tip sideways",
    why="A bare rib is a thin blade; until the lagging is on only the braces keep it from folding over.",
    cites=(timber_cite("6.3.3"),),
    decide=_sideways,
)
