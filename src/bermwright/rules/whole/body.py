"""Vault and walls as one body between unlike fills: sliding, tipping, and what it presses on the ground."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import level_text
from bermwright.data.works.actions import EN1997
from bermwright.handbook import bearing, soils
from bermwright.rules.grids.holding import held_side
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import moment_of, ratio_step, step
from bermwright.rules.whole.ground import base_level, shell_weight
from bermwright.stages.loads import WATER

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.data.rule_sets import RuleSet
    from bermwright.form.shapes import VaultForm
    from bermwright.rules.grids.blocks import Block
    from bermwright.rules.study import Study
    from bermwright.stages.nouns import Case, Stage

    Array = NDArray[np.float64]

BODY_CITE = Cite(work=EN1997, place="6.5.3, 6.5.4 and tables A.3 to A.5", provenance=Provenance.MEMORY)
TAMPED = 0.13
"""More sideways than at rest where the fill is compacted (-): the compacted soil run."""
ROUGH = 2.0 / 3.0
"""Friction under a base over that of the ground: EN 1997-1, 6.5.3 for smooth bases (-)."""
HELPS, PUSHES = 0.9, 1.1
"""Partial factors of set EQU on what holds and what tips (-)."""
FLATTEST = 0.95
"""Push along over force down at which no ground carries a base any more (-)."""
PLACES = 60
LEAST_SATURATED = 1e4
"""Soil full of water is no lighter than water (N/m3)."""
BESIDE = 0.05
"""Where beside the foot the fill's surface is read (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Push:
    """What one side of the fill does to shell and wall, per metre of vault."""

    force: float
    """Towards the room (N/m)."""
    moment: float
    """About the base (N m per m)."""
    wall: float = 0.0
    wall_moment: float = 0.0
    """The part of both that acts on the upright wall under the foot."""

    @property
    def height(self) -> float:
        """Over the base at which it acts (m)."""
        return self.moment / self.force if self.force else 0.0

    def with_wall(self, force: float, moment: float) -> Push:
        """The same with another push on the wall."""
        return Push(
            force=self.force - self.wall + force,
            moment=self.moment - self.wall_moment + moment,
            wall=force,
            wall_moment=moment,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """The house at one stage and case, characteristic values per metre of vault."""

    stage: Stage
    case: Case
    left: Push
    right: Push
    weight: float
    """Shell, walls and the soil on them, without what may be absent (N/m)."""
    lift: float
    """Ground water that lifts both bases (N/m)."""
    loads: float
    """What comes on top: snow, people (N/m)."""
    half: float
    """From the middle to the outer edge of a base (m)."""
    base: float
    """Level of the base (m)."""

    @property
    def stands(self) -> float:
        """What presses on the ground at least (N/m)."""
        return max(self.weight - self.lift, 0.0)

    @property
    def net(self) -> float:
        """To the right (N/m)."""
        return self.left.force - self.right.force

    @property
    def tips(self) -> float:
        """About the base, over to the right (N m per m)."""
        return self.left.moment - self.right.moment


def bodies(study: Study, friction: float) -> Iterator[Body]:
    """The house at every stage with fill, level and one side ahead, without and with loads."""
    for stage in study.stages:
        for case in stage.cases:
            if case.left is not None and case.right is not None and not case.before:
                yield body_at(study, stage, case, friction)


def body_at(study: Study, stage: Stage, case: Case, friction: float) -> Body:
    """The house with the fill at the levels of a case."""
    form, heavy = study.form, study.given.unit_weight
    ratio = float(soils.at_rest_ratio(friction)) + TAMPED
    snow = sum(
        float(np.sum(np.maximum(one.on_fill, 0.0) * form.mesh.plan))
        for one in case.actions
        if one.on_fill is not None and not one.permanent
    )
    own = sum(float(np.sum(one.down)) for one in case.actions if one.down is not None and one.permanent)
    light = _light(study)
    soil = light * float(np.sum(case.depth * np.maximum(form.mesh.plan, 0.0)))
    levels = (case.left or 0.0, case.right or 0.0)
    finished = stage.level is not None and not stage.filling
    left, right = (
        side_push(study, levels, ratio * heavy, right=side, finished=finished) for side in (False, True)
    )
    left, right = _unlike(study, left, right)
    water = -np.inf if form.ground.water_high is None else form.ground.water_high
    return Body(
        stage=stage,
        case=case,
        left=left,
        right=right,
        weight=own + soil + wall_weight(study),
        lift=2.0 * base_width(study) * WATER * max(water - base_level(study), 0.0),
        loads=snow,
        half=0.5 * form.span + 0.5 * base_width(study),
        base=base_level(study),
    )


def _unlike(study: Study, left: Push, right: Push) -> tuple[Push, Push]:
    """Both pushes as they differ most.

    A wall before fill that stands by itself feels what the soft layer passes, or nothing.
    """
    blocks = [held_side(study.house, study.form, study.vault.name, side) for side in (0, 1)]
    if blocks == [None, None]:
        return left, right
    (least_left, left), (least_right, right) = (
        (push, push) if block is None else (push.with_wall(0.0, 0.0), _passed(push, block))
        for push, block in zip((left, right), blocks, strict=True)
    )
    ways = [(left, least_right), (least_left, right)]
    return max(ways, key=lambda pair: abs(pair[0].force - pair[1].force))


def _passed(push: Push, block: Block) -> Push:
    force = min(block.passes * block.height, push.wall)
    return push.with_wall(force, force * 0.5 * block.height)


def _light(study: Study) -> float:
    fill = study.house.fill(study.vault)
    return fill.unit_weight.low if fill is not None and fill.unit_weight is not None else 0.0


def side_push(
    study: Study, levels: tuple[float, float], weight: float, *, right: bool, finished: bool
) -> Push:
    """Soil against shell and wall of one side from the base up; `weight` is the unit weight times K.

    Beside each place of the shell the soil stands as high as over it; beside the wall as high as at its foot.
    """
    form, base = study.form, base_level(study)
    x, z = _outside(form, base, right=right)
    if finished:
        top = form.ground.finished.level(x)
    else:
        top = form.ground.filled(x, levels[0], levels[1], float(form.mesh.soil_x[form.mesh.crown]))
    pressure = weight * np.maximum(top - z, 0.0)
    rise = np.diff(z)
    middle = 0.5 * (pressure[1:] + pressure[:-1]) * rise
    level = 0.5 * (z[1:] + z[:-1]) - base
    low = slice(None, PLACES - 1)
    return Push(
        force=float(np.sum(middle)),
        moment=float(np.sum(middle * level)),
        wall=float(np.sum(middle[low])),
        wall_moment=float(np.sum((middle * level)[low])),
    )


def _outside(form: VaultForm, base: float, *, right: bool) -> tuple[Array, Array]:
    """The outline of one side from the base up to the crown (m)."""
    face = form.soil_face
    top = int(np.argmax(face.z))
    order = slice(None, top - 1, -1) if right else slice(None, top + 1)
    x, z = face.x[order], face.z[order]
    foot = float(x[0]) + (BESIDE if right else -BESIDE)
    wall = np.linspace(base, max(float(z[0]), base), PLACES)
    return np.concatenate([np.full(PLACES, foot), x]), np.concatenate([wall, z])


def base_width(study: Study) -> float:
    """Width of what stands under a foot (m)."""
    name = study.vault.name
    footings = [one.width for one in study.house.footings if one.vault == name and one.width]
    walls = [one.thickness for one in study.house.walls if one.vault == name and one.thickness]
    feet = study.vault.feet
    widths = [*footings, *walls, *([feet.wall_width] if feet and feet.wall_width else [])]
    return min(widths, default=float("nan"))


def wall_weight(study: Study) -> float:
    """Both walls, as far as the file says how heavy they are (N/m)."""
    name, total = study.vault.name, 0.0
    for wall in study.house.walls:
        if wall.vault == name and wall.thickness and wall.unit_weight and wall.bottom is not None:
            top = study.vault.springing if wall.top is None else wall.top
            sides = 2.0 if wall.side == "both" else 1.0
            total += sides * wall.thickness * wall.unit_weight * max(top - wall.bottom, 0.0)
    return total


@dataclass(frozen=True, slots=True, kw_only=True)
class Worst:
    """The moment that asks most, of sliding, tipping or bearing."""

    what: str
    ratio: float
    demand: float
    capacity: float
    body: Body
    factors: str
    unit: str


def _decide(study: Study) -> Iterator[Said]:
    missing = _missing(study)
    if missing:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="Whether the house stays between its fills is not known without {places}.",
            values={"places": ", ".join(missing)},
            advice=f"Answer the questions about {' and '.join(missing)}.",
        )
        return
    everything = tuple(worst_of(study))
    for what in ("slides", "tips", "presses"):
        found = [one for one in everything if one.what == what]
        if found:
            yield _said(study, max(found, key=lambda one: one.ratio))


def _missing(study: Study) -> tuple[str, ...]:
    layers, lost = study.house.site.soil, []
    if not layers:
        lost.append("site.soil")
    elif any(layer.friction_angle is None or layer.unit_weight is None for layer in layers):
        lost.append("site.soil.friction_angle")
    if not np.isfinite(base_width(study)):
        lost.append("vault.feet.wall_width")
    return tuple(lost)


def worst_of(study: Study) -> Iterator[Worst]:
    """Every moment under every set of factors."""
    fill = study.house.fill(study.vault)
    ground = min(
        (layer.friction_angle.low for layer in study.house.site.soil if layer.friction_angle), default=0.0
    )
    if fill is None or fill.friction_angle is None:
        return
    for analysis in study.analyses:
        factors = analysis.factors
        design = float(soils.design_friction_angle(fill.friction_angle.low, factors.friction))
        under = float(soils.design_friction_angle(ground, factors.friction))
        for body in bodies(study, design):
            yield from _ratios(study, body, factors, under)


def _ratios(study: Study, body: Body, factors: RuleSet, ground: float) -> Iterator[Worst]:
    resist = 1.1 if factors.friction == 1.0 else 1.0
    push = factors.permanent * abs(body.net)
    holds = body.stands * float(np.tan(ROUGH * ground)) / resist
    yield Worst(
        what="slides", ratio=_over(push, holds), demand=push, capacity=holds, body=body,
        factors=factors.name, unit="kN/m",
    )  # fmt: skip
    tips, keeps = PUSHES * abs(body.tips), HELPS * body.stands * body.half
    yield Worst(
        what="tips", ratio=_over(tips, keeps), demand=tips, capacity=keeps, body=body,
        factors="EN 1990, set EQU", unit="kN",
    )  # fmt: skip
    down = factors.permanent * body.weight + factors.variable * body.loads
    turning = factors.permanent * abs(body.tips)
    press = 0.5 * down + turning / (2.0 * body.half - base_width(study))
    carries = _carries(study, ground, push / max(down, 1.0)) / (1.4 if factors.friction == 1.0 else 1.0)
    yield Worst(
        what="presses", ratio=_over(press, carries), demand=press, capacity=carries, body=body,
        factors=factors.name, unit="kN/m",
    )  # fmt: skip


def _over(demand: float, capacity: float) -> float:
    if demand <= 0.0:
        return 0.0
    return demand / capacity if capacity > 0.0 else float("inf")


def _carries(study: Study, ground: float, inclination: float) -> float:
    """What the ground under one base carries (N/m); nothing where the force leans too far for any."""
    if inclination >= FLATTEST:
        return 0.0
    width, under, beside = base_width(study), *_ground_weights(study)
    pressure = bearing.drained_capacity(
        angle=ground, cohesion=0.0, weight=under, surcharge=beside, width=width, inclination=inclination
    )
    return float(pressure) * width


def _ground_weights(study: Study) -> tuple[float, float]:
    """Unit weight of the ground under a base (N/m3), its pressure beside it (Pa); water counts in both."""
    layer, width = study.house.site.soil[0], base_width(study)
    weight = layer.unit_weight.low if layer.unit_weight else 0.0
    wet = layer.saturated_unit_weight
    full = max(wet.low if wet is not None else weight, LEAST_SATURATED)
    natural, base = float(study.form.ground.natural.level(0.0)), base_level(study)
    deep, water = max(natural - base, 0.0), study.form.ground.water_high
    over = 0.0 if water is None else min(max(water - base, 0.0), deep)
    under = np.inf if water is None else max(base - water, 0.0)
    counted = float(bearing.weight_with_water(weight, full, water=min(under, 1e3), width=width))
    return counted, weight * (deep - over) + (full - WATER) * over


SAYS = {
    "slides": "{when}: unlike fills push the house to the {side} with {demand}; its base holds {capacity}.",
    "tips": "{when}: unlike fills tip the house to the {side} by {demand} a metre; weight holds {capacity}.",
    "presses": "{when}: the {side} base of the house presses {demand} on ground that carries {capacity}.",
}
TOO_FLAT = "{when}: the force on the {side} base leans so far that no ground carries it."
HELP = {
    "slides": "Make both sides of the fill alike, or the base deeper, heavier or rougher ([[wall]]).",
    "tips": "Make both sides of the fill alike, or the house wider or heavier.",
    "presses": "Write a wider [[footing]], or set it deeper.",
}


def _said(study: Study, worst: Worst) -> Said:
    body, verdict = worst.body, verdict_of(worst.ratio)
    now = next(one for one in study.analyses[0].situations if one.case is body.case)
    amount = "kNm" if worst.what == "tips" else "kN/m"
    return Said(
        verdict=verdict,
        template=SAYS[worst.what] if np.isfinite(worst.ratio) else TOO_FLAT,
        values={
            **moment_of(now),
            "side": "right" if body.net >= 0.0 else "left",
            "demand": Shown(worst.demand, amount, 1),
            "capacity": Shown(worst.capacity, amount, 1),
        },
        stage=body.stage.name,
        case=body.case.name,
        place=f"base, at {level_text(body.base)}",
        spot=Spot(0.0, body.base),
        demand=worst.demand,
        capacity=worst.capacity,
        unit=amount,
        ratio=worst.ratio if np.isfinite(worst.ratio) else None,
        corner={"friction": "least of its range", "factors": worst.factors},
        advice="" if verdict is Verdict.HOLDS else HELP[worst.what],
        steps=tuple(_steps(study, worst)),
    )


def _steps(study: Study, worst: Worst) -> Iterator[Step]:
    body = worst.body
    for side, push in (("left", body.left), ("right", body.right)):
        yield step(
            f"Soil from the {side} on shell and wall, {push.height:.2f} m over the base",
            "E",
            "Σ (K0 + 0.13)·γ·d·Δz",
            "",
            Shown(push.force, "kN/m", 2),
            BODY_CITE,
        )
    shell = shell_weight(study)
    yield step("Shell", "W_s", "Σ", "", Shown(shell, "kN/m", 2))
    yield step(
        "Shell, walls of known weight, and soil on them", "W", "W_s + walls and soil",
        f"{shell / 1e3:.2f} + {(body.weight - shell) / 1e3:.2f}", Shown(body.weight, "kN/m", 2),
    )  # fmt: skip
    if body.lift > 0.0:
        lifted = Shown(body.lift, "kN/m", 2)
        yield step("Ground water lifts both bases by, which holds less", "U", "2·b·γ_w·h", "", lifted)
    amount = "kNm" if worst.what == "tips" else "kN/m"
    asked, there = _amounts(study, worst)
    yield step(f"Asked, {worst.factors}", "E_d", *asked, Shown(worst.demand, amount, 2), BODY_CITE)
    yield step("There", "R_d", *there, Shown(worst.capacity, amount, 2), BODY_CITE)
    yield ratio_step(
        "Asked over there", "E_d / R_d", f"{worst.demand / 1e3:.3f} / {worst.capacity / 1e3:.3f}", worst.ratio
    )


def _amounts(study: Study, worst: Worst) -> tuple[tuple[str, str], tuple[str, str]]:
    """Formulas of what is asked and of what is there, and the numbers in them."""
    body = worst.body
    net, tips = abs(body.net), abs(body.tips)
    if worst.what == "slides":
        factor = worst.demand / net if net > 0.0 else 1.0
        rough = worst.capacity / body.stands if body.stands > 0.0 else 0.0
        return (
            ("γ_G·|E_left − E_right|", f"{factor:.2f} · {net / 1e3:.3f}"),
            ("W·tan(2/3·φ_d)/γ_R", f"{body.stands / 1e3:.2f} · {rough:.4f}"),
        )
    if worst.what == "tips":
        return (
            (f"{PUSHES:g}·|M_left − M_right|", f"{PUSHES:g} · {tips / 1e3:.3f}"),
            (f"{HELPS:g}·W·B/2", f"{HELPS:g} · {body.stands / 1e3:.2f} · {body.half:.3f}"),
        )
    return _pressed_amounts(study, worst)


def _pressed_amounts(study: Study, worst: Worst) -> tuple[tuple[str, str], tuple[str, str]]:
    """The same of the heavier base on its ground."""
    body, width = worst.body, base_width(study)
    sets = {one.factors.name: one.factors for one in study.analyses}
    soil, load = sets[worst.factors].permanent, sets[worst.factors].variable
    friction = min(one.friction_angle.low for one in study.house.site.soil if one.friction_angle)
    angle = float(soils.design_friction_angle(friction, sets[worst.factors].friction))
    under, beside = _ground_weights(study)
    down = soil * body.weight + load * body.loads
    leans = soil * abs(body.net) / max(down, 1.0)
    deep = f"{beside / 1e3:.2f} · {float(bearing.surcharge_factor(angle)):.2f}"
    heavy = f"½ · {under / 1e3:.2f} · {width:.2f} · {float(bearing.weight_factor(angle)):.2f}"
    lean_heavy, lean_deep = (
        float(of(leans)) if leans < FLATTEST else 0.0
        for of in (bearing.weight_inclination, bearing.surcharge_inclination)
    )
    resists = 1.4 if sets[worst.factors].friction == 1.0 else 1.0
    asked = f"({soil:g} · {body.weight / 1e3:.2f} + {load:g} · {body.loads / 1e3:.2f})/2"
    turns = f"{soil:g} · {abs(body.tips) / 1e3:.3f}/({2.0 * body.half:.3f} − {width:.2f})"
    carries = f"({heavy} · {lean_heavy:.4f} + {deep} · {lean_deep:.4f}) · {width:.2f} / {resists:g}"
    return (
        ("(γ_G·W + γ_Q·Q)/2 + γ_G·|M_left − M_right|/(B − b)", f"{asked} + {turns}"),
        ("(½·γ·b·N_γ·i_γ + q·N_q·i_q)·b / γ_R", carries),
    )


HOUSE_STAYS = Rule(
    name="house-stays-between-its-fills",
    title="The whole house stays between unlike fills",
    why="A hillside, a mound that is higher on one side, or fill that is ahead pushes the whole house over. "
    "A built one was shoved uphill in one night of rain.",
    cites=(BODY_CITE,),
    decide=_decide,
    reads_ribs=False,
    asks=("site.soil", "site.soil.friction_angle", "vault.feet.wall_width"),
)
