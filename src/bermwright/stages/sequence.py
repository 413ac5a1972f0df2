"""The default building sequence of a buried vault, from bare ribs to the long term."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.works import actions as works
from bermwright.stages import loads, words
from bermwright.stages.cases import Moment, cases_of
from bermwright.stages.nouns import Action, Compaction, Duration, Stage, StageKind

if TYPE_CHECKING:
    from bermwright.form.shapes import VaultForm
    from bermwright.stages.given import Given

LEAST_LIFT = 0.05
"""A last lift thinner than this is joined to the one before (m)."""


def building_sequence(form: VaultForm, given: Given) -> tuple[Stage, ...]:
    """All stages in order, each with its cases."""
    stages = [_shell_stage(form, given, kind) for kind in (StageKind.RIBS, StageKind.LAGGED, StageKind.WRAPPED)]
    stages += [_fill_stage(form, given, level, before) for before, level in _pairs(fill_levels(form, given.lift))]
    stages += [
        _covered_stage(form, given, kind)
        for kind in (StageKind.COVER, StageKind.TURF, StageKind.SETTLED, StageKind.LONG_TERM)
    ]
    return tuple(stages)


def fill_base(form: VaultForm) -> float:
    """Level at which the fill beside the vault begins (m)."""
    mesh, ground = form.mesh, form.ground
    feet = min(float(mesh.soil_z[0]), float(mesh.soil_z[-1]))
    natural = ground.natural.level(np.array([mesh.soil_x[0], mesh.soil_x[-1]]))
    return min(feet, float(np.min(natural)))


def fill_levels(form: VaultForm, lift: float) -> tuple[float, ...]:
    """Levels of the fill from its base to the crown of the soil face, by lifts (m)."""
    base, top = fill_base(form), form.crown_level
    count = max(int(np.ceil((top - base - LEAST_LIFT) / lift)), 1)
    return (*(round(base + lift * i, 6) for i in range(count)), top)


def _pairs(levels: tuple[float, ...]) -> list[tuple[float, float]]:
    return list(zip(levels[:-1], levels[1:], strict=True))


def _self_weight(form: VaultForm, given: Given, kinds: frozenset[str]) -> tuple[Action, ...]:
    ribs = Action(
        name="ribs", permanent=True, cite=works.WEIGHT_CITE,
        down=loads.rib_weight(form, given.timber_density), at_face=False,
    )  # fmt: skip
    if not kinds:
        return (ribs,)
    cover = Action(name="cover", permanent=True, cite=works.WEIGHT_CITE, down=loads.band_weight(form, kinds))
    return (ribs, cover)


def _shell_stage(form: VaultForm, given: Given, kind: StageKind) -> Stage:
    kinds = {
        StageKind.RIBS: frozenset[str](),
        StageKind.LAGGED: frozenset({"lagging"}),
        StageKind.WRAPPED: _all_kinds(form),
    }[kind]
    now = Moment(
        kind=kind, left=None, right=None, weight=_self_weight(form, given, kinds),
        turf=False, springs=False, ballast=False, duration=Duration.MEDIUM,
    )  # fmt: skip
    return _stage(form, given, now, level=None, braced=kind is not StageKind.WRAPPED)


def _fill_stage(form: VaultForm, given: Given, level: float, before: float) -> Stage:
    # Bags that come off "until" a level still lie there while that level is being filled.
    bags = given.ballast
    ballast = bags is not None and bags.start <= before + 1e-9 and before < bags.until - 1e-9
    now = Moment(
        kind=StageKind.FILL, left=level, right=level,
        weight=(*_self_weight(form, given, _all_kinds(form)), *_crown_weight(form, given, ballast=ballast)),
        turf=False, springs=_springs(given), ballast=ballast, duration=Duration.MEDIUM,
    )  # fmt: skip
    return _stage(form, given, now, level=level, braced=False)


def _crown_weight(form: VaultForm, given: Given, *, ballast: bool) -> tuple[Action, ...]:
    actions = []
    plan = np.maximum(form.mesh.plan, 0.0)
    if ballast and given.ballast is not None:
        load = given.ballast.weight * loads.strip(form.mesh, given.ballast.width) * plan
        actions.append(Action(name="ballast", permanent=True, cite=works.WEIGHT_CITE, down=load))
    if given.crown_first > 0:
        load = given.unit_weight * given.crown_first * loads.strip(form.mesh, given.crown_first_width) * plan
        actions.append(Action(name="crown soil", permanent=True, cite=works.SOIL_CITE, down=load))
    return tuple(actions)


def _covered_stage(form: VaultForm, given: Given, kind: StageKind) -> Stage:
    top = float(np.max(form.ground.finished.z))
    now = Moment(
        kind=kind, left=top, right=top, weight=_self_weight(form, given, _all_kinds(form)),
        turf=kind is not StageKind.COVER, springs=_springs(given), ballast=False,
        duration=Duration.PERMANENT if kind is StageKind.LONG_TERM else Duration.MEDIUM,
    )  # fmt: skip
    return _stage(form, given, now, level=top, braced=False)


def _stage(form: VaultForm, given: Given, now: Moment, *, level: float | None, braced: bool) -> Stage:
    return Stage(
        name=words.name(now.kind, level),
        kind=now.kind,
        title=words.title(now.kind, level),
        do=words.do(now.kind, level, given),
        cautions=words.cautions(now.kind),
        level=level,
        compaction=Compaction(given.compaction),
        braced=braced,
        long_term=now.kind is StageKind.LONG_TERM,
        cases=tuple(cases_of(form, given, now)),
        props=tuple(i for i, (start, until) in enumerate(given.members) if _stands(level, start, until)),
    )


def _stands(level: float | None, start: float, until: float) -> bool:
    return level is not None and start <= level <= until


def _all_kinds(form: VaultForm) -> frozenset[str]:
    return frozenset(band.kind for band in form.bands)


def _springs(given: Given) -> bool:
    """Loose soil presses but does not hold; an unknown tool counts as the worse."""
    return Compaction(given.compaction) in {Compaction.HAND, Compaction.PLATE}
