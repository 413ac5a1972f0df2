"""A long evening at the desk: what stays in memory does not grow with the edits."""

from __future__ import annotations

import gc
import tracemalloc

from bermwright.app.desk import history

FIRST, MORE = 8, 16


def test_memory_does_not_grow_with_edits(bench, monkeypatch) -> None:
    monkeypatch.setattr(history, "MOST_REVISIONS", 6)
    with bench.window() as window:

        def edit(count):
            for number in range(count):
                value = f"{1.4 + 0.01 * (number % 10):.2f} m"
                window.ask("edit", "revision", changes=[["vault.0.rise", value]], label="rise")
                window.heard.clear()

        tracemalloc.start()
        try:
            edit(FIRST)
            before = _held()
            edit(MORE)
            after = _held()
        finally:
            tracemalloc.stop()
    assert after - before < 0.05 * before + 200_000


def _held() -> int:
    gc.collect()
    return tracemalloc.get_traced_memory()[0]
