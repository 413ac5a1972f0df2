"""Chance without chance: numbers that look scattered and are the same on every run.

Each is a pure function of its keys (the row and place of a stroke on the sheet), so a hatch neither
moves nor changes when the area it fills grows.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_MASK = (1 << 64) - 1
_STEP, _ADDED = np.uint64(0x9E3779B97F4A7C15), np.uint64(0x632BE59BD9B4E019)
_FIRST, _SECOND = np.uint64(0xBF58476D1CE4E5B9), np.uint64(0x94D049BB133111EB)
_27, _30, _31 = np.uint64(27), np.uint64(30), np.uint64(31)


@lru_cache(maxsize=1 << 17)
def chance(*keys: int) -> float:
    """A number from 0 up to 1 that depends on the keys alone (the splitmix64 finaliser).

    Areas of one sheet, and sheets of one set, ask for the same strokes again and again.
    """
    state = 0x1F2E3D4C5B6A7988
    for key in keys:
        state = (state + (key & _MASK) * 0x9E3779B97F4A7C15 + 0x632BE59BD9B4E019) & _MASK
        state = ((state ^ (state >> 30)) * 0xBF58476D1CE4E5B9) & _MASK
        state = ((state ^ (state >> 27)) * 0x94D049BB133111EB) & _MASK
        state ^= state >> 31
    return state / (_MASK + 1)


def chances(rows: Sequence[int], columns: Sequence[int], key: int) -> Array:
    """(R, C) the same numbers as `chance(row, column, key)`, a whole field of them at once.

    >>> bool(chances([3], [-7], 17)[0, 0] == chance(3, -7, 17))
    True
    """
    state = np.full((len(rows), len(columns)), 0x1F2E3D4C5B6A7988, dtype=np.uint64)
    for keys in (np.array(rows)[:, None], np.array(columns)[None, :], np.array([[key]])):
        state = state + keys.astype(np.int64).view(np.uint64) * _STEP + _ADDED
        state = (state ^ (state >> _30)) * _FIRST
        state = (state ^ (state >> _27)) * _SECOND
        state = state ^ (state >> _31)
    return np.asarray(state.astype(np.float64) / (_MASK + 1))


def spread(low: float, high: float, *keys: int) -> float:
    """A number between `low` and `high` that depends on the keys alone."""
    return low + (high - low) * chance(*keys)


def spreads(low: float, high: float, rows: Sequence[int], columns: Sequence[int], key: int) -> Array:
    """(R, C) the same numbers as `spread(low, high, row, column, key)`."""
    return low + (high - low) * chances(rows, columns, key)
