"""What the feet give their supports at the ends of its range, and whether the foot of a rib bears."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.data.timber_classes import GAMMA_TIMBER
from bermwright.rules.analysis.response import first_largest, first_worst
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import (
    RIBS_FIRST,
    corner_of,
    moment_of,
    place_of,
    ratio_step,
    spot_of,
    step,
    timber_cite,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.analysis.states import Situation
    from bermwright.rules.study import Study


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """Least or largest of one foot force, and where it comes from."""

    value: float
    """N per metre of vault; NaN when a state of rest was not found."""
    now: Situation
    run: str
    node: int
    """Node of the foot."""

    @property
    def words(self) -> str:
        """Stage, case and soil run."""
        return f"{self.now.stage.name}, {self.now.case.name}, {self.run} run"


def foot_reach(study: Study, component: int, *, largest: bool, side: int | None = None) -> Reach:
    """The end of a foot force's range over all stages, cases and soil runs, heavy run included.

    Component 0 is outward, 1 is down; both feet, or one (0 left, 1 right).
    """
    ends = [_reach(study, analysis, component, largest=largest, side=side) for analysis in study.analyses]
    lost = [end for end in ends if not np.isfinite(end.value)]
    if lost:
        return lost[0]
    return (max if largest else min)(ends, key=lambda end: end.value)


def _reach(study: Study, analysis: Analysis, component: int, *, largest: bool, side: int | None) -> Reach:
    feet = analysis.response.feet[..., component] / study.form.spacing
    chosen = feet if side is None else feet[..., side : side + 1]
    lane, situation, foot = first_largest(chosen if largest else -chosen)
    return Reach(
        value=float(chosen[lane, situation, foot]),
        now=analysis.situations[situation],
        run=analysis.lanes[lane].run,
        node=foot_node(study, foot if side is None else side),
    )


def foot_node(study: Study, foot: int) -> int:
    """Node of the left (0) or the right foot."""
    return 0 if foot == 0 else study.form.mesh.x.size - 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Bearing:
    """The foot that is pressed hardest for its duration."""

    ratio: float
    analysis: Analysis
    lane: int
    situation: int
    node: int
    force: float
    """On one foot of one rib (N)."""
    across: float
    down: float
    """Of it sideways, and down (N)."""
    kmod: float
    limit: float
    """Design strength across the grain (Pa)."""


def _bearing(study: Study) -> Iterator[Said]:
    length, area = _bearing_area(study)
    found = [_bearing_at(study, analysis, area) for analysis in study.analyses]
    known = [one for one in found if one is not None]
    if len(known) < len(found):
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The bearing is not known: some soil run finds no state of rest of the ribs.",
            advice=RIBS_FIRST,
        )
    elif known:
        yield _bearing_said(study, first_worst(known, lambda one: one.ratio), length, area)


def _bearing_area(study: Study) -> tuple[float, float]:
    """Length and area on which a foot of one rib bears (m, m2)."""
    feet, depth = study.vault.feet, study.strength.depth
    length = min(feet.shoe_length, depth) if feet and feet.shoe_length else depth
    return length, length * study.strength.width


def _bearing_at(study: Study, analysis: Analysis, area: float) -> Bearing | None:
    """The foot pressed hardest under one set of factors; None where a state of rest is missing."""
    strength = study.strength
    kmods = strength.kmods(analysis)
    limits = strength.design(strength.timber.compression_across, kmods)
    force = np.hypot(analysis.response.feet[..., 0], analysis.response.feet[..., 1])
    ratio = force / area / limits[None, :, None]
    if not np.isfinite(ratio).all():
        return None
    lane, situation, foot = first_largest(ratio)
    return Bearing(
        ratio=float(ratio[lane, situation, foot]),
        analysis=analysis,
        lane=lane,
        situation=situation,
        node=foot_node(study, foot),
        force=float(force[lane, situation, foot]),
        across=float(analysis.response.feet[lane, situation, foot, 0]),
        down=float(analysis.response.feet[lane, situation, foot, 1]),
        kmod=float(kmods[situation]),
        limit=float(limits[situation]),
    )


def _bearing_said(study: Study, worst: Bearing, length: float, area: float) -> Said:
    now, verdict, stress = (
        worst.analysis.situations[worst.situation],
        verdict_of(worst.ratio),
        worst.force / area,
    )
    return Said(
        verdict=verdict,
        template="{when}: a foot presses {stress} on its timber plate, which takes {limit} across the grain.",
        values={
            **moment_of(now),
            "stress": Shown(stress, "N/mm2", 2),
            "limit": Shown(worst.limit, "N/mm2", 2),
        },
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, worst.node),
        demand=stress,
        capacity=worst.limit,
        unit="N/mm2",
        ratio=worst.ratio,
        corner=corner_of(worst.analysis, worst.lane),
        advice="" if verdict is Verdict.HOLDS else _bearing_advice(study, length),
        steps=_bearing_steps(study, worst, length, area),
        spot=spot_of(study, worst.node),
    )


def _bearing_advice(study: Study, length: float) -> str:
    longer = "a longer [vault.feet] shoe_length, or " if length < study.strength.depth else ""
    return f"Write {longer}a smaller [vault] spacing or more layers; or bear on hardwood or steel."


def _bearing_steps(study: Study, worst: Bearing, length: float, area: float) -> tuple[Step, ...]:
    strength, stress = study.strength, worst.force / area
    return (
        step(
            f"Force on one foot, {worst.analysis.lanes[worst.lane].run} soil run",
            "R",
            "√(H² + V²)",
            f"√({abs(worst.across) / 1e3:.3f}² + {worst.down / 1e3:.3f}²)",
            Shown(worst.force, "kN", 3),
        ),
        step(
            "Bearing area",
            "A",
            "shoe length · rib width",
            f"{length * 1e3:.0f} · {strength.width * 1e3:.0f}",
            Shown(area, "mm2", 0),
        ),
        step("Pressure", "σ", "R / A", f"{worst.force:.0f} / {area * 1e6:.0f}", Shown(stress, "N/mm2", 3)),
        step(
            "Across the grain of a plate of the ribs' own class, k_c,90 = 1",
            "f_c,90,d",
            "k_mod·f_c,90,k / γ_M",
            f"{worst.kmod:g} · {strength.timber.compression_across / 1e6:g} / {GAMMA_TIMBER.value:g}",
            Shown(worst.limit, "N/mm2", 3),
            timber_cite("6.1.5"),
        ),
        ratio_step(
            "Strength used", "σ / f_c,90,d", f"{stress / 1e6:.3f} / {worst.limit / 1e6:.3f}", worst.ratio
        ),
    )


FEET_BEAR = Rule(
    name="feet-bear",
    title="The feet bear on their plate",
    why="All that the vault carries leaves through a few square centimetres at each foot. A plate crushed "
    "across its grain lets the vault sink.",
    cites=(timber_cite("6.1.5 and 6.2.2"),),
    decide=_bearing,
    asks=("vault.feet", "vault.service_class"),
)
