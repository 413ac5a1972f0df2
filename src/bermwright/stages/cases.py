"""The cases of a stage: which actions meet, and for how long."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.works import actions as works
from bermwright.stages import loads
from bermwright.stages.face import covered, half, soil_depth, turf_depth
from bermwright.stages.nouns import Action, Case, Duration, StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.stages.face import Build

    Array = NDArray[np.float64]

PERSON = 1000.0
"""One person (N), EN 1991-1-1, table 6.10, category H."""
SNOW_PSI0 = 0.7
"""EN 1990, table A1.1, places above 1,000 m and the Nordic countries; the worse of both values."""
PEOPLE_PSI0 = 0.7
"""EN 1990, table A1.1, areas where people are."""
SIDES = ("left", "right")
SAME_LEVEL = 1e-6
"""Levels closer than this are one (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One moment of the building, before its cases are spelled out."""

    kind: StageKind
    levels: tuple[float, float] | None
    """Level of the fill left and right (m); None where there is none yet."""
    before: tuple[float, float] | None
    """The same before this stage."""
    weight: tuple[Action, ...]
    """Self-weight of what stands, and ballast."""
    springs: bool
    ballast: bool
    duration: Duration
    changes: tuple[str, ...] = ()
    """Temporary works laid, set or taken away before this stage's soil is placed."""
    said: str = ""
    """What is added to the name of each case."""

    @property
    def finished(self) -> bool:
        """Whether the house is complete."""
        return self.kind in {StageKind.SETTLED, StageKind.LONG_TERM}

    @property
    def turfed(self) -> bool:
        """Whether the turf lies."""
        return self.finished or self.kind is StageKind.TURF

    @property
    def crown_soil(self) -> bool:
        """Whether crown soil lies, if the file has any."""
        return self.kind in {StageKind.CROWN_SOIL, StageKind.FILL}


def cases_of(build: Build, now: Moment) -> Iterator[Case]:
    """Every case of one moment; the first is its permanent state with level fill."""
    yield from _cases(build, now)
    if now.ballast:
        heavy = tuple(replace(action, favourable=False) for action in now.weight)
        yield from _cases(build, replace(now, weight=heavy, said=", heavy ballast"))


def _cases(build: Build, now: Moment) -> Iterator[Case]:
    permanent = case_at(build, now, "permanent", "nothing but what stays there", now.duration)
    yield permanent
    if now.changes and now.before is not None:
        yield _change(build, now)
    if now.kind is StageKind.FILL and not (now.ballast or permanent.depth.any()):
        # Fill that does not reach the shell yet changes nothing of the stage before.
        return
    yield from _leads(build, now)
    yield from _snow(build, now)
    yield from _people(build, now)
    if now.levels is not None:
        yield from _water(build, now, now.levels)
    if now.turfed:
        yield from _dry_turf(build, now)
    if now.kind is StageKind.SETTLED and build.given.unheated is not False:
        yield from _first_winter(build, now)


def case_at(
    build: Build,
    now: Moment,
    name: str,
    title: str,
    duration: Duration,
    *extra: Action,
    levels: tuple[float, float] | None = None,
    turf: float | None = None,
) -> Case:
    """A case of a moment: its own weight and what comes on top, with the fill at these levels."""
    left, right = levels or now.levels or (None, None)
    actions = (*now.weight, *_turf(build, now, (left, right), turf), *extra)
    return Case(
        name=name + now.said,
        title=title + now.said,
        duration=duration,
        actions=actions,
        left=left,
        right=right,
        depth=soil_depth(build, left, right, crown_soil=now.crown_soil),
        springs=now.springs,
        ballast=now.ballast,
    )


def _turf(
    build: Build, now: Moment, levels: tuple[float | None, float | None], weight: float | None
) -> tuple[Action, ...]:
    left, right = levels
    if not now.turfed or left is None or right is None or build.form.ground.turf == 0.0:
        return ()
    heavy = build.given.turf[1] if weight is None else weight
    load = heavy * turf_depth(build, left, right)
    return (Action(name="turf", permanent=True, cite=works.SOIL_CITE, on_fill=load),)


def _dry_turf(build: Build, now: Moment) -> Iterator[Case]:
    """Turf counts wet; where it is light it holds the crown down less."""
    low, high = build.given.turf
    if low < high and build.form.ground.turf > 0.0:
        yield case_at(build, now, "turf dry", "the turf dry and light", now.duration, turf=low)


def _change(build: Build, now: Moment) -> Case:
    """Temporary works have just been laid or taken away, and the soil stands where it did."""
    name = ", ".join(now.changes)
    case = case_at(build, now, name, f"{name}, before the next soil", Duration.MEDIUM, levels=now.before)
    return replace(case, before=True)


def _leads(build: Build, now: Moment) -> Iterator[Case]:
    if now.levels is None or now.before is None:
        return
    if now.kind not in {StageKind.FILL, StageKind.COVER, StageKind.TURF}:
        return
    floor = build.face.base if now.kind is StageKind.FILL else now.before
    for side, levels in zip(SIDES, lead_levels(now.levels, floor, build.given.lead), strict=True):
        if abs(levels[0] - levels[1]) > SAME_LEVEL:
            name, title = f"{side} ahead", f"the {side} side one permitted lead ahead"
            yield case_at(build, now, name, title, Duration.MEDIUM, levels=levels)


def lead_levels(
    levels: tuple[float, float], floor: tuple[float, float], lead: float
) -> tuple[tuple[float, float], tuple[float, float]]:
    """Levels with the left, and with the right side one lead ahead.

    The side behind stands no lower than its floor: where the fill begins there, or for crown and turf where
    the stage before ended.
    """
    left, right = levels
    behind = [max(level - lead, min(low, level)) for level, low in zip(levels, floor, strict=True)]
    return (left, behind[1]), (behind[0], right)


def _snow(build: Build, now: Moment) -> Iterator[Case]:
    snow = build.given.snow
    if snow is None or snow == 0.0:
        return
    for shape, name in _snow_names(build, now).items():
        yield case_at(build, now, name, name, _snow_lasts(build), _snow_action(build, snow, now, shape))


def _snow_lasts(build: Build) -> Duration:
    return Duration.SHORT if build.given.snow_short else Duration.MEDIUM


def _snow_names(build: Build, now: Moment) -> dict[str, str]:
    """The three arrangements; on the finished mound the uneven ones have half of the load on one side."""
    if build.given.american_snow and (now.turfed or now.kind is StageKind.COVER):
        return {"even": "full snow", "left": "snow blown to the left", "right": "snow blown to the right"}
    if now.turfed or now.kind is StageKind.COVER:
        return {
            "even": "full snow",
            "left": "half the snow on the right",
            "right": "half the snow on the left",
        }
    return {"even": "full snow", "left": "snow drifted to the left", "right": "snow drifted to the right"}


def _snow_action(build: Build, snow: float, now: Moment, shape: str) -> Action:
    left, right = now.levels or (None, None)
    bare = loads.snow_on_bare(build, snow, shape, ~covered(build, left, right)) * build.form.mesh.plan
    if now.kind is StageKind.RIBS:
        bare = bare * (build.form.rib.width / build.form.spacing)
    on_fill = None if now.levels is None else loads.snow_on_fill(build, snow, shape, now.levels)
    cite = works.AMERICAN_SNOW_CITE if build.given.american_snow else works.SNOW_CITE
    return Action(name="snow", permanent=False, cite=cite, down=bare, on_fill=on_fill, psi0=SNOW_PSI0)


def _people(build: Build, now: Moment) -> Iterator[Case]:
    given = build.given
    if now.kind is StageKind.RIBS:
        load = loads.point_at_crown(build.form.mesh, PERSON / build.form.spacing)
        name = "one person at the crown"
        yield case_at(build, now, name, f"{name} of a rib", Duration.SHORT, _people_action(down=load))
        return
    pressure, title = (
        (given.roof_load, given.roof_title) if now.finished else (given.workers, "workers with hand tools")
    )
    if not pressure:
        return
    for side in SIDES:
        crowd = _on_half(build, now, side, pressure)
        name = f"{title}, {side} half"
        yield case_at(build, now, name, name, Duration.SHORT, crowd)
        if now.finished and given.gathering and given.snow:
            # Both may lead; the other then counts with its combination value.
            snow = _snow_action(build, given.snow, now, side)
            yield case_at(build, now, f"{name}, and snow", f"{name}, and snow", Duration.SHORT, crowd, snow)
            name = f"snow, and {name}"
            yield case_at(build, now, name, name, Duration.SHORT, snow, crowd)


def _on_half(build: Build, now: Moment, side: str, pressure: float) -> Action:
    left, right = now.levels or (None, None)
    share = half(build.face, side) * pressure
    under = covered(build, left, right).mean(axis=1)
    return _people_action(
        down=share * (1.0 - under) * np.maximum(build.form.mesh.plan, 0.0), on_fill=share * under
    )


def _people_action(down: Array | None = None, on_fill: Array | None = None) -> Action:
    return Action(
        name="people", permanent=False, cite=works.PEOPLE_CITE, down=down, on_fill=on_fill, psi0=PEOPLE_PSI0
    )


def _water(build: Build, now: Moment, levels: tuple[float, float]) -> Iterator[Case]:
    given = build.given
    soaked = given.saturated_unit_weight
    surplus = None if soaked is None else max(soaked - given.unit_weight, 0.0)
    if surplus is not None:
        extra = surplus * soil_depth(build, *levels, crown_soil=now.crown_soil)
        water = Action(name="water in the soil", permanent=True, cite=works.SOIL_CITE, on_fill=extra)
        yield case_at(
            build, now, "soil soaked", "the fill full of rain or melt water", Duration.MEDIUM, water
        )
    if given.overflow is not None:
        blocked = _standing_water(build, levels, given.overflow, surplus or 0.0)
        if blocked is not None:
            title = "the drain blocked, an accident with full factors: water to the overflow"
            yield case_at(build, now, "drain blocked", title, Duration.MEDIUM, blocked)


def _standing_water(
    build: Build, levels: tuple[float, float], overflow: float, surplus: float
) -> Action | None:
    """Water in the fill up to the overflow: it presses on the face, and the soil in it is soaked."""
    level, mesh = min(overflow, *levels), build.form.mesh
    reached = soil_depth(build, *levels) > 0.0
    pressure = np.where(reached, loads.water_pressure(build.face, level), 0.0)
    if not pressure.any():
        return None
    return Action(
        name="standing water",
        permanent=True,
        cite=works.WATER_CITE,
        down=pressure * mesh.plan,
        across=pressure * mesh.rise,
        on_fill=surplus * loads.water_depth(build, level),
        pore=pressure,
    )


def _first_winter(build: Build, now: Moment) -> Iterator[Case]:
    """Frozen fill presses but does not hold; snow lies on it."""
    frozen = replace(now, springs=False)
    name = "first winter unheated"
    yield case_at(build, frozen, name, "frozen fill that presses but does not hold", Duration.MEDIUM)
    for case in _snow(build, frozen):
        yield replace(case, name=f"{name}, {case.name}", title=f"frozen fill, {case.title}")
