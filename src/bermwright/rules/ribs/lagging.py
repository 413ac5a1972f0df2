"""Do the planks carry the soil from rib to rib, by bands of height?"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict, verdict_of
from bermwright.base.wording import level_text
from bermwright.data.timber_classes import GAMMA_TIMBER, K_CRACK, TIMBER_CLASSES
from bermwright.handbook import timber as ec5
from bermwright.house import CoverKind
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import step, timber_cite
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.data.timber_classes import TimberClass
    from bermwright.house import Cover
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]

BAND = 0.75
"""Height of the bands for which a plank thickness is given (m)."""


def plank_pressure(study: Study, analysis: Analysis) -> Array:
    """(L, S, n + 1) design pressure square to the soil face (Pa), soil, surcharge and standing water.

    NaN before the planks are on, and in lanes that do not count: the planks bend like the ribs.
    """
    mesh, states = study.form.mesh, analysis.states
    weight = analysis.factors.permanent * np.array([lane.unit_weight for lane in analysis.lanes])
    vertical = np.array([lane.vertical for lane in analysis.lanes])
    effective = np.maximum(
        weight[:, None, None] * states.depth + states.surcharge - states.pore, 0.0
    ) * vertical[:, None, None]
    length = np.hypot(mesh.plan, mesh.rise)
    flat, steep = np.abs(mesh.plan) / length, np.abs(mesh.rise) / length
    snow_and_people = states.down / (study.form.spacing * length) * flat
    pressure = effective * flat**2 + analysis.response.pressure * steep**2 + states.pore
    total = np.maximum(pressure, snow_and_people)
    there = analysis.where_situation(lambda now: now.stage.kind is not StageKind.RIBS)
    return np.where((analysis.bends & there)[:, :, None], total, np.nan)


def _decide(study: Study) -> Iterator[Said]:
    planks = next((one for one in study.vault.cover if one.kind is CoverKind.LAGGING), None)
    if planks is None:
        yield Said(verdict=Verdict.UNKNOWN, template="The file has no lagging: what carries the soil from rib to rib?",
                   advice="Add a [[vault.cover]] table of kind lagging.")  # fmt: skip
    elif planks.timber is None or planks.timber not in TIMBER_CLASSES:
        yield Said(verdict=Verdict.UNKNOWN, template="The strength class of the planks is not known.",
                   advice="Answer the question about the planks; ungraded planks count as nothing.")  # fmt: skip
    else:
        for low, high in _bands(study):
            yield _band(study, planks, TIMBER_CLASSES[planks.timber], low, high)


def _bands(study: Study) -> list[tuple[float, float]]:
    bottom, top = float(np.min(study.form.mesh.z)), float(np.max(study.form.mesh.z))
    count = max(math.ceil((top - bottom) / BAND), 1)
    edges = np.linspace(bottom, top, count + 1)
    return [(float(a), float(b)) for a, b in zip(edges[:-1], edges[1:], strict=True)]


def _band(study: Study, planks: Cover, timber: TimberClass, low: float, high: float) -> Said:
    nodes = np.flatnonzero((study.form.mesh.z >= low - 1e-9) & (study.form.mesh.z <= high + 1e-9))
    best: tuple[float, Analysis, tuple[int, int, int]] | None = None
    for analysis in study.analyses:
        used = _used(study, analysis, planks, timber)[:, :, nodes]
        if not analysis.response.converged[analysis.bends].all():
            return Said(verdict=Verdict.UNKNOWN, template="In some soil run no state of rest was found, so the pressure on the planks is not known.")
        known = np.where(np.isfinite(used), used, -np.inf)
        lane, situation, node = (int(i) for i in np.unravel_index(int(np.argmax(known)), known.shape))
        if best is None or known[lane, situation, node] > best[0]:
            best = (float(known[lane, situation, node]), analysis, (lane, situation, int(nodes[node])))
    assert best is not None
    ratio, analysis, (lane, situation, node) = best
    pressure = float(plank_pressure(study, analysis)[lane, situation, node])
    return _band_said(study, planks, timber, (low, high), ratio, analysis, (lane, situation, node), pressure)


def _used(study: Study, analysis: Analysis, planks: Cover, timber: TimberClass) -> Array:
    """(L, S, n + 1) strength used in bending or shear of one metre width of planks over one bay."""
    pressure = plank_pressure(study, analysis)
    known = np.isfinite(pressure)
    demand = ec5.plank_demand(np.where(known, pressure, 0.0), study.form.spacing)
    kmod = study.strength.kmods(analysis)[None, :, None]
    fm = ec5.design_strength(timber.bending * _shallow(planks), kmod, gamma=GAMMA_TIMBER.value)
    fv = ec5.design_strength(timber.shear, kmod, gamma=GAMMA_TIMBER.value)
    bent = demand.moment / (planks.thickness**2 / 6) / fm
    cut = ec5.shear_stress(demand.shear, 1.0, depth=planks.thickness, crack_factor=K_CRACK.value) / fv
    return np.where(known, np.maximum(bent, cut), np.nan)


def _shallow(planks: Cover) -> float:
    return float(ec5.depth_factor(planks.thickness))


def _band_said(  # noqa: PLR0913  (everything that is known of one band)
    study: Study,
    planks: Cover,
    timber: TimberClass,
    band: tuple[float, float],
    ratio: float,
    analysis: Analysis,
    at: tuple[int, int, int],
    pressure: float,
) -> Said:
    lane, situation, node = at
    now = analysis.situations[situation]
    kmod = float(study.strength.kmods(analysis)[situation])
    fm = float(ec5.design_strength(timber.bending * _shallow(planks), kmod, gamma=GAMMA_TIMBER.value))
    moment = float(ec5.plank_demand(pressure, study.form.spacing).moment)
    needed = math.ceil(planks.thickness * math.sqrt(ratio) * 1e3 - 1e-9) / 1e3
    mesh = study.form.mesh
    return Said(
        verdict=verdict_of(ratio),
        template="Between {low} and {high} the planks carry {pressure} at {stage}; {needed} of thickness is needed.",
        values={
            "low": level_text(band[0]), "high": level_text(band[1]), "pressure": Shown(pressure, "kPa", 1),
            "stage": now.stage.name, "needed": Shown(needed, "mm", 0),
        },
        stage=now.stage.name,
        case=now.case.name,
        place=f"between {level_text(band[0])} and {level_text(band[1])}",
        demand=needed,
        capacity=planks.thickness,
        unit="mm",
        ratio=ratio,
        corner=analysis.lanes[lane].corner,
        advice="" if ratio <= 0.9 else "Thicker planks in this band, or ribs nearer together.",
        steps=(
            step("Pressure square to the planks, design value", "p", "σ_v·cos²α + p_h·sin²α", analysis.lanes[lane].run, pressure, "kPa", 1),
            step("Bending over one bay, per metre of width", "m", "p·s²/8", f"{pressure / 1e3:.1f} · {study.form.spacing:.2f}² / 8", moment, "Nm", 0),
            step("Design bending strength", "f_m,d", "k_mod·k_h·f_m,k / γ_M", f"{kmod:g} · {_shallow(planks):.2f} · {timber.bending / 1e6:g} / 1.3", fm, "N/mm2", 2, timber_cite("2.4.1 and 3.2")),
            step("Strength used, bending or shear", "ratio", "m / (t²/6) / f_m,d", f"t {planks.thickness * 1e3:.0f} mm", ratio, "", 2, timber_cite("6.1.6 and 6.1.7")),
        ),
        spot=Spot(float(mesh.soil_x[node]), float(mesh.soil_z[node])),
    )  # fmt: skip


PLANKS_CARRY = Rule(
    name="planks-carry-the-soil",
    title="The planks carry the soil from rib to rib",
    why="Soil presses hardest at the haunches, where nobody looks; a plank that breaks there lets the fill in.",
    cites=(timber_cite("6.1.6 and 6.1.7"),),
    decide=_decide,
    asks=("vault.cover", "vault.cover.timber"),
)
