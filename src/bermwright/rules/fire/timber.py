"""What ribs, planks and nails still carry when the wanted fire is over."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Step, Verdict, verdict_of
from bermwright.data.fire import FIRE_STRENGTH, LEAST_NAIL, NAIL_TIME, fire_cite
from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.handbook import fire
from bermwright.handbook import timber as ec5
from bermwright.house import CoverKind
from bermwright.rules.analysis.response import first_largest
from bermwright.rules.analysis.strength import where_known
from bermwright.rules.fire.common import Burned, burned, burned_steps, lived_in, minutes, not_told, wood_of
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import RIBS_FIRST, corner_of, moment_of, place_of, ratio_step, spot_of
from bermwright.rules.ribs.lagging import plank_pressure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.handbook.fire import Residual
    from bermwright.house import Cover
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]

HALF_HOUR = 1800.0
"""Beyond it the code has no rule for thicker boards (s)."""
LINE_IT = (
    "Line the ribs and planks with closed gypsum board, 15 mm or more, or take thicker boards; "
    "plasters count for nothing here."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Worst:
    lane: int
    situation: int
    element: int
    end: int
    ratio: float


def _worst(analysis: Analysis, ratios: Array) -> _Worst | None:
    """The governing entry of the finished house; None where a state of rest is missing."""
    wanted = analysis.bends & analysis.where_situation(lived_in)
    if not wanted.any() or not np.isfinite(ratios[wanted]).all():
        return None
    shaped = np.where(wanted[:, :, None, None], ratios, -np.inf)
    lane, situation, element, end = first_largest(shaped)
    return _Worst(
        lane=lane,
        situation=situation,
        element=element,
        end=end,
        ratio=float(shaped[lane, situation, element, end]),
    )


# ---------------------------------------------------------------- ribs


def _ribs(study: Study) -> Iterator[Said]:
    lost = burned(study.house, wood_of(study.strength.timber.name))
    if lost is None:
        yield not_told()
        return
    left = _left(study, lost)
    if float(left.modulus) <= 0.0 or float(left.area) <= 0.0:
        yield Said(
            verdict=Verdict.FAILS,
            template="After {time} nothing of a rib runs through at a joint: {lost} are lost on each side.",
            values={"time": minutes(lost.time), "lost": Shown(lost.side, "mm", 0)},
            ratio=np.inf,
            advice=LINE_IT,
            steps=burned_steps(lost, flat=False),
        )
        return
    analysis = study.service
    worst = _worst(analysis, _rib_ratios(study, analysis, left))
    yield _NO_REST if worst is None else _rib_said(study, lost, left, worst)


_NO_REST = Said(
    verdict=Verdict.UNKNOWN,
    template="What the ribs carry in a fire is not known: they find no state of rest even when cold.",
    advice=RIBS_FIRST,
)


def _left(study: Study, lost: Burned) -> Residual:
    strength = study.strength
    layers, board = strength.beside
    if layers == 1:
        # A rib of bent boards chars like a solid one: as two halves side by side.
        layers, board = 2, 0.5 * board
    return fire.residual_rib(
        layers, board, strength.depth, side=lost.side, inside=lost.side, peak=strength.peak
    )


def _rib_ratios(study: Study, analysis: Analysis, left: Residual) -> Array:
    """(L, S, n, 2) strength of the residual rib used, all loads without partial factors."""
    timber = study.strength.timber
    shallow = ec5.depth_factor(float(left.depth))
    bends = fire.fire_strength(timber.bending * shallow, FIRE_STRENGTH.value)
    presses = fire.fire_strength(timber.compression, FIRE_STRENGTH.value)
    pulls = fire.fire_strength(timber.tension, FIRE_STRENGTH.value)

    def used(bent: Array, along: Array) -> Array:
        squeezed = ec5.bending_and_compression(
            np.maximum(along, 0.0), bent, compression_strength=presses, bending_strength=bends
        )
        pulled = ec5.bending_and_tension(
            np.maximum(-along, 0.0), bent, tension_strength=pulls, bending_strength=bends
        )
        return np.where(along >= 0.0, squeezed, pulled)

    bending = np.abs(analysis.moment) / float(left.modulus)
    return where_known(used, bending, analysis.response.axial[..., None] / float(left.area))


def _rib_said(study: Study, lost: Burned, left: Residual, worst: _Worst) -> Said:
    analysis = study.service
    now, node = analysis.situations[worst.situation], worst.element + worst.end
    verdict = verdict_of(worst.ratio)
    moment = abs(float(analysis.moment[worst.lane, worst.situation, worst.element, worst.end]))
    sizes = f"{1e3 * float(left.width):.0f} × {1e3 * float(left.depth):.0f} mm"
    return Said(
        verdict=verdict,
        template="After {time} of fire a rib has {sizes} left and uses {used} of its strength.",
        values={
            **moment_of(now),
            "time": minutes(lost.time),
            "sizes": sizes,
            "used": f"{100 * worst.ratio:.0f} %",
        },
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, node),
        demand=moment,
        capacity=moment / worst.ratio if worst.ratio > 0.0 else None,
        unit="kNm",
        ratio=worst.ratio,
        corner=corner_of(analysis, worst.lane),
        advice="" if verdict is Verdict.HOLDS else LINE_IT,
        steps=(*burned_steps(lost, flat=False), *_rib_steps(study, left, worst, moment)),
        spot=spot_of(study, node),
    )


def _rib_steps(study: Study, left: Residual, worst: _Worst, moment: float) -> tuple[Step, ...]:
    timber = study.strength.timber
    strength = float(
        fire.fire_strength(timber.bending * ec5.depth_factor(float(left.depth)), FIRE_STRENGTH.value)
    )
    thrust = float(study.service.response.axial[worst.lane, worst.situation, worst.element])
    return (
        Step(
            says="Bending of one rib, loads without partial factors, snow in full, times the model factor",
            symbol="M_fi",
            formula="frame of the finished house",
            filled="",
            result=Shown(moment, "kNm", 3),
        ),
        Step(
            says="Section modulus of what is left, in the layer that carries most",
            symbol="W_fi",
            formula="b·h²/6 / peak · (m − 1)/m · n/(n − 1)",
            filled=f"b = {1e3 * float(left.width):.0f}, h = {1e3 * float(left.depth):.0f} mm, "
            f"m = {float(left.layers):.2f} of n = {study.strength.layers}",
            result=Shown(float(left.modulus), "mm3", 0),
            cite=fire_cite("4.2.2"),
        ),
        Step(
            says="Thrust on what runs through beside a butt joint",
            symbol="σ_c",
            formula="N / A_fi",
            filled=f"{thrust:.0f} / {1e6 * float(left.area):.0f}",
            result=Shown(abs(thrust) / float(left.area), "N/mm2", 3),
        ),
        Step(
            says="Bending strength in a fire: the 20 % value, no partial factor",
            symbol="f_m,fi",
            formula="k_fi·k_h·f_m,k",
            filled=f"{FIRE_STRENGTH.value:g} · {float(ec5.depth_factor(float(left.depth))):.3f} · "
            f"{timber.bending / 1e6:g}",
            result=Shown(strength, "N/mm2", 2),
            cite=FIRE_STRENGTH.cite,
        ),
        ratio_step(
            "Strength used",
            "bending with thrust",
            f"M/W = {moment / float(left.modulus) / 1e6:.3f}",
            worst.ratio,
        ),
    )


# ---------------------------------------------------------------- planks


def _planks(study: Study) -> Iterator[Said]:
    planks = next((one for one in study.vault.cover if one.kind is CoverKind.LAGGING), None)
    timber = TIMBER_CLASSES.get(planks.timber or "") if planks else None
    lost = burned(study.house, wood_of(timber.name)) if timber else None
    if planks is None or timber is None:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="What the planks carry in a fire is not known: their strength class is not.",
            advice="Write [[vault.cover]] timber of the lagging.",
        )
        return
    if lost is None:
        yield not_told()
        return
    thick = planks.thickness - lost.flat
    if thick <= 0.0:
        yield Said(
            verdict=Verdict.FAILS,
            template="After {time} of fire the planks are burned through.",
            values={"time": minutes(lost.time)},
            ratio=np.inf,
            advice=LINE_IT,
            steps=burned_steps(lost, flat=True),
        )
        return
    yield _plank_said(study, planks, lost, thick)


def _plank_said(study: Study, planks: Cover, lost: Burned, thick: float) -> Said:
    analysis, timber = study.service, TIMBER_CLASSES[planks.timber or ""]
    strength = fire.fire_strength(timber.bending * ec5.depth_factor(thick), FIRE_STRENGTH.value)
    pressure = plank_pressure(study, analysis)
    moment = ec5.plank_demand(np.where(np.isfinite(pressure), pressure, 0.0), study.form.spacing).moment
    ratios = np.where(np.isfinite(pressure), moment / (thick**2 / 6.0) / strength, np.nan)
    worst = _worst(analysis, ratios[..., None])
    if worst is None:
        return _NO_REST
    now, verdict = analysis.situations[worst.situation], verdict_of(worst.ratio)
    load = float(pressure[worst.lane, worst.situation, worst.element])
    return Said(
        verdict=verdict,
        template="After {time} of fire {thick} of the planks are left; they use {used} of their strength.",
        values={
            **moment_of(now),
            "time": minutes(lost.time),
            "thick": Shown(thick, "mm", 0),
            "used": f"{100 * worst.ratio:.0f} %",
        },
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, worst.element),
        demand=load,
        capacity=load / worst.ratio if worst.ratio > 0.0 else None,
        unit="kPa",
        ratio=worst.ratio,
        corner=corner_of(analysis, worst.lane),
        advice="" if verdict is Verdict.HOLDS else LINE_IT,
        steps=(
            *burned_steps(lost, flat=True),
            Step(
                says="Bending stress in what is left, over one bay, all loads without partial factors",
                symbol="σ_fi",
                formula="p·s²/8 / (t²/6)",
                filled=f"{load:.0f} · {study.form.spacing:.3f}² / 8 / ({1e3 * thick:.1f}² / 6)",
                result=Shown(load * study.form.spacing**2 / 8.0 / (thick**2 / 6.0), "N/mm2", 2),
            ),
            Step(
                says="Bending strength in a fire",
                symbol="f_m,fi",
                formula="k_fi·k_h·f_m,k",
                filled=f"{FIRE_STRENGTH.value:g} · {float(ec5.depth_factor(thick)):.3f} · "
                f"{timber.bending / 1e6:g}",
                result=Shown(float(strength), "N/mm2", 2),
                cite=FIRE_STRENGTH.cite,
            ),
            ratio_step(
                "Strength used",
                "σ_fi / f_m,fi",
                f"{worst.ratio * float(strength) / 1e6:.4f} / {float(strength) / 1e6:.2f}",
                worst.ratio,
            ),
        ),
        spot=spot_of(study, worst.element),
    )


# ---------------------------------------------------------------- nails


def _nails(study: Study) -> Iterator[Said]:
    lost = burned(study.house, wood_of(study.strength.timber.name))
    if lost is None:
        yield not_told()
        return
    nail = study.vault.nails
    if not study.strength.joint_nodes.size or nail is None:
        yield Said(
            verdict=Verdict.DOES_NOT_APPLY if nail is not None else Verdict.UNKNOWN,
            template="Nails of butt joints in a fire: {why}.",
            values={"why": "there are no butt joints" if nail is not None else "the nails are not known"},
            advice="" if nail is not None else "Answer the question about [vault] nails.",
        )
        return
    alone = NAIL_TIME.value if nail.diameter >= LEAST_NAIL.value - 1e-9 else 0.0
    stands = lost.holds + alone
    ratio = lost.time / stands if stands > 0.0 else np.inf
    verdict = verdict_of(ratio)
    yield Said(
        verdict=verdict,
        template="The nails of the butt joints stand a fire for {stands}; {time} are asked.",
        values={"stands": minutes(stands), "time": minutes(lost.time)},
        demand=lost.time,
        capacity=stands,
        unit="min",
        ratio=ratio,
        advice="" if verdict is Verdict.HOLDS else _nail_advice(lost, alone),
        steps=_nail_steps(lost, alone, stands, ratio),
    )


def _nail_advice(lost: Burned, alone: float) -> str:
    line = (
        f"Line the ribs with gypsum board of {_gypsum(lost.time - alone):.1f} mm and closed joints, "
        f"so that the wood stays cold for {(lost.time - alone) / 60:.0f} min"
    )
    if lost.time > HALF_HOUR:
        return f"{line}."
    extra = float(fire.nail_extra_depth(lost.rate, lost.time, alone))
    return f"{line}, or make the outer boards and the edges round the nails {1e3 * extra:.0f} mm larger."


def _gypsum(time: float) -> float:
    """Thickness of gypsum board whose wood begins to char no sooner (mm)."""
    return max((time / 60.0 + 14.0) / 2.8, 9.5)


def _nail_steps(lost: Burned, alone: float, stands: float, ratio: float) -> tuple[Step, ...]:
    lining, _ = burned_steps(lost, flat=False)
    return (
        lining,
        Step(
            says="Nails of 2.8 mm and more between boards stand so long bare; thinner ones nothing",
            symbol="t_d,fi",
            formula="table 6.1",
            filled="",
            result=Shown(alone, "min", 0),
            cite=NAIL_TIME.cite,
        ),
        Step(
            says="Together",
            symbol="t",
            formula="t_ch + t_d,fi",
            filled=f"{lost.holds / 60:.1f} + {alone / 60:.0f}",
            result=Shown(stands, "min", 1),
            cite=fire_cite("6.2.1.2"),
        ),
        ratio_step(
            "Time asked over time they stand", "t_req / t", f"{lost.time / 60:.0f} / {stands / 60:.1f}", ratio
        ),
    )


_ASKS = ("fire", "fire.resists", "fire.lining")

RIBS_IN_FIRE = Rule(
    name="ribs-stand-a-fire",
    title="The ribs stand a fire inside",
    why="Ribs carry tonnes of earth over sleeping people; when they burn through, all of it comes at once.",
    cites=(fire_cite("4.2.2, the reduced section"),),
    decide=_ribs,
    asks=_ASKS,
)
PLANKS_IN_FIRE = Rule(
    name="planks-stand-a-fire",
    title="The planks stand a fire inside",
    why="Where a plank burns through, fill runs into the room and air feeds the fire.",
    cites=(fire_cite("3.4.2 and 4.2.2"),),
    decide=_planks,
    asks=(*_ASKS, "vault.cover.timber"),
)
NAILS_IN_FIRE = Rule(
    name="nails-stand-a-fire",
    title="The nails of the butt joints stand a fire inside",
    why="Steel leads heat into the wood: a nailed joint gives way before the boards do.",
    cites=(fire_cite("6.2.1"),),
    decide=_nails,
    asks=(*_ASKS, "vault.nails"),
    reads_ribs=False,
)
