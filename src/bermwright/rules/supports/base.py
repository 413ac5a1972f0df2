"""How a support stands on its base at every moment and in every soil run, in both directions."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.supports import PRECAST_SHARE, RESISTANCES
from bermwright.handbook.retaining import Push, sliding_resistance, stand_of
from bermwright.handbook.soils import design_friction_angle
from bermwright.rules.analysis.response import first_largest, first_worst
from bermwright.rules.study import once
from bermwright.rules.supports import ties
from bermwright.rules.supports.acting import INWARD, WAYS, acting_on, in_service
from bermwright.rules.supports.standing import Missing, Standing, standings

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from numpy.typing import NDArray

    from bermwright.rules.analysis.lanes import Lane
    from bermwright.rules.analysis.states import Situation
    from bermwright.rules.study import Study
    from bermwright.rules.supports.acting import Acting

    Array = NDArray[np.float64]

LEAST_DOWN = 1.0
"""A base with no more than this on it stands no longer (N/m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """One side under one set of factors, giving way in one direction; arrays are lanes by moments."""

    acting: Acting
    way: float
    """INWARD or OUTWARD."""
    push: Array
    """Of the foot, that way (N/m)."""
    down: Array
    """Of the foot (N/m)."""
    soil: Push
    """Of the soil beside: drives inward, holds back outward (N/m, m over the base)."""
    heel: Array
    """Weight of the soil on the base (N/m)."""
    shaken: Push
    """What an earthquake adds that way (N/m, m over the base)."""
    width: float
    """Of the base, buttresses left out (m)."""
    weight: float
    """Of wall and footing (N/m)."""
    tie: Array
    """Part of the push that what joins the feet takes (N/m)."""
    total: Array
    """Force down on the base (N/m)."""
    along: Array
    """Push along the base that way, before the tie (N/m)."""
    friction: Array
    """What friction holds of it (N/m)."""
    holding: Array
    turning: Array
    """Moments about the edge of the base on that side (N m/m)."""
    tip: float
    """Edge over which it would turn, from the room edge: that of a bonded buttress, if there is one (m)."""
    tip_holding: Array
    tip_turning: Array
    """Moments about that edge, the buttress with them (N m/m)."""
    overturning: Array
    sliding: Array
    eccentricity: Array
    """From the middle of the base towards that edge (m)."""

    @property
    def standing(self) -> Standing:
        """What stands there."""
        return self.acting.standing

    @property
    def inward(self) -> bool:
        """Whether it gives way into the room."""
        return self.way == INWARD

    @property
    def word(self) -> str:
        """The direction in a sentence."""
        return "into the room" if self.inward else "outward"

    @property
    def goes(self) -> NDArray[np.bool_]:
        """(L, M) whether it is pushed that way at all; where it is not, the other direction counts."""
        return self.along >= 0.0

    def lever(self, place: float, edge: float | None = None) -> float:
        """From the edge of the base on that side, or another one, to a place from the room edge (m)."""
        return place if self.inward else (self.width if edge is None else edge) - place


@dataclass(frozen=True, slots=True, kw_only=True)
class Governing:
    """The worst entry of a ratio over sides, sets, directions, lanes and moments."""

    base: Base
    lane: int
    moment: int
    ratio: float

    @property
    def index(self) -> tuple[int, int]:
        """Index into (L, M) arrays."""
        return self.lane, self.moment

    @property
    def now(self) -> Situation:
        """The situation that governs."""
        return self.base.acting.now(self.moment)

    @property
    def corner(self) -> Lane:
        """The soil run and corner that govern."""
        return self.base.acting.lane(self.lane)

    @property
    def blocked(self) -> bool:
        """Whether water stands behind the support."""
        return bool(self.base.acting.blocked[self.moment])

    def at(self, values: Array) -> float:
        """An (L, M) array at the governing entry."""
        whole = np.broadcast_to(values, (*self.base.push.shape,))
        return float(whole[self.index])


def sides_of(study: Study) -> tuple[tuple[Standing, ...], tuple[Missing, ...]]:
    """Sides that are known, and those that are not."""
    sides = standings(study)
    known = tuple(one for one in sides if isinstance(one, Standing))
    return known, tuple(one for one in sides if isinstance(one, Missing))


def bases(study: Study, standing: Standing, *, balance: bool) -> Iterator[Base]:
    """Both directions under the sets of partial factors, or under that for loss of balance as well."""
    for acting in acting_on(study, standing):
        if balance or not acting.balance:
            yield from _ways(study, acting)


def service_bases(study: Study, standing: Standing) -> Iterator[Base]:
    """Both directions with all factors 1."""
    yield from _ways(study, in_service(study, standing))


@once
def _ways(_study: Study, acting: Acting) -> tuple[Base, Base]:
    """Both directions, worked out once for all rules."""
    return both_ways(acting)


def both_ways(acting: Acting) -> tuple[Base, Base]:
    """A side under actions of one's own, in both directions."""
    with np.errstate(invalid="ignore"):  # forces that are lost are found out by whoever reads them
        inward, outward = (_base(acting, way) for way in WAYS)
    return inward, outward


def found(base: Base) -> bool:
    """Whether the foot's forces are known at every moment."""
    return bool(np.isfinite(base.push).all() and np.isfinite(base.down).all())


def worst_first(
    all_bases: list[Base], ratio: Callable[[Base], Array], wanted: Callable[[Base], bool] = lambda _base: True
) -> Governing | None:
    """The largest ratio; None where there is no base. NaN outranks everything that does not fail."""
    tops = [_top(base, ratio(base)) for base in all_bases if wanted(base)]
    if not tops:
        return None
    lost = [top for top in tops if np.isnan(top.ratio)]
    sure = [top for top in tops if not np.isnan(top.ratio)]
    if sure:
        best = first_worst(sure, lambda top: top.ratio)
        if not lost or best.ratio > 1.0:
            return best
    return lost[0]


def _top(base: Base, ratio: Array) -> Governing:
    whole = np.broadcast_to(ratio, base.push.shape)
    known = np.where(np.isnan(whole), -np.inf, whole)
    lane, moment = first_largest(known)
    value = float(known[lane, moment])
    unknown = bool(np.isnan(whole).any()) and value <= 1.0
    return Governing(base=base, lane=lane, moment=moment, ratio=np.nan if unknown else value)


def _base(acting: Acting, way: float) -> Base:
    one = _bare(acting, way)
    if not found(one):
        return one
    friction = _friction(one)
    # What joins the feet is stiffer than the ground: it takes all that it can, friction only the rest. Any
    # share that both can carry is one that stands.
    one = replace(one, friction=friction, tie=np.clip(one.along, 0.0, _tie_capacity(one)))
    holding, turning = _moments(one, one.width)
    tip_holding, tip_turning = _moments(one, one.tip, buttress=True)
    stand = stand_of(
        down=np.maximum(one.total, LEAST_DOWN),
        along=one.along,
        holding=holding,
        turning=turning,
        width=one.width,
        resistance=np.maximum(friction + _tie_capacity(one), 0.0),
    )
    tipping = stand_of(
        down=np.maximum(one.total, LEAST_DOWN),
        along=one.along,
        holding=tip_holding,
        turning=tip_turning,
        width=one.width,
        resistance=0.0 * friction,
    )
    gone = one.total <= LEAST_DOWN
    return replace(
        one,
        holding=holding,
        turning=turning,
        tip_holding=tip_holding,
        tip_turning=tip_turning,
        overturning=np.where(gone, np.inf, tipping.overturning),
        sliding=np.where(gone, np.inf, stand.sliding),
        eccentricity=np.where(gone, np.inf, stand.eccentricity),
    )


def _bare(acting: Acting, way: float) -> Base:
    """What presses on the base, before friction and ties."""
    standing, helpful = acting.standing, acting.helpful
    push, down = acting.foot(way)
    inward = way == INWARD
    start, end = standing.heel
    soil = (acting.push if inward else acting.least_push)(standing.width, standing.base)
    heel = helpful * _heel(acting, start, end)
    total = down + helpful * standing.weight + heel - acting.uplift()
    if acting.shake is not None and not inward:
        # Soil that lets go in an earthquake is not counted on.
        soil = Push(0.0 * soil.force, soil.arm)
    shaken = acting.shaken(heel, inward=inward)
    along = push + (soil.force if inward else -soil.force) + shaken.force
    nothing = np.zeros_like(push)
    return Base(
        acting=acting,
        way=way,
        push=push,
        down=down,
        soil=soil,
        heel=heel,
        shaken=shaken,
        width=standing.width,
        weight=standing.weight,
        tie=nothing,
        total=total,
        along=along + nothing,
        friction=nothing,
        holding=nothing,
        turning=nothing,
        tip=_tip(standing, inward=inward),
        tip_holding=nothing,
        tip_turning=nothing,
        overturning=nothing,
        sliding=nothing,
        eccentricity=nothing,
    )


def _tip(standing: Standing, *, inward: bool) -> float:
    """Edge over which it would turn, from the room edge of the base (m)."""
    one = standing.helped
    if inward or one is None or buttress_body(standing) is None:
        return 0.0 if inward else standing.width
    return max(standing.width, standing.outer_face + (one.depth or 0.0))


def buttress_body(standing: Standing) -> tuple[float, float] | None:
    """Weight of the bonded buttresses on a metre of wall, and where it acts (N/m, m)."""
    one = standing.helped
    if one is None or None in {one.depth, one.width, one.spacing, one.unit_weight}:
        return None
    top = standing.top if one.top is None else min(one.top, standing.top)
    bottom = standing.bottom if one.bottom is None else one.bottom
    section = (one.depth or 0.0) * (one.width or 0.0) * max(top - bottom, 0.0)
    weight = section * (one.unit_weight or 0.0) / (one.spacing or np.inf)
    return weight, standing.outer_face + 0.5 * (one.depth or 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Braced:
    """What a base leans on together with a bonded buttress outside it; arrays are lanes by moments."""

    down: Array
    """With the buttress (N/m)."""
    area: Array
    """Evenly pressed area whose middle lies under the force (m2 for a metre); 0 where it lies beyond."""
    narrow: Array
    """The narrower side of that area (m)."""


def braced(base: Base) -> Braced | None:
    """The same; None where the base gives way inward, or no bonded buttress stands outside.

    Beside the strip only the buttresses bear: the area is a T, seen from above.
    """
    one, body = base.standing.helped, buttress_body(base.standing)
    beyond = base.tip - base.width
    if base.inward or one is None or body is None or beyond <= 0.0 or not found(base):
        return None
    down = np.maximum(base.total + base.acting.helpful * body[0], LEAST_DOWN)
    near = np.maximum((base.tip_holding - base.tip_turning) / down, 0.0)
    share, width = (one.width or 0.0) / (one.spacing or np.inf), one.width or 0.0
    root = np.sqrt(np.maximum(near**2 - (1.0 - share) * beyond * (2.0 * near - beyond), 0.0))
    reach = np.where(2.0 * near <= beyond, 2.0 * near, np.minimum(near + root, base.tip))
    area = share * np.minimum(reach, beyond) + np.maximum(reach - beyond, 0.0)
    return Braced(down=down, area=area, narrow=np.where(reach <= beyond, np.minimum(reach, width), area))


def _heel(acting: Acting, start: float, end: float) -> Array:
    """(L, M) soil that rests on the base outside, at its lightest and without what lies on it (N/m)."""
    standing = acting.standing
    if end <= start or not standing.retains:
        return np.zeros_like(acting.down)
    surface = acting.levels(0.5 * (start + end))
    weights = np.array([[lane.unit_weight] for lane in acting.analysis.lanes])
    rests: Array = weights * np.maximum(surface - standing.bottom, 0.0) * (end - start)
    return rests


def _friction(base: Base) -> Array:
    """What the base holds along it (N/m); nothing where the ground is not known."""
    standing, acting = base.standing, base.acting
    if standing.ground is None:
        return np.zeros_like(base.total)
    slides = slip_angle(base)
    resistance = RESISTANCES.get(acting.name)
    extra = buttress_body(standing)
    down = base.total + (acting.helpful * extra[0] if extra else 0.0)
    return sliding_resistance(np.maximum(down, 0.0), slides, factor=resistance.sliding if resistance else 1.0)


def slip_angle(base: Base) -> float:
    """Design angle of friction between the base and known ground (rad)."""
    standing, factor = base.standing, base.acting.analysis.factors.friction
    assert standing.ground is not None  # noqa: S101  (asked of known ground only)
    angle = float(design_friction_angle(standing.ground.friction.low, factor))
    cast = standing.footing is not None and standing.footing.cast
    return angle if cast else PRECAST_SHARE.value * angle


def _tie_capacity(base: Base) -> float:
    """What joins the feet holds on a metre, pressed inward or pulled outward (N/m)."""
    study, tie = base.acting.study, base.standing.tie
    if tie is None:
        return 0.0
    held = ties.pressed(study, tie) if base.inward else ties.pulled(tie)
    return held or 0.0


def moment_terms(base: Base, edge: float, *, buttress: bool) -> dict[str, Array]:
    """The same one by one, by what makes them: positive where they hold."""
    standing, helpful = base.standing, base.acting.helpful
    wet = 2.0 / 3.0 * base.width
    terms = {
        "push of the foot": -base.push * standing.height,
        "its force down": base.down * base.lever(standing.foot, edge),
        "wall and footing": np.full_like(
            base.push, helpful * standing.weight * base.lever(standing.arm, edge)
        ),
        "soil on the base": base.heel * base.lever(0.5 * sum(standing.heel), edge),
        "soil beside it": (-1.0 if base.inward else 1.0) * base.soil.moment,
        "earthquake": -base.shaken.moment,
        "water under it": -base.acting.uplift() * base.lever(wet, edge) + 0.0 * base.push,
        "tie": base.tie * max(standing.tie.level - standing.base, 0.0) if standing.tie else 0.0 * base.push,
    }
    extra = buttress_body(standing)
    if buttress and extra is not None and not base.inward:
        terms["buttress"] = np.full_like(base.push, helpful * extra[0] * base.lever(extra[1], edge))
    return terms


def _moments(base: Base, edge: float, *, buttress: bool = False) -> tuple[Array, Array]:
    """Holding and turning moments about an edge of the base, or of its buttress (N m/m)."""
    terms = moment_terms(base, edge, buttress=buttress).values()
    holding = sum(np.maximum(term, 0.0) for term in terms)
    turning = sum(np.maximum(-term, 0.0) for term in terms)
    return np.asarray(holding), np.asarray(turning)
