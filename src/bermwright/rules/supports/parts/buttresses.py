"""Whether buttresses stand without tension, and share the load with their wall."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.supports import EQU
from bermwright.data.works.supports import HEYMAN1995, OCHSENDORF2004
from bermwright.handbook.retaining import (
    bond_stress,
    cracked_buttress_thrust,
    kern_thrust,
    overturning_thrust,
)
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step
from bermwright.rules.supports.acting import INWARD, OUTWARD, acting_on
from bermwright.rules.supports.base import sides_of
from bermwright.rules.supports.common import does_not_apply, feet_unknown
from bermwright.rules.supports.standing import SIDES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.house.parts.walls import Buttress
    from bermwright.rules.study import Study
    from bermwright.rules.supports.acting import Acting
    from bermwright.rules.supports.standing import Standing

CRACK_CITE = Cite(work=OCHSENDORF2004, place="collapse with a crack", provenance=Provenance.MEMORY)
KERN_CITE = Cite(work=HEYMAN1995, place="the middle third", provenance=Provenance.MEMORY)
NEEDED = ("spacing", "width", "depth", "unit_weight")
BIGGER = "Write a larger [[buttress]] depth or width, or a smaller spacing."
TOOTHED = "Tooth the [[buttress]] into the wall and write its bond, or make it wider."
TRIED = 12
"""How many of the worst moments, by thrust over weight, are worked out to the end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A buttress with the part of the wall it is bonded to, one of them."""

    height: float
    depth: float
    width: float
    weight: float
    """Unit weight (N/m3)."""
    inset: float
    """From its inner face, seen along the thrust, to the foot (m)."""
    spacing: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One lane at one moment: the thrust on one buttress, and what it stands."""

    thrust: float
    down: float
    limit: float
    acting: Acting
    lane: int
    moment: int

    @property
    def ratio(self) -> float:
        """Thrust over the largest one."""
        return self.thrust / self.limit if self.limit > 0.0 else math.inf


def _decide(study: Study) -> Iterator[Said]:
    mine = [one for one in study.house.buttresses if one.vault == study.vault.name]
    if not mine:
        yield does_not_apply("buttress")
        return
    known, missing = sides_of(study)
    for one in mine:
        part = f'buttress "{one.name}"'
        lost = [f"buttress.{key}" for key in NEEDED if getattr(one, key) is None]
        lost += [] if one.bond else ["buttress.bond"]
        if lost or missing:
            reason = ", ".join(lost) or "what stands under both feet"
            yield Said(
                verdict=Verdict.UNKNOWN,
                template="Not known: the file does not say {places}.",
                values={"places": reason},
                advice=f"Answer the questions about {reason}.",
                part=part,
            )
            continue
        chosen = [side for side in known if one in {side.buttress, side.inner_buttress}]
        yield from _one(study, one, chosen, part)


def _one(study: Study, one: Buttress, sides: list[Standing], part: str) -> Iterator[Said]:
    way = INWARD if one.inside else OUTWARD
    found: list[tuple[Moment, Standing, Body]] = []
    for side in sides:
        body = body_of(side, one)
        for acting in acting_on(study, side):
            if not (np.isfinite(acting.outward).all() and np.isfinite(acting.down).all()):
                yield feet_unknown(part)
                return
            found += [(moment, side, body) for moment in _moments(acting, side, body, way)]
    if not found:
        return
    top, side, body = max(found, key=lambda each: each[0].ratio)
    yield _stands(top, side, body, one, part)
    yield _bonds(top, side, body, one, part)


def body_of(side: Standing, one: Buttress) -> Body:
    """The buttress as one block with its strip of wall."""
    bottom = side.bottom if one.bottom is None else one.bottom
    deep, thick = one.depth or math.nan, side.thickness
    wall = side.wall.unit_weight if side.wall and side.wall.unit_weight else 0.0
    weight = ((one.unit_weight or math.nan) * deep + wall * thick) / (deep + thick)
    inset = side.toe + thick - side.foot if one.inside else side.foot - side.toe
    return Body(
        height=side.top - bottom,
        depth=deep + thick,
        width=one.width or math.nan,
        weight=weight,
        inset=max(inset, 0.0),
        spacing=one.spacing or math.nan,
    )


def _moments(acting: Acting, side: Standing, body: Body, way: float) -> Iterator[Moment]:
    """The moments at which thrust is largest for its force down, worked out with the crack."""
    push, down = acting.foot(way)
    if way == INWARD:
        soil = acting.push(side.outer_face, side.top - body.height)
        push = push + soil.moment / body.height
    thrust, pressed = push * body.spacing, np.maximum(down * body.spacing, 0.0)
    plain = overturning_thrust(
        body.height, depth=body.depth, width=body.width, weight=acting.helpful * body.weight, down=pressed,
        inset=body.inset,
    )  # fmt: skip
    order = np.argsort(np.where(thrust > 0.0, thrust / np.maximum(plain, 1.0), 0.0), axis=None)[::-1]
    for flat in order[:TRIED]:
        lane, moment = (int(i) for i in np.unravel_index(int(flat), thrust.shape))
        if thrust[lane, moment] <= 0.0:
            return
        limit = cracked_buttress_thrust(
            body.height,
            depth=body.depth,
            width=body.width,
            weight=acting.helpful * body.weight,
            down=float(pressed[lane, moment]),
            inset=body.inset,
        )
        yield Moment(
            thrust=float(thrust[lane, moment]),
            down=float(pressed[lane, moment]),
            limit=limit,
            acting=acting,
            lane=lane,
            moment=moment,
        )


def _stands(top: Moment, side: Standing, body: Body, one: Buttress, part: str) -> Said:
    verdict = verdict_of(top.ratio)
    now = top.acting.now(top.moment)
    return Said(
        verdict=verdict,
        template="{when}: one {buttress} on the {side} takes a thrust of {thrust}; with its crack open it "
        "falls at {limit}.",
        values={
            "when": now.stage.name[:1].upper() + now.stage.name[1:] + ", " + now.case.name,
            "buttress": one.name,
            "side": SIDES[side.side],
            "thrust": Shown(top.thrust, "kN", 1),
            "limit": Shown(top.limit, "kN", 1),
        },
        stage=now.stage.name,
        case=now.case.name,
        place=f"{SIDES[side.side]}, {'inside' if one.inside else 'outside'}",
        demand=top.thrust,
        capacity=top.limit,
        unit="kN",
        ratio=top.ratio if math.isfinite(top.ratio) else None,
        corner={**top.acting.lane(top.lane).corner, "factors": top.acting.name},
        advice="" if verdict is Verdict.HOLDS else BIGGER,
        steps=_steps(top, body),
        part=part,
    )  # fmt: skip


def _steps(top: Moment, body: Body) -> tuple[Step, ...]:
    weight = top.acting.helpful * body.weight
    whole = {
        "depth": body.depth,
        "width": body.width,
        "weight": weight,
        "down": top.down,
        "inset": body.inset,
    }
    kern = float(kern_thrust(body.height, **whole))
    plain = float(overturning_thrust(body.height, **whole))
    filled = f"h = {body.height:.2f}, d = {body.depth:.2f} with its wall, b = {body.width:.2f} m"
    return (
        step(
            "Thrust on one, soil that pushes the same way at its height",
            "H",
            "H·s",
            f"every {body.spacing:.2f} m",
            Shown(top.thrust, "kN", 1),
        ),
        step(
            "Base pressed all over up to", "H_kern", "(W·d/6 + V·(2·d/3 − i))/h", filled,
            Shown(kern, "kN", 1), KERN_CITE,
        ),
        step("It would turn over in one piece at", "H_1", "(W·d/2 + V·(d − i))/h", "", Shown(plain, "kN", 1)),
        step(
            "With what lies behind the crack left out",
            "H_R",
            "resultant at the outer edge of the base",
            "",
            Shown(top.limit, "kN", 1),
            CRACK_CITE,
        ),
        ratio_step("Used", "H / H_R", f"{top.thrust / 1e3:.1f} / {top.limit / 1e3:.1f}", top.ratio, EQU.cite),
    )  # fmt: skip


def _bonds(top: Moment, side: Standing, body: Body, one: Buttress, part: str) -> Said:
    """Shear in the joint that makes both one body: the wall's weight hangs on it."""
    share = 1.5 * body.height / body.depth
    stress = float(bond_stress(top.thrust, height=body.height, width=body.width, share=min(share, 10.0)))
    ratio = stress / (one.bond or math.nan)
    verdict = verdict_of(ratio)
    return Said(
        verdict=verdict,
        template="The joint between {buttress} and wall is sheared with {stress}; it holds {bond}.",
        values={
            "buttress": one.name,
            "stress": Shown(stress, "kN/m2", 0),
            "bond": Shown(one.bond or math.nan, "kN/m2", 0),
        },
        place=f"{SIDES[side.side]}, joint with the wall",
        demand=stress,
        capacity=one.bond,
        unit="kN/m2",
        ratio=ratio,
        advice="" if verdict is Verdict.HOLDS else TOOTHED,
        steps=(
            step(
                "Shear in the joint, as in the middle of one block",
                "τ",
                "1.5·H / (d·b)",
                f"h = {body.height:.2f}, d = {body.depth:.2f}, b = {body.width:.2f} m",
                Shown(stress, "kN/m2", 0),
                KERN_CITE,
            ),
            ratio_step("Bond used", "τ / bond", "", ratio),
        ),
        part=part,
    )  # fmt: skip


BUTTRESSES_STAND = Rule(
    name="buttresses-stand-without-tension",
    title="Buttresses stand without tension",
    why="A buttress opens at its inner face long before it falls, and what lies behind the crack no longer "
    "weighs. One that is not bonded to its wall stands alone.",
    cites=(CRACK_CITE, KERN_CITE),
    decide=_decide,
    asks=tuple(f"buttress.{key}" for key in (*NEEDED, "bond")),
)
