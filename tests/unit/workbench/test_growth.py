"""A long evening at the desk: what stays in memory does not grow with the edits."""

from __future__ import annotations

import gc

from bermwright.app.desk import history
from bermwright.form.shapes import VaultForm
from bermwright.house import House
from bermwright.workbench.table import Page

FIRST, MORE = 6, 12
SHARE = 0.05
"""Most growth of what lives, in number, after the first edits."""


def test_memory_does_not_grow_with_edits(bench, monkeypatch) -> None:
    monkeypatch.setattr(history, "MOST_REVISIONS", 4)
    with bench.window() as window:

        def edit(count):
            for number in range(count):
                value = f"{1.4 + 0.01 * (number % 6):.2f} m"
                window.ask("edit", "revision", changes=[["vault.0.rise", value]], label="rise")
                window.ask("look", "scene")
                window.heard.clear()

        edit(FIRST)
        before, held = _alive(), _held()
        edit(MORE)
        after = _alive()
        # What other tests hold is there before and after.
        assert {
            kind.__name__: count - held[kind] for kind, count in _held().items() if count > held[kind] + 1
        } == {}
    assert after < (1.0 + SHARE) * before


def _alive() -> int:
    gc.collect()
    return len(gc.get_objects())


def _held() -> dict[type, int]:
    return {kind: _count(kind) for kind in (Page, House, VaultForm)}


def _count(kind: type) -> int:
    # By type: a weak proxy that some other test left behind cannot be asked for its class.
    return sum(type(one) is kind for one in gc.get_objects())
