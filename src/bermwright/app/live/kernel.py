"""One stage and case of one vault, solved at the corners that governed the last full run.

The building is followed to the shown stage through its stages' own states, as the soil's law wants it; all
other cases are left out. The rules then speak of this one case.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.app.live.nouns import lane_name
from bermwright.data.timber_classes import strength_class
from bermwright.rules import readings
from bermwright.rules.analysis.lanes import build_lanes
from bermwright.rules.analysis.states import Situation
from bermwright.rules.analysis.strength import RibStrength, rib_ratios
from bermwright.rules.study import Study, rib_model
from bermwright.stages import build_of, staged

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from bermwright.app.live.nouns import Corners, LaneName
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Vault
    from bermwright.rules.analysis.lanes import Lane
    from bermwright.rules.analysis.model import RibModel
    from bermwright.rules.analysis.response import Analysis
    from bermwright.stages.nouns import Case, Stage

    Array = NDArray[np.float64]

LOOSE = 1e-6
"""Tolerance of what is shown while a hand drags: four digits of a ratio are right (-)."""
MOST_CORNERS = 12
"""Without a full run to go by no more corners than this are looked at (each set of factors)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """The solved case."""

    study: Study
    """A study that knows this one case only: the rules speak of it."""
    stage: Stage
    case: Case
    stages: tuple[Stage, ...]
    ratio: float | None
    """Strength of the ribs used (-); None where it is not known."""
    analysis: Analysis
    """The set of factors that governs."""
    lane: int
    """Its governing corner."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Which case is looked at, and what is known of it."""

    stage: str | None = None
    case: str | None = None
    kind: str | None = None
    place: int = 0
    """The stage's kind, and its place among those of its kind: its name changes with its level."""
    corners: Corners | None = None
    """Those that governed it in the last full run."""
    quick: bool = False
    """Whether a state of rest may be found a little less exactly: a hand is waiting for it."""


def shown_case(house: House, vault: Vault, form: VaultForm, wanted: Wanted) -> Shown:
    """Solve one case. A stage or case that is not there any more gives way to the nearest in order."""
    timber = strength_class(vault.timber)
    given = readings.given(house, vault, form, timber)
    build = build_of(form, given)
    brief = staged(build, brief=True)
    at = _stage_at(brief, wanted)
    chosen = brief[at]
    whole = staged(build, wanted=lambda kind, level: kind is chosen.kind and level == chosen.level)
    now = whole[0]
    stages = (*brief[:at], now, *brief[at + 1 :])
    names = [one.name for one in now.cases]
    picked = now.cases[names.index(wanted.case) if wanted.case in names else 0]
    strength = RibStrength.of(vault, form, timber)
    model = rib_model(house, vault, form, strength)
    if wanted.quick:
        strength = strength.provisional
        model = replace(model, tolerance=LOOSE)
    analyses = _solved(model, _chain(stages[: at + 1], picked), wanted.corners)
    study = Study(
        house=house,
        vault=vault,
        part=f'vault "{vault.name}"',
        form=form,
        given=given,
        stages=stages,
        model=model,
        strength=strength,
        analyses=analyses,
        service=analyses[0],  # no rule that speaks here asks how far the ribs move
        marks=(),
        remedies=(),
        stage_ratio={},
    )
    return _judged(study, now, picked)


def _stage_at(stages: Sequence[Stage], wanted: Wanted) -> int:
    """Where the wanted stage stands; the last one where there is none like it."""
    names = [one.name for one in stages]
    if wanted.stage in names:
        return names.index(wanted.stage)
    alike = [place for place, one in enumerate(stages) if str(one.kind) == wanted.kind]
    return alike[min(wanted.place, len(alike) - 1)] if alike else len(stages) - 1


def _chain(stages: Sequence[Stage], case: Case) -> tuple[Situation, ...]:
    """The stages' own states in order, and the case at the end."""
    chain: list[Situation] = []
    for stage in stages:
        chain.append(Situation(stage=stage, case=stage.cases[0], parent=len(chain) - 1))
    if case is not stages[-1].cases[0]:
        parent = len(chain) - 2 if case.before else len(chain) - 1
        chain.append(Situation(stage=stages[-1], case=case, parent=parent))
    return tuple(chain)


def _solved(model: RibModel, chain: tuple[Situation, ...], corners: Corners | None) -> tuple[Analysis, ...]:
    only = {
        factors.name: _lanes(build_lanes(model.soil, factors), corners, factors.name)
        for factors in model.factor_sets
    }
    return tuple(last_only(one) for one in model.analyse_situations(chain, only=only))


def _lanes(lanes: tuple[Lane, ...], corners: Corners | None, name: str) -> frozenset[Lane]:
    """The corners that governed; where they are gone, or were never found, every corner up to some."""
    wanted: frozenset[LaneName] = corners.lanes.get(name, frozenset()) if corners is not None else frozenset()
    found = frozenset(lane for lane in lanes if lane_name(lane) in wanted)
    if found:
        return found
    step = max(1, -(-len(lanes) // MOST_CORNERS))
    return frozenset(lanes[::step])


def last_only(analysis: Analysis) -> Analysis:
    """The last situation alone, with its relief by cover already counted."""
    at = len(analysis.situations) - 1
    response = analysis.response
    bare = response.moment if analysis.relief is None else analysis.relief.applied(response.moment)
    cut: dict[str, Any] = {one.name: _cut(getattr(response, one.name), at) for one in fields(response)}
    alone = Situation(stage=analysis.situations[at].stage, case=analysis.situations[at].case, parent=-1)
    return replace(
        analysis,
        situations=(alone,),
        response=replace(response, **{**cut, "moment": _cut(bare, at)}),
        bends=analysis.bends[:, at : at + 1],
        model=analysis.model[at : at + 1],
        relief=None,
    )


def _cut(values: Array, at: int) -> Array:
    return values[:, at : at + 1]


def _judged(study: Study, stage: Stage, case: Case) -> Shown:
    """The governing set of factors and corner: the largest strength used; what is not known outranks it."""
    used = [rib_ratios(one, study.strength)[:, 0] for one in study.analyses]
    tops = [float(np.max(ratio)) for ratio in used]
    known = bool(np.isfinite(tops).all())
    number = int(np.argmax(tops)) if known else 0
    lane = int(np.argmax(np.where(np.isfinite(used[number]), used[number], -np.inf)))
    return Shown(
        study=study,
        stage=stage,
        case=case,
        stages=study.stages,
        ratio=tops[number] if known else None,
        analysis=study.analyses[number],
        lane=lane,
    )
