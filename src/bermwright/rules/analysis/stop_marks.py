"""Stop marks: how far one side may be ahead at each level of the fill, and what makes a level possible.

All soil runs and corners are solved for every 50 mm of lead on either side, so that a mark is right
even where the strength used does not grow steadily with the lead.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.rules.analysis.states import Situation
from bermwright.stages import StageKind, fill_base, soil_depth

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from numpy.typing import NDArray

    from bermwright.rules.analysis.model import RibModel
    from bermwright.rules.analysis.response import Analysis
    from bermwright.stages import Build, Case, Stage

    Array = NDArray[np.float64]

STEP = 0.05
"""Marks are rounded down to this (m): what a painted mark and a rake can hold."""
SAME = 1e-9
"""Lengths closer than this are one (m)."""
LEAST_CAP = 1e-3
"""From a level with less than this left to the next no side can be ahead (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadMark:
    """The stop mark that belongs to one level of the fill."""

    level: float
    """Level at which both sides stand (m)."""
    cap: float
    """Most that is allowed whatever the strength: one lift, or the limit of the rule set (m)."""
    allowed: float | None
    """Largest lead up to which everything solved holds (m), not rounded; None: not known."""
    ratio_level: float
    """Strength used with both sides at this level."""
    ratio_next: float
    """Strength used one step past the mark; NaN when the cap governs."""
    corner: str
    """The soil run and corner that governs."""

    @property
    def lead(self) -> float | None:
        """How far either side may be ahead (m), rounded down to 50 mm; the whole of a thinner lift."""
        if self.allowed is None or (self.cap < STEP and self.allowed >= self.cap - SAME):
            return self.allowed
        return float(np.floor(self.allowed / STEP + SAME)) * STEP

    @property
    def blocked(self) -> bool:
        """Whether not even one step of lead holds, so that something else must come first."""
        return self.allowed is not None and self.allowed < min(STEP, self.cap) - SAME


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """A level at which both sides stand, and the stage that goes on from there."""

    level: float
    cap: float
    """Most that one side may go ahead whatever the strength (m)."""
    above: Stage


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """One start and lead that was solved."""

    start: int
    lead: float
    situation: int


def lead_marks(
    model: RibModel,
    build: Build,
    stages: Sequence[Stage],
    lead_limit: float,
    ratios: Callable[[Analysis], Array],
) -> tuple[LeadMark, ...]:
    """The stop marks of every level from which soil goes on: the fill's base, each lift, the crown."""
    starts = tuple(_starts(build, stages, lead_limit))
    chain, trials = _situations(build, stages, starts)
    analyses = model.analyse_situations(chain)
    worst = [ratios(analysis) for analysis in analyses]
    return tuple(
        _mark(start, [trial for trial in trials if trial.start == i], analyses, worst)
        for i, start in enumerate(starts)
    )


def _starts(build: Build, stages: Sequence[Stage], limit: float) -> Iterator[Start]:
    level = fill_base(build.form)
    for stage in stages:
        if stage.kind not in {StageKind.FILL, StageKind.COVER} or stage.level is None:
            continue
        cap = min(stage.level - level, build.given.lift, limit)
        if cap > LEAST_CAP:
            yield Start(level=level, cap=cap, above=stage)
        level = stage.level


def _situations(
    build: Build, stages: Sequence[Stage], starts: Sequence[Start]
) -> tuple[tuple[Situation, ...], list[Trial]]:
    """The stages' own states in order, and every trial lead branching from the state before its stage."""
    chain: list[Situation] = []
    trials: list[Trial] = []
    before = -1
    for stage in stages:
        for i, start in enumerate(starts):
            if start.above is stage:
                for lead, case in _ahead(build, start):
                    chain.append(Situation(stage=stage, case=case, parent=before))
                    trials.append(Trial(start=i, lead=lead, situation=len(chain) - 1))
        if stage.kind in {StageKind.RIBS, StageKind.LAGGED}:
            continue
        chain.append(Situation(stage=stage, case=stage.cases[0], parent=before))
        before = len(chain) - 1
        if stage.kind is StageKind.COVER:
            break
    return tuple(chain), trials


def _leads(cap: float) -> list[float]:
    """Every 50 mm up to the cap, and the cap."""
    steps = int(np.floor(cap / STEP + SAME))
    leads = [STEP * (i + 1) for i in range(steps)]
    return leads if leads and cap - leads[-1] < SAME else [*leads, cap]


def _ahead(build: Build, start: Start) -> Iterator[tuple[float, Case]]:
    """One side on its way into the next stage while the other still stands at the level before."""
    level, own = start.level, start.above.cases[0]
    yield 0.0, _at(build, own, level, level, "level")
    for lead in _leads(start.cap):
        yield lead, _at(build, own, level + lead, level, f"the left side {lead:.2f} m ahead")
        yield lead, _at(build, own, level, level + lead, f"the right side {lead:.2f} m ahead")


def _at(build: Build, own: Case, left: float, right: float, title: str) -> Case:
    depth = soil_depth(build, left, right, crown_soil=True)
    return replace(own, name=title, title=title, left=left, right=right, depth=depth)


def _mark(
    start: Start, trials: Sequence[Trial], analyses: Sequence[Analysis], worst: Sequence[Array]
) -> LeadMark:
    """The largest lead up to which every smaller one holds too."""
    by_lead = _by_lead(trials, worst)
    allowed, next_ratio = 0.0, np.nan
    for lead in sorted(by_lead):
        if not by_lead[lead] <= 1.0:
            next_ratio = by_lead[lead]
            break
        allowed = lead
    known = all(np.isfinite(value) for value in by_lead.values())
    return LeadMark(
        level=start.level,
        cap=start.cap,
        allowed=allowed if known else None,
        ratio_level=by_lead[0.0],
        ratio_next=next_ratio,
        corner=_corner(trials, analyses, worst),
    )


def _by_lead(trials: Sequence[Trial], worst: Sequence[Array]) -> dict[float, float]:
    """Largest strength used at each lead, of either side, lane and set of factors; NaN is passed on."""
    by_lead: dict[float, float] = {}
    for trial in trials:
        tops = [float(np.max(ratio[:, trial.situation])) for ratio in worst]
        by_lead[trial.lead] = float(np.max([*tops, by_lead.get(trial.lead, -np.inf)]))
    return by_lead


def _corner(trials: Sequence[Trial], analyses: Sequence[Analysis], worst: Sequence[Array]) -> str:
    columns = [trial.situation for trial in trials]
    tops = [float(np.max(ratio[:, columns])) for ratio in worst]
    at = int(np.argmax(tops))
    lane = int(np.argmax(np.max(worst[at][:, columns], axis=1)))
    found = analyses[at].lanes[lane]
    return f"{found.run} soil run, {found.vertical:g} times the soil above"
