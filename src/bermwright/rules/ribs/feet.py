"""What the feet give their supports, and whether the foot of a rib bears."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict, verdict_of
from bermwright.base.marks import FootForce, Side
from bermwright.handbook import timber as ec5
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import step, timber_cite

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Finding
    from bermwright.base.marks import Mark
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.study import Study


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """Least or largest of one foot force, and where it comes from."""

    value: float
    """N per metre of vault; NaN when a state of rest was not found."""
    stage: str
    case: str
    run: str


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
    at = np.unravel_index(int((np.argmax if largest else np.argmin)(chosen)), chosen.shape)
    now = analysis.situations[int(at[1])]
    return Reach(
        value=float(chosen[at]), stage=now.stage.name, case=now.case.name, run=analysis.lanes[int(at[0])].run
    )


def _forces(study: Study) -> Iterator[Said]:
    out_least, out_most = (foot_reach(study, 0, largest=largest) for largest in (False, True))
    down_least, down_most = (foot_reach(study, 1, largest=largest) for largest in (False, True))
    ends = (out_least, out_most, down_least, down_most)
    if not all(np.isfinite(end.value) for end in ends):
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="Foot forces are not known: in some soil run no state of rest of the ribs was found.",
            advice="Stiffer ribs first; see the finding on buckling.",
        )
        return
    lifts = down_least.value <= 0.0
    yield Said(
        verdict=Verdict.FAILS if lifts else Verdict.HOLDS,
        template="A foot lifts: {down_least} down at {stage}." if lifts else
        "The feet press {down_least} to {down_most} down on their supports, and from {inward} to {outward}; what "
        "carries them must take all of it, at every stage.",
        values={
            "down_least": Shown(down_least.value, "kN/m", 1),
            "down_most": Shown(down_most.value, "kN/m", 1),
            "inward": _sideways(out_least.value),
            "outward": _sideways(out_most.value),
            "stage": down_least.stage,
        },
        stage=out_least.stage if abs(out_least.value) > abs(out_most.value) else out_most.stage,
        place="feet",
        demand=down_most.value,
        unit="kN/m",
        corner={"most inward": f"{out_least.stage}, {out_least.case}, {out_least.run} run",
                "most outward": f"{out_most.stage}, {out_most.case}, {out_most.run} run"},
        advice="Hold the feet down, or add weight." if lifts else "Give these forces to whoever checks walls and footings: that is not done here.",
        steps=(
            step("Largest outward push of a foot", "H", "frame", f"{out_most.stage}, {out_most.case}, {out_most.run}", out_most.value, "kN/m", 1),
            step("Largest inward push of a foot", "−H", "frame", f"{out_least.stage}, {out_least.case}, {out_least.run}", -out_least.value, "kN/m", 1),
            step("Largest force down", "V", "frame", f"{down_most.stage}, {down_most.case}, {down_most.run}", down_most.value, "kN/m", 1),
            step("Least force down", "V", "frame", f"{down_least.stage}, {down_least.case}, {down_least.run}", down_least.value, "kN/m", 1),
        ),
    )  # fmt: skip


def _sideways(value: float) -> str:
    """Never a bare minus sign: the direction in words."""
    return f"{Shown(abs(value), 'kN/m', 1).text()} {'outward' if value >= 0 else 'inward'}"


def _draw_feet(study: Study, _finding: Finding) -> tuple[Mark, ...]:
    mesh = study.form.mesh
    marks = []
    for side, index in ((Side.LEFT, 0), (Side.RIGHT, -1)):
        number = 0 if side is Side.LEFT else 1
        out = [foot_reach(study, 0, largest=largest, side=number).value for largest in (False, True)]
        down = [foot_reach(study, 1, largest=largest, side=number).value for largest in (False, True)]
        if np.isfinite([*out, *down]).all():
            marks.append(
                FootForce(
                    side=side,
                    spot=Spot(float(mesh.x[index]), float(mesh.z[index])),
                    down=(down[0], down[1]),
                    inward=(-out[1], -out[0]),
                )
            )
    return tuple(marks)


FOOT_FORCES = Rule(
    name="feet-press-on-their-supports",
    title="What the feet give their supports",
    why="A buried vault may push its feet inward while it is filled and outward when it is done. Walls and footings "
    "must take the whole range; a vault whose feet move has failed.",
    cites=(timber_cite("5.1, global analysis"),),
    decide=_forces,
    asks=("vault.feet", "vault.feet.hold"),
    draws=_draw_feet,
)


def _bearing(study: Study) -> Iterator[Said]:
    strength, feet = study.strength, study.vault.feet
    length = feet.shoe_length if feet and feet.shoe_length else strength.depth
    area = min(length, strength.depth) * strength.width
    worst: tuple[float, Analysis, tuple[int, ...]] | None = None
    for analysis in study.analyses:
        kmod = strength.kmods(analysis)[None, :, None]
        limit = strength.design(strength.timber.compression_across, kmod)
        force = np.hypot(analysis.response.feet[..., 0], analysis.response.feet[..., 1])
        ratio = force / area / limit
        if not np.isfinite(ratio).all():
            yield Said(verdict=Verdict.UNKNOWN, template="Foot forces are not known in some soil run, so neither is the bearing.")
            return
        at = tuple(int(i) for i in np.unravel_index(int(np.argmax(ratio)), ratio.shape))
        if worst is None or ratio[at] > worst[0]:
            worst = (float(ratio[at]), analysis, at)
    if worst is None:
        return
    ratio_most, analysis, (lane, situation, _side) = worst
    now = analysis.situations[situation]
    limit = float(strength.design(strength.timber.compression_across, float(strength.kmods(analysis)[situation])))
    yield Said(
        verdict=verdict_of(ratio_most),
        template="At {stage} ({case}) the foot of a rib presses {stress} on a timber plate that takes {limit} across its grain.",
        values={
            "stage": now.stage.name, "case": now.case.name,
            "stress": Shown(ratio_most * limit, "N/mm2", 2), "limit": Shown(limit, "N/mm2", 2),
        },
        stage=now.stage.name,
        case=now.case.name,
        place="feet",
        demand=ratio_most * limit,
        capacity=limit,
        unit="N/mm2",
        ratio=ratio_most,
        corner=analysis.lanes[lane].corner,
        advice="" if ratio_most <= 0.9 else "A longer shoe, a hardwood or steel plate, or ribs nearer together.",
        steps=(
            step("Force on one foot, thrust and shear together", "R", "√(H² + V²)", analysis.lanes[lane].run, ratio_most * limit * area, "kN", 2),
            step("Bearing area", "A", "shoe length · rib width", f"{min(length, strength.depth) * 1e3:.0f} · {strength.width * 1e3:.0f}", area, "mm2", 0),
            step("Across the grain of a plate of the same class, k_c,90 = 1", "f_c,90,d", "k_mod·f_c,90,k / γ_M",
                 f"{float(strength.kmods(analysis)[situation]):g} · {strength.timber.compression_across / 1e6:g} / 1.3", limit, "N/mm2", 2,
                 timber_cite("6.1.5")),
        ),
    )  # fmt: skip


FEET_BEAR = Rule(
    name="feet-bear",
    title="The feet bear on their plate",
    why="All that the vault carries leaves through a few square centimetres at each foot; a plate crushed across its "
    "grain lets the vault sink.",
    cites=(timber_cite("6.1.5 and 6.2.2"),),
    decide=_bearing,
    asks=("vault.feet", "vault.service_class"),
)
