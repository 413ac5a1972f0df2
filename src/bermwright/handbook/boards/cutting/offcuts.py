"""Among plans that use the same boards: shorter boards where they do, and rests gathered into long ones."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.boards.cutting.sequential import Ways

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.handbook.boards.cutting.whole import WholeLists

    Whole = NDArray[np.int64]

MOST_SWEEPS = 4
"""Rounds of moving pieces; later ones find nothing."""
SMALL_PLAN = 400
"""Plans with more boards are left as they are: nobody sorts so many rests."""


@dataclass(slots=True)
class Open:
    """One stretch that is cut into."""

    kind: int
    counts: Whole
    rest: int


def tidied(whole: WholeLists, ways: Ways) -> Ways:
    """A plan of no greater cost whose rests lie in fewer, longer offcuts."""
    boards = _opened(whole, ways)
    free = whole.stock - np.bincount(ways.kinds, weights=ways.times, minlength=whole.stock.size).astype(int)
    if len(boards) <= SMALL_PLAN:
        for _ in range(MOST_SWEEPS):
            if not _gather(whole, boards):
                break
    for board in boards:
        _into_cheapest(whole, board, free)
    return _closed(whole, [board for board in boards if board.counts.any()])


def _opened(whole: WholeLists, ways: Ways) -> list[Open]:
    return [
        Open(kind, counts.copy(), int(whole.lists.room[kind] - counts @ whole.lists.need))
        for kind, counts, times in zip(ways.kinds.tolist(), ways.cuts, ways.times.tolist(), strict=True)
        for _ in range(times)
    ]


def _gather(whole: WholeLists, boards: list[Open]) -> bool:
    """Move pieces off the board with the longest rest onto others; whether any moved."""
    moved = False
    for giver in sorted(boards, key=lambda board: -board.rest):
        for piece in np.flatnonzero(giver.counts).tolist():
            while giver.counts[piece] and _move(whole, boards, giver, piece):
                moved = True
    return moved


def _move(whole: WholeLists, boards: list[Open], giver: Open, piece: int) -> bool:
    """Move one piece to the tightest board that takes it and has the shorter rest."""
    need = int(whole.lists.need[piece])
    takers = [
        board
        for board in boards
        if board is not giver and need <= board.rest <= giver.rest and whole.fits[board.kind, piece]
    ]
    if not takers:
        return False
    taker = min(takers, key=lambda board: board.rest)
    taker.counts[piece] += 1
    taker.rest -= need
    giver.counts[piece] -= 1
    giver.rest += need
    return True


def _into_cheapest(whole: WholeLists, board: Open, free: Whole) -> None:
    """Take the cheapest free stretch that holds the same pieces."""
    need = int(board.counts @ whole.lists.need)
    lists = whole.lists
    fits = whole.fits[:, board.counts > 0].all(axis=1) & (lists.room >= need) & (free > 0)
    fits &= lists.cost < lists.cost[board.kind]
    if fits.any():
        new = int(np.flatnonzero(fits)[np.argmin(lists.cost[fits])])
        free[board.kind] += 1
        free[new] -= 1
        board.kind = new


def _closed(whole: WholeLists, boards: list[Open]) -> Ways:
    """Boards cut alike stand together, long and full ones first."""
    lines: dict[tuple[int, tuple[int, ...]], int] = {}
    for board in boards:
        key = (board.kind, tuple(board.counts.tolist()))
        lines[key] = lines.get(key, 0) + 1
    order = sorted(lines, key=lambda key: (-whole.lists.cost[key[0]], -key[0], key[1]))
    return Ways(
        kinds=np.array([kind for kind, _ in order], dtype=np.int64),
        cuts=np.array([counts for _, counts in order], dtype=np.int64).reshape(-1, whole.demand.size),
        times=np.array([lines[key] for key in order], dtype=np.int64),
    )
