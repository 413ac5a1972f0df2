"""The two ways in which a kernel of this folder is compiled."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

import numba

if TYPE_CHECKING:
    from collections.abc import Callable

Kernel = TypeVar("Kernel", bound="Callable[..., object]")


def compiled(function: Kernel) -> Kernel:
    """Compile a function that only other kernels call, and keep the result on disk.

    Division by zero gives infinity or NaN as numpy does, and NaN is never optimised away. Without the
    wrappers through which Python could call it, compiling takes half the time.
    """
    fast: Kernel = numba.njit(
        cache=True, nogil=True, error_model="numpy", no_cpython_wrapper=True, no_cfunc_wrapper=True
    )(function)
    return fast


def entrance(function: Kernel) -> Kernel:
    """Compile a function that Python calls; other threads may run meanwhile."""
    fast: Kernel = numba.njit(cache=True, nogil=True, error_model="numpy", no_cfunc_wrapper=True)(function)
    return fast
