"""Whether the wall and its footing break: bending and shear where the wall stands on what is under it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.supports import (
    GAMMA_BLOCKS,
    GAMMA_CONCRETE,
    GAMMA_EARTH,
    GAMMA_MASONRY,
    GAMMA_STEEL,
    LONG_CONCRETE,
    PLAIN_CONCRETE,
)
from bermwright.data.works.actions import EN1997
from bermwright.data.works.supports import EN1992, EN1996
from bermwright.handbook.bearing import contact_pressure
from bermwright.handbook.holding import (
    bar_area,
    concrete_tension,
    course_shear,
    pressed_moment,
    reinforced_moment,
    reinforced_shear,
    uncracked_moment,
)
from bermwright.house.parts.support_words import BARRED, WallKind
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step
from bermwright.rules.supports.base import bases, braced, worst_first
from bermwright.rules.supports.common import (
    acting_steps,
    at,
    does_not_apply,
    each_part,
    feet_lost,
    feet_unknown,
    plain,
    soil_terms,
    spot_marks,
    widen,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.house.parts.walls import Footing, Wall
    from bermwright.rules.study import Study
    from bermwright.rules.supports.base import Base, Governing
    from bermwright.rules.supports.standing import Standing

    Array = NDArray[np.float64]

BENDING_CITE = Cite(work=EN1992, place="6.1 and 6.2.2", provenance=Provenance.MEMORY)
WALL_CITE = Cite(work=EN1996, place="6.1 to 6.3", provenance=Provenance.MEMORY)
CONTACT_CITE = Cite(work=EN1997, place="6.5.2, contact without tension", provenance=Provenance.MEMORY)
LEAST_CONCRETE, MOST_CONCRETE = 8e6, 50e6
STUCK_OUT = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """The cut through a wall at its underside; arrays are lanes by moments, on a metre of wall."""

    down: Array
    """N/m."""
    moment: Array
    """That way (N m/m)."""
    shear: Array
    """N/m."""
    moment_limit: Array
    shear_limit: Array

    @property
    def ratio(self) -> Array:
        """The worse of bending and shear."""
        return np.maximum(_share(self.moment, self.moment_limit), _share(self.shear, self.shear_limit))


def _share(demand: Array, capacity: Array) -> Array:
    asked = np.maximum(demand, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        share: Array = np.where(asked > 0.0, asked / capacity, 0.0)
    return share


def cut_of(base: Base) -> Cut:
    """What the foot of the wall has to take and can take."""
    standing, acting, wall = base.standing, base.acting, base.standing.wall
    assert wall is not None  # noqa: S101  (asked of walls only)
    soil = (acting.push if base.inward else acting.least_push)(standing.outer_face, standing.bottom)
    own = (wall.unit_weight or 0.0) * standing.thickness * (standing.top - standing.bottom)
    down = base.down + acting.helpful * own
    off = _off(standing, inward=base.inward)
    sign = 1.0 if base.inward else -1.0
    moment = base.push * (standing.top - standing.bottom) + sign * soil.moment + base.down * off
    pressed = np.maximum(down, 0.0)
    return Cut(
        down=down,
        moment=moment,
        shear=base.push + sign * soil.force,
        moment_limit=_moment_limit(wall, standing.thickness, pressed),
        shear_limit=_shear_limit(wall, standing.thickness, pressed),
    )


def _off(standing: Standing, *, inward: bool) -> float:
    """How far the foot's force stands off the wall's middle, towards where it turns back (m)."""
    middle = standing.toe + 0.5 * standing.thickness
    return (middle - standing.foot) * (1.0 if inward else -1.0)


def compression(wall: Wall) -> float:
    """Design strength of the wall in compression (Pa)."""
    strength = wall.strength or np.nan
    match wall.kind:
        case WallKind.CONCRETE:
            return LONG_CONCRETE.value * strength / GAMMA_CONCRETE.value
        case _:
            return strength / gamma(wall)


def gamma(wall: Wall) -> float:
    """Partial factor on the strength of the wall."""
    match wall.kind:
        case WallKind.CONCRETE:
            return GAMMA_CONCRETE.value
        case WallKind.BARRED_BLOCKS:
            return GAMMA_BLOCKS.value
        case WallKind.MORTARED:
            return GAMMA_MASONRY.value
        case _:
            return GAMMA_EARTH.value


def _steel_area(part: Wall | Footing) -> float:
    if part.bars is None or part.bar_spacing is None:
        return np.nan
    return float(bar_area(part.bars)) / part.bar_spacing


def _moment_limit(wall: Wall, thickness: float, down: Array) -> Array:
    if wall.kind in BARRED:
        return reinforced_moment(
            _steel_area(wall),
            wall.bar_strength / GAMMA_STEEL.value,
            depth=thickness - wall.bar_cover,
            thickness=thickness,
            concrete=compression(wall),
            down=down,
        )
    return pressed_moment(down, thickness, compression(wall))


def _shear_limit(wall: Wall, thickness: float, down: Array) -> Array:
    if wall.kind in BARRED:
        concrete = min(max(wall.strength or np.nan, LEAST_CONCRETE), MOST_CONCRETE)
        limit = reinforced_shear(_steel_area(wall), depth=thickness - wall.bar_cover, concrete=concrete)
        return limit + 0.0 * down
    friction = wall.friction.low if wall.friction else np.nan
    return course_shear(down, friction, grip=wall.grip or 0.0, pressed=0.0) / gamma(wall)


def _walls(study: Study) -> Iterator[Said]:
    yield from each_part(study, _wall_part, needs=_wall_needs, only="wall under the feet")


def _wall_needs(standing: Standing) -> tuple[str, ...]:
    wall = standing.wall
    if wall is None:
        return ()
    needed: dict[str, object] = {"wall.kind": wall.kind, "wall.strength": wall.strength}
    if wall.kind in BARRED:
        needed |= {"wall.bars": wall.bars, "wall.bar_spacing": wall.bar_spacing}
    elif wall.kind is not None:
        needed |= {"wall.friction": wall.friction}
    return tuple(place for place, value in needed.items() if value is None)


def _wall_part(study: Study, sides: tuple[Standing, ...]) -> Iterator[Said]:
    walls = tuple(side for side in sides if side.wall is not None)
    if not walls:
        yield does_not_apply("wall under the feet", sides[0].part)
        return
    found = [base for side in walls for base in bases(study, side, balance=False)]
    if feet_lost(found):
        yield feet_unknown(sides[0].part)
        return
    top = worst_first(found, lambda base: cut_of(base).ratio)
    if top is not None:
        yield at(top, _wall_said(top))


def _wall_said(top: Governing) -> Said:
    cut = cut_of(top.base)
    moment, limit = top.at(cut.moment), top.at(cut.moment_limit)
    shear, shear_limit = top.at(cut.shear), top.at(cut.shear_limit)
    bends = max(moment, 0.0) * shear_limit >= max(shear, 0.0) * limit
    wall = top.base.standing.wall
    unit = "kN m/m" if bends else "kN/m"
    asked, held = (moment, limit) if bends else (shear, shear_limit)
    return Said(
        verdict=verdict_of(top.ratio),
        template="{when}: the foot of the {side} wall {does} with {asked}, {way}; it takes {held}.",
        values={
            "does": "bends" if bends else "is sheared",
            "asked": Shown(asked, unit, 1),
            "held": Shown(held, unit, 1),
        },
        demand=asked,
        capacity=held,
        unit=unit,
        advice=_stronger(wall),
        steps=(*acting_steps(top), *_wall_steps(top, cut)),
    )


def _stronger(wall: Wall | None) -> str:
    if wall is not None and wall.kind in BARRED:
        return "Write thicker [[wall]] bars, a smaller bar_spacing, or a larger thickness."
    return (
        "Write a larger [[wall]] thickness, or filled blocks with bars; a wall without bars has only its "
        "weight."
    )


def _wall_steps(top: Governing, cut: Cut) -> tuple[Step, ...]:
    base, standing, wall = top.base, top.base.standing, top.base.standing.wall
    assert wall is not None  # noqa: S101  (said of walls only)
    height, sign = standing.top - standing.bottom, "+" if base.inward else "−"
    down, moment, shear = top.at(cut.down), top.at(cut.moment), top.at(cut.shear)
    limit, shear_limit = top.at(cut.moment_limit), top.at(cut.shear_limit)
    push, foot, soil = top.at(base.push), top.at(base.down), abs(shear - top.at(base.push))
    off = _off(standing, inward=base.inward)
    turned = abs(moment - push * height - foot * off)
    own = (wall.unit_weight or 0.0) * standing.thickness * height
    return (
        step(
            "Force down at the foot of the wall", "N", "V + γ_G·wall",
            f"{foot / 1e3:.1f} + {base.acting.helpful:g} · {own / 1e3:.1f}", Shown(down, "kN/m", 1),
        ),
        step(
            "Soil against the wall alone", "P_w", *soil_terms(top, standing.outer_face, standing.bottom),
            Shown(soil, "kN/m", 1),
        ),
        step(
            "It acts so high over the foot of the wall", "z_w", "", "",
            Shown(turned / soil if soil > 0.0 else 0.0, "m", 3),
        ),
        step(
            "Bending at the foot of the wall", "M", f"H·h {sign} P_w·z_w + V·e",
            f"{plain(push)} · {height:.2f} {sign} {soil / 1e3:.1f} · {turned / soil if soil else 0.0:.3f}"
            f" + {foot / 1e3:.1f} · {plain(off * 1e3, 3)}", Shown(moment, "kN m/m", 1),
        ),
        _bends_step(standing, wall, down, limit),
        step(
            "Shear at the foot of the wall", "V_Ed", f"H {sign} P_w",
            f"{plain(push)} {sign} {soil / 1e3:.1f}", Shown(shear, "kN/m", 1),
        ),
        _shears_step(wall, standing.thickness, down, shear_limit),
        ratio_step(
            "Strength used", "max(M/M_Rd; V_Ed/V_Rd)",
            f"max({max(moment, 0.0) / 1e3:.1f}/{limit / 1e3:.1f}; "
            f"{max(shear, 0.0) / 1e3:.1f}/{shear_limit / 1e3:.1f})",
            top.ratio,
        ),
    )  # fmt: skip


def _bends_step(standing: Standing, wall: Wall, down: float, limit: float) -> Step:
    thick, strong = standing.thickness, compression(wall) / 1e6
    if wall.kind not in BARRED:
        filled = f"{down / 1e3:.1f}/2 · ({thick:.2f} − {down / 1e3:.1f}/{strong * 1e3:.0f})"
        return step("It takes", "M_Rd", "N/2·(t − N/f_d)", filled, Shown(limit, "kN m/m", 1), WALL_CITE)
    steel = _steel_area(wall) * wall.bar_strength / GAMMA_STEEL.value / 1e3
    pressed = (steel + max(down, 0.0) / 1e3) / strong / 1e3
    return step(
        f"It takes; a = (A_s·f_yd + N)/f_d is pressed, f_d = {strong:.2f} N/mm²", "M_Rd",
        "A_s·f_yd·(d − a/2) + N·(t − a)/2",
        f"{steel:.1f} · ({thick - wall.bar_cover:.3f} − {pressed:.4f}/2) + {down / 1e3:.1f} · "
        f"({thick:.2f} − {pressed:.4f})/2",
        Shown(limit, "kN m/m", 1), BENDING_CITE,
    )  # fmt: skip


SHEAR_FORMULA = "max(0.12·k·(100·ρ·f_ck)^(1/3); 0.035·k^1.5·√f_ck)·d"
SHEAR_SAYS = "It takes, with bars, no links; k is 1 + √(200 mm/d), at most 2"


def _shear_filled(area: float, depth: float, concrete: float) -> str:
    """Numbers in the shear of a section with bars and without links."""
    size, strong = min(1.0 + math.sqrt(0.2 / depth), 2.0), f"{concrete / 1e6:g}"
    return (
        f"max(0.12 · {size:.3f} · (100 · {min(area / depth, 0.02):.5f} · {strong})^(1/3); "
        f"0.035 · {size:.3f}^1.5 · √({strong})) · {depth * 1e3:.0f}"
    )


def _shears_step(wall: Wall, thickness: float, down: float, limit: float) -> Step:
    shown = Shown(limit, "kN/m", 1)
    if wall.kind in BARRED:
        concrete = min(max(wall.strength or math.nan, LEAST_CONCRETE), MOST_CONCRETE)
        filled = _shear_filled(_steel_area(wall), thickness - wall.bar_cover, concrete)
        return step(SHEAR_SAYS, "V_Rd", SHEAR_FORMULA, filled, shown, BENDING_CITE)
    friction = math.degrees(wall.friction.low) if wall.friction else math.nan
    filled = f"{max(down, 0.0) / 1e3:.1f} · tan {friction:.1f}° / {gamma(wall):g}"
    return step("It takes, by friction of its courses", "V_Rd", "N·tan φ / γ_M", filled, shown, WALL_CITE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledge:
    """What sticks out of a footing beside the wall: toe in the room, heel under the soil."""

    toe: Array
    heel: Array
    """Bending at the wall's face (N m/m)."""
    limit: float
    toe_shear: Array
    heel_shear: Array
    """Shear at the wall's face (N/m)."""
    shear_limit: float

    @property
    def ratio(self) -> Array:
        """The worst of the four."""
        bent = np.maximum(self.toe, self.heel) / self.limit
        return np.maximum(bent, np.maximum(self.toe_shear, self.heel_shear) / self.shear_limit)


def ledge_of(base: Base) -> Ledge:
    """What the footing has to take and can take on both sides of the wall or foot."""
    standing, acting, footing = base.standing, base.acting, base.standing.footing
    assert footing is not None  # noqa: S101  (asked of footings only)
    toe, heel = _sticks_out(standing)
    down = np.maximum(acting.harmful * base.total, 1.0)
    known = np.isfinite(base.eccentricity)
    lean = np.where(base.goes, np.where(known, base.eccentricity, base.width), 0.0)
    contact = contact_pressure(down, base.width, lean)
    largest = np.where(np.isfinite(contact.largest), contact.largest, np.inf)
    tee = braced(base)
    if tee is not None:
        spread = np.where(tee.area > 0.0, tee.area, 1.0)
        even = np.where(tee.area > 0.0, acting.harmful * tee.down / spread, np.inf)
        largest = np.minimum(largest, even)
    own = footing.unit_weight * (footing.thickness or 0.0)
    rests = base.heel / acting.helpful / max(heel, STUCK_OUT) + own
    from_above = acting.harmful * rests + acting.surcharge()
    up_heel = from_above if base.inward else np.maximum(largest - rests, from_above - contact.least)
    moment, shear = _ledge_limits(footing)
    # What does not stick out is not bent, however hard the edge is pressed.
    largest = largest if toe > 0.0 else np.zeros_like(largest)
    up_heel = up_heel if heel > 0.0 else np.zeros_like(largest)
    return Ledge(
        toe=largest * toe**2 / 2.0,
        heel=up_heel * heel**2 / 2.0,
        limit=moment,
        toe_shear=largest * toe,
        heel_shear=up_heel * heel,
        shear_limit=shear,
    )


def _ledge_limits(footing: Footing) -> tuple[float, float]:
    thick, concrete = footing.thickness or np.nan, footing.concrete or np.nan
    tension = _plain_tension(concrete)
    if footing.bars is None:
        return float(uncracked_moment(thick, tension)), 2.0 / 3.0 * tension * thick
    depth = thick - footing.bar_cover
    moment = reinforced_moment(
        _steel_area(footing),
        footing.bar_strength / GAMMA_STEEL.value,
        depth=depth,
        thickness=thick,
        concrete=LONG_CONCRETE.value * concrete / GAMMA_CONCRETE.value,
    )
    return float(moment), float(reinforced_shear(_steel_area(footing), depth=depth, concrete=concrete))


def _footings(study: Study) -> Iterator[Said]:
    yield from each_part(study, _footing_part, needs=_footing_needs, only="footing")


def _footing_needs(standing: Standing) -> tuple[str, ...]:
    footing = standing.footing
    if footing is None:
        return ()
    needed: dict[str, object] = {"footing.concrete": footing.concrete}
    if footing.bars is not None:
        needed |= {"footing.bar_spacing": footing.bar_spacing}
    return tuple(place for place, value in needed.items() if value is None)


def _footing_part(study: Study, sides: tuple[Standing, ...]) -> Iterator[Said]:
    strips = tuple(side for side in sides if side.footing is not None)
    if not strips:
        yield does_not_apply("footing", sides[0].part)
        return
    found = [base for side in strips for base in bases(study, side, balance=False)]
    if feet_lost(found):
        yield feet_unknown(sides[0].part)
        return
    top = worst_first(found, lambda base: ledge_of(base).ratio)
    if top is not None and top.base.standing.footing is not None:
        yield replace(at(top, _footing_said(top)), part=f'footing "{top.base.standing.footing.name}"')


def _footing_said(top: Governing) -> Said:
    ledge = ledge_of(top.base)
    footing = top.base.standing.footing
    options = {
        "toe in the room bends": (top.at(ledge.toe), ledge.limit, "kN m/m"),
        "heel under the soil bends": (top.at(ledge.heel), ledge.limit, "kN m/m"),
        "toe in the room is sheared": (top.at(ledge.toe_shear), ledge.shear_limit, "kN/m"),
        "heel under the soil is sheared": (top.at(ledge.heel_shear), ledge.shear_limit, "kN/m"),
    }
    does, (asked, held, unit) = max(options.items(), key=lambda one: one[1][0] / one[1][1])
    bars = footing is not None and footing.bars is not None
    if not math.isfinite(asked):
        return Said(
            verdict=verdict_of(top.ratio),
            template="{when}: the force leaves the {side} footing, so nothing presses it evenly from below.",
            unit=unit,
            advice=widen(top.base.standing) + ".",
            steps=acting_steps(top),
        )
    return Said(
        verdict=verdict_of(top.ratio),
        template="{when}: the {side} footing's {does} with {asked}; it takes {held}.",
        values={"does": does, "asked": Shown(asked, unit, 1), "held": Shown(held, unit, 1)},
        demand=asked,
        capacity=held,
        unit=unit,
        advice="Write a larger [[footing]] thickness, or "
        + ("thicker bars, nearer together." if bars else "bars and bar_spacing."),
        steps=(*acting_steps(top), *_footing_steps(top, ledge, bars=bars)),
    )


def _footing_steps(top: Governing, ledge: Ledge, *, bars: bool) -> tuple[Step, ...]:
    standing, footing = top.base.standing, top.base.standing.footing
    assert footing is not None  # noqa: S101  (said of footings only)
    toe, heel = _sticks_out(standing)
    under, over = (top.at(shear) / long if long > 0.0 else 0.0
                   for shear, long in ((ledge.toe_shear, toe), (ledge.heel_shear, heel)))  # fmt: skip
    shear = max(top.at(ledge.toe_shear), top.at(ledge.heel_shear))
    bent = max(top.at(ledge.toe), top.at(ledge.heel))
    return (
        _pressed_step(top, under),
        _laden_step(top, over),
        step(
            "Bending of the toe, pressed from below", "M_toe", "q_max·l²/2",
            f"{under / 1e3:.1f} · {toe:.2f}²/2", Shown(top.at(ledge.toe), "kN m/m", 1),
        ),
        step(
            "Bending of the heel, by the soil on it or from below", "M_heel", "q·l²/2",
            f"{over / 1e3:.1f} · {heel:.2f}²/2", Shown(top.at(ledge.heel), "kN m/m", 1),
        ),
        step("It takes", "M_Rd", *_takes(footing, bars=bars), Shown(ledge.limit, "kN m/m", 1), BENDING_CITE),
        step(
            "Largest shear at the face of the wall", "V_Ed", "max(q_max·l; q·l)",
            f"max({under / 1e3:.1f} · {toe:.2f}; {over / 1e3:.1f} · {heel:.2f})", Shown(shear, "kN/m", 1),
        ),
        step(
            SHEAR_SAYS if bars else "It takes", "V_Rd", *_holds(footing),
            Shown(ledge.shear_limit, "kN/m", 1), BENDING_CITE,
        ),
        ratio_step(
            "Strength used", "max(M/M_Rd; V_Ed/V_Rd)",
            f"max({bent / 1e3:.1f}/{ledge.limit / 1e3:.1f}; {shear / 1e3:.1f}/{ledge.shear_limit / 1e3:.1f})",
            top.ratio,
        ),
    )  # fmt: skip


def _pressed_step(top: Governing, largest: float) -> Step:
    """Where the pressure under the toe comes from."""
    base = top.base
    down, lean = base.acting.harmful * top.at(base.total), top.at(base.eccentricity)
    trapezoid = 6.0 * abs(lean) <= base.width
    formula = "γ_G·N/B·(1 + 6·e/B)" if trapezoid else "2·γ_G·N/(3·(B/2 − e))"
    filled = (
        f"{down / 1e3:.1f}/{base.width:.2f} · (1 + 6 · {abs(lean):.3f}/{base.width:.2f})"
        if trapezoid
        else f"2 · {down / 1e3:.1f}/(3 · ({base.width:.2f}/2 − {abs(lean):.3f}))"
    )
    if braced(base) is not None:
        formula = f"the less of {formula} and of what the buttress spreads"
    return step(
        "Largest pressure under the base", "q_max", formula, filled, Shown(largest, "kN/m2", 1), CONTACT_CITE
    )


def _laden_step(top: Governing, load: float) -> Step:
    """Where the load on the heel comes from."""
    base, acting, footing = top.base, top.base.acting, top.base.standing.footing
    _, heel = _sticks_out(base.standing)
    soil = top.at(base.heel) / acting.helpful / max(heel, STUCK_OUT) / 1e3
    own = (footing.unit_weight * (footing.thickness or 0.0) if footing else 0.0) / 1e3
    passing = top.at(acting.surcharge()) / 1e3
    down = f"{acting.harmful:g} · ({soil:.1f} + {own:.1f}) + {passing:.1f}"
    if base.inward:
        return step(
            "Soil, footing and what lies on the soil, on the heel", "q", "γ_G·(soil + footing) + load", down,
            Shown(load, "kN/m2", 1),
        )  # fmt: skip
    return step(
        "What lies on the heel less the ground under it, or the other way", "q",
        "max(q_max − soil − footing; γ_G·(soil + footing) + load − q_min)",
        f"max(q_max − {soil:.1f} − {own:.1f}; {down} − q_min)", Shown(load, "kN/m2", 1),
    )  # fmt: skip


def _takes(footing: Footing, *, bars: bool) -> tuple[str, str]:
    """Formula of the bending that a footing takes, and the numbers in it."""
    thick, concrete = footing.thickness or math.nan, footing.concrete or math.nan
    if not bars:
        return "f_ctd,pl·t²/6", f"{_plain_tension(concrete) / 1e3:.0f} · {thick:.2f}²/6"
    steel = _steel_area(footing) * footing.bar_strength / GAMMA_STEEL.value / 1e3
    pressed = steel / (LONG_CONCRETE.value * concrete / GAMMA_CONCRETE.value / 1e3)
    return (
        "A_s·f_yd·(d − A_s·f_yd/f_cd/2)",
        f"{steel:.1f} · ({thick - footing.bar_cover:.3f} − {pressed:.4f}/2)",
    )


def _holds(footing: Footing) -> tuple[str, str]:
    """The same of its shear, without links."""
    thick, concrete = footing.thickness or math.nan, footing.concrete or math.nan
    if footing.bars is None:
        return "2/3·f_ctd,pl·t", f"2/3 · {_plain_tension(concrete) / 1e3:.0f} · {thick:.2f}"
    return SHEAR_FORMULA, _shear_filled(_steel_area(footing), thick - footing.bar_cover, concrete)


def _plain_tension(concrete: float) -> float:
    """Design strength of concrete without bars in tension (Pa)."""
    return PLAIN_CONCRETE.value * float(concrete_tension(concrete)) / GAMMA_CONCRETE.value


def _sticks_out(standing: Standing) -> tuple[float, float]:
    """How far a footing sticks out into the room and under the soil (m)."""
    if not standing.thickness:
        return standing.foot, standing.width - standing.foot
    return standing.toe, standing.width - standing.outer_face


WALLS_HOLD = Rule(
    name="walls-do-not-break",
    title="The walls under the feet do not break",
    why="A wall without bars opens on one face as soon as the force leaves its middle third, and has only "
    "its weight; courses without mortar may slide on each other.",
    cites=(WALL_CITE,),
    decide=_walls,
    draws=spot_marks,
    asks=("wall", "wall.kind", "wall.strength", "wall.friction", "wall.bar_spacing"),
)
FOOTINGS_HOLD = Rule(
    name="footings-do-not-break",
    title="The footings do not break",
    why="What sticks out beside the wall is bent up by the ground and down by the soil on it.",
    cites=(BENDING_CITE,),
    decide=_footings,
    draws=spot_marks,
    asks=("footing.concrete", "footing.bar_spacing"),
)
