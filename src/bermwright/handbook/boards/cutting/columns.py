"""All ways of cutting at once: a linear programme that grows ways where they pay, then whole numbers.

What the pieces are worth at the end of the linear programme proves how much every plan needs at least.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.boards.cutting.kernel import fill_exactly, trace, worth_at_least
from bermwright.handbook.boards.cutting.sequential import Ways

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.handbook.boards.cutting.whole import WholeLists

    Whole = NDArray[np.int64]
    Floats = NDArray[np.float64]

MOST_ITERATIONS = 60
"""Most rounds of growing; the bound holds at whichever it stops."""
WAYS_A_STEP = 60
"""Best new ways that are added in a round."""
PAYS = 1e-7
"""Share of its cost that a way must save to be added."""
MISSED = 10.0
"""What a missing piece counts, as a multiple of its own board."""
LARGEST_POOL = 500
"""So many ways, the cheapest above their worth, are combined to whole boards."""
NEAR_TOLERANCE = 1e-4
"""Whole numbers are searched until a plan lies within this share of the ways at hand."""
SMALL_POOL = 150
"""With so few ways the search goes on to the very best."""
NODE_LIMIT = 400
"""Most branches of that search; a limit in seconds would give another plan on another day."""


@dataclass(slots=True)
class Pool:
    """The ways found so far, each once."""

    kinds: list[int] = field(default_factory=list)
    cuts: list[Whole] = field(default_factory=list)
    known: set[tuple[int, bytes]] = field(default_factory=set)

    @property
    def left(self) -> int:
        """How many more ways it may take."""
        return LARGEST_POOL - min(len(self.kinds), LARGEST_POOL)

    def without(self, drop: NDArray[np.bool_]) -> Pool:
        """The same ways but for some."""
        kept = np.flatnonzero(~drop).tolist()
        fresh = Pool()
        for at in kept:
            fresh.add(self.kinds[at], self.cuts[at])
        return fresh

    def add(self, kind: int, counts: Whole) -> None:
        """Keep a way that is not known yet."""
        key = (kind, counts.tobytes())
        if key not in self.known:
            self.known.add(key)
            self.kinds.append(kind)
            self.cuts.append(counts)


def grow(whole: WholeLists, seeds: list[Ways], goal: float, costliest: float) -> tuple[Pool, float]:
    """Ways that a plan cheaper than `costliest` may hold, and how much every plan needs at least.

    Ways are added until none pays any more, or until the bound has reached `goal`.
    """
    pool = _first(whole, seeds)
    bound = 0.0
    for _ in range(MOST_ITERATIONS):
        worth, rent = _worth(whole, pool)
        found, least, dear = _priced(whole, worth, rent)
        bound = max(bound, least)
        for _, kind, counts in found[:WAYS_A_STEP]:
            pool.add(kind, counts)
        if not found or bound >= goal:
            break
    cheap = _cheap_ones(whole, pool, (worth, dear), costliest - least)
    _complete(whole, cheap, (worth, dear), costliest - least)
    return cheap, bound


def _first(whole: WholeLists, seeds: list[Ways]) -> Pool:
    """One way for each piece and stretch, and the ways of plans at hand."""
    pool = Pool()
    for kind in range(whole.stock.size):
        for piece in np.flatnonzero(whole.fits[kind]):
            counts = np.zeros(whole.demand.size, dtype=np.int64)
            counts[piece] = min(whole.demand[piece], whole.lists.room[kind] // whole.lists.need[piece])
            pool.add(kind, counts)
    for ways in seeds:
        for kind, counts in zip(ways.kinds.tolist(), ways.cuts, strict=True):
            pool.add(kind, counts.copy())
    return pool


def _cheap_ones(whole: WholeLists, pool: Pool, prices: tuple[Floats, Floats], spare: float) -> Pool:
    """Without the ways that cost more above their worth than a better plan has to spare."""
    worth, dear = prices
    scale = float(whole.lists.cost.max())
    kinds = np.array(pool.kinds)
    above = whole.lists.cost[kinds] / scale - np.array(pool.cuts) @ worth + dear[kinds]
    limit = np.partition(above, LARGEST_POOL)[LARGEST_POOL] if above.size > LARGEST_POOL else np.inf
    return pool.without((above * scale > spare + PAYS) | (above > limit))


def _complete(whole: WholeLists, pool: Pool, prices: tuple[Floats, Floats], spare: float) -> None:
    """Add every other way that a better plan may hold, unless they are too many.

    A plan costs at least the bound and what each of its ways costs above its worth. So the ways that cost
    no more than that above it are all that a better plan can be made of.
    """
    worth, dear = prices
    lists, scale = whole.lists, float(whole.lists.cost.max())
    if not np.isfinite(spare):
        return
    for group in range(lists.takes.shape[0]):
        kinds = np.flatnonzero((lists.group == group) & (whole.stock > 0))
        own = np.flatnonzero(lists.takes[group] & (whole.demand > 0))
        if not kinds.size or not own.size:
            continue
        order = own[np.argsort(-lists.need[own], kind="stable")]
        need, value, most = lists.need[order], worth[order], whole.demand[order]
        best, *_ = fill_exactly(need, value, most, int(lists.room[kinds].max()))
        for kind in kinds.tolist():
            least = float(lists.cost[kind] / scale + dear[kind] - (spare + PAYS) / scale)
            found = ways_worth(
                need, value, most, best=best, room=int(lists.room[kind]), least=least, limit=pool.left
            )
            if found is None:
                return
            for counts in found:
                full = np.zeros(whole.demand.size, dtype=np.int64)
                full[order] = counts
                pool.add(kind, full)


def ways_worth(
    need: Whole, value: Floats, most: Whole, *, best: Floats, room: int, least: float, limit: int
) -> Whole | None:
    """Every full way to cut a board whose pieces are worth at least so much.

    all a ≤ d with Σ a_i·n_i ≤ L, Σ a_i·v_i ≥ v, and no piece still wanted that would find room

    Parameters
    ----------
    need : array
        Lengths of the pieces, each with one saw cut, n [steps].
    value : array
        What each piece is worth, v [-].
    most : array
        The most that is wanted of each, d [-].
    best : array
        The greatest value of every room [-], from `fill_exactly`.
    room : int
        Length of the board with one saw cut, L [steps].
    least : float
        What the pieces must be worth [-].
    limit : int
        The most ways that are of use.

    Returns
    -------
    array or None
        The ways, one a line [-]; None where they are more than the limit or too many to be looked for.

    References
    ----------
    [GILMOREGOMORY1961] : ways of cutting priced by a knapsack.
    """
    within("least worth", least)
    found = np.zeros((limit, need.size), dtype=np.int64)
    ways = worth_at_least(need, value, most, best, room, least, found)
    return None if ways < 0 else found[:ways]


def _worth(whole: WholeLists, pool: Pool) -> tuple[Floats, Floats]:
    """What one more piece of each kind costs, and what one more board of each kind would save."""
    from scipy.optimize import linprog

    rows, costs, bounded = _programme(whole, pool)
    limits = np.concatenate([-whole.demand.astype(float), whole.stock[bounded].astype(float)])
    solved = linprog(costs, A_ub=rows, b_ub=limits, bounds=(0, None), method="highs-ds")
    shadow = np.asarray(solved.ineqlin.marginals)
    worth = np.maximum(-shadow[: whole.demand.size], 0.0)
    rent = np.zeros(whole.stock.size)
    rent[bounded] = -shadow[whole.demand.size :]
    return worth, rent


def _programme(whole: WholeLists, pool: Pool) -> tuple[object, Floats, Whole]:
    """Rows (pieces, then stretches that run out), costs of ways and of missing pieces."""
    from scipy.sparse import csc_array, hstack, vstack

    kinds = np.array(pool.kinds)
    bounded = np.flatnonzero(~whole.open_ended)
    cuts = csc_array(np.array(pool.cuts, dtype=float).T)
    stands = csc_array((kinds[None, :] == bounded[:, None]).astype(float))
    pieces, boards = whole.demand.size, bounded.size
    missed = vstack([-csc_array(np.eye(pieces)), csc_array((boards, pieces))])
    rows = hstack([vstack([-cuts, stands]), missed], format="csc")
    costs = np.concatenate([whole.lists.cost[kinds], MISSED * whole.lists.area])
    return rows, costs / float(whole.lists.cost.max()), bounded


def _priced(
    whole: WholeLists, worth: Floats, rent: Floats
) -> tuple[list[tuple[float, int, Whole]], float, Floats]:
    """New ways that pay, best first; the bound that these worths prove; what a board gains at best."""
    lists, scale = whole.lists, float(whole.lists.cost.max())
    bound = float(whole.demand @ worth)
    found, dear = [], np.zeros(whole.stock.size)
    for group in range(lists.takes.shape[0]):
        kinds = np.flatnonzero((lists.group == group) & (whole.stock > 0))
        if not kinds.size:
            continue
        value = np.where(lists.takes[group], worth, 0.0)
        room = int(lists.room[kinds].max())
        best, took, lots, sizes = fill_exactly(lists.need, value, whole.demand, room)
        for kind in kinds.tolist():
            cost = float(lists.cost[kind]) / scale
            gains = float(best[lists.room[kind]]) - cost
            dear[kind] = max(gains, 0.0)
            bound -= float(whole.stock[kind]) * dear[kind]
            if gains - rent[kind] > PAYS * cost:
                counts = trace(lists.need, took, lots, sizes, int(lists.room[kind]))
                found.append((float(gains - rent[kind]) / cost, kind, counts))
    found.sort(key=lambda way: (-way[0], way[1]))
    return found, bound * scale * (1.0 - 1e-9), dear


def in_whole_numbers(whole: WholeLists, pool: Pool) -> Ways | None:
    """The best plan of whole boards from the ways in the pool; None where none is found in time."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    rows, costs, bounded = _programme(whole, pool)
    limits = np.concatenate([-whole.demand.astype(float), whole.stock[bounded].astype(float)])
    solved = milp(
        costs,
        constraints=LinearConstraint(rows, ub=limits),
        integrality=np.ones(costs.size),
        bounds=Bounds(0, np.inf),
        options={
            "mip_rel_gap": NEAR_TOLERANCE if len(pool.kinds) > SMALL_POOL else 0.0,
            "node_limit": NODE_LIMIT,
        },
    )
    if solved.x is None:
        return None
    times = np.rint(solved.x[: len(pool.kinds)]).astype(np.int64)
    used = np.flatnonzero(times)
    return trimmed(
        whole,
        Ways(kinds=np.array(pool.kinds)[used], cuts=np.array(pool.cuts)[used], times=times[used]),
    )


def trimmed(whole: WholeLists, ways: Ways) -> Ways:
    """The same plan without pieces that nobody wants; a way that loses some stands apart."""
    left = whole.demand.copy()
    lines: list[tuple[int, Whole, int]] = []
    for kind, counts, times in zip(ways.kinds.tolist(), ways.cuts, ways.times.tolist(), strict=True):
        for _ in range(times):
            used = np.minimum(counts, left)
            left -= used
            if not used.any():
                continue
            if lines and lines[-1][0] == kind and np.array_equal(lines[-1][1], used):
                lines[-1] = (kind, used, lines[-1][2] + 1)
            else:
                lines.append((kind, used, 1))
    return Ways(
        kinds=np.array([kind for kind, _, _ in lines], dtype=np.int64),
        cuts=np.array([used for _, used, _ in lines], dtype=np.int64).reshape(-1, whole.demand.size),
        times=np.array([times for _, _, times in lines], dtype=np.int64),
    )
