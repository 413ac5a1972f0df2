"""What the feet give their supports, against the largest push that those stand at the same moment."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict, verdict_of
from bermwright.base.marks import FootForce, Side
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import (
    RIBS_FIRST,
    moment_of,
    place_of,
    ratio_step,
    spot_of,
    step,
    timber_cite,
)
from bermwright.rules.ribs.feet import Reach, foot_reach
from bermwright.rules.supports.base import bases, found, sides_of, worst_first
from bermwright.rules.supports.common import NOTHING_THERE, widen
from bermwright.rules.supports.standing import on_side

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Finding, Step
    from bermwright.base.marks import Mark
    from bermwright.rules.study import Study
    from bermwright.rules.supports.base import Base, Governing

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ends:
    """Both ends of what the feet push sideways and down."""

    inward: Reach
    """Least outward: a value below zero points inward."""
    outward: Reach
    lightest: Reach
    heaviest: Reach

    @property
    def all(self) -> tuple[Reach, ...]:
        """All four."""
        return self.inward, self.outward, self.lightest, self.heaviest


def _forces(study: Study) -> Iterator[Said]:
    ends = Ends(
        inward=foot_reach(study, 0, largest=False),
        outward=foot_reach(study, 0, largest=True),
        lightest=foot_reach(study, 1, largest=False),
        heaviest=foot_reach(study, 1, largest=True),
    )
    if not np.isfinite([end.value for end in ends.all]).all():
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="Foot forces are not known: some soil run finds no state of rest of the ribs.",
            advice=RIBS_FIRST,
        )
    elif ends.lightest.value + _held_down(study) <= 0.0:
        yield _lifted(study, ends)
    else:
        yield _against(study, _pressed(study, ends))


def _lifted(study: Study, ends: Ends) -> Said:
    end = ends.lightest
    return Said(
        verdict=Verdict.FAILS,
        template="{when}: the {foot} lifts off its support with {lift}.",
        values={
            **moment_of(end.now),
            "foot": place_of(study, end.node),
            "lift": Shown(abs(end.value), "kN/m", 1),
        },
        stage=end.now.stage.name,
        case=end.now.case.name,
        place=place_of(study, end.node),
        unit="kN/m",
        corner=_corners(ends),
        advice="Hold the feet down, or lay [stages.ballast] on the crown while this lasts.",
        steps=_force_steps(ends),
        spot=spot_of(study, end.node),
    )


def _held_down(study: Study) -> float:
    """What holds the feet down on a metre of vault, by the file (N/m)."""
    sockets = [on_side(study.house.sockets, study.vault.name, side) for side in (0, 1)]
    held = [socket.hold_down or 0.0 if socket else 0.0 for socket in sockets]
    return min(held) / study.form.spacing


def _pressed(study: Study, ends: Ends) -> Said:
    most = max(ends.inward, ends.outward, key=lambda end: abs(end.value))
    return Said(
        verdict=Verdict.UNKNOWN,
        template="The feet press {down_least} to {down_most} down, and push from {inward} to {outward}.",
        values={
            "down_least": Shown(ends.lightest.value, "kN/m", 1),
            "down_most": Shown(ends.heaviest.value, "kN/m", 1),
            "inward": _sideways(ends.inward.value),
            "outward": _sideways(ends.outward.value),
        },
        stage=most.now.stage.name,
        case=most.now.case.name,
        place=place_of(study, most.node),
        corner=_corners(ends),
        steps=_force_steps(ends),
        spot=spot_of(study, most.node),
    )


def _against(study: Study, said: Said) -> Said:
    """The forces against the push that the supports stand, where the file describes them."""
    known, missing = sides_of(study)
    if missing:
        return replace(
            said,
            template=said.template + " What they press on is not described; whether it holds is not known.",
            advice=NOTHING_THERE,
        )
    ways = [base for side in known for base in bases(study, side, balance=False)]
    top = worst_first([base for base in ways if found(base)], _share)
    if top is None:
        return said
    push, limit = max(top.at(top.base.push), 0.0), top.at(_limit(top.base))
    verdict = verdict_of(top.ratio)
    told = NEAREST if limit > 0.0 else ALONE
    return replace(
        said,
        verdict=verdict,
        template=told,
        values={
            **moment_of(top.now),
            "push": Shown(push, "kN/m", 1),
            "way": top.base.word,
            "limit": Shown(limit, "kN/m", 1),
            "side": top.base.standing.side_name,
        },
        stage=top.now.stage.name,
        case=top.now.case.name,
        place=f"{top.base.standing.side_name} foot",
        demand=push,
        capacity=max(limit, 0.0),
        unit="kN/m",
        ratio=top.ratio if math.isfinite(top.ratio) else None,
        advice="" if verdict is Verdict.HOLDS else widen(top.base.standing) + ".",
        steps=(*said.steps, *_limit_steps(top, push, limit)),
        spot=spot_of(study, 0 if top.base.standing.side == 0 else study.form.mesh.x.size - 1),
    )


NEAREST = "{when}: the {side} foot pushes {push} {way}; at {limit} what it stands on gives way."
ALONE = "{when}: soil alone makes the {side} side give way {way}, without any push of the foot."


def _limit(base: Base) -> Array:
    """Push of the foot at which the support would turn over or slide, all else as it is (N/m)."""
    turns = base.push + (base.tip_holding - base.tip_turning) / base.standing.height
    with np.errstate(divide="ignore", invalid="ignore"):
        held = np.where(base.sliding > 0.0, base.along / base.sliding, np.inf)
    slides = base.push + held - base.along
    limit: Array = np.minimum(turns, slides)
    return limit


def _share(base: Base) -> Array:
    """Push over that limit; what gives way without any push is beyond it."""
    limit = _limit(base)
    with np.errstate(divide="ignore", invalid="ignore"):
        share: Array = np.where(limit > 0.0, np.maximum(base.push, 0.0) / limit, np.inf)
    return share


def _limit_steps(top: Governing, push: float, limit: float) -> tuple[Step, ...]:
    base = top.base
    spare = top.at(base.tip_holding) - top.at(base.tip_turning)
    return (
        step(
            f"Push at which the {base.standing.side_name} side would turn over or slide {base.word}",
            "H_max",
            "min(H + (M_stb − M_dst)/h, H + R − H_d)",
            f"{push / 1e3:.1f} + {spare / 1e3:.1f}/{base.standing.height:.2f}, or by sliding",
            Shown(limit, "kN/m", 1),
        ),
        ratio_step("Used", "H / H_max", f"{push / 1e3:.2f} / {limit / 1e3:.2f}", top.ratio),
    )


def _corners(ends: Ends) -> dict[str, Shown | str]:
    return {"most inward": ends.inward.words, "most outward": ends.outward.words}


def _force_steps(ends: Ends) -> tuple[Step, ...]:
    lines = (
        ("Most outward push of a foot", "H", ends.outward, ends.outward.value),
        ("Most inward push of a foot", "H inward", ends.inward, -ends.inward.value),
        ("Largest force down", "V", ends.heaviest, ends.heaviest.value),
        ("Least force down", "V", ends.lightest, ends.lightest.value),
    )
    return tuple(
        step(f"{says}: {end.words}", symbol, "plane frame", "", Shown(value, "kN/m", 1))
        for says, symbol, end, value in lines
    )


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
    why="A buried vault may push its feet inward while it is filled and outward when it is done. Walls and "
    "footings must take the whole range; a vault whose feet move has failed.",
    cites=(timber_cite("5.1, global analysis"),),
    decide=_forces,
    asks=("vault.feet", "vault.feet.hold", "wall"),
    draws=_draw_feet,
)
