"""Whether the planks carry the soil from rib to rib, by bands of height."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict, verdict_of
from bermwright.base.wording import level_text
from bermwright.data.timber_classes import GAMMA_TIMBER, K_CRACK, TIMBER_CLASSES
from bermwright.handbook import timber as ec5
from bermwright.house import CoverKind
from bermwright.rules.analysis.response import first_largest, first_worst
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import (
    RIBS_FIRST,
    corner_of,
    lagged,
    moment_of,
    ratio_step,
    step,
    timber_cite,
)
from bermwright.rules.study import once

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import ArrayLike, NDArray

    from bermwright.base.findings import Step
    from bermwright.data.timber_classes import TimberClass
    from bermwright.house import Cover
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]

NO_FACE = 1e-9
"""A soil face shorter than this is none (m)."""
BAND = 0.75
"""Height of the bands for which a plank thickness is given (m)."""
THICKEST = 400
"""Thickest plank that is tried (mm)."""
NO_REST = Said(
    verdict=Verdict.UNKNOWN,
    template="The pressure on the planks is not known: some soil run finds no state of rest.",
    advice=RIBS_FIRST,
)


@once
def plank_pressure(study: Study, analysis: Analysis) -> Array:
    """(L, S, n + 1) design pressure square to the soil face (Pa), soil, surcharge and standing water.

    NaN before the planks are on, and in lanes that do not count: the planks bend like the ribs.
    """
    square = pressing_square(study, analysis)
    pressure = square.effective * square.flat**2 + square.sideways * square.steep**2 + square.pore
    total = np.maximum(pressure, square.passing)
    there = analysis.where_situation(lagged)
    return np.where((analysis.bends & there)[:, :, None], total, np.nan)


@dataclass(frozen=True, slots=True, kw_only=True)
class Square:
    """What presses square to the soil face, lanes by situations by nodes; all in Pa but the directions."""

    effective: Array
    """Down, of soil and what lies on it."""
    sideways: Array
    pore: Array
    passing: Array
    """Snow and people on the bare planks."""
    flat: Array
    steep: Array
    """Cosine and sine of the slope of the face (-)."""


def pressing_square(study: Study, analysis: Analysis) -> Square:
    """The parts of the pressure on the planks."""
    mesh, states = study.form.mesh, analysis.states
    weight = analysis.factors.permanent * np.array([lane.unit_weight for lane in analysis.lanes])
    vertical = np.array([lane.vertical for lane in analysis.lanes])
    effective = (
        np.maximum(weight[:, None, None] * states.depth + states.surcharge - states.pore, 0.0)
        * vertical[:, None, None]
    )
    length = np.hypot(mesh.plan, mesh.rise)
    # At a pointed crown a node may own no face: no load and no plank there, so no direction either.
    there_is = length > NO_FACE
    face = np.where(there_is, length, np.inf)
    flat, steep = np.where(there_is, np.abs(mesh.plan) / face, 1.0), np.abs(mesh.rise) / face
    snow_and_people = states.down / (study.form.spacing * face) * flat
    sideways = np.where(np.isfinite(analysis.response.pressure), analysis.response.pressure, np.nan)
    return Square(
        effective=effective,
        sideways=sideways,
        pore=states.pore,
        passing=snow_and_people,
        flat=flat,
        steep=steep,
    )


def square_terms(study: Study, analysis: Analysis, place: tuple[int, int, int]) -> tuple[str, str]:
    """Formula of that pressure at one lane, situation and node, and the numbers in it (kPa)."""
    one = pressing_square(study, analysis)
    whole = np.broadcast_shapes(one.effective.shape, one.sideways.shape)

    def at(values: Array) -> float:
        return float(np.broadcast_to(values, whole)[place])

    down, across, water, passing = (
        at(part) / 1e3 for part in (one.effective, one.sideways, one.pore, one.passing)
    )
    flat, steep = at(one.flat), at(one.steep)
    if passing > down * flat**2 + across * steep**2 + water:
        return "snow or people on the slope", ""
    wet = f" + {water:.3f}" if water > 0.0 else ""
    return (
        "σ_v·cos²α + p_h·sin²α" + (" + u" if wet else ""),
        f"{down:.3f} · {flat:.4f}² + {across:.3f} · {steep:.4f}²{wet}",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressed:
    """The planks of one band where they are used most."""

    low: float
    high: float
    """The band's edges (m)."""
    ratio: float
    analysis: Analysis
    lane: int
    situation: int
    node: int
    pressure: float
    """Design pressure square to the planks (Pa)."""

    @property
    def edges(self) -> str:
        """The band in words."""
        return f"between {level_text(self.low)} and {level_text(self.high)}"


def _decide(study: Study) -> Iterator[Said]:
    planks = next((one for one in study.vault.cover if one.kind is CoverKind.LAGGING), None)
    if planks is None:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The file has no lagging: what carries the soil from rib to rib?",
            advice='Add a [[vault.cover]] table with kind = "lagging".',
        )
    elif planks.timber is None or planks.timber not in TIMBER_CLASSES:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The strength class of the planks is not known.",
            advice="Write [[vault.cover]] timber of the lagging; ungraded planks count as nothing.",
        )
    else:
        timber = TIMBER_CLASSES[planks.timber]
        for low, high in _bands(study):
            band = _worst(study, planks, timber, (low, high))
            yield NO_REST if band is None else _said(study, planks, timber, band)


def _bands(study: Study) -> list[tuple[float, float]]:
    bottom, top = float(np.min(study.form.mesh.z)), float(np.max(study.form.mesh.z))
    count = max(math.ceil((top - bottom) / BAND), 1)
    edges = np.linspace(bottom, top, count + 1)
    return [(float(low), float(high)) for low, high in pairwise(edges)]


def _worst(study: Study, planks: Cover, timber: TimberClass, band: tuple[float, float]) -> Pressed | None:
    """Where the planks of a band are used most; None while a state of rest is missing."""
    level = study.form.mesh.z
    nodes = np.flatnonzero((level >= band[0] - 1e-9) & (level <= band[1] + 1e-9))
    found = []
    for analysis in study.analyses:
        pressure = plank_pressure(study, analysis)[:, :, nodes]
        counted = analysis.bends & analysis.where_situation(lagged)
        if not (analysis.response.converged[analysis.bends].all() and np.isfinite(pressure[counted]).all()):
            return None
        used = _used(study, analysis, timber, planks.thickness, np.where(counted[:, :, None], pressure, 0.0))
        lane, situation, node = first_largest(used)
        found.append(
            Pressed(
                low=band[0],
                high=band[1],
                ratio=float(used[lane, situation, node]),
                analysis=analysis,
                lane=lane,
                situation=situation,
                node=int(nodes[node]),
                pressure=float(pressure[lane, situation, node]),
            )
        )
    return first_worst(found, lambda one: one.ratio)


def _used(study: Study, analysis: Analysis, timber: TimberClass, thickness: float, pressure: Array) -> Array:
    """(L, S, k) strength used in bending or shear of one metre width of planks over one bay."""
    kmod = study.strength.kmods(analysis)[None, :, None]
    bent, cut = _plank_ratios(study, timber, thickness, pressure=pressure, kmod=kmod)
    return np.maximum(bent, cut)


def _plank_ratios(
    study: Study, timber: TimberClass, thickness: ArrayLike, *, pressure: ArrayLike, kmod: ArrayLike
) -> tuple[Array, Array]:
    """Strength used in bending and in shear; broadcasts."""
    thick = np.asarray(thickness, dtype=float)
    demand = ec5.plank_demand(pressure, study.form.spacing)
    stress = ec5.shear_stress(demand.shear, 1.0, depth=thick, crack_factor=K_CRACK.value)
    bent = demand.moment / (thick**2 / 6) / _bending_strength(timber, thick, kmod)
    return np.asarray(bent), np.asarray(stress / _shear_strength(timber, kmod))


def _bending_strength(timber: TimberClass, thickness: ArrayLike, kmod: ArrayLike) -> Array:
    shallow = ec5.depth_factor(thickness)
    return np.asarray(ec5.design_strength(timber.bending * shallow, kmod, gamma=GAMMA_TIMBER.value))


def _shear_strength(timber: TimberClass, kmod: ArrayLike) -> Array:
    return np.asarray(ec5.design_strength(timber.shear, kmod, gamma=GAMMA_TIMBER.value))


def _needed(study: Study, timber: TimberClass, band: Pressed) -> float | None:
    """Least whole millimetre of thickness that carries the band (m); None when none that is tried does."""
    kmod = float(study.strength.kmods(band.analysis)[band.situation])
    tried = np.arange(1, THICKEST + 1) / 1e3
    bent, cut = _plank_ratios(study, timber, tried, pressure=band.pressure, kmod=kmod)
    enough = np.flatnonzero(np.maximum(bent, cut) <= 1.0)
    return float(tried[enough[0]]) if enough.size else None


def _said(study: Study, planks: Cover, timber: TimberClass, band: Pressed) -> Said:
    now, mesh = band.analysis.situations[band.situation], study.form.mesh
    needed, verdict = _needed(study, timber, band), verdict_of(band.ratio)
    return Said(
        verdict=verdict,
        template="{when}: planks from {low} to {high} carry {pressure}; they need {needed} of thickness.",
        values={
            **moment_of(now),
            "low": level_text(band.low),
            "high": level_text(band.high),
            "pressure": Shown(band.pressure, "kPa", 1),
            "needed": f"over {THICKEST} mm" if needed is None else Shown(needed, "mm", 0),
        },
        stage=now.stage.name,
        case=now.case.name,
        place=band.edges,
        demand=band.pressure,
        capacity=band.pressure / band.ratio if band.ratio > 0 else None,
        unit="kPa",
        ratio=band.ratio,
        corner=corner_of(band.analysis, band.lane),
        advice="" if verdict is Verdict.HOLDS else _advice(band, needed),
        steps=_working(study, planks, timber, band),
        spot=Spot(float(mesh.soil_x[band.node]), float(mesh.soil_z[band.node])),
    )


def _advice(band: Pressed, needed: float | None) -> str:
    thicker = "" if needed is None else f"Put planks of {Shown(needed, 'mm', 0).text()} {band.edges}, or w"
    return (thicker or "W") + "rite a smaller [vault] spacing."


def _working(study: Study, planks: Cover, timber: TimberClass, band: Pressed) -> tuple[Step, ...]:
    kmod = float(study.strength.kmods(band.analysis)[band.situation])
    bent, cut = _plank_ratios(study, timber, planks.thickness, pressure=band.pressure, kmod=kmod)
    pressure = step(
        f"Pressure square to the planks, design value, {band.analysis.lanes[band.lane].run} soil run",
        "p",
        *square_terms(study, band.analysis, (band.lane, band.situation, band.node)),
        Shown(band.pressure, "kPa", 3),
    )
    words = _bending_steps if bent >= cut else _shear_steps
    return (pressure, *words(study, planks, timber, band))


def _bending_steps(study: Study, planks: Cover, timber: TimberClass, band: Pressed) -> tuple[Step, ...]:
    kmod = float(study.strength.kmods(band.analysis)[band.situation])
    moment = float(ec5.plank_demand(band.pressure, study.form.spacing).moment)
    strength = float(_bending_strength(timber, planks.thickness, kmod))
    stress = moment / (planks.thickness**2 / 6)
    thick, shallow = planks.thickness * 1e3, float(ec5.depth_factor(planks.thickness))
    return (
        step(
            "Bending over one bay, per metre of width",
            "m",
            "p·s²/8",
            f"{band.pressure / 1e3:.3f} · {study.form.spacing:.3f}² / 8",
            Shown(moment, "kNm", 4),
        ),
        step(
            "Bending stress",
            "σ_m",
            "m / (t²/6)",
            f"{moment:.1f} / ({thick:g}² / 6)",
            Shown(stress, "N/mm2", 3),
        ),
        step(
            f"Design bending strength, {band.analysis.situations[band.situation].case.duration} load",
            "f_m,d",
            "k_mod·k_h·f_m,k / γ_M",
            f"{kmod:g} · {shallow:.3f} · {timber.bending / 1e6:g} / {GAMMA_TIMBER.value:g}",
            Shown(strength, "N/mm2", 3),
            timber_cite("2.4.1 and 3.2"),
        ),
        ratio_step(
            "Strength used, in bending",
            "σ_m / f_m,d",
            f"{stress / 1e6:.3f} / {strength / 1e6:.3f}",
            band.ratio,
            timber_cite("6.1.6"),
        ),
    )


def _shear_steps(study: Study, planks: Cover, timber: TimberClass, band: Pressed) -> tuple[Step, ...]:
    kmod = float(study.strength.kmods(band.analysis)[band.situation])
    shear = float(ec5.plank_demand(band.pressure, study.form.spacing).shear)
    strength = float(_shear_strength(timber, kmod))
    stress = float(ec5.shear_stress(shear, 1.0, depth=planks.thickness, crack_factor=K_CRACK.value))
    return (
        step(
            "Shear at a rib, per metre of width",
            "v",
            "p·s/2",
            f"{band.pressure / 1e3:.3f} · {study.form.spacing:.3f} / 2",
            Shown(shear, "kN", 4),
        ),
        step(
            "Shear stress, cracked",
            "τ",
            "1.5·v / (k_cr·t)",
            f"1.5 · {shear / 1e3:.4f} / ({K_CRACK.value:g} · {planks.thickness * 1e3:g})",
            Shown(stress, "N/mm2", 3),
            timber_cite("6.1.7, eq. 6.13a"),
        ),
        step(
            f"Design shear strength, {band.analysis.situations[band.situation].case.duration} load",
            "f_v,d",
            "k_mod·f_v,k / γ_M",
            f"{kmod:g} · {timber.shear / 1e6:g} / {GAMMA_TIMBER.value:g}",
            Shown(strength, "N/mm2", 3),
            timber_cite("2.4.1"),
        ),
        ratio_step(
            "Strength used, in shear",
            "τ / f_v,d",
            f"{stress / 1e6:.3f} / {strength / 1e6:.3f}",
            band.ratio,
            timber_cite("6.1.7"),
        ),
    )


PLANKS_CARRY = Rule(
    name="planks-carry-the-soil",
    title="The planks carry the soil from rib to rib",
    why="Soil presses hardest at the haunches, where nobody looks. A plank that breaks there lets the "
    "fill in.",
    cites=(timber_cite("6.1.6 and 6.1.7"),),
    decide=_decide,
    asks=("vault.cover", "vault.cover.timber"),
)
