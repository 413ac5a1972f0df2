"""The ribs of one vault, ready to be solved through any building sequence."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.frames import solve
from bermwright.rules.analysis.lanes import build_lanes, frame_soil
from bermwright.rules.analysis.relief import relief_of
from bermwright.rules.analysis.response import Analysis
from bermwright.rules.analysis.states import frame_states, situations_of
from bermwright.stages.nouns import Compaction

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from bermwright.data.rule_sets import RuleSet
    from bermwright.form.shapes import VaultForm
    from bermwright.handbook.frames import Frame, Member
    from bermwright.handbook.frames.solving import Share
    from bermwright.rules.analysis.lanes import Lane, SoilInput
    from bermwright.rules.analysis.states import Situation, Softening
    from bermwright.stages.nouns import Stage

    Array = NDArray[np.float64]
    Truth = NDArray[np.bool_]

HEAVY = "heavy"
TIGHT = 1e-9
"""Tolerance of everything that is printed (-)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placing:
    """How the fill is compacted, as far as it decides the soil run."""

    plate_near: bool
    """A plate runs within 0.6 m of the ribs, or nobody said that it does not."""
    wet: bool
    """The fill is wet of its optimum, or nobody said that it is not."""

    @property
    def heavy(self) -> bool:
        """Whether the heavy run counts for bending at every stage."""
        return self.plate_near or self.wet


@dataclass(frozen=True, slots=True, kw_only=True)
class RibModel:
    """Everything but the stages."""

    form: VaultForm
    frame: Frame
    members: tuple[Member, ...]
    softening: Softening
    soil: SoilInput
    placing: Placing
    factor_sets: tuple[RuleSet, ...]
    model_factor: float
    """On bending where the heavy run does not count (design judgement, printed as such)."""
    share: Share = map
    """Like `map`; the `map` of a pool of threads solves the lanes side by side."""
    tolerance: float = TIGHT
    """Change of movement between two passes at which a state counts as solved; looser for searches (-)."""

    def analyse(self, stages: Sequence[Stage]) -> tuple[Analysis, ...]:
        """Every situation of these stages, once for each set of partial factors."""
        return self.analyse_situations(situations_of(stages))

    def analyse_situations(
        self, situations: tuple[Situation, ...], *, only: Mapping[str, frozenset[Lane]] | None = None
    ) -> tuple[Analysis, ...]:
        """The same for a list of situations that is ready, in all lanes or `only` some."""
        analyses = []
        for factors in self.factor_sets:
            lanes = build_lanes(self.soil, factors)
            if only is not None:
                lanes = tuple(lane for lane in lanes if lane in only[factors.name])
            analyses.append(self._analysis(situations, factors, self.model_factor, lanes))
        return tuple(analyses)

    def serve(self, stages: Sequence[Stage], serviceability: RuleSet) -> Analysis:
        """The same with all factors 1, for movement and lifting."""
        return self.serve_situations(situations_of(stages), serviceability)

    def serve_situations(
        self,
        situations: tuple[Situation, ...],
        serviceability: RuleSet,
        only: frozenset[Lane] | None = None,
    ) -> Analysis:
        """The same for a list of situations that is ready, in all lanes or `only` some."""
        lanes = build_lanes(self.soil, serviceability)
        if only is not None:
            lanes = tuple(lane for lane in lanes if lane in only)
        return self._analysis(situations, serviceability, 1.0, lanes)

    def _analysis(
        self,
        situations: tuple[Situation, ...],
        factors: RuleSet,
        model_factor: float,
        lanes: tuple[Lane, ...],
    ) -> Analysis:
        heavy = self._heavy(situations)
        states = frame_states(self.form, situations, factors, self.softening, self.members)
        return Analysis(
            factors=factors,
            lanes=lanes,
            situations=situations,
            frame=self.frame,
            states=states,
            response=solve(
                self.frame,
                frame_soil(lanes, factors.permanent),
                states,
                tolerance=self.tolerance,
                share=self.share,
            ),
            bends=self._bends(lanes, heavy),
            model=np.where(heavy, 1.0, model_factor),
            relief=relief_of(situations, lanes),
        )

    def _heavy(self, situations: Sequence[Situation]) -> Truth:
        """(S,) whether the heavy run counts for bending: ballast while compacting brings it in too."""
        compacted = {Compaction.HAND, Compaction.PLATE, Compaction.UNKNOWN}
        return np.array(
            [
                self.placing.heavy or (now.case.ballast and now.stage.compaction in compacted)
                for now in situations
            ]
        )

    def _bends(self, lanes: tuple[Lane, ...], heavy: Truth) -> Truth:
        is_heavy = np.array([lane.run == HEAVY for lane in lanes])
        return ~is_heavy[:, None] | heavy[None, :]

    def placed(self, *, plate_near: bool, wet: bool) -> RibModel:
        """The same ribs with the fill compacted in another way."""
        return replace(self, placing=Placing(plate_near=plate_near, wet=wet))
