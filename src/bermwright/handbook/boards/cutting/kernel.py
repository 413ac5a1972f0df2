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
    """
    lots, sizes = _lots(need, most, room)
    best = np.zeros(room + 1)
    took = np.zeros((lots.size, room + 1), dtype=np.bool_)
    for lot in range(lots.size):
        long = need[lots[lot]] * sizes[lot]
        worth = value[lots[lot]] * sizes[lot]
        if worth <= 0.0:
            continue
        for place in range(room, long - 1, -1):
            if best[place - long] + worth > best[place] + 1e-12:
                best[place] = best[place - long] + worth
                took[lot, place] = True
    return best, took, lots, sizes


@inner
def _lots(need: Whole, most: Whole, room: int) -> tuple[Whole, Whole]:
    """Each piece in lots whose sums give every number up to its bound."""
    lots, sizes = np.zeros(64 * need.size, dtype=np.int64), np.zeros(64 * need.size, dtype=np.int64)
    count = 0
    for piece in range(need.size):
        left, size = min(most[piece], room // need[piece]), 1
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
                    return -1
                found[ways] = counts
                ways += 1
            counts[at] = -1
        if steps > MOST_STEPS:
            return -1
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
        chosen, ratio = -1, 0.0
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
    best = -1
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
    best, area = np.zeros(room + 1), np.zeros(room + 1)
    taken = np.zeros((need.size, room + 1), dtype=np.bool_)
    for piece in range(need.size):
        if demand[piece] > 0 and lists.takes[group, piece] and need[piece] <= room:
            _lay(need[piece], value[piece], lists.area[piece], demand[piece], best, area, taken[piece])
    chosen, ratio = -1, 0.0
    for kind in range(stock.size):
        if lists.group[kind] == group and stock[kind] > 0:
            share = area[lists.room[kind]] / lists.cost[kind]
            if share > 0.0 and share >= ratio:
                chosen, ratio = kind, share
    counts = np.zeros(need.size, dtype=np.int64)
    if chosen >= 0:
        place = lists.room[chosen]
        for piece in range(need.size - 1, -1, -1):
            while taken[piece, place]:
                counts[piece] += 1
                place -= need[piece]
    return chosen, ratio, counts


@inner
def _longest(lists: Lists, stock: Whole, group: int) -> int:
    """The longest stretch of a group that is left."""
    room = 0
    for kind in range(stock.size):
        if lists.group[kind] == group and stock[kind] > 0:
            room = max(room, lists.room[kind])
    return room


@inner
def _lay(need: int, value: float, area: float, most: int, best: Floats, areas: Floats, taken: Truth) -> None:
    """Offer a piece to every room, as often as it is wanted; how often is counted along the best way only."""
    used = np.zeros(best.size, dtype=np.int64)
    for place in range(need, best.size):
        before = place - need
        if used[before] < most and best[before] + value > best[place] + 1e-12:
            best[place] = best[before] + value
            areas[place] = areas[before] + area
            used[place] = used[before] + 1
            taken[place] = True
