"""Keeping what a compiled library prints out of the answer."""

from __future__ import annotations

import os
import sys
from contextlib import contextmanager, suppress
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

OUT = 1
"""The file descriptor that compiled code prints to."""


@contextmanager
def hushed() -> Iterator[None]:
    """Nothing reaches the standard output meanwhile; a solver of whole numbers prints there unasked."""
    with suppress(OSError, ValueError):  # a stream that is no file cannot be closed, and needs not
        sys.stdout.flush()
    kept = os.dup(OUT)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, OUT)
        yield
    finally:
        os.dup2(kept, OUT)
        os.close(kept)
        os.close(nowhere)
