"""Stop marks: how far one side may be ahead at each level of the fill, and what makes a level possible.

All soil runs and corners are solved for every 50 mm of lead on either side, so that a mark is right
even where the strength used does not grow steadily with the lead.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.rules.analysis.states import Situation
from bermwright.stages import loads
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from bermwright.form.shapes import VaultForm
    from bermwright.rules.analysis.model import RibModel
    from bermwright.rules.analysis.response import Analysis
    from bermwright.stages.nouns import Stage

    Array = NDArray[np.float64]

STEP = 0.05
"""Marks are rounded down to this (m): what a painted mark and a rake can hold."""


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
        """How far either side may be ahead (m), rounded down to 50 mm."""
        return None if self.allowed is None else float(np.floor(self.allowed / STEP + 1e-9)) * STEP

    @property
    def stop(self) -> float | None:
        """Level that neither side may pass while the other stands at `level` (m)."""
        return None if self.lead is None else self.level + self.lead

    @property
    def blocked(self) -> bool:
        """Whether not even one step of lead holds, so that something else must come first."""
        return self.allowed is not None and self.allowed < min(STEP, self.cap) - 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """One level, side and lead that was solved."""

    level: int
    lead: float
    situation: int


def lead_marks(
    model: RibModel,
    stages: Sequence[Stage],
    lead_limit: float,
    ratios: Callable[[Analysis], Array],
) -> tuple[LeadMark, ...]:
    """The stop marks of all fill levels of a sequence."""
    fills = [stage for stage in stages if stage.kind is StageKind.FILL]
    if not fills:
        return ()
    chain, trials = _situations(model.form, stages, fills, lead_limit)
    analyses = model.analyse_situations(chain)
    worst = [np.where(analysis.bends, ratios(analysis), -np.inf) for analysis in analyses]
    return tuple(
        _mark(i, stage, fills[i + 1].level - stage.level, lead_limit, trials, analyses, worst)
        for i, stage in enumerate(fills[:-1])
        if stage.level is not None and fills[i + 1].level is not None
    )


def _situations(
    form: VaultForm, stages: Sequence[Stage], fills: Sequence[Stage], lead_limit: float
) -> tuple[tuple[Situation, ...], list[Trial]]:
    """The stages' own states in order, and every trial lead branching from its level."""
    chain: list[Situation] = []
    trials: list[Trial] = []
    before = -1
    for stage in stages:
        if stage.kind not in {StageKind.WRAPPED, StageKind.FILL}:
            continue
        chain.append(Situation(stage=stage, case=stage.cases[0], parent=before))
        before = len(chain) - 1
        if stage.kind is StageKind.FILL and stage is not fills[-1]:
            at = fills.index(stage)
            above = fills[at + 1]
            trials.append(Trial(level=at, lead=0.0, situation=before))
            for lead in _leads(above.level - stage.level, lead_limit):
                for side in (-1, 1):
                    chain.append(_ahead(form, above, stage.level, side * lead, before))
                    trials.append(Trial(level=at, lead=lead, situation=len(chain) - 1))
    return tuple(chain), trials


def _leads(lift: float, limit: float) -> list[float]:
    cap = min(lift, limit)
    steps = int(np.floor(cap / STEP + 1e-9))
    leads = [STEP * (i + 1) for i in range(steps)]
    return leads if leads and cap - leads[-1] < 1e-9 else [*leads, cap]


def _ahead(form: VaultForm, above: Stage, level: float, lead: float, parent: int) -> Situation:
    """One side on its way to the next level while the other still stands at this one."""
    left, right = level + max(-lead, 0.0), level + max(lead, 0.0)
    side = "left" if lead < 0 else "right"
    case = replace(
        above.cases[0],
        name=f"{side} ahead",
        title=f"the {side} side {abs(lead):.2f} m ahead",
        left=left,
        right=right,
        depth=loads.soil_depth(form, left, right, turf=False),
    )
    return Situation(stage=above, case=case, parent=parent)


def _mark(  # noqa: PLR0913  (one level against everything that was solved)
    index: int,
    stage: Stage,
    lift: float,
    limit: float,
    trials: Sequence[Trial],
    analyses: Sequence[Analysis],
    worst: Sequence[Array],
) -> LeadMark:
    """The largest lead up to which every smaller one holds too."""
    cap = min(lift, limit)
    by_lead: dict[float, float] = {}
    for trial in (trial for trial in trials if trial.level == index):
        top = max(float(np.max(ratio[:, trial.situation])) for ratio in worst)
        by_lead[trial.lead] = max(by_lead.get(trial.lead, -np.inf), top) if np.isfinite(top) else np.nan
    allowed, next_ratio = 0.0, np.nan
    for lead in sorted(by_lead):
        if not by_lead[lead] <= 1.0:
            next_ratio = by_lead[lead]
            break
        allowed = lead
    known = all(np.isfinite(value) for value in by_lead.values())
    return LeadMark(
        level=float(stage.level or 0.0),
        cap=cap,
        allowed=allowed if known else None,
        ratio_level=by_lead[0.0],
        ratio_next=next_ratio,
        corner=_corner(index, trials, analyses, worst),
    )


def _corner(index: int, trials: Sequence[Trial], analyses: Sequence[Analysis], worst: Sequence[Array]) -> str:
    columns = [trial.situation for trial in trials if trial.level == index]
    tops = [float(np.max(ratio[:, columns])) for ratio in worst]
    at = int(np.argmax(tops))
    lane = int(np.argmax(np.max(worst[at][:, columns], axis=1)))
    found = analyses[at].lanes[lane]
    return f"{found.run} soil run, {found.vertical:g} times the soil above"
