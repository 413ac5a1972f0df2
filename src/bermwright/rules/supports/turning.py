"""Whether what carries the feet turns over or slides, into the room or outward, at any stage."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import level_text
from bermwright.data.supports import EQU, RESISTANCES
from bermwright.data.works.actions import EN1997
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step
from bermwright.rules.supports.acting import INWARD
from bermwright.rules.supports.base import (
    bases,
    buttress_body,
    moment_terms,
    sides_of,
    slip_angle,
    worst_first,
)
from bermwright.rules.supports.common import (
    acting_steps,
    at,
    each_part,
    feet_lost,
    feet_unknown,
    plain,
    pressure_marks,
    widen,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Finding, Step
    from bermwright.base.marks import Mark
    from bermwright.rules.study import Study
    from bermwright.rules.supports.base import Base, Governing
    from bermwright.rules.supports.standing import Standing

LEAST_SHOWN = 0.05
"""A moment that would print as nothing is left out of the sum (kN m/m)."""
SLIDING_CITE = Cite(work=EN1997, place="6.5.3", provenance=Provenance.MEMORY)


def all_bases(study: Study, sides: tuple[Standing, ...], *, balance: bool) -> list[Base]:
    """Every side under every set in both directions."""
    return [base for side in sides for base in bases(study, side, balance=balance)]


def _turns(study: Study) -> Iterator[Said]:
    yield from each_part(study, _turns_part)


def _turns_part(study: Study, sides: tuple[Standing, ...]) -> Iterator[Said]:
    found = all_bases(study, sides, balance=True)
    if feet_lost(found):
        yield feet_unknown(sides[0].part)
        return
    top = worst_first(found, lambda base: base.overturning)
    if top is not None:
        yield at(top, _turn_said(top))


def _turn_said(top: Governing) -> Said:
    base = top.base
    holding, turning = top.at(base.tip_holding), top.at(base.tip_turning)
    return Said(
        verdict=verdict_of(top.ratio),
        template="{when}: the {side} side would turn {way} by {turning}; {holding} hold it.",
        values={"turning": Shown(turning, "kN m/m", 1), "holding": Shown(holding, "kN m/m", 1)},
        demand=turning,
        capacity=holding,
        unit="kN m/m",
        advice=widen(base.standing) + ", or make [vault] springing lower.",
        steps=(*acting_steps(top), *_turn_steps(top, holding, turning)),
    )


def _turn_steps(top: Governing, holding: float, turning: float) -> tuple[Step, ...]:
    base = top.base
    standing = base.standing
    lines = []
    tie = top.at(base.tie)
    if tie > 0.0 and standing.tie is not None:
        lines.append(
            step(
                f"{standing.tie.name} takes all it can of the push",
                "T",
                "≤ H + P",
                f"at {level_text(standing.tie.level)}",
                Shown(tie, "kN/m", 1),
            )
        )
    edge = "edge in the room" if base.inward else "outer edge"
    return (
        *lines,
        step(
            f"Moments that turn it over its {edge}",
            "M_dst",
            "Σ force · lever",
            _sum(top, -1.0),
            Shown(turning, "kN m/m", 1),
        ),
        step(
            "Moments that hold it back",
            "M_stb",
            "Σ force · lever",
            _sum(top, 1.0),
            Shown(holding, "kN m/m", 1),
        ),
        ratio_step(
            "Stability used",
            "M_dst / M_stb",
            f"{turning / 1e3:.1f} / {holding / 1e3:.1f}",
            top.ratio,
            EQU.cite,
        ),
    )


def _sum(top: Governing, sign: float) -> str:
    """The moments that hold (+) or turn (−), each with its force and lever where it is one force."""
    terms = moment_terms(top.base, top.base.tip, buttress=True)
    parts = [(name, sign * top.at(one) / 1e3) for name, one in terms.items()]
    return " + ".join(f"{name} {value:.1f}" for name, value in parts if value >= LEAST_SHOWN) or "0"


def _slides(study: Study) -> Iterator[Said]:
    yield from each_part(study, _slides_part, needs=_ground_needed)


def _ground_needed(standing: Standing) -> tuple[str, ...]:
    return () if standing.ground is not None else ("site.soil.friction_angle",)


def _slides_part(study: Study, sides: tuple[Standing, ...]) -> Iterator[Said]:
    found = all_bases(study, sides, balance=False)
    if feet_lost(found):
        yield feet_unknown(sides[0].part)
        return
    top = worst_first(found, lambda base: base.sliding)
    if top is not None:
        yield at(top, _slide_said(top))


def _slide_said(top: Governing) -> Said:
    base = top.base
    tie = base.standing.tie
    along = top.at(base.along)
    held = along / top.ratio if top.ratio > 0.0 and math.isfinite(top.ratio) else top.at(base.friction)
    leans = tie is not None and top.at(base.tie) > 0.0
    needs = " {tie} takes {share} of it: it must be there before soil is laid." if leans else ""
    share: dict[str, Shown | str] = {"share": Shown(top.at(base.tie), "kN/m", 1)}
    values = {**share, "tie": tie.name} if leans and tie else {}
    return Said(
        verdict=verdict_of(top.ratio),
        template="{when}: the {side} side is pushed {way} by {along}; {held} hold it." + needs,
        values={"along": Shown(along, "kN/m", 1), "held": Shown(held, "kN/m", 1), **values},
        demand=along,
        capacity=held,
        unit="kN/m",
        advice=widen(base.standing) + ".",
        steps=(*acting_steps(top), *_slide_steps(top, along, held)),
    )


def _slide_steps(top: Governing, along: float, held: float) -> tuple[Step, ...]:
    base = top.base
    ground, resistance = base.standing.ground, RESISTANCES.get(base.acting.name)
    sign = "+" if base.inward else "−"
    friction = top.at(base.friction)
    extra = buttress_body(base.standing)
    leant = base.acting.helpful * extra[0] if extra else 0.0
    return (
        step(
            "Push along the base",
            "H_d",
            f"H {sign} P",
            f"{plain(top.at(base.push))} {sign} {top.at(base.soil.force) / 1e3:.1f}",
            Shown(along, "kN/m", 1),
        ),
        step(
            f"Friction on {ground.name if ground else 'the ground'}",
            "R",
            "N·tan δ / γ_R",
            f"{(top.at(base.total) + leant) / 1e3:.1f} · tan {np.degrees(slip_angle(base)):.1f}° / "
            f"{resistance.sliding if resistance else 1:g}",
            Shown(friction, "kN/m", 1),
            SLIDING_CITE,
        ),
        step(
            "What joins the feet under the floor",
            "R_tie",
            "pressed" if base.way == INWARD else "pulled",
            "",
            Shown(max(held - friction, 0.0), "kN/m", 1),
        ),
        ratio_step(
            "Resistance used", "H_d / (R + R_tie)", f"{along / 1e3:.2f} / {held / 1e3:.2f}", top.ratio
        ),
    )


def _draw(study: Study, finding: Finding) -> tuple[Mark, ...]:
    """The soil that presses at the governing moment."""
    known, _ = sides_of(study)
    chosen = tuple(side for side in known if side.part == finding.part)
    balance = finding.rule == SUPPORTS_TURN.name
    found = all_bases(study, chosen, balance=balance)
    if not found or feet_lost(found):
        return ()
    top = worst_first(found, lambda base: base.overturning if balance else base.sliding)
    return () if top is None else pressure_marks(top, "turns over here" if balance else "slides here")


SUPPORTS_TURN = Rule(
    name="supports-do-not-turn-over",
    title="What carries the feet does not turn over",
    why="Soil outside and the feet of the vault push the same way while it is filled; later they push apart. "
    "A wall that turns over takes the vault with it, at once.",
    cites=(EQU.cite,),
    decide=_turns,
    asks=("wall", "wall.thickness", "wall.bottom", "wall.unit_weight", "footing.width", "footing.thickness"),
    draws=_draw,
)
SUPPORTS_STAY = Rule(
    name="supports-do-not-slide",
    title="What carries the feet does not slide",
    why="Feet that move apart or together by a few centimetres bend the ribs beyond what they were made for.",
    cites=(SLIDING_CITE,),
    decide=_slides,
    asks=("wall", "tie.thickness", "tie.concrete", "site.soil.friction_angle"),
    draws=_draw,
)
