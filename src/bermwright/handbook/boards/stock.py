"""Pieces out of boards of one stock length, with the width of the saw cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array

WIDEST_KERF = 0.02
"""m; the widest saws cut 10 mm."""
SLACK = 1e-9
"""m; rounding of sums of lengths, far below any saw."""


def pieces_per_board(board: Number, piece: Number, *, kerf: Number) -> Array:
    """Equal pieces out of one board; the last cut may fall on the board's end.

    n = ⌊(L + k)/(p + k)⌋

    Parameters
    ----------
    board : float or array
        Length of the board, L [m], from 0.
    piece : float or array
        Length of a piece, p [m], above 0.
    kerf : float or array
        Width of the saw cut, k [m], from 0 to 0.02.

    Returns
    -------
    float or array
        Number of pieces, n [-].

    References
    ----------
    [JOHNSON1974] : one-dimensional cutting; the count is elementary.

    Examples
    --------
    >>> int(pieces_per_board(3.0, 0.6, kerf=0.003))
    4
    """
    within("length of the board", board, 0.0, unit="m")
    within("length of a piece", piece, 0.0, unit="m", open_low=True)
    within("kerf", kerf, 0.0, WIDEST_KERF, unit="m")
    cut = np.asarray(kerf, dtype=float)
    return np.asarray(np.floor((np.asarray(board, dtype=float) + cut + SLACK) / (piece + cut)))


def first_fit(pieces: Sequence[float], *, board: float, kerf: float) -> tuple[tuple[int, ...], ...]:
    """Pieces laid into boards, longest first, each into the first board that still has room.

    rest of a board = L + k − Σ(p_i + k)

    Parameters
    ----------
    pieces : array
        Lengths of the pieces, p [m], above 0, none longer than the board.
    board : float
        Length of every board, L [m], above 0.
    kerf : float
        Width of the saw cut, k [m], from 0 to 0.02.

    Returns
    -------
    tuple
        For each board the places of its pieces in `pieces`, in order of cutting [-].

    Notes
    -----
    Quick and never worse than 11/9 of the least number of boards, plus one; a true cutting plan often
    saves a few boards more.

    References
    ----------
    [JOHNSON1974] : first fit decreasing.
    """
    within("length of the board", board, 0.0, unit="m", open_low=True)
    within("kerf", kerf, 0.0, WIDEST_KERF, unit="m")
    within("length of a piece", np.array(pieces, dtype=float), 0.0, board + SLACK, unit="m", open_low=True)
    boards: list[list[int]] = []
    rests: list[float] = []
    for index in sorted(range(len(pieces)), key=lambda place: (-pieces[place], place)):
        need = pieces[index] + kerf
        slot = next((place for place, rest in enumerate(rests) if rest + SLACK >= need), None)
        if slot is None:
            boards.append([index])
            rests.append(board + kerf - need)
        else:
            boards[slot].append(index)
            rests[slot] -= need
    return tuple(tuple(cut) for cut in boards)
