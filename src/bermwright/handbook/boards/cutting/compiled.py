"""How the kernels of this folder are compiled."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

import numba

if TYPE_CHECKING:
    from collections.abc import Callable

Kernel = TypeVar("Kernel", bound="Callable[..., object]")


def entrance(function: Kernel) -> Kernel:
    """Compile a function that Python calls, and keep the result on disk; other threads may run meanwhile."""
    fast: Kernel = numba.njit(cache=True, nogil=True, error_model="numpy", no_cfunc_wrapper=True)(function)
    return fast


def inner(function: Kernel) -> Kernel:
    """Compile a function that only other kernels call."""
    fast: Kernel = numba.njit(
        cache=True, nogil=True, error_model="numpy", no_cpython_wrapper=True, no_cfunc_wrapper=True
    )(function)
    return fast
