"""How long a person waits for advice on a curve, and how fast one variant of a curve is looked at.

    .venv/bin/python bench/shape.py

The process is timed from outside with a warm kernel cache; the least of two counts, as other programs on the
machine only ever add.
"""

from __future__ import annotations

import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

from bermwright.adapt.shape.envelope import Screen, bending_envelope, ribs_of
from bermwright.formats.house_file import load
from bermwright.house import CurveKind
from measure import as_installed, leave, line, median_seconds

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
HOUSES = ("kettle-hill", "larch-bank")


def process(name: str) -> float:
    """Least time of two of the whole command, after one that warms the caches (s)."""
    taken = []
    for _ in range(3):
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "bermwright", "shape", EXAMPLES / f"{name}.toml"],
            env=as_installed(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            check=False,
        )
        taken.append(time.perf_counter() - start)
    return min(taken[1:])


def variants() -> tuple[float, float]:
    """Median of a quick and of a full look at one variant of a vault (s)."""
    house = load(EXAMPLES / "kettle-hill.toml").house
    vault = replace(house.vaults[0], curve=CurveKind.SEGMENT, rise=2.4, springing=1.5)
    screen = Screen.of(ribs_of(house, vault))
    return (
        median_seconds(lambda: screen.bending(vault)),
        median_seconds(lambda: bending_envelope(house, vault, every_corner=False)),
    )


def main() -> None:
    """Measure and compare with the gates."""
    quick, full = variants()
    met = [
        line("one variant of a curve, quick look", 1e3 * quick, "ms", gate=60.0),
        line("one variant of a curve, all stages and governing corners", 1e3 * full, "ms"),
        *(line(f"shape {name}, the whole process", process(name), "s", gate=10.0) for name in HOUSES),
    ]
    leave(met)


if __name__ == "__main__":
    main()
