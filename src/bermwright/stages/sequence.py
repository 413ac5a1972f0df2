"""The default building sequence of a buried vault, from bare ribs to the long term."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.works import actions as works
from bermwright.stages import loads, words
from bermwright.stages.cases import Moment, cases_of
from bermwright.stages.face import build_of, strip
from bermwright.stages.nouns import Action, Case, Compaction, Duration, Stage, StageKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.stages.face import Build
    from bermwright.stages.given import Given, Standing

LEAST_LIFT = 0.05
"""A last lift thinner than this shares what is left with the one before (m)."""
SAME_LEVEL = 1e-9
"""Levels closer than this are one (m)."""
IN_USE = frozenset({StageKind.SETTLED, StageKind.LONG_TERM})


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A stage in which soil is placed or lies: the fill goes from one level to another."""

    kind: StageKind
    before: float
    level: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Temporary:
    """Which temporary works stand or lie in a stage, from before its soil is placed until after."""

    ballast: bool = False
    members: tuple[int, ...] = ()


def building_sequence(form: VaultForm, given: Given) -> tuple[Stage, ...]:
    """All stages in order, each with its cases."""
    return staged(build_of(form, given))


def staged(
    build: Build,
    *,
    variable: bool = True,
    wanted: Callable[[StageKind, float | None], bool] = lambda _kind, _level: True,
    brief: bool = False,
) -> tuple[Stage, ...]:
    """The same for a vault whose soil face is cut already, with or without the loads that come and go.

    `wanted` is asked of each stage, by its kind and the level of its fill, before its cases are made. A
    `brief` sequence has the stages' own states and no other case.
    """
    if not variable:
        build = replace(build, given=replace(build.given, snow=None, workers=0.0, roof_load=None))
    kinds = [kind for kind in _shell_kinds(build.given) if wanted(kind, None)]
    stages = [_shell_stage(build, kind, brief=brief) for kind in kinds]
    before = Temporary()
    for placed in _placed(build):
        now = temporary(build.given, placed)
        if wanted(placed.kind, placed.level):
            changes = _changes(build.given, before, now)
            stages.append(_soil_stage(build, placed, now, changes, brief=brief))
        before = now
    return tuple(stages)


def fill_base(form: VaultForm) -> float:
    """Level at which the fill beside the vault begins, on the side where it is lower (m)."""
    mesh, ground = form.mesh, form.ground
    feet = min(float(mesh.soil_z[0]), float(mesh.soil_z[-1]))
    natural = ground.natural.level(np.array([mesh.soil_x[0], mesh.soil_x[-1]]))
    return min(feet, float(np.min(natural)))


def fill_levels(form: VaultForm, lift: float) -> tuple[float, ...]:
    """Levels of the fill from its base to the crown of the soil face, by lifts (m).

    No lift is thicker than `lift`. Where the last one would be too thin to spread, it and the one before
    are made alike.
    """
    base, top = fill_base(form), form.crown_level
    count = max(int(np.ceil((top - base) / lift - SAME_LEVEL)), 1)
    levels = [*(round(base + lift * i, 6) for i in range(count)), top]
    if count > 1 and top - levels[-2] < LEAST_LIFT:
        levels[-2] = 0.5 * (levels[-3] + top)
    return tuple(levels)


def _placed(build: Build) -> Iterator[Placed]:
    levels, face = fill_levels(build.form, build.given.lift), build.face
    for before, level in pairwise(levels):
        yield Placed(kind=StageKind.FILL, before=before, level=level)
    yield Placed(kind=StageKind.COVER, before=levels[-1], level=face.top_under)
    for kind in (StageKind.TURF, StageKind.SETTLED, StageKind.LONG_TERM):
        before = face.top_under if kind is StageKind.TURF else face.top
        yield Placed(kind=kind, before=before, level=face.top)


def temporary(given: Given, placed: Placed) -> Temporary:
    """What lies or stands through the whole stage: what goes up or comes down inside it does not count."""
    bags = given.ballast
    ballast = bags is not None and placed.kind not in IN_USE and _holds(bags.start, bags.until, placed)
    return Temporary(
        ballast=ballast, members=tuple(i for i, one in enumerate(given.members) if _stands(one, placed))
    )


def _stands(one: Standing, placed: Placed) -> bool:
    if placed.kind in IN_USE:
        return one.tie and one.until >= placed.level - SAME_LEVEL
    return _holds(one.start, one.until, placed)


def _holds(start: float, until: float, placed: Placed) -> bool:
    return start <= placed.before + SAME_LEVEL and placed.level <= until + SAME_LEVEL


def _changes(given: Given, before: Temporary, now: Temporary) -> tuple[str, ...]:
    """What is laid, set or taken away between two stages."""
    said = []
    if before.ballast != now.ballast:
        said.append("ballast laid" if now.ballast else "ballast off")
    for i, one in enumerate(given.members):
        if (i in now.members) != (i in before.members):
            what = "ties" if one.tie else "props"
            said.append(f"{what} set" if i in now.members else f"{what} out")
    return tuple(dict.fromkeys(said))


def _shell_kinds(given: Given) -> tuple[StageKind, ...]:
    shell = (StageKind.RIBS, StageKind.LAGGED, StageKind.WRAPPED)
    return (*shell, StageKind.CROWN_SOIL) if given.crown_first > 0.0 else shell


def _spelled(build: Build, moment: Moment, *, brief: bool) -> tuple[Case, ...]:
    cases = cases_of(build, moment)
    return (next(cases),) if brief else tuple(cases)


def _shell_stage(build: Build, kind: StageKind, *, brief: bool = False) -> Stage:
    moment = Moment(
        kind=kind,
        levels=None,
        before=None,
        weight=_self_weight(build, _kinds_up(build.form, kind)),
        springs=False,
        ballast=False,
        duration=Duration.MEDIUM,
    )
    return Stage(
        name=words.name(kind, None),
        kind=kind,
        title=words.title(kind, None),
        do=words.do(kind, None, build.given),
        cautions=words.cautions(kind),
        level=None,
        compaction=Compaction.NONE,
        braced=kind in {StageKind.RIBS, StageKind.LAGGED},
        long_term=False,
        cases=_spelled(build, moment, brief=brief),
    )


def _kinds_up(form: VaultForm, kind: StageKind) -> frozenset[str]:
    if kind is StageKind.RIBS:
        return frozenset()
    return frozenset({"lagging"}) if kind is StageKind.LAGGED else _all_kinds(form)


def _all_kinds(form: VaultForm) -> frozenset[str]:
    return frozenset(band.kind for band in form.bands)


def _self_weight(build: Build, kinds: frozenset[str]) -> tuple[Action, ...]:
    form, given = build.form, build.given
    weight = loads.rib_weight(form, given.timber_density)
    ribs = Action(name="ribs", permanent=True, cite=works.WEIGHT_CITE, down=weight, lever=0.0)
    if not kinds:
        return (ribs,)
    cover = Action(
        name="cover",
        permanent=True,
        cite=works.WEIGHT_CITE,
        down=loads.band_weight(form, kinds),
        lever=loads.band_lever(form, kinds),
    )
    return (ribs, cover)


def _soil_stage(
    build: Build, placed: Placed, now: Temporary, changes: tuple[str, ...], *, brief: bool = False
) -> Stage:
    given, kind, level = build.given, placed.kind, placed.level
    moment = Moment(
        kind=kind,
        levels=(level, level),
        before=(placed.before, placed.before),
        weight=(*_self_weight(build, _all_kinds(build.form)), *(_ballast(build) if now.ballast else ())),
        springs=_springs(given),
        ballast=now.ballast,
        duration=Duration.PERMANENT if kind in IN_USE else Duration.MEDIUM,
        changes=changes,
    )
    return Stage(
        name=words.name(kind, level),
        kind=kind,
        title=words.title(kind, level),
        do=words.do(kind, level, given, changes=changes, ballast=now.ballast),
        cautions=words.cautions(kind),
        level=level,
        compaction=Compaction(given.compaction),
        braced=False,
        long_term=kind is StageKind.LONG_TERM,
        cases=_spelled(build, moment, brief=brief),
        props=now.members,
    )


def _ballast(build: Build) -> Iterator[Action]:
    """Bags count without their partial factor where they help; cases with their full weight follow."""
    bags, face = build.given.ballast, build.face
    if bags is not None:
        load = bags.weight * strip(face, bags.width) * np.maximum(build.form.mesh.plan, 0.0)
        yield Action(name="ballast", permanent=True, cite=works.WEIGHT_CITE, down=load, favourable=True)


def _springs(given: Given) -> bool:
    """Loose soil presses but does not hold; an unknown tool counts as the worse."""
    return Compaction(given.compaction) in {Compaction.HAND, Compaction.PLATE}
