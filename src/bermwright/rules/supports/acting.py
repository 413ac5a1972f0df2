"""What presses on one support in every soil run at every moment: foot, soil beside it, water.

Everything is per metre of vault. Directions are those in which the support would give way: `INWARD`
over its edge in the room, `OUTWARD` over the other one.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.supports import EQU
from bermwright.handbook.retaining import Push, sloping_at_rest_ratio, wet_soil_push
from bermwright.handbook.soils import (
    active_ratio,
    compacted_ratio,
    design_friction_angle,
    sloping_active_ratio,
    soil_runs,
)
from bermwright.rules import readings
from bermwright.rules.grids.shares import thrust
from bermwright.rules.study import once
from bermwright.rules.supports.standing import across, retained, surface_line
from bermwright.stages.loads import WATER
from bermwright.stages.sequence import IN_USE

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from bermwright.rules.analysis.lanes import Lane
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.analysis.states import Situation
    from bermwright.rules.study import Study
    from bermwright.rules.supports.standing import Standing

    Array = NDArray[np.float64]
    Places = NDArray[np.int64]

INWARD, OUTWARD = 1.0, -1.0
WAYS = (INWARD, OUTWARD)
HEAVY = "heavy"
REACH = 1.0
"""The slope of the ground beside a wall counts as that from it to this many heights away."""
BLOCKED = "the drain blocked"
EARTHQUAKE = "earthquake"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shake:
    """What an earthquake adds to a support: inertia, and soil that pushes more."""

    share: float
    """Sideways acceleration over gravity (-)."""
    more: float
    """How much the pressure ratio of the soil grows (-)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """The soil on an upright plane, as its push is reckoned from it: lanes (L) by moments (M)."""

    height: Array
    """(M,) of the plane that soil touches (m)."""
    water: Array
    """(M,) how high water stands on it; below zero where none does (m)."""
    ratio: Array
    """(L, 1) sideways over upright pressure, with what a rising surface adds (-)."""
    weight: Array
    saturated: Array
    """(L, 1) unit weight moist, and full of water (N/m3)."""
    load: Array
    """(L, M) on the soil at the top of the plane (Pa)."""
    factor: float

    @property
    def wet(self) -> Mapping[str, Array]:
        """What the equation of wet soil asks for."""
        return {"weight": self.weight, "saturated": self.saturated, "surcharge": self.load}


@dataclass(frozen=True, slots=True, kw_only=True)
class Acting:
    """Design actions on one side under one set of factors: lanes (L) by moments (M)."""

    name: str
    """Of the set of factors."""
    balance: bool
    """Whether it is the set for loss of balance."""
    analysis: Analysis
    standing: Standing
    study: Study
    moments: Places
    """(M,) which situation of the analysis each moment is."""
    blocked: NDArray[np.bool_]
    """(M,) whether the drain is blocked, which the situation itself does not know."""
    ratio: Array
    """(L, 1) sideways pressure ratio of the soil beside the support."""
    least_ratio: Array
    """(L, 1) the active one."""
    harmful: float
    helpful: float
    """Factors on soil and weight."""
    outward: Array
    down: Array
    """(L, M) what the foot gives: outward and down, factored (N/m); of balance, what stays for good."""
    extra_outward: Array
    extra_down: Array
    """(L, M) and what comes and goes; 0 where it is in the former."""
    shake: Shake | None = None
    """What an earthquake adds; None where the ground is still."""

    def now(self, moment: int) -> Situation:
        """The situation of a moment."""
        return self.analysis.situations[int(self.moments[moment])]

    def lane(self, index: int) -> Lane:
        """The soil run and corner of a lane."""
        return self.analysis.lanes[index]

    def foot(self, way: float) -> tuple[Array, Array]:
        """(L, M) push of the foot that way, and its force down, at the worse of their factors."""
        push, extra = -way * self.outward, -way * self.extra_outward
        if not self.balance:
            return push, self.down
        pushed = np.where(push > 0.0, EQU.harmful, EQU.helpful) * push + EQU.variable * np.maximum(extra, 0.0)
        heavy = np.where(self.down > 0.0, EQU.helpful, EQU.harmful) * self.down
        return pushed, heavy + EQU.variable * np.minimum(self.extra_down, 0.0)

    def levels(self, place: float) -> Array:
        """(M,) level of the soil over a place, counted from the room edge of the base (m)."""
        x = across(self.study, self.standing, place)
        under, natural = surface_line(self.study, x)
        cases = [self.analysis.situations[index].case for index in self.moments.tolist()]
        filled = [case.left if self.standing.side == 0 else case.right for case in cases]
        return np.array([natural if level is None else max(min(level, under), natural) for level in filled])

    def surcharge(self) -> Array:
        """(M,) load on the surface beside the foot: turf, snow, water in the soil, people (Pa), factored."""
        node = (0, -1)[self.standing.side]
        load: Array = self.analysis.states.surcharge[self.moments, node]
        return load

    def push(self, place: float, low: float) -> Push:
        """(L, M) push of soil and water on an upright plane, from a level up, with its arm."""
        if not self.standing.retains:
            nothing = np.zeros((self.ratio.shape[0], self.moments.size))
            return Push(nothing, nothing)
        return self._push(place, low, full=True)

    def least_push(self, place: float, low: float) -> Push:
        """(L, M) the same at its least: active, without load on it, only fill that has been placed."""
        if not self.standing.retains:
            return self.push(place, low)
        return self._push(place, low, full=False)

    def beside(self, place: float, low: float, *, full: bool) -> Beside:
        """The soil on an upright plane from a level up: all that drives, or the least that holds back."""
        top = self.standing.plane_top
        surface = self.levels(place)
        if not full:
            _, natural = surface_line(self.study, across(self.study, self.standing, place))
            surface = np.where(surface > natural, surface, low)
        weight = np.array([[lane.unit_weight] for lane in self.analysis.lanes])
        over = np.maximum(surface - top, 0.0)
        passing = EQU.variable if self.balance else 1.0
        load = weight * over + (passing * self.surcharge() / self.harmful if full else 0.0)
        height = np.maximum(np.minimum(surface, top) - low, 0.0)
        water = np.clip(self._water() - low, -20.0, 20.0) if full else np.full(surface.shape, -1.0)
        return Beside(
            height=height,
            water=water,
            ratio=self.ratio * self._rising(place, low, self.ratio) if full else self.least_ratio,
            weight=weight,
            saturated=np.maximum(weight + self._soaked(), 10e3),
            load=load,
            factor=self.harmful if full else self.helpful,
        )

    def _push(self, place: float, low: float, *, full: bool) -> Push:
        one = self.beside(place, low, full=full)
        bare = wet_soil_push(one.height, water=one.water, ratio=one.ratio, **one.wet)
        if self.standing.block is not None and self.shake is None:
            bare = self._held_off(bare, place, low, one, full=full)
        return Push(one.factor * bare.force, bare.arm)

    def _held_off(self, bare: Push, place: float, low: float, one: Beside, *, full: bool) -> Push:
        """The push where steps of geogrid hold the soil off from some level up; water passes as it is.

        What the ground pushes the block with goes down into the base as far as the block stands on it.
        """
        block = self.standing.block
        if block is None:
            return bare
        up = max(block.bottom - low, 0.0)
        held = np.maximum(one.height - up, 0.0)
        leaning = wet_soil_push(held, water=one.water - up, ratio=one.ratio, **one.wet)
        water_alone = wet_soil_push(held, water=one.water - up, ratio=0.0 * one.ratio, **one.wet)
        gone = leaning.force - water_alone.force
        passes = (block.passes if full else 0.0) * held
        rests = max(place - self.standing.outer_face, 0.0) / block.length
        sheared = min(rests, 1.0) * thrust(block)[0] if full else 0.0
        force = bare.force - gone + passes + np.where(held > 0.0, sheared, 0.0)
        moment = bare.moment - leaning.moment + water_alone.moment - gone * up + passes * (up + 0.5 * held)
        return Push(np.maximum(force, 0.0), np.maximum(moment, 0.0) / np.maximum(force, 1e-9))

    def _water(self) -> Array:
        """(M,) level up to which water stands in the soil beside the support (m)."""
        ground = -1e3 if self.standing.water is None else self.standing.water
        overflow = self.study.house.site.overflow
        stands = ground if overflow is None else max(ground, overflow)
        return np.where(self.blocked, stands, ground)

    def _soaked(self) -> float:
        """How much heavier the soil is when it is full of water (N/m3)."""
        soil = retained(self.study, self.standing)
        if soil is None or soil.unit_weight is None or soil.saturated_unit_weight is None:
            return 0.0
        return max(soil.saturated_unit_weight.high - soil.unit_weight.high, 0.0)

    def _rising(self, place: float, low: float, ratio: Array) -> Array:
        """(L, 1) how much more soil presses whose surface rises away from the wall."""
        near = across(self.study, self.standing, place)
        away = (-1.0, 1.0)[self.standing.side] * REACH * max(self.standing.plane_top - low, 0.1)
        rise = surface_line(self.study, near + away)[0] - surface_line(self.study, near)[0]
        slope = float(np.arctan2(max(rise, 0.0), abs(away)))
        if slope == 0.0:
            return np.ones_like(ratio)
        angles = np.array([[self.angle(lane)] for lane in self.analysis.lanes])
        active = sloping_active_ratio(angles, slope) * np.cos(slope) / active_ratio(angles)
        rest = sloping_at_rest_ratio(angles, slope) / sloping_at_rest_ratio(angles, 0.0)
        return np.where(ratio <= self.least_ratio, np.maximum(active, 1.0), rest)

    def angle(self, lane: Lane) -> float:
        """Design angle of friction of the soil in a lane (rad)."""
        factor = EQU.friction if self.balance else self.analysis.factors.friction
        return float(design_friction_angle(lane.friction_angle, factor))

    def shaken(self, heel: Array, *, inward: bool) -> Push:
        """(L, M) inertia of what stands and lies on the base, and the soil's surplus where it drives.

        The surplus acts at half of its height (EN 1998-5, annex E.4).
        """
        standing = self.standing
        if self.shake is None:
            return Push(np.zeros_like(self.down), np.zeros_like(self.down))
        surface = self.levels(standing.width)
        own = self.shake.share * standing.weight
        soil = self.shake.share * heel
        high = standing.bottom - standing.base + 0.5 * np.maximum(surface - standing.bottom, 0.0)
        height = np.maximum(np.minimum(surface, standing.plane_top) - standing.base, 0.0)
        weight = np.array([[lane.unit_weight] for lane in self.analysis.lanes])
        driving = inward and standing.retains
        surplus = (self.shake.more if driving else 0.0) * 0.5 * weight * height**2
        force = own + soil + surplus
        moment = own * standing.middle + soil * high + surplus * 0.5 * height
        return Push(force, moment / np.maximum(force, 1e-9))

    def uplift(self) -> Array:
        """(M,) water pressing up under the base, standing outside and drained inside (N/m)."""
        deep = np.maximum(self._water() - self.standing.base, 0.0)
        lift: Array = 0.5 * WATER * deep * self.standing.width
        return lift


@once
def acting_on(study: Study, standing: Standing) -> tuple[Acting, ...]:
    """Design actions on one side under every set of factors, that for loss of balance last."""
    sets = [_factored(study, standing, analysis) for analysis in study.analyses]
    with np.errstate(invalid="ignore"):  # forces that are lost are found out by whoever reads them
        return (*sets, _balance(study, standing))


@once
def in_service(study: Study, standing: Standing) -> Acting:
    """The same with all factors 1."""
    return _factored(study, standing, study.service)


def in_earthquake(study: Study, standing: Standing, analysis: Analysis, shake: Shake) -> Acting:
    """The finished house shaken: the earthquakes of an analysis, weights lifted by half as much."""
    whole = _factored(study, standing, analysis)
    chosen = np.array(
        [
            not blocked and analysis.situations[int(index)].case.name.startswith(EARTHQUAKE)
            for index, blocked in zip(whole.moments, whole.blocked, strict=True)
        ]
    )
    return replace(
        whole,
        moments=whole.moments[chosen],
        blocked=whole.blocked[chosen],
        outward=whole.outward[:, chosen],
        down=whole.down[:, chosen],
        extra_outward=whole.extra_outward[:, chosen],
        extra_down=whole.extra_down[:, chosen],
        helpful=1.0 - 0.5 * shake.share,
        shake=shake,
    )


def _factored(study: Study, standing: Standing, analysis: Analysis) -> Acting:
    moments, blocked = _moments(study, analysis)
    feet = analysis.response.feet[:, :, standing.side, :] / study.form.spacing
    nothing = np.zeros((len(analysis.lanes), moments.size))
    factor = analysis.factors.friction
    return Acting(
        name=analysis.factors.name,
        balance=False,
        analysis=analysis,
        standing=standing,
        study=study,
        moments=moments,
        blocked=blocked,
        ratio=_ratios(study, analysis, factor),
        least_ratio=_least(analysis, factor),
        harmful=analysis.factors.permanent,
        helpful=1.0,
        outward=feet[:, moments, 0],
        down=feet[:, moments, 1],
        extra_outward=nothing,
        extra_down=nothing,
    )


def _balance(study: Study, standing: Standing) -> Acting:
    """The service response taken apart into what stays and what comes and goes."""
    analysis = study.service
    moments, blocked = _moments(study, analysis)
    feet = analysis.response.feet[:, :, standing.side, :] / study.form.spacing
    own = np.array([_own(analysis, int(index)) for index in moments])
    return Acting(
        name=EQU.name,
        balance=True,
        analysis=analysis,
        standing=standing,
        study=study,
        moments=moments,
        blocked=blocked,
        ratio=_ratios(study, analysis, EQU.friction),
        least_ratio=_least(analysis, EQU.friction),
        harmful=EQU.harmful,
        helpful=EQU.helpful,
        outward=feet[:, own, 0],
        down=feet[:, own, 1],
        extra_outward=feet[:, moments, 0] - feet[:, own, 0],
        extra_down=feet[:, moments, 1] - feet[:, own, 1],
    )


def _own(analysis: Analysis, index: int) -> int:
    """The moment without what comes and goes: itself, or the stage's own state."""
    now = analysis.situations[index]
    passing = any(not action.permanent for action in now.case.actions)
    return now.parent if passing and now.parent >= 0 and not now.case.before else index


def _moments(study: Study, analysis: Analysis) -> tuple[Places, NDArray[np.bool_]]:
    """Every situation, and the finished house's own states once more with water behind the support.

    Where nobody says that the fill is drained, water stands there in every finished state.
    """
    situations = analysis.situations
    finished = [index for index, now in enumerate(situations) if now.stage.kind in IN_USE]
    own = [index for index in finished if situations[index].case is situations[index].stage.cases[0]]
    again = own if study.house.site.overflow is not None else []
    fill = study.house.fill(study.vault)
    wet = set() if fill is not None and fill.drained else set(finished)
    moments = np.array([*range(len(situations)), *again], dtype=np.int64)
    return moments, np.array([index in wet for index in range(len(situations))] + [True] * len(again))


def _ratios(study: Study, analysis: Analysis, friction: float) -> Array:
    """(L, 1) pressure ratio beside the support, by soil run.

    The heavy run stands for what a plate locks in beside the ribs; where none comes near, the soil
    beside the support is as after hand ramming.
    """
    heavy = study.model.placing.heavy
    table: dict[float, dict[str, float]] = {}
    for angle in {lane.friction_angle for lane in analysis.lanes}:
        design = float(design_friction_angle(angle, friction))
        runs = soil_runs(design, membrane_friction=readings.membrane_friction(study.vault))
        table[angle] = {run.name: run.ratio for run in runs}
        if not heavy:
            table[angle][HEAVY] = float(compacted_ratio(design))
    return np.array([table[lane.friction_angle][lane.run] for lane in analysis.lanes])[:, None]


def _least(analysis: Analysis, friction: float) -> Array:
    angles = np.array([lane.friction_angle for lane in analysis.lanes])
    return np.asarray(active_ratio(design_friction_angle(angles, friction)))[:, None]
