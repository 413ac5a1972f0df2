"""How much of the relief that soil over the crown gives may be counted on.

Soil over the crown presses down what the fill beside it has pushed up. A frame shows too much of that: a
plane continuum gives 0.69 to 0.93 of what the run with springs shows, and 0.46 to 0.86 of a run without.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.stages import StageKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from bermwright.rules.analysis.lanes import Lane
    from bermwright.rules.analysis.states import Situation

    Array = NDArray[np.float64]
    Whole = NDArray[np.int64]

CREDIT_WITH_SPRINGS = 0.7
CREDIT_WITHOUT = 0.45
"""Share of the relief that counts: of the expected run, and of a run whose soil has no spring (-)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Relief:
    """Which situations stand under crown cover, and what they are measured against."""

    covered: Whole
    """(C,) situations of the stages with soil over the crown."""
    own: Whole
    """(C,) the permanent state of each one's stage."""
    filled: int
    """The permanent state with the fill at the crown, before any cover."""
    credit: Array
    """(L, C) share of the relief that counts."""

    def applied(self, moment: Array) -> Array:
        """(L, S, n, 2) bending with the relief cut down where that is worse."""
        cut = moment.copy()
        cut[:, self.covered] = credited(
            moment[:, self.covered],
            filled=moment[:, [self.filled]],
            covered=moment[:, self.own],
            credit=self.credit[:, :, None, None],
        )
        return cut


def credited(moment: Array, *, filled: Array, covered: Array, credit: Array) -> Array:
    """Bending with only a share of the relief that the cover gives, or with all of it: the worse.

    Relief is what the permanent state under cover has less of hogging (outside in tension, negative) than
    the state with the fill at the crown; all arrays broadcast. What is not known stays NaN.
    """
    with np.errstate(invalid="ignore"):
        # The difference of two infinite bendings is not known, which is what NaN says.
        relief = np.where(filled >= 0.0, 0.0, np.maximum(covered - filled, 0.0))
        less = moment - (1.0 - credit) * relief
    return np.where(np.abs(less) <= np.abs(moment), moment, less)


def relief_of(situations: Sequence[Situation], lanes: Sequence[Lane]) -> Relief | None:
    """The relief in a list of situations; None where nothing covers the crown or no fill came before."""
    kinds = [now.stage.kind for now in situations]
    if StageKind.FILL not in kinds or StageKind.COVER not in kinds:
        return None
    first = _first_of_each_stage(situations)
    last_fill = len(kinds) - 1 - kinds[::-1].index(StageKind.FILL)
    under = {StageKind.COVER, StageKind.TURF, StageKind.SETTLED, StageKind.LONG_TERM}
    covered = [i for i, now in enumerate(situations) if now.stage.kind in under and not now.case.before]
    held = np.array([situations[i].case.springs for i in covered])
    springy = np.array([lane.springy for lane in lanes])
    return Relief(
        covered=np.array(covered, dtype=np.int64),
        own=np.array([first[i] for i in covered], dtype=np.int64),
        filled=first[last_fill],
        credit=np.where(springy[:, None] & held[None, :], CREDIT_WITH_SPRINGS, CREDIT_WITHOUT),
    )


def _first_of_each_stage(situations: Sequence[Situation]) -> list[int]:
    """For every situation the first one of its stage, which is its permanent state."""
    first: list[int] = []
    for i, now in enumerate(situations):
        again = i > 0 and situations[i - 1].stage is now.stage
        first.append(first[-1] if again else i)
    return first
