"""Whether the ribs buckle in their own plane, or tip sideways."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown
from bermwright.base.sources import Cite, Provenance
from bermwright.data.timber_classes import GAMMA_TIMBER
from bermwright.data.works.frames import TIMOSHENKO1961
from bermwright.handbook import timber as ec5
from bermwright.handbook.frames import buckling_factor
from bermwright.rules.analysis.response import keeps, worse_end
from bermwright.rules.analysis.strength import where_known
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs import common
from bermwright.rules.ribs.common import step, timber_cite

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.analysis.states import Situation
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
        joint_stiffness=analysis.states.joint_stiffness
        * strength.timber.modulus_low
        / strength.timber.modulus,
    )
    return np.asarray(factors, dtype=float)


@keeps
def buckling_ratio(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S, n) strength used by thrust with the reduction for buckling in the plane, and bending.

    EN 1995-1-1, 6.23 with the critical force of the whole rib in that situation.
    """
    area = strength.area * strength.left_at_joint
    axial = np.maximum(analysis.response.axial, 0.0) / area
    bending = worse_end(analysis.moment) / strength.modulus
    reductions = _reductions(analysis, strength)
    lost = np.isnan(reductions)
    kc = np.where(lost, 1.0, reductions)
    kmod = strength.kmods(analysis)[None, :, None]
    fc = strength.design(strength.timber.compression, kmod)
    fm = strength.design(strength.bending_strength, kmod)

    def used(pressed: Array, bent: Array, reduced: Array) -> Array:
        return ec5.buckling_and_bending(
            pressed, bent, compression_strength=fc, bending_strength=fm, k_c=reduced
        )

    return np.where(lost, np.nan, where_known(used, axial, bending, kc))


@keeps
def lane_factors(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S) critical factor of every lane: that of the largest thrust, in proportion to the thrusts."""
    axial = analysis.response.axial
    thrust = np.maximum(np.where(np.isfinite(axial), axial, 0.0).max(axis=2), 0.0)
    largest = thrust.max(axis=0)
    share = np.divide(largest, thrust, out=np.full_like(thrust, np.inf), where=thrust > 0)
    factors: Array = critical_factors(analysis, strength)[None, :] * share
    return factors


@keeps
def _reductions(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S, n) kc in the plane of the rib; 1 where nothing presses, NaN where it is not known.

    The critical force of an element is its own thrust times the lane's critical factor, so that a place
    with less thrust than the foot is not let off by the thrust of the foot.
    """
    axial = np.maximum(analysis.response.axial, 0.0)
    factors = np.broadcast_to(lane_factors(analysis, strength)[:, :, None], axial.shape)
    lost = np.isnan(factors) & (axial > 0)
    known = np.isfinite(factors) & (axial > 0)
    critical = np.where(known, factors, 0.0) * np.where(known, axial, 0.0)
    pressed = critical > 0
    relative = ec5.relative_slenderness_of_force(
        strength.area * strength.left_at_joint,
        strength.timber.compression,
        critical_force=np.where(pressed, critical, 1e9),
    )
    return np.where(lost, np.nan, np.where(pressed, ec5.buckling_factor(relative), 1.0))


def _in_plane(study: Study) -> Iterator[Said]:
    worst = common.worst_of(study, buckling_ratio)
    if worst is None:
        return
    if worst.ratio is None:
        yield common.not_known(worst)
        return
    factor = float(lane_factors(worst.peak.analysis, study.strength)[worst.peak.index[:2]])
    said = Said(
        verdict=worst.verdict,
        template="{when}: thrust and bending use {used} a rib's strength; "
        "it buckles at {factor} times its thrust.",
        values={"factor": Shown(factor, "", 1)},
        demand=worst.ratio,
        capacity=1.0,
        advice="Make [vault] depth or board_length larger, or nail_spacing smaller.",
        steps=(*_buckling_steps(study, worst), *_plane_steps(study, worst)),
    )
    yield common.at_worst(study, worst, worst.peak.place[0], said)


def _buckling_steps(study: Study, worst: Worst) -> tuple[Step, ...]:
    analysis, strength = worst.peak.analysis, study.strength
    area = strength.area * strength.left_at_joint
    modulus = strength.timber.modulus_low / 1e9
    thrust = float(analysis.response.axial[worst.peak.index])
    factor = float(lane_factors(analysis, strength)[worst.peak.index[:2]])
    pressed = thrust > 0.0 and factor > 0.0
    slender = float(np.sqrt(strength.timber.compression * area / (factor * thrust))) if pressed else 0.0
    reduced = 0.5 * (1.0 + 0.2 * (slender - 0.3) + slender**2)
    return (
        step(
            "Thrust of one rib",
            "N",
            f"plane frame, second order, {worst.peak.corner.run} soil run",
            "",
            Shown(float(analysis.response.axial[worst.peak.index]), "kN", 3),
        ),
        step(
            "Times that thrust at which the rib buckles, joints as springs, soil left out",
            "λ_cr",
            f"smallest eigenvalue with E₀.₀₅ of {modulus:g} GPa",
            "",
            Shown(float(lane_factors(analysis, strength)[worst.peak.index[:2]]), "", 3),
            Cite(work=TIMOSHENKO1961, place="chapter 7", provenance=Provenance.MEMORY),
        ),
        step(
            f"Slenderness, on {area * 1e6:.0f} mm² that run through",
            "λ_rel",
            "√(f_c,k·A / (λ_cr·N))",
            f"√({strength.timber.compression / 1e6:g} · {area * 1e6:.0f} / ({factor:.4f} · {thrust:.1f}))"
            if pressed
            else "nothing presses",
            Shown(slender, "", 3),
            timber_cite("6.3.2, eq. 6.21"),
        ),
        step(
            f"Reduction for buckling, k = (1 + 0.2·({slender:.3f} − 0.3) + {slender:.3f}²)/2",
            "k_c",
            "1 / (k + √(k² − λ_rel²))",
            f"1 / ({reduced:.3f} + √({reduced:.3f}² − {slender:.3f}²))" if pressed else "nothing presses",
            Shown(float(_reductions(analysis, strength)[worst.peak.index]), "", 4),
            timber_cite("6.3.2, eq. 6.25 to 6.29"),
        ),
        common.factor_step(study, worst),
    )


def _plane_steps(study: Study, worst: Worst) -> tuple[Step, ...]:
    """Stresses over strengths; bending by second order is taken in full beside k_c, which is careful."""
    analysis, strength = worst.peak.analysis, study.strength
    lane, situation, element = worst.peak.index
    kmod = common.kmod_of(study, worst)
    axial = max(float(analysis.response.axial[worst.peak.index]), 0.0)
    pressed = axial / (strength.area * strength.left_at_joint)
    bent = float(np.abs(analysis.moment[lane, situation, element]).max()) / strength.modulus
    limit = float(strength.design(strength.timber.compression, kmod))
    bending = float(strength.design(strength.bending_strength, kmod))
    kc = float(_reductions(analysis, strength)[worst.peak.index])
    return (
        step(
            "Design strength in compression",
            "f_c,d",
            "k_mod·f_c,k / γ_M",
            f"{kmod:g} · {strength.timber.compression / 1e6:g} / {GAMMA_TIMBER.value:g}",
            Shown(limit, "N/mm2", 2),
            timber_cite("2.4.1"),
        ),
        common.ratio_step(
            "Strength used, with the bending of the second order in full beside k_c",
            "σ_c/(k_c·f_c,d) + σ_m/f_m,d",
            f"{pressed / 1e6:.4f} / ({kc:.4f} · {limit / 1e6:.3f}) + {bent / 1e6:.3f} / {bending / 1e6:.3f}",
            worst.ratio,
            timber_cite("6.3.2, eq. 6.23"),
        ),
    )


RIBS_BUCKLE = Rule(
    name="ribs-do-not-buckle",
    title="The ribs do not buckle in their plane",
    why="A slender rib under thrust leaves its curve at a fraction of its strength. Joints that slip and "
    "creep make it worse.",
    cites=(timber_cite("6.3.2"), Cite(work=TIMOSHENKO1961, place="chapter 7", provenance=Provenance.MEMORY)),
    decide=_in_plane,
    asks=("vault.nails", "vault.nail_spacing"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tipping:
    """A rib that may tip sideways in one way of being held."""

    where: str
    formula: str
    filled: str
    """Numbers in the formula, in kN and m."""
    advice: str
    length: float
    critical: float
    """Critical bending moment (N m)."""
    relative: float
    """Slenderness in bending (-)."""
    k_crit: float
    k_c_flat: float


def _tipping(study: Study, *, lagged: bool) -> Tipping:
    """Loose layers side by side: their stiffness sideways is the sum of single boards'."""
    strength, curve = study.strength, study.form.rib.centreline
    # Braces hold a bare rib at both feet and at the crown; lagging holds its outer edge all along.
    length = curve.length if lagged else 0.5 * curve.length
    critical = (_critical_held if lagged else _critical_bare)(strength, length)
    relative = float(ec5.relative_slenderness_bending(strength.timber.bending, critical / strength.modulus))
    return Tipping(
        where="held by the lagging" if lagged else "braced at feet and crown",
        formula="(π²·E·I_z·a²/l² + G·I_t) / (2·a)" if lagged else "π/l · √(E·I_z·G·I_t)",
        filled=_critical_filled(strength, length, lagged=lagged),
        advice="Write a larger [vault] board thickness, or more layers."
        if lagged
        else "Brace the bare ribs at more places, or write a larger [vault] board thickness.",
        length=length,
        critical=critical,
        relative=relative,
        k_crit=float(ec5.sideways_factor(relative)),
        k_c_flat=1.0 if lagged else _reduction_flat(strength, length),
    )


def _critical_filled(strength: RibStrength, length: float, *, lagged: bool) -> str:
    """Numbers in the critical moment: π, E·I_z and G·I_t in kN m2, half the depth and the length in m."""
    section, timber = _loose(strength), strength.timber
    bends = float(section.inertia_flat) * timber.modulus_low / 1e3
    twists = float(section.torsion) * timber.shear_modulus_low / 1e3
    if not lagged:
        return f"3.1416/{length:.3f} · √({bends:.3f} · {twists:.3f})"
    half = 0.5 * strength.depth
    return f"(3.1416² · {bends:.3f} · {half:.4f}²/{length:.3f}² + {twists:.3f}) / (2 · {half:.4f})"


def _critical_held(strength: RibStrength, length: float) -> float:
    section, timber = _loose(strength), strength.timber
    return float(
        ec5.critical_moment_held_edge(
            section.inertia_flat,
            section.torsion,
            depth=strength.depth,
            length=length,
            modulus_low=timber.modulus_low,
            shear_modulus_low=timber.shear_modulus_low,
        )
    )


def _critical_bare(strength: RibStrength, length: float) -> float:
    section, timber = _loose(strength), strength.timber
    sideways = float(section.inertia_flat) * timber.modulus_low
    twisting = float(section.torsion) * timber.shear_modulus_low
    return math.pi / length * math.sqrt(sideways * twisting)


def _reduction_flat(strength: RibStrength, length: float) -> float:
    timber = strength.timber
    slender = ec5.slenderness(length, _loose(strength).inertia_flat, area=strength.area)
    relative = ec5.relative_slenderness(slender, timber.compression, modulus_low=timber.modulus_low)
    return float(ec5.buckling_factor(relative))


def _loose(strength: RibStrength) -> ec5.Section:
    if strength.bent:
        return ec5.laminated_section(strength.layers, thickness=strength.width, depth=strength.board)
    return ec5.laminated_section(strength.layers, thickness=strength.board, depth=strength.depth)


def _sideways(study: Study) -> Iterator[Said]:
    for covered in (False, True):
        tip = _tipping(study, lagged=covered)
        worst = common.worst_of(study, partial(_sideways_ratio, tip=tip), common.lagged if covered else _bare)
        if worst is not None:
            yield common.not_known(worst) if worst.ratio is None else _sideways_said(study, worst, tip)


def _bare(now: Situation) -> bool:
    return not common.lagged(now)


def _sideways_ratio(analysis: Analysis, strength: RibStrength, tip: Tipping) -> Array:
    kmod = strength.kmods(analysis)[None, :, None]
    axial = np.maximum(analysis.response.axial, 0.0) / (strength.area * strength.left_at_joint)
    bending = worse_end(analysis.moment) / strength.modulus
    fm = strength.design(strength.bending_strength, kmod)
    fc = strength.design(strength.timber.compression, kmod)

    def used(bent: Array, pressed: Array) -> Array:
        return ec5.sideways_ratio(
            bent,
            pressed,
            bending_strength=fm,
            compression_strength=fc,
            k_crit=tip.k_crit,
            k_c_flat=tip.k_c_flat,
        )

    return where_known(used, bending, axial)


def _sideways_said(study: Study, worst: Worst, tip: Tipping) -> Said:
    said = Said(
        verdict=worst.verdict,
        template="{when}: a rib {where} uses {used} its strength against tipping.",
        values={"where": tip.where},
        demand=worst.ratio,
        capacity=1.0,
        advice=tip.advice,
        steps=(
            *_tipping_steps(study, tip),
            common.factor_step(study, worst),
            _tipping_ratio(study, worst, tip),
        ),
    )
    return common.at_worst(study, worst, worst.peak.place[0], said)


def _tipping_steps(study: Study, tip: Tipping) -> tuple[Step, ...]:
    strength, bending = study.strength, study.strength.timber.bending / 1e6
    return (
        step(
            "Length between places held against twisting",
            "l",
            tip.where,
            "",
            Shown(tip.length, "m", 2),
        ),
        step(
            "Critical moment, layers side by side and loose",
            "M_cr",
            tip.formula,
            tip.filled,
            Shown(tip.critical, "kNm", 2),
            timber_cite("6.3.3, eq. 6.31"),
        ),
        step(
            "Slenderness in bending",
            "λ_rel,m",
            "√(f_m,k·W / M_cr)",
            f"√({bending:g} · {strength.modulus * 1e9:.0f} / ({tip.critical / 1e3:.3f}·10⁶))",
            Shown(tip.relative, "", 3),
            timber_cite("6.3.3, eq. 6.30"),
        ),
        step("Reduction", "k_crit", "eq. 6.34", "", Shown(tip.k_crit, "", 3), timber_cite("6.3.3, eq. 6.34")),
    )


def _tipping_ratio(study: Study, worst: Worst, tip: Tipping) -> Step:
    analysis, strength = worst.peak.analysis, study.strength
    lane, situation, element = worst.peak.index
    kmod = common.kmod_of(study, worst)
    axial = max(float(analysis.response.axial[worst.peak.index]), 0.0)
    pressed = axial / (strength.area * strength.left_at_joint) / 1e6
    bent = float(np.abs(analysis.moment[lane, situation, element]).max()) / strength.modulus / 1e6
    bending = float(strength.design(strength.bending_strength, kmod)) / 1e6
    limit = float(strength.design(strength.timber.compression, kmod)) / 1e6
    return common.ratio_step(
        "Strength used",
        "(σ_m/(k_crit·f_m,d))² + σ_c/(k_c,z·f_c,d)",
        f"({bent:.3f} / ({tip.k_crit:.3f} · {bending:.3f}))²"
        f" + {pressed:.4f} / ({tip.k_c_flat:.4f} · {limit:.3f})",
        worst.ratio,
        timber_cite("6.3.3, eq. 6.35"),
    )


RIBS_TIP = Rule(
    name="ribs-do-not-tip",
    title="The ribs do not tip sideways",
    why="A bare rib is a thin blade; until the lagging is on only the braces keep it from folding over.",
    cites=(timber_cite("6.3.3"),),
    decide=_sideways,
)
