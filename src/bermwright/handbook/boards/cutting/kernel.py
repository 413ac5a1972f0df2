"""Filling one board as well as possible, by what every shorter board can hold (compiled).

Lengths are whole numbers: each piece with one saw cut, each board with one too, so that the last cut may
fall on the board's end.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.handbook.boards.cutting.compiled import entrance, inner

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Whole = NDArray[np.int64]
    Floats = NDArray[np.float64]
    Truth = NDArray[np.bool_]


MOST_STEPS = 100_000
"""Ways of one stretch are looked for no longer than this."""
TIE_TOLERANCE = 1e-12
"""Gains below are rounding."""
NONE = -1
"""No board, no piece more, too many ways: less than any number of them."""


class Lists(NamedTuple):
    """Pieces, stretches of board, and which go together."""

    need: Whole
    """(m,) length of each piece with its saw cut."""
    area: Floats
    """(m,) that length times the width of the piece."""
    room: Whole
    """(n,) length of each stretch with one saw cut, in each group from short to long."""
    cost: Floats
    """(n,) length times width of each stretch."""
    group: Whole
    """(n,) group of each stretch: those of one group take the same pieces."""
    takes: Truth
    """(groups, m) which pieces are narrow enough for a group."""


@entrance
def fill_exactly(need: Whole, value: Floats, most: Whole, room: int) -> tuple[Floats, Truth, Whole, Whole]:
    """The greatest value at every room up to `room` with at most `most` of each piece, and how to trace it.

    Each bound is split into lots of 1, 2, 4, ... pieces that are taken or left.

    Parameters
    ----------
    need : array
        Lengths of the pieces, each with one saw cut [steps].
    value : array
        What each piece is worth [-].
    most : array
        The most that is wanted of each [-].
    room : int
        The longest board, with one saw cut [steps].

    Returns
    -------
    tuple
        The greatest value at every room [-], which lots were taken there, and the piece and size of each lot.

    References
    ----------
    [GILMOREGOMORY1961] : ways of cutting priced by a knapsack.
    """
    lots, sizes = _lots(need, most, room)
    best, took = _filled(need, value, lots, sizes, room)
    return best, took, lots, sizes


@inner
def _filled(need: Whole, value: Floats, lots: Whole, sizes: Whole, room: int) -> tuple[Floats, Truth]:
    """The greatest value at every room, and which lots were taken there."""
    best = np.zeros(room + 1)
    took = np.zeros((lots.size, room + 1), dtype=np.bool_)
    for lot in range(lots.size):
        long = need[lots[lot]] * sizes[lot]
        worth = value[lots[lot]] * sizes[lot]
        if worth <= 0.0:
            continue
        for place in range(room, long - 1, -1):
            gain = best[place - long] + worth - best[place]
            if gain > TIE_TOLERANCE:
                best[place] += gain
                took[lot, place] = True
    return best, took


@inner
def _lots(need: Whole, most: Whole, room: int) -> tuple[Whole, Whole]:
    """Each piece in lots whose sums give every number up to its bound."""
    lots, sizes = np.zeros(64 * need.size, dtype=np.int64), np.zeros(64 * need.size, dtype=np.int64)
    count = 0
    for piece in range(need.size):
        left = min(most[piece], room // need[piece])
        size = 1
        while left > 0:
            lots[count], sizes[count] = piece, min(size, left)
            left -= sizes[count]
            size *= 2
            count += 1
    return lots[:count], sizes[:count]


@entrance
def trace(need: Whole, took: Truth, lots: Whole, sizes: Whole, room: int) -> Whole:
    """How many of each piece fill a room best."""
    counts = np.zeros(need.size, dtype=np.int64)
    place = room
    for lot in range(lots.size - 1, -1, -1):
        if took[lot, place]:
            counts[lots[lot]] += sizes[lot]
            place -= need[lots[lot]] * sizes[lot]
    return counts


@entrance
def worth_at_least(
    need: Whole, value: Floats, most: Whole, best: Floats, room: int, least: float, found: Whole
) -> int:
    """Every full way to cut a room whose pieces are worth at least so much; how many, or -1 if too many.

    A way is full when no piece that is still wanted finds room. `best` is the greatest value of every
    room; `found` takes the ways.
    """
    last, ways, steps = need.size - 1, 0, 0
    counts = np.zeros(need.size, dtype=np.int64)
    rest = np.full(need.size + 1, room)
    worth = np.zeros(need.size + 1)
    at = 0
    counts[0] = min(most[0], room // need[0])
    while at >= 0:
        if counts[at] < 0:
            at -= 1
            if at >= 0:
                counts[at] -= 1
            continue
        steps += 1
        rest[at + 1] = rest[at] - counts[at] * need[at]
        worth[at + 1] = worth[at] + counts[at] * value[at]
        if worth[at + 1] + best[rest[at + 1]] < least:
            counts[at] -= 1
        elif at < last:
            at += 1
            counts[at] = min(most[at], rest[at] // need[at])
        else:
            if worth[at + 1] >= least and _is_full(need, most, counts, rest[at + 1]):
                if ways == found.shape[0]:
                    return NONE
                found[ways] = counts
                ways += 1
            counts[at] = NONE
        if steps > MOST_STEPS:
            return NONE
    return ways


@inner
def _is_full(need: Whole, most: Whole, counts: Whole, rest: int) -> bool:
    for piece in range(need.size):  # noqa: SIM110  (compiled code has no generators)
        if counts[piece] < most[piece] and need[piece] <= rest:
            return False
    return True


@entrance
def board_after_board(
    lists: Lists, demand: Whole, stock: Whole, value: Floats, kinds: Whole, cuts: Whole, times: Whole
) -> int:
    """Cut one board after the other, each time the one that wastes the least; how many ways it took.

    `kinds`, `cuts` and `times` take the stretch of each way, its pieces and how often. What is left of
    demand and stock stands in the arrays given.
    """
    groups = lists.takes.shape[0]
    ways = 0
    while ways < kinds.size and demand.sum() > 0:
        chosen, ratio = NONE, 0.0
        pieces = np.zeros(demand.size, dtype=np.int64)
        last = _last_board(lists, demand, stock)
        if last >= 0:
            chosen = last
            pieces[:] = demand
        for group in range(groups if last < 0 else 0):
            kind, found, counts = _best_of_group(lists, demand, stock, value, group)
            if found > ratio:
                chosen, ratio = kind, found
                pieces[:] = counts
        if chosen < 0:
            break
        often = _how_often(pieces, demand, stock[chosen])
        kinds[ways], times[ways] = chosen, often
        cuts[ways] = pieces
        demand -= often * pieces
        stock[chosen] -= often
        ways += 1
    return ways


@inner
def _how_often(pieces: Whole, demand: Whole, stock: int) -> int:
    """Half of what list and stock allow, so that later boards still have a choice."""
    often = stock
    for piece in range(pieces.size):
        if pieces[piece] > 0:
            often = min(often, demand[piece] // pieces[piece])
    return max(1, often // 2)


@inner
def _last_board(lists: Lists, demand: Whole, stock: Whole) -> int:
    """The cheapest stretch that takes everything that is left, or -1."""
    total = (demand * lists.need).sum()
    best = NONE
    for kind in range(stock.size):
        if (
            stock[kind] > 0
            and lists.room[kind] >= total
            and (best < 0 or lists.cost[kind] < lists.cost[best])
        ):
            fits = True
            for piece in range(demand.size):
                if demand[piece] > 0 and not lists.takes[lists.group[kind], piece]:
                    fits = False
            if fits:
                best = kind
    return best


@inner
def _best_of_group(
    lists: Lists, demand: Whole, stock: Whole, value: Floats, group: int
) -> tuple[int, float, Whole]:
    """The stretch of a group that is used best, the share of it that is used, and its pieces."""
    need = lists.need
    room = _longest(lists, stock, group)
    lots, sizes = _lots(need, demand * lists.takes[group], room)
    _, took = _filled(need, value, lots, sizes, room)
    chosen, ratio = NONE, 0.0
    best = np.zeros(need.size, dtype=np.int64)
    for kind in range(stock.size):
        if lists.group[kind] == group and stock[kind] > 0:
            counts = trace(need, took, lots, sizes, lists.room[kind])
            share = (counts * lists.area).sum() / lists.cost[kind]
            if share > 0.0 and share >= ratio:
                chosen, ratio = kind, share
                best[:] = counts
    return chosen, ratio, best


@inner
def _longest(lists: Lists, stock: Whole, group: int) -> int:
    """The longest stretch of a group that is left."""
    room = 0
    for kind in range(stock.size):
        if lists.group[kind] == group and stock[kind] > 0:
            room = max(room, lists.room[kind])
    return room
