"""The two ways in which a kernel of this folder is compiled."""

from __future__ import annotations

import hashlib
import pkgutil
from typing import TYPE_CHECKING, TypeVar

import numba

if TYPE_CHECKING:
    from collections.abc import Callable

Kernel = TypeVar("Kernel", bound="Callable[..., object]")

KERNELS = ("band", "compiled", "kernel", "links", "records", "results", "soil_law", "sturm")
"""Modules whose code is compiled into one another, or says how what they hand over is laid out."""


def _stamp() -> str:
    """A number of all these sources together."""
    sources = (pkgutil.get_data(__package__, f"{name}.py") or b"" for name in KERNELS)
    return hashlib.sha256(b"".join(sources)).hexdigest()


STAMP = _stamp()


def compiled(function: Kernel) -> Kernel:
    """Compile a function that only other kernels call, and keep the result on disk.

    Division by zero gives infinity or NaN as numpy does, and NaN is never optimised away. Without the
    wrappers through which Python could call it, compiling takes half the time.
    """
    fast: Kernel = numba.njit(
        cache=True, nogil=True, error_model="numpy", no_cpython_wrapper=True, no_cfunc_wrapper=True
    )(function)
    return _stamped(fast)


def entrance(function: Kernel) -> Kernel:
    """Compile a function that Python calls; other threads may run meanwhile."""
    fast: Kernel = numba.njit(cache=True, nogil=True, error_model="numpy", no_cfunc_wrapper=True)(function)
    return _stamped(fast)


def _stamped(kernel: Kernel) -> Kernel:
    """Make what is kept on disk void as soon as any of the sources changes.

    numba looks at the kernel's own file only, though the code of others is compiled into it: after an
    upgrade that changed one file, the others would run on with what it was before.
    """
    kept = getattr(getattr(kernel, "_cache", None), "_cache_file", None)
    if kept is not None:
        kept._source_stamp = (kept._source_stamp, STAMP)  # noqa: SLF001  (numba has no other way to say it)
    return kernel
