"""Timing for the benches: warm medians, and one line a figure."""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable


def median_seconds(work: Callable[[], object], *, times: int = 7) -> float:
    """Median of some runs after one that is not counted."""
    work()
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def as_installed() -> dict[str, str]:
    """The environment of a child whose modules are compiled once, as an installer leaves them.

    A shell that forbids Python to write bytecode would have every process compile 500 modules first.
    """
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return kept | {"PYTHONPYCACHEPREFIX": str(Path(tempfile.gettempdir()) / "bermwright-bench")}


def line(what: str, value: float, unit: str, *, gate: float | None = None, least: bool = False) -> bool:
    """Print a figure and whether it meets its gate (`least`: the gate is a lower bound)."""
    met = gate is None or (value >= gate if least else value <= gate)
    due = "" if gate is None else f"   gate {'≥' if least else '≤'} {gate:g} {unit}"
    print(f"{what:<62} {value:>10,.4g} {unit:<4}{due}{'' if met else '   NOT MET'}")
    return met


def leave(met: list[bool]) -> None:
    """End with 1 when a gate is not met."""
    sys.exit(0 if all(met) else 1)
