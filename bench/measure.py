"""Timing for the benches: warm medians, and one line a figure."""

from __future__ import annotations

import statistics
import sys
import time
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


def line(what: str, value: float, unit: str, *, gate: float | None = None, least: bool = False) -> bool:
    """Print a figure and whether it meets its gate (`least`: the gate is a lower bound)."""
    met = gate is None or (value >= gate if least else value <= gate)
    due = "" if gate is None else f"   gate {'≥' if least else '≤'} {gate:g} {unit}"
    print(f"{what:<62} {value:>10,.4g} {unit:<4}{due}{'' if met else '   NOT MET'}")
    return met


def leave(met: list[bool]) -> None:
    """End with 1 when a gate is not met."""
    sys.exit(0 if all(met) else 1)
