"""The one way in which a kernel of this folder is compiled."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

import numba

if TYPE_CHECKING:
    from collections.abc import Callable

Kernel = TypeVar("Kernel", bound="Callable[..., object]")


def compiled(function: Kernel) -> Kernel:
    """Compile on first use and keep the result on disk; other threads may run meanwhile.

    Division by zero gives infinity or NaN as numpy does, and NaN is never optimised away.
    """
    fast: Kernel = numba.njit(cache=True, nogil=True, error_model="numpy")(function)
    return fast
