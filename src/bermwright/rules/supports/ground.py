"""Whether the ground under the supports carries them, and whether the force stays under their base."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.supports import LARGEST_LEAN, RESISTANCES
from bermwright.data.works.actions import EN1997
from bermwright.handbook.bearing import (
    cohesion_factor,
    cohesion_inclination,
    drained_capacity,
    effective_width,
    surcharge_factor,
    surcharge_inclination,
    weight_factor,
    weight_inclination,
    weight_with_water,
)
from bermwright.handbook.retaining import eccentricity
from bermwright.handbook.soils import design_friction_angle
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step
from bermwright.rules.supports.base import LEAST_DOWN, bases, braced, service_bases, worst_first
from bermwright.rules.supports.common import (
    acting_steps,
    at,
    each_part,
    feet_lost,
    feet_unknown,
    plain,
    spot_marks,
    widen,
)
from bermwright.rules.supports.standing import INSIDE_BUILD_UP

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.rules.study import Study
    from bermwright.rules.supports.base import Base, Governing
    from bermwright.rules.supports.standing import Standing

    Array = NDArray[np.float64]

BEARING_CITE = Cite(work=EN1997, place="6.5.2 and annex D", provenance=Provenance.MEMORY)
LEAN_CITE = LARGEST_LEAN.cite
FARTHEST_WATER = 90.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressed:
    """What a base presses on the ground, and what that carries; arrays are lanes by moments."""

    down: Array
    """N/m."""
    borne: Array
    """The same without a buttress (N/m)."""
    moment: Array
    """What holds it less what turns it, about the edge it would turn over (N m/m)."""
    lean: Array
    """Eccentricity towards the edge it would turn over (m)."""
    width: Array
    """Effective (m)."""
    incline: Array
    """Push along over force down (-)."""
    capacity: Array
    """Design resistance of the ground (N/m)."""
    ratio: Array


def _carries(study: Study) -> Iterator[Said]:
    yield from each_part(study, _carries_part, needs=_needed)


def _needed(standing: Standing) -> tuple[str, ...]:
    presumed = standing.footing is not None and standing.footing.presumed_bearing is not None
    return () if standing.ground is not None or presumed else ("site.soil.friction_angle",)


def _carries_part(study: Study, sides: tuple[Standing, ...]) -> Iterator[Said]:
    found = [base for side in sides for base in bases(study, side, balance=False)]
    if feet_lost(found):
        yield feet_unknown(sides[0].part)
        return
    by_rules = [base for base in found if base.standing.ground is not None]
    tops = [
        top
        for heavy in (False, True)
        if (top := worst_first(by_rules, lambda base, heavy=heavy: pressed(base, heavy=heavy).ratio))  # type: ignore[misc]
    ]
    if tops:
        worst = max(range(len(tops)), key=lambda i: tops[i].ratio)
        yield at(tops[worst], _said(tops[worst], heavy=bool(worst)))
    yield from _presumed(study, sides)


def pressed(base: Base, *, heavy: bool) -> Pressed:
    """The base on its ground, with weights that help or that press (`heavy`)."""
    extra = _extra(base) if heavy else np.zeros_like(base.total)
    down = base.total + extra
    moment = base.holding - base.turning + extra * base.lever(_extra_place(base))
    some = down > LEAST_DOWN
    counted = np.where(some, down, LEAST_DOWN)
    lean = np.where(some, eccentricity(counted, moment, base.width), np.inf)
    width = np.where(some, effective_width(base.width, np.where(some, lean, 0.0)), 0.0)
    narrow, borne = width, counted
    tee = braced(base)
    if tee is not None:
        # The force leaves the strip and goes into the buttress: both press the ground together.
        down, counted = tee.down + extra, np.maximum(tee.down + extra, LEAST_DOWN)
        width, narrow = tee.area, tee.narrow
    incline = np.maximum(np.abs(base.along) - base.tie, 0.0) / counted
    stands = (width > 0.0) & (incline < 1.0)
    capacity = _resistance(base, np.where(stands, narrow, 1.0), np.where(stands, incline, 0.0))
    capacity = np.where(stands, capacity * width / np.where(stands, narrow, 1.0), 0.0)
    with np.errstate(divide="ignore"):
        ratio = np.where(stands, counted / np.where(stands, capacity, 1.0), np.inf)
    ratio = np.where(base.goes, ratio, 0.0)
    return Pressed(
        down=down,
        borne=borne,
        moment=moment,
        lean=lean,
        width=width,
        incline=incline,
        capacity=capacity,
        ratio=ratio,
    )


def _extra(base: Base) -> Array:
    """What weights press more where they do harm: their factor, and what lies on the soil over the base."""
    factor = base.acting.harmful / base.acting.helpful
    start, end = base.standing.heel
    loaded = base.acting.surcharge() * (end - start)
    own = (factor - 1.0) * (base.weight + base.heel)
    extra: Array = own + loaded
    return extra


def _extra_place(base: Base) -> float:
    """Where that acts, from the room edge: near enough the middle of wall, footing and soil (m)."""
    return 0.5 * (base.standing.arm + 0.5 * sum(base.standing.heel))


def _resistance(base: Base, width: Array, incline: Array) -> Array:
    standing, acting = base.standing, base.acting
    ground = standing.ground
    assert ground is not None  # noqa: S101  (only bases on known ground are asked)
    water = FARTHEST_WATER if standing.water is None else standing.base - standing.water
    wet = weight_with_water(ground.weight, ground.saturated, water=water, width=width)
    beside = weight_with_water(
        ground.weight, ground.saturated, water=min(water, 0.0) or FARTHEST_WATER, width=1.0
    )
    pressure = drained_capacity(
        angle=design_friction_angle(ground.friction.low, acting.analysis.factors.friction),
        cohesion=ground.cohesion / acting.analysis.factors.friction,
        weight=wet,
        surcharge=beside * sunk(standing),
        width=width,
        inclination=incline,
    )
    resistance = RESISTANCES.get(acting.name)
    return pressure * width / (resistance.bearing if resistance else 1.0)


def sunk(standing: Standing) -> float:
    """Depth of the base below the ground in the room while it is built (m)."""
    return max(-INSIDE_BUILD_UP - standing.base, 0.0)


def _said(top: Governing, *, heavy: bool) -> Said:
    base = top.base
    now = pressed(base, heavy=heavy)
    down, capacity, width = top.at(now.down), top.at(now.capacity), top.at(now.width)
    ground = base.standing.ground
    if width <= 0.0 or capacity <= 0.0:
        return Said(
            verdict=verdict_of(top.ratio),
            template="{when}: the force leaves the {side} base, or leans so far that no ground carries it.",
            demand=down,
            unit="kN/m",
            advice=widen(base.standing) + ".",
            steps=acting_steps(top),
        )
    return Said(
        verdict=verdict_of(top.ratio),
        template="{when}: the {side} base presses {down} on {width} of {ground}; that carries {capacity}.",
        values={
            "down": Shown(down, "kN/m", 1),
            "width": Shown(width, "m", 2),
            "ground": ground.name if ground else "ground",
            "capacity": Shown(capacity, "kN/m", 1),
        },
        demand=down,
        capacity=capacity,
        unit="kN/m",
        advice=widen(base.standing) + ", or go deeper with [[wall]] bottom.",
        steps=(*acting_steps(top), *_steps(top, now)),
    )


def _steps(top: Governing, now: Pressed) -> tuple[Step, ...]:
    base = top.base
    ground, resistance = base.standing.ground, RESISTANCES.get(base.acting.name)
    angle = float(
        design_friction_angle(ground.friction.low if ground else 0.0, base.acting.analysis.factors.friction)
    )
    down, capacity = top.at(now.down), top.at(now.capacity)
    return (
        step(
            "Force leaves the base off its middle by",
            "e",
            *_lean_filled(top, now),
            Shown(abs(top.at(now.lean)), "m", 3),
        ),
        step(
            "Width that carries",
            "B'",
            "B − 2·e",
            f"{base.width:.3f} − 2 · {abs(top.at(now.lean)):.3f}",
            Shown(top.at(now.width), "m", 3),
        ),
        step(
            "Force leans, what a tie takes left out",
            "H/N",
            "(H_d − T)/N",
            f"({plain(abs(top.at(base.along)))} − {plain(top.at(base.tie))})/{down / 1e3:.1f}",
            Shown(top.at(now.incline), "", 3),
        ),
        step(
            "Resistance of the ground",
            "R",
            CARRIES,
            _carries_filled(top, now, angle, resistance.bearing if resistance else 1.0),
            Shown(capacity, "kN/m", 1),
            BEARING_CITE,
        ),
        ratio_step("Resistance used", "N / R", f"{down / 1e3:.1f} / {capacity / 1e3:.1f}", top.ratio),
    )


CARRIES = "(c·N_c·i_c + q·N_q·i_q + ½·γ·B'·N_γ·i_γ)·B' / γ_R"


def _lean_filled(top: Governing, now: Pressed) -> tuple[str, str]:
    """Formula and numbers of how far the force is off the middle, so that they come to no bare minus."""
    half = f"{top.base.width:.3f}/2"
    arm = f"{top.at(now.moment) / 1e3:.2f}/{top.at(now.borne) / 1e3:.2f}"
    if top.at(now.lean) < 0.0:
        return "(M_stb − M_dst)/N − B/2", f"{arm} − {half}"
    return "B/2 − (M_stb − M_dst)/N", f"{half} − {arm}"


def _carries_filled(top: Governing, now: Pressed, angle: float, factor: float) -> str:
    """Numbers in the resistance of the ground."""
    base, standing, incline = top.base, top.base.standing, top.at(now.incline)
    ground, width = standing.ground, top.at(now.width)
    if ground is None:
        return ""
    water = FARTHEST_WATER if standing.water is None else standing.base - standing.water
    narrow = max(width, 1e-3)
    under = float(weight_with_water(ground.weight, ground.saturated, water=water, width=narrow))
    wet = min(water, 0.0) or FARTHEST_WATER
    aside = float(weight_with_water(ground.weight, ground.saturated, water=wet, width=1.0)) * sunk(standing)
    sticks = ""
    if ground.cohesion > 0.0:
        cohesion = ground.cohesion / base.acting.analysis.factors.friction / 1e3
        inclined = float(surcharge_inclination(incline))
        sticks = (
            f"{cohesion:.1f} · {float(cohesion_factor(angle)):.2f} · "
            f"{float(cohesion_inclination(inclined, angle)):.3f} + "
        )
    return (
        f"({sticks}{aside / 1e3:.2f} · {float(surcharge_factor(angle)):.2f} · "
        f"{float(surcharge_inclination(incline)):.3f} + ½ · {under / 1e3:.2f} · {width:.3f} · "
        f"{float(weight_factor(angle)):.2f} · {float(weight_inclination(incline)):.3f}) · {width:.3f} / "
        f"{factor:g}, φ_d = {np.degrees(angle):.1f}°"
    )


def _presumed(study: Study, sides: tuple[Standing, ...]) -> Iterator[Said]:
    """Against the pressure that local rules allow, without partial factors."""
    asked = [side for side in sides if side.footing and side.footing.presumed_bearing]
    found = [base for side in asked for base in service_bases(study, side)]
    top = worst_first(found, _presumed_ratio)
    if top is None or top.base.standing.footing is None:
        return
    allowed = top.base.standing.footing.presumed_bearing or np.nan
    yield at(
        top,
        Said(
            verdict=verdict_of(top.ratio),
            template="{when}: the {side} base presses {pressure}; the file allows {allowed} by presumption.",
            values={
                "pressure": Shown(top.ratio * allowed, "kN/m2", 0),
                "allowed": Shown(allowed, "kN/m2", 0),
            },
            demand=top.ratio * allowed,
            capacity=allowed,
            unit="kN/m2",
            advice=widen(top.base.standing) + ".",
            steps=(
                ratio_step(
                    "Pressure on the effective width over the presumed one", "N / B' / q", "", top.ratio
                ),
            ),
        ),
    )


def _presumed_ratio(base: Base) -> Array:
    footing = base.standing.footing
    allowed = footing.presumed_bearing if footing and footing.presumed_bearing else np.nan
    some = base.total > LEAST_DOWN
    width = np.where(some, effective_width(base.width, np.where(some, base.eccentricity, 0.0)), 0.0)
    with np.errstate(divide="ignore"):
        ratio: Array = np.where(width > 0.0, base.total / np.where(width > 0.0, width, 1.0) / allowed, np.inf)
    return np.where(base.goes, ratio, 0.0)


def _stays(study: Study) -> Iterator[Said]:
    yield from each_part(study, _stays_part)


def _stays_part(study: Study, sides: tuple[Standing, ...]) -> Iterator[Said]:
    found = [base for side in sides for base in bases(study, side, balance=False)]
    if feet_lost(found):
        yield feet_unknown(sides[0].part)
        return
    top = worst_first(found, _lean_ratio)
    if top is None:
        return
    base = top.base
    lean = abs(top.at(base.eccentricity))
    limit = LARGEST_LEAN.value * base.width
    yield at(
        top,
        Said(
            verdict=verdict_of(top.ratio),
            template="{when}: the force leaves the {side} base {lean} off its middle, {to}; "
            "{limit} is the most.",
            values={
                "to": _towards(base, top.at(base.eccentricity)),
                "lean": Shown(lean, "m", 2),
                "limit": Shown(limit, "m", 2),
            },
            demand=lean,
            capacity=limit,
            unit="m",
            advice=widen(base.standing) + ".",
            steps=(
                *acting_steps(top),
                step(
                    "Force leaves the base off its middle by",
                    "e",
                    *_off_middle(top),
                    Shown(lean, "m", 3),
                ),
                ratio_step(
                    "Share of a third of the base", "e / (B/3)", f"{lean:.3f} / {limit:.3f}", top.ratio
                ),
            ),
        ),
    )


def _lean_ratio(base: Base) -> Array:
    """Off the middle over what is allowed; a bonded buttress carries what leans out, and has its own rule."""
    counted = base.goes
    if not base.inward and base.tip > base.width:
        counted = counted & (base.eccentricity < 0.0)
    lean = np.where(counted, np.abs(base.eccentricity), 0.0)
    ratio: Array = lean / (LARGEST_LEAN.value * base.width)
    return ratio


def _off_middle(top: Governing) -> tuple[str, str]:
    """Formula and numbers of how far the force is off the middle, so that they come to no bare minus."""
    base = top.base
    half = f"{base.width:.3f}/2"
    holding, turning, down = (top.at(one) / 1e3 for one in (base.holding, base.turning, base.total))
    arm = f"({holding:.2f} − {turning:.2f})/{down:.2f}"
    if top.at(base.eccentricity) < 0.0:
        return "(M_stb − M_dst)/N − B/2", f"{arm} − {half}"
    return "B/2 − (M_stb − M_dst)/N", f"{half} − {arm}"


def _towards(base: Base, lean: float) -> str:
    """Which way the force leans, in words."""
    return "inward" if base.inward == (lean > 0.0) else "outward"


GROUND_CARRIES = Rule(
    name="ground-carries-the-supports",
    title="The ground carries what stands under the feet",
    why="The force leaves the base leaning and near one edge; ground that gives way there tips the wall.",
    cites=(BEARING_CITE,),
    decide=_carries,
    draws=spot_marks,
    asks=("wall", "footing.width", "site.soil.friction_angle", "site.soil.unit_weight"),
)
FORCE_STAYS = Rule(
    name="force-stays-under-the-base",
    title="The force stays under the base",
    why="Where the force nears the edge of the base, a small error in the ground or the soil tips it.",
    cites=(LEAN_CITE,),
    decide=_stays,
    draws=spot_marks,
    asks=("wall", "footing.width"),
)
