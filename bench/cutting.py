"""How near to the certified bound a cutting plan comes, how soon, and what a general solver does meanwhile.

Four kinds of lists, drawn with a fixed seed: many lengths from salvaged boards, five and twelve lengths from
salvaged boards, and the same from a shop's standard lengths. The general solver is scipy's `milp` (HiGHS) on
the plain model: how many of each piece come out of each board, and whether a board is used. It is stopped
after some seconds, in which it does not finish; what it has found by then is compared.
"""

from __future__ import annotations

import sys
import time
from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.boards import Stretch, Wanted, best_cutting
from measure import leave, line

if TYPE_CHECKING:
    from bermwright.handbook.boards import CuttingPlan

KERF = 0.003
STOP = 10.0
"""Seconds that the general solver is given for each list."""
SHOP = (3.0, 3.6, 4.2, 4.8, 5.4)
GATE, SECONDS = 0.1, 2.0

Case = tuple[list[Wanted], list[Stretch]]


def wanted(seed: int, kinds: int, lengths: tuple[float, float], metres: float) -> list[Wanted]:
    """A list of pieces of so many lengths, in all so many metres."""
    dice = np.random.default_rng(seed)  # noqa: TID251  (a bench draws its own lists)
    found = np.unique(np.round(dice.uniform(*lengths, kinds), 3))
    counts = np.zeros(found.size, dtype=int)
    total = 0.0
    while total < metres:
        place = int(dice.integers(found.size))
        counts[place] += 1
        total += float(found[place]) + KERF
    return [Wanted(length=float(a), count=int(b)) for a, b in zip(found, counts, strict=True) if b]


def salvaged(seed: int, boards: int) -> list[Stretch]:
    """Boards of 1.8 to 6 m, hardly two alike."""
    dice = np.random.default_rng(seed + 1000)  # noqa: TID251  (the same lists each time)
    lengths, counts = np.unique(np.round(dice.uniform(1.8, 6.0, boards), 3), return_counts=True)
    return [Stretch(length=float(a), count=int(b)) for a, b in zip(lengths, counts, strict=True)]


def cases() -> dict[str, Case]:
    """The lists."""
    shop = [Stretch(length=length) for length in SHOP]
    found: dict[str, Case] = {
        f"39 lengths, 150 salvaged boards, seed {seed}": (
            wanted(seed, 39, (0.45, 2.4), 320.0),
            salvaged(seed, 150),
        )
        for seed in range(4)
    }
    found["5 lengths, 367 salvaged boards"] = (wanted(11, 5, (0.9, 2.3), 860.0), salvaged(11, 367))
    found["12 lengths, 356 salvaged boards"] = (wanted(12, 12, (0.9, 2.3), 830.0), salvaged(12, 356))
    found["5 lengths, shop boards"] = (wanted(13, 5, (0.9, 2.3), 600.0), shop)
    found["12 lengths, shop boards"] = (wanted(14, 12, (0.9, 2.3), 600.0), shop)
    return found


def general(pieces: list[Wanted], stock: list[Stretch]) -> float | None:
    """Metres used by the plain model after `STOP` seconds; None where it has found nothing."""
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import lil_array

    least = sum(one.length * one.count for one in pieces)
    boards = [
        one.length
        for one in stock
        for _ in range(one.count or round(1.2 * least / len(stock) / one.length) + 2)
    ]
    kinds, count = len(pieces), len(boards)
    variables = count * (kinds + 1)
    rows = lil_array((kinds + count, variables))
    for board, length in enumerate(boards):
        for kind, piece in enumerate(pieces):
            rows[kind, board * kinds + kind] = 1.0
            rows[kinds + board, board * kinds + kind] = piece.length + KERF
        rows[kinds + board, count * kinds + board] = -(length + KERF)
    low = [*(float(one.count) for one in pieces), *([-np.inf] * count)]
    high = [*([np.inf] * kinds), *([0.0] * count)]
    upper = np.concatenate([np.tile([one.count for one in pieces], count), np.ones(count)])
    solved = milp(
        np.concatenate([np.zeros(count * kinds), boards]),
        constraints=LinearConstraint(rows.tocsr(), low, high),
        integrality=np.ones(variables),
        bounds=Bounds(0, upper),
        options={"time_limit": STOP},
    )
    return None if solved.x is None else float(solved.fun)


def timed(pieces: list[Wanted], stock: list[Stretch]) -> tuple[CuttingPlan, float, float]:
    """The plan, and the medians of three runs: processor time and time on the clock."""
    worked, waited = [], []
    for _ in range(3):
        worked.append(time.process_time())
        waited.append(time.perf_counter())
        plan = best_cutting(pieces, stock, kerf=KERF)
        worked[-1] = time.process_time() - worked[-1]
        waited[-1] = time.perf_counter() - waited[-1]
    return plan, sorted(worked)[1], sorted(waited)[1]


def main() -> None:
    """Print every list with both."""
    quick = "--quick" in sys.argv
    best_cutting([Wanted(length=0.6, count=8)], [Stretch(length=3.0)], kerf=KERF)
    met = []
    for name, (pieces, stock) in cases().items():
        plan, seconds, clock = timed(pieces, stock)
        excess = 100.0 * (plan.excess if plan.excess is not None else float("nan"))
        met.append(line(f"{name}: above the certified bound", excess, "%", gate=GATE))
        met.append(line(f"{name}: processor time ({plan.found_by})", seconds, "s", gate=SECONDS))
        line(f"{name}: on the clock, other programs included", clock, "s")
        if quick:
            continue
        used = general(pieces, stock)
        if used is None or not plan.bound:
            print(f"{name}: the general solver found nothing in {STOP:.0f} s")
            continue
        theirs = 100.0 * (used / plan.bound - 1.0)
        line(f"{name}: scipy milp after {STOP:.0f} s, above the bound", theirs, "%")
        line(f"{name}: its excess over ours", theirs / max(excess, 1e-3), "×")
    leave(met)


if __name__ == "__main__":
    main()
