"""The best cutting plan that two different searches find, and how much every plan needs at least."""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.boards.cutting.columns import grow, in_whole_numbers
from bermwright.handbook.boards.cutting.nouns import Cut, CuttingPlan
from bermwright.handbook.boards.cutting.offcuts import tidied
from bermwright.handbook.boards.cutting.sequential import TRIES, Ways, one_try, tries
from bermwright.handbook.boards.cutting.whole import FINE, in_steps
from bermwright.handbook.boards.stock import WIDEST_KERF

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from bermwright.handbook.boards.cutting.nouns import Stretch, Wanted
    from bermwright.handbook.boards.cutting.whole import WholeLists

ENOUGH_TOLERANCE = 3e-4
"""Share above the bound at which the search ends: 12 mm in ten boards of 4 m."""
GOAL_TOLERANCE = 1e-5
"""Share below the best plan at which the bound is not raised any further."""
FIRST_TRIES = 6
"""Plans board by board before the bound is computed."""
NEAR_TOLERANCE = 2e-3
"""Share above the bound up to which more plans board by board are worth trying."""
BOARD_BY_BOARD, ALL_AT_ONCE = "board by board", "all boards at once"


def _silent(_step: str) -> None:
    """Nobody looks."""


def best_cutting(
    wanted: Sequence[Wanted],
    stock: Sequence[Stretch],
    *,
    kerf: float,
    progress: Callable[[str], None] = _silent,
) -> CuttingPlan:
    """Pieces laid into boards of many lengths and widths, with the certified least of any plan.

    least Σ L_j·W_j·x_j so that Σ a_ij·x_j ≥ d_i and Σ x_j ≤ stock, with Σ_i a_ij·(l_i + k) ≤ L_j + k;
    bound: Σ π_i·d_i − Σ_j stock_j·max(0, max_a Σ π_i·a_i − L_j·W_j) for the worths π of the linear programme

    Parameters
    ----------
    wanted : sequence of Wanted
        Pieces by length and width [m], and how many.
    stock : sequence of Stretch
        Clear stretches of board by length and width [m], and how many.
    kerf : float
        Width of the saw cut, k [m], from 0 to 0.02.
    progress : callable
        Told what is being done.

    Returns
    -------
    CuttingPlan
        Cuts, pieces that found no board, what is used [m2, or m where widths are 1] and the bound.

    Notes
    -----
    In one dimension: only lengths are laid out, each piece in a board at least as wide as itself, so that
    a wide board for a narrow piece costs its whole width. Two searches are run: board by board, each
    filled by dynamic programming, and all boards at once by column generation with whole numbers at the
    end; the better plan is given. Lengths count in whole steps, pieces rounded up and boards down.
    Among plans that use the same boards the one with the longer rests is given. The same lists give the
    same plan on every machine with the same libraries.

    References
    ----------
    [GILMOREGOMORY1961] : ways of cutting priced by a knapsack.
    [FARLEY1990] : a bound from prices that are not yet the last ones.

    Examples
    --------
    >>> from bermwright.handbook.boards import Stretch, Wanted
    >>> plan = best_cutting([Wanted(length=0.6, count=8)], [Stretch(length=3.0)], kerf=0.003)
    >>> plan.stretches, plan.used, plan.bound
    (2, 6.0, 6.0)
    """
    whole, places = _counted(wanted, stock, kerf)
    if whole is None:
        return _nothing(wanted)
    ways, bound, found_by = _search(whole, progress)
    return _plan(whole, tidied(whole, ways), bound, found_by, places)


def cut_board_by_board(
    wanted: Sequence[Wanted], stock: Sequence[Stretch], *, kerf: float, number: int = 0, tidy: bool = False
) -> CuttingPlan:
    """One plan board by board: always the board that is used best, filled as well as the list allows.

    Each time the greatest Σ v_i·a_i with Σ a_i·(l_i + k) ≤ L + k is laid; of all boards that one is cut
    whose filled share is the greatest; the way is repeated for half of what list and stock allow.

    Parameters
    ----------
    wanted : sequence of Wanted
        Pieces by length and width [m], and how many.
    stock : sequence of Stretch
        Clear stretches of board by length and width [m], and how many.
    kerf : float
        Width of the saw cut, k [m], from 0 to 0.02.
    number : int
        Number of the try, from 0 to 23; each counts long pieces in another way (see `leaned_areas`).
    tidy : bool
        Whether pieces are then moved from boards with long rests to the tightest that take them, and
        boards changed for cheaper ones that hold the same.

    Returns
    -------
    CuttingPlan
        The plan as it was found; without a bound.

    References
    ----------
    [GILMOREGOMORY1961] : ways of cutting priced by a knapsack.
    """
    if not 0 <= number < TRIES:
        raise OutOfRangeError(f"Tries are numbered from 0 to {TRIES - 1}; {number} is none of them.")
    whole, places = _counted(wanted, stock, kerf)
    if whole is None:
        return _nothing(wanted)
    ways = one_try(whole, number)
    return _plan(whole, tidied(whole, ways) if tidy else ways, None, BOARD_BY_BOARD, places)


def cut_all_at_once(
    wanted: Sequence[Wanted], stock: Sequence[Stretch], *, kerf: float, below: float = np.inf
) -> CuttingPlan:
    """The best plan of whole boards made of the ways that the linear programme grew, and its bound.

    Where `below` is given, all ways that a plan of less material may hold are put to it:
    those with L_j·W_j + max(0, max_a Σ π_i·a_i − L_j·W_j) − Σ π_i·a_i ≤ below − bound.

    Parameters
    ----------
    wanted : sequence of Wanted
        Pieces by length and width [m], and how many.
    stock : sequence of Stretch
        Clear stretches of board by length and width [m], and how many.
    kerf : float
        Width of the saw cut, k [m], from 0 to 0.02.
    below : float
        Material of a plan at hand [m2, or m where widths are 1]; only better ones are looked for.

    Returns
    -------
    CuttingPlan
        The plan as it was found, and the bound.

    References
    ----------
    [GILMOREGOMORY1961] : ways of cutting priced by a knapsack.
    [FARLEY1990] : a bound from prices that are not yet the last ones.
    """
    whole, places = _counted(wanted, stock, kerf)
    if whole is None or np.isnan(below):
        return _nothing(wanted)
    limit = below / (whole.step * FINE)
    pool, bound = grow(whole, [], limit, limit)
    ways = in_whole_numbers(whole, pool) if pool.kinds else None
    return _nothing(wanted) if ways is None else _plan(whole, ways, bound, ALL_AT_ONCE, places)


def _counted(
    wanted: Sequence[Wanted], stock: Sequence[Stretch], kerf: float
) -> tuple[WholeLists | None, tuple[list[int], int]]:
    """The lists in whole steps, or None where no piece fits; places of the pieces that are asked for."""
    _check(wanted, stock, kerf)
    asked = [place for place, one in enumerate(wanted) if one.count > 0]
    whole = in_steps([wanted[place] for place in asked], stock, kerf) if asked and stock else None
    fits = whole is not None and whole.fits[whole.stock > 0].any()
    return whole if fits else None, (asked, len(wanted))


def _nothing(wanted: Sequence[Wanted]) -> CuttingPlan:
    missing = tuple(one.count for one in wanted)
    return CuttingPlan(cuts=(), missing=missing, used=0.0, bound=None, found_by=BOARD_BY_BOARD)


def _check(wanted: Sequence[Wanted], stock: Sequence[Stretch], kerf: float) -> None:
    within("kerf", kerf, 0.0, WIDEST_KERF, unit="m")
    for name, lines in (("a piece", wanted), ("a board", stock)):
        low = name == "a piece"
        within(f"length of {name}", np.array([one.length for one in lines]), 0.0, unit="m", open_low=low)
        within(f"width of {name}", np.array([one.width for one in lines]), 0.0, unit="m", open_low=True)
        if any(one.count is not None and one.count < 0 for one in lines):
            raise OutOfRangeError(f"There cannot be less than none of {name}.")


def _search(whole: WholeLists, progress: Callable[[str], None]) -> tuple[Ways, float, str]:
    """The better plan of the two, the bound, and which way found it."""
    progress("laying pieces into boards, one board after the other")
    more = tries(whole)
    found = list(islice(more, FIRST_TRIES))
    progress("laying all boards at once")
    best = _best(whole, found)
    limit = np.inf if best.missing(whole).any() else best.cost(whole)
    goal_tolerance = 1.0 + GOAL_TOLERANCE
    pool, grown = grow(whole, found, limit / goal_tolerance, limit)
    bound = whole.rounded_up(grown)
    for ways in more if _within(whole, _best(whole, found), bound, NEAR_TOLERANCE) else ():
        if _good(whole, _best(whole, found), bound):
            break
        found.append(ways)
    best = _best(whole, found)
    if _good(whole, best, bound):
        return best, bound, BOARD_BY_BOARD
    progress("looking for whole boards")
    together = in_whole_numbers(whole, pool)
    if together is not None and together.judged(whole) < best.judged(whole):
        return together, bound, ALL_AT_ONCE
    return best, bound, BOARD_BY_BOARD


def _best(whole: WholeLists, found: list[Ways]) -> Ways:
    return min(found, key=lambda ways: ways.judged(whole))


def _good(whole: WholeLists, ways: Ways, bound: float) -> bool:
    """Whether every piece has its board and no saw could tell the plan from the best one."""
    return _within(whole, ways, bound, ENOUGH_TOLERANCE)


def _within(whole: WholeLists, ways: Ways, bound: float, share: float) -> bool:
    return ways.cost(whole) <= bound * (1.0 + share) and not ways.missing(whole).any()


def _plan(
    whole: WholeLists, ways: Ways, bound: float | None, found_by: str, places: tuple[list[int], int]
) -> CuttingPlan:
    asked, count = places
    lists = whole.lists
    missing = [0] * count
    for place, number in zip(asked, ways.missing(whole).tolist(), strict=True):
        missing[place] = number
    longest_first = sorted(range(len(asked)), key=lambda at: (-int(lists.need[at]), at))
    cuts = tuple(
        Cut(
            stretch=whole.order[kind],
            times=times,
            pieces=tuple(asked[at] for at in longest_first for _ in range(int(counts[at]))),
            rest=max(0, int(lists.room[kind] - counts @ lists.need) - whole.cut) * whole.step,
        )
        for kind, counts, times in zip(ways.kinds.tolist(), ways.cuts, ways.times.tolist(), strict=True)
    )
    unit = whole.step * FINE
    used = ways.cost(whole)
    return CuttingPlan(
        cuts=cuts,
        missing=tuple(missing),
        used=used * unit,
        bound=None if bound is None or any(missing) else float(bound * unit),
        found_by=found_by,
    )
