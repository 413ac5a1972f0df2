"""One board after the other, each filled as well as what is left of the list allows; several tries."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.boards.cutting.kernel import board_after_board

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.handbook.boards.cutting.whole import WholeLists

    Whole = NDArray[np.int64]
    Floats = NDArray[np.float64]

TRIES = 24
"""Orders that are tried."""
LEANINGS = (0.0, 0.02, 0.05, 0.1, 0.2, 0.4)
"""How much more a long piece counts than its length, so that it is not left to the end."""
NOISE = 0.5
"""Share by which that leaning is shaken from try to try."""
SHAKE = 0.6180339887498949
"""Golden ratio: its multiples spread evenly, and the same way on every machine."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """Ways of cutting: the stretch of each, its pieces and how often it is cut."""

    kinds: Whole
    """(w,)."""
    cuts: Whole
    """(w, m)."""
    times: Whole
    """(w,)."""

    def cost(self, whole: WholeLists) -> float:
        """Length times width of everything cut into."""
        return float(np.sum(whole.lists.cost[self.kinds] * self.times))

    def missing(self, whole: WholeLists) -> Whole:
        """Pieces that found no board."""
        made = np.sum(self.cuts * self.times[:, None], axis=0)
        return np.asarray(np.maximum(whole.demand - made, 0))

    def judged(self, whole: WholeLists) -> tuple[float, float, float]:
        """Least is best: what is missing, what is used, and less what the longest rest can still give."""
        lists = whole.lists
        missing = float(np.sum(self.missing(whole) * lists.area))
        rest = lists.room[self.kinds] - np.sum(self.cuts * lists.need[None, :], axis=1)
        return missing, self.cost(whole), -float(rest.max(initial=0))


def tries(whole: WholeLists) -> Iterator[Ways]:
    """Plans by different leanings, the plain one first."""
    for number in range(TRIES):
        yield one_try(whole, number)


def one_try(whole: WholeLists, number: int) -> Ways:
    """The plan of one try."""
    value = leaned_areas(whole.lists.area, whole.lists.need, number)
    demand, stock = whole.demand.copy(), whole.stock.copy()
    room = int(demand.sum()) + 1
    kinds, times = np.zeros(room, dtype=np.int64), np.zeros(room, dtype=np.int64)
    cuts = np.zeros((room, demand.size), dtype=np.int64)
    ways = board_after_board(whole.lists, demand, stock, value, kinds, cuts, times)
    return Ways(kinds=kinds[:ways], cuts=cuts[:ways], times=times[:ways])


def leaned_areas(area: Floats, length: Floats | Whole, number: int) -> Floats:
    """What each piece counts in a try: its area, more for long ones, shaken a little after the first round.

    v_i = A_i·(1 + λ·s_i·l_i/max l); s_i = 1 + ν·(2·frac(g·i·(t + 1)) − 1) with ν = 0 in the first round
    and the golden ratio g; the leanings λ follow each other, t counts the rounds

    Parameters
    ----------
    area : array
        Areas of the pieces, A [m2].
    length : array
        Lengths of the pieces, l [m].
    number : int
        Number of the try, from 0.

    Returns
    -------
    array
        Values [m2].

    References
    ----------
    [GILMOREGOMORY1961] : the value of a piece in the knapsack; the leanings are our own.
    """
    lean = LEANINGS[number % len(LEANINGS)]
    turn = number // len(LEANINGS)
    places = np.arange(1, len(length) + 1, dtype=float)
    shaken = 1.0 + (NOISE if turn else 0.0) * (2.0 * np.modf(SHAKE * places * (turn + 1))[0] - 1.0)
    return np.asarray(area * (1.0 + lean * shaken * length / np.max(length)))
