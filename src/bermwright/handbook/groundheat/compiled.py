"""The ways in which kernels of this folder are compiled."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

import numba

if TYPE_CHECKING:
    from collections.abc import Callable

Kernel = TypeVar("Kernel", bound="Callable[..., object]")

SUMS = {"reassoc", "contract", "nsz", "arcp"}
"""Sums may be taken in any order, so that they run in lanes; NaN stays NaN."""


def inner(function: Kernel) -> Kernel:
    """Compile a function that only other kernels call."""
    fast: Kernel = numba.njit(cache=True, nogil=True, error_model="numpy", fastmath=SUMS)(function)
    return fast


def entrance(function: Kernel) -> Kernel:
    """Compile a function that Python calls, and keep the result on disk; other threads may run meanwhile."""
    fast: Kernel = numba.njit(
        cache=True, nogil=True, error_model="numpy", fastmath=SUMS, no_cfunc_wrapper=True
    )(function)
    return fast
