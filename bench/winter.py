"""How long a person waits for a year, how much memory it takes, and whether a week follows the hand.

    .venv/bin/python bench/winter.py

The process is timed from outside with warm caches; the least of two counts, as other programs on the machine
only ever add.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from bermwright.adapt.winter.nouns import HOURS
from bermwright.adapt.winter.running import settled
from bermwright.adapt.winter.telling.picture import WEEKS, week_of
from bermwright.adapt.winter.winter import winter_of
from bermwright.app.climate import weather_of
from bermwright.formats.house_file import load
from measure import as_installed, leave, line, median_seconds

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
HOUSES = ("larch-bank", "kettle-hill")
MEGABYTE = 1024.0
"""Kilobytes, as the system counts what a child has held."""


def process(name: str) -> tuple[float, float]:
    """Least time of two of the whole command (s), after one that warms the caches, and its memory (MB)."""
    taken, held = [], 0.0
    for _ in range(3):
        start = time.perf_counter()
        child = subprocess.Popen(
            [sys.executable, "-m", "bermwright", "winter", EXAMPLES / f"{name}.toml"],
            env=as_installed(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        _pid, _status, used = os.wait4(child.pid, 0)
        child.returncode = 0
        taken.append(time.perf_counter() - start)
        held = max(held, used.ru_maxrss / MEGABYTE)
    return min(taken[1:]), held


def within() -> tuple[float, float]:
    """Median of a week's picture, and of one settled year of the room (s)."""
    house = load(EXAMPLES / "larch-bank.toml").house
    with ThreadPoolExecutor(2) as pool:
        year = winter_of(house, house.vaults[0], weather_of(house, EXAMPLES), share=pool.map)
    weeks = iter(range(10**6))
    air = year.room.air()
    return (
        median_seconds(lambda: week_of(year, next(weeks) % WEEKS)),
        median_seconds(lambda: settled(year.bodies, air)),
    )


def main() -> None:
    """Measure and compare with the gates."""
    week, year = within()
    met = [
        line("winter, a week's picture of a solved year", 1e3 * week, "ms", gate=50.0),
        line(f"winter, a settled year of {HOURS} hours in the room", 1e3 * year, "ms"),
    ]
    for name in HOUSES:
        seconds, megabytes = process(name)
        met.append(line(f"winter {name}, the whole process", seconds, "s", gate=5.0))
        met.append(line(f"winter {name}, memory", megabytes, "MB", gate=700.0))
    leave(met)


if __name__ == "__main__":
    main()
