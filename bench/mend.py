"""How long a person waits for what would make a failing house hold.

    .venv/bin/python bench/mend.py

The process is timed from outside with a warm kernel cache; the least of two counts, as other programs on the
machine only ever add.
"""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

from measure import as_installed, leave, line

HOUSE = Path(__file__).resolve().parent.parent / "examples" / "kettle-hill.toml"


def process(*options: str) -> float:
    """Least time of two of the whole command, after one that warms the caches (s)."""
    taken = []
    for _ in range(3):
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "bermwright", "mend", HOUSE, *options],
            env=as_installed(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            check=False,
        )
        taken.append(time.perf_counter() - start)
    return min(taken[1:])


def main() -> None:
    """Measure and compare with the gate."""
    met = [
        line("mend kettle-hill, the first failing finding", process(), "s", gate=20.0),
        line("mend kettle-hill, its flue", process("--finding", "flue-ends-over-the-snow"), "s"),
    ]
    leave(met)


if __name__ == "__main__":
    main()
