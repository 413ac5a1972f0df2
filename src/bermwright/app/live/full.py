"""The full run behind the hand: every rule, and which corners govern each case."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.mend.mend import targets
from bermwright.app.live.nouns import CaseFound, Corners, Found, StageFound, lane_name
from bermwright.base.findings import worst
from bermwright.rules.analysis.strength import bending_ratio, nail_ratio, rib_ratios, shear_ratio
from bermwright.rules.assess import assess

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from numpy.typing import NDArray

    from bermwright.app.live.nouns import LaneName
    from bermwright.handbook.frames.solving import Share
    from bermwright.house import House
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.assess import Assessment
    from bermwright.rules.nouns import SurveyAtHand
    from bermwright.rules.study import Study
    from bermwright.stages.nouns import Case, Stage

    Array = NDArray[np.float64]


def full_run(
    house: House,
    not_read: tuple[str, ...] = (),
    *,
    progress: Callable[[str], None] = lambda _step: None,
    share: Share = map,
    survey: SurveyAtHand | None = None,
) -> tuple[Assessment, Found]:
    """Assess the house; the assessment, and what of it travels to the windows."""
    assessment = assess(house, not_read=not_read, progress=progress, share=share, survey=survey)
    return assessment, found_of(assessment)


def found_of(assessment: Assessment) -> Found:
    """What of an assessment the windows need."""
    mendable = {(one.rule, one.part) for one in targets(assessment)}
    return Found(
        house=assessment.house.name,
        verdict=worst(assessment.findings),
        findings=assessment.findings,
        questions=assessment.questions,
        not_checked=assessment.not_checked,
        not_read=assessment.not_read,
        vaults={name: tuple(_stages(study)) for name, study in assessment.studies.items()},
        mendable=frozenset(
            number
            for number, finding in enumerate(assessment.findings)
            if (finding.rule, finding.part) in mendable
        ),
    )


def _stages(study: Study) -> Iterator[StageFound]:
    used = [rib_ratios(one, study.strength) for one in study.analyses]
    for stage in study.stages:
        own = stage.cases[0]
        yield StageFound(
            name=stage.name,
            kind=str(stage.kind),
            title=stage.title,
            left=own.left,
            right=own.right,
            ratio=study.stage_ratio.get(stage.name),
            stops=tuple(_stops(study, stage)),
            cases=tuple(
                CaseFound(name=case.name, title=case.title, corners=_corners(study, used, stage, case))
                for case in stage.cases
            ),
        )


def _stops(study: Study, stage: Stage) -> Iterator[float]:
    for mark in study.marks:
        stop = study.stop(mark)
        if stop is not None and stage.filling and mark.level == stage.level:
            yield stop


def _corners(study: Study, used: list[Array], stage: Stage, case: Case) -> Corners:
    """The corners of a case: where the ribs use most, and where the feet push and press most and least."""
    lanes: dict[str, frozenset[LaneName]] = {}
    ratios: list[float] = []
    for analysis, ratio in zip(study.analyses, used, strict=True):
        at = _position(analysis, stage, case)
        if at is None:
            continue
        ratios.append(float(np.max(ratio[:, at])))
        picked = {int(np.argmax(ratio[:, at])), *_spoken(analysis, study, at), *_foot_ends(analysis, at)}
        lanes[analysis.factors.name] = frozenset(lane_name(analysis.lanes[i]) for i in picked)
    known = bool(ratios) and bool(np.isfinite(ratios).all())
    return Corners(lanes=lanes, ratio=max(ratios) if known else None)


def _position(analysis: Analysis, stage: Stage, case: Case) -> int | None:
    for number, now in enumerate(analysis.situations):
        if now.stage is stage and now.case is case:
            return number
    return None


def _spoken(analysis: Analysis, study: Study, at: int) -> Iterator[int]:
    """The corners at which bending, shear and nails use most, each by its own rule."""
    for ratios in (bending_ratio, shear_ratio, nail_ratio):
        values = ratios(analysis, study.strength)[:, at].reshape(len(analysis.lanes), -1)
        if values.shape[1] and np.isfinite(values).any():
            yield int(np.argmax(np.max(np.where(np.isfinite(values), values, -np.inf), axis=1)))


def _foot_ends(analysis: Analysis, at: int) -> Iterator[int]:
    """The corners at which either foot pushes out or in the most, and presses most and least."""
    feet = analysis.response.feet[:, at]
    for foot in (0, 1):
        for force in (0, 1):
            values = feet[:, foot, force]
            if np.isfinite(values).any():
                yield int(np.argmax(np.where(np.isfinite(values), values, -np.inf)))
                yield int(np.argmin(np.where(np.isfinite(values), values, np.inf)))
