"""How long a person waits: `--help`, `check` with and without stop marks, the site book.

    .venv/bin/python bench/check.py

Processes are timed from outside with a warm kernel cache; the least of three counts, as other programs
on the machine only ever add. Peak memory is that of the largest process.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from bermwright.app.assessing import assess_file, threads
from bermwright.app.booking import Wishes, inputs_of
from bermwright.book.pages import site_book
from bermwright.formats.documents import pdf
from bermwright.formats.house_file import load
from bermwright.rules.assess import assess
from measure import as_installed, leave, line

HOUSE = Path(__file__).resolve().parent.parent / "examples" / "larch-bank.toml"


def process(*words: str | Path) -> float:
    """Least time of three of a whole process, after one that warms the caches (s)."""
    taken = []
    for _ in range(4):
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "bermwright", *map(str, words)],
            env=as_installed(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            check=False,
        )
        taken.append(time.perf_counter() - start)
    return min(taken[1:])


def peak_memory(*words: str | Path) -> float:
    """Largest resident size of a process (MB)."""
    child = subprocess.Popen(
        [sys.executable, "-m", "bermwright", *map(str, words)],
        env=as_installed(),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    _, _, used = os.wait4(child.pid, 0)
    child.returncode = 0
    return used.ru_maxrss / (1e6 if sys.platform == "darwin" else 1e3)


def computing() -> tuple[float, float, float]:
    """Least times of the rules alone, everything imported: without stop marks, with them, and the cost (s).

    The cost is what all threads took of the processor, with the stop marks: others on the machine add less.
    """
    house = load(HOUSE).house
    taken: dict[bool, list[float]] = {False: [], True: []}
    cost: list[float] = []
    for _ in range(5):
        for stop_marks, times in taken.items():
            start, began = time.perf_counter(), time.process_time()
            with threads() as pool:
                assess(house, stop_marks=stop_marks, share=pool.map)
            times.append(time.perf_counter() - start)
        cost.append(time.process_time() - began)
    return min(taken[False][1:]), min(taken[True][1:]), min(cost[1:])


def booking() -> float:
    """Least time of three from an assessment to the bytes of its book (s)."""
    assessed, wishes = assess_file(HOUSE), Wishes(date="2026-11-24")
    taken = []
    for _ in range(4):
        start = time.perf_counter()
        pdf(site_book(inputs_of(assessed, wishes, "2026-11-24")), date="2026-11-24")
        taken.append(time.perf_counter() - start)
    return min(taken[1:])


def main() -> None:
    """Measure and compare with the gates."""
    with tempfile.TemporaryDirectory() as folder:
        book = Path(folder) / "book.pdf"
        # First: a child counts as its own what this process had when it began.
        memory = peak_memory("check", HOUSE)
        without, full, cost = computing()
        checked, booked = process("check", HOUSE), process("book", HOUSE, "-o", book)
        met = [
            line("bermwright --help", process("--help"), "s", gate=0.2),
            line("check, computing without stop marks", without, "s", gate=1.0),
            line("check, computing the stop marks", full - without, "s", gate=1.5),
            line("check, computing all of it, cost", cost, "s"),
            line("check, the whole process", checked, "s", gate=3.5),
            line("check, peak memory", memory, "MB", gate=500.0),
            line("book, beyond the assessment", booking(), "s", gate=4.0),
            line("book, the whole process", booked, "s"),
        ]
    leave(met)


if __name__ == "__main__":
    main()
