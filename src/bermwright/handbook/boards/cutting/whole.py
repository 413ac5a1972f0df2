"""The lists in whole saw steps: pieces rounded up, boards down, so that no plan is too tight."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.boards.cutting.kernel import Lists

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from bermwright.handbook.boards.cutting.nouns import Stretch, Wanted

    Whole = NDArray[np.int64]
    Floats = NDArray[np.float64]

STEPS = (1e-3, 5e-4, 1e-4)
"""Lengths are counted in the coarsest of these that gives the saw cut exactly (m)."""
FINE = 1e-3
"""Widths count in this, so that faces come out as whole numbers (m)."""
HAIR = 1e-6
"""Share of a step that rounding may take."""


@dataclass(frozen=True, kw_only=True)
class WholeLists:
    """Pieces and stretches counted in steps."""

    step: float
    """m."""
    lists: Lists
    demand: Whole
    stock: Whole
    """How many of each stretch there are; enough for everything where no number was given."""
    open_ended: NDArray[np.bool_]
    """Whether a stretch is had in any number."""
    order: tuple[int, ...]
    """For each stretch its place in the stock given."""
    cut: int
    """The saw cut in steps."""

    @cached_property
    def fits(self) -> NDArray[np.bool_]:
        """(n, m) whether a piece goes into a stretch."""
        lists = self.lists
        return np.asarray(lists.takes[lists.group] & (lists.need[None, :] <= lists.room[:, None]))

    def rounded_up(self, bound: float) -> float:
        """A bound raised to the next sum that boards of these costs can have."""
        whole = np.rint(self.lists.cost).astype(np.int64)
        if not np.allclose(whole, self.lists.cost, rtol=0.0, atol=1e-9):
            return bound
        unit = int(np.gcd.reduce(whole))
        return float(unit * math.ceil(bound / unit)) if unit else bound


def in_steps(wanted: Sequence[Wanted], stock: Sequence[Stretch], kerf: float) -> WholeLists:
    """Count everything in steps, stretches ordered by width and length."""
    step = _step(kerf)
    cut = round(kerf / step)
    order = sorted(range(len(stock)), key=lambda place: (stock[place].width, stock[place].length, place))
    widths = sorted({one.width for one in stock})
    need = np.array([math.ceil(one.length / step - HAIR) + cut for one in wanted], dtype=np.int64)
    room = np.array([math.floor(stock[at].length / step + HAIR) + cut for at in order], dtype=np.int64)
    wide = np.array([stock[at].width for at in order]) / FINE
    demand = np.array([one.count for one in wanted], dtype=np.int64)
    takes = np.array([[one.width <= width + HAIR * step for one in wanted] for width in widths])
    return WholeLists(
        step=step,
        lists=Lists(
            need=need,
            area=need * np.array([one.width for one in wanted]) / FINE,
            room=room,
            cost=(room - cut) * wide,
            group=np.array([widths.index(stock[at].width) for at in order], dtype=np.int64),
            takes=takes.reshape(len(widths), len(wanted)),
        ),
        demand=demand,
        stock=np.array([_number(stock[at].count, demand) for at in order], dtype=np.int64),
        open_ended=np.array([stock[at].count is None for at in order]),
        order=tuple(order),
        cut=cut,
    )


def _number(count: int | None, demand: Whole) -> int:
    return int(demand.sum()) if count is None else count


def _step(kerf: float) -> float:
    for step in STEPS:
        if abs(kerf / step - round(kerf / step)) < HAIR:
            return step
    raise OutOfRangeError(
        f"The saw cut of {kerf * 1e3:g} mm is finer than saws are set. Give it in tenths of a millimetre."
    )
