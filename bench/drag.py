"""How long the workbench takes to draw what a hand drags, and whether it grows over a long evening.

    .venv/bin/python bench/drag.py            # drags, full run
    .venv/bin/python bench/drag.py --growth   # 5,500 edits as well (some ten minutes)

A drag is timed as the server does it: the place of the hand to a value, the house with that value, its
shape, the shown stage and case at the corners that governed the last full run, the sheet, the SVG, and the
message as JSON. Every drag has a value of its own, so that nothing is drawn twice. Times are of the thread
(what it costs) and of the clock (what else runs on the machine is in it).
"""

from __future__ import annotations

import gc
import json
import resource
import shutil
import statistics
import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bermwright.app.desk import Desk
from bermwright.app.live.full import full_run
from bermwright.app.live.handles import grips_of, moved
from bermwright.app.live.kernel import shown_case
from bermwright.app.live.marks import feet_of, marks_of
from bermwright.app.live.nouns import Look
from bermwright.app.live.saying import sentences_of
from bermwright.app.live.scene import HAIR, Easel, draw, wanted_of
from bermwright.book.sheets import scene_of, supports_of
from bermwright.book.sheets.screen import screen_section
from bermwright.formats.drawings import svg
from bermwright.formats.house_file import load
from bermwright.formats.house_file.reading import Trials, parsed
from bermwright.workbench import tasks, wording
from bermwright.workbench.jobs import Workers
from bermwright.workbench.security import Door
from bermwright.workbench.server import application
from bermwright.workbench.table import Table
from measure import leave, line

if TYPE_CHECKING:
    from bermwright.app.live.nouns import Found
    from bermwright.formats.house_file import Opened

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
HOUSES = ("larch-bank", "kettle-hill")
MEDIAN, TAIL, FULL = 35.0, 80.0, 2.5
"""Gates: median and 95th percentile of a drag (ms), and the full run behind it (s)."""
DRAGS = 61
FIRST, MORE, GROWTH = 500, 5000, 5.0
"""Edits that are not counted, edits that are, and most growth of memory over them (%)."""


class Hand:
    """A hand that drags one handle of a house from place to place."""

    def __init__(self, opened: Opened, found: Found, name: str) -> None:
        self.opened, self.found, self.easel = opened, found, Easel()
        self.trials = Trials(parsed(opened.document, ""))
        stages = found.vaults[opened.house.vaults[0].name]
        filling = [stage for stage in stages if stage.kind == "fill"]
        worst = max(filling, key=lambda stage: stage.ratio or 0.0)
        case = max(worst.cases, key=lambda one: one.corners.ratio or 0.0)
        self.look = Look(stage=worst.name, case=case.name)
        self.form = draw(opened.house, self.look, found, self.easel).form
        assert self.form is not None
        self.grip = next(one for one in grips_of(opened.house, 0, self.form) if one.name == name)
        self.parts: dict[str, list[float]] = {}

    def at(self, number: float) -> tuple[float, float]:
        """A place that the hand has not been to."""
        far = 0.002 * (number - DRAGS // 2)
        return self.grip.x + far * self.grip.along[0], self.grip.z + far * self.grip.along[1]

    def drag(self, number: int) -> str:
        """The whole answer to one drag."""
        assert self.form is not None
        raw = self.grip.value_at(*self.at(number))
        value = f"{raw:.4f} m"
        moved(self.grip, self.form, self.at(number), system="metric", fine=True)
        house = self.trials.house({self.grip.key: value})
        drawn = draw(house, self.look, self.found, self.easel, hold=True)
        grips = grips_of(house, 0, drawn.form) if drawn.form is not None else ()
        message = wording.scene_message(
            drawn,
            house=house,
            revision=0,
            provisional=True,
            stale_from=0,
            grips=grips,
            system="metric",
            seq=number,
        )
        return json.dumps(message)

    def apart(self, number: float) -> None:
        """The same, each part timed by itself."""
        value = f"{self.grip.value_at(*self.at(number)):.4f} m"
        house = self.timed("read", lambda: self.trials.house({self.grip.key: value}))
        form = self.timed("form", lambda: self.easel.form(house, 0, hold=True))
        vault = house.vaults[0]
        wanted = replace(wanted_of(self.found, vault, self.look), quick=True)
        shown = self.timed("solve", lambda: shown_case(house, vault, form, wanted))
        marks = self.timed(
            "say", lambda: (sentences_of(shown, "metric"), feet_of(shown, "metric"), marks_of(shown))
        )
        scene = scene_of(form, shown.stage, lifts=(), supports=supports_of(vault, house))
        scene = replace(scene, coarse=HAIR)
        frame = self.easel.frame(self.look, scene, hold=True)
        sheet = self.timed("sheet", lambda: screen_section(scene, frame, marks[2], axis=vault.axis))
        self.timed("svg", lambda: svg(sheet, "day", background=False, quick=True))

    def timed(self, name: str, work: Any) -> Any:  # noqa: ANN401  (whatever it gives)
        """Do a part and note its time (ms of the thread)."""
        start = time.thread_time()
        answer = work()
        self.parts.setdefault(name, []).append(1e3 * (time.thread_time() - start))
        return answer


def tail(times: list[float]) -> float:
    """The 95th percentile."""
    return sorted(times)[round(0.95 * (len(times) - 1))]


def drags(name: str, opened: Opened, found: Found) -> list[bool]:
    """Drags of the crown, a foot and the crown cover."""
    met: list[bool] = []
    for handle in ("crown", "right foot", "crown cover"):
        hand = Hand(opened, found, handle)
        hand.drag(-3)
        cost, clock = [], []
        for number in range(DRAGS):
            start, began = time.perf_counter(), time.thread_time()
            hand.drag(number)
            cost.append(1e3 * (time.thread_time() - began))
            clock.append(1e3 * (time.perf_counter() - start))
        met.append(
            line(
                f"{name}, {handle}: a drag, median of the thread", statistics.median(cost), "ms", gate=MEDIAN
            )
        )
        met.append(line(f"{name}, {handle}: a drag, 95th percentile", tail(cost), "ms", gate=TAIL))
        line(f"{name}, {handle}: by the clock, median", statistics.median(clock), "ms")
        line(f"{name}, {handle}: by the clock, 95th percentile", tail(clock), "ms")
        for number in range(DRAGS // 3):
            hand.apart(number + 0.5)
        for part, times in hand.parts.items():
            line(f"    {part}", statistics.median(times), "ms")
    return met


def growth(found: Found) -> bool:
    """Memory of the server over many edits, the full run left out: it has a process of its own."""
    from starlette.testclient import TestClient

    tasks.full = lambda _number, _text, _name: found  # type: ignore[assignment]
    with tempfile.TemporaryDirectory() as folder:
        file = Path(shutil.copy(EXAMPLES / "larch-bank.toml", folder))
        door = Door(hosts=frozenset({"testserver"}))
        table = Table(Desk(file), workers=Workers(inline=True))
        with TestClient(application(table, door)) as client:
            client.get("/", params={"key": door.owner})
            headers = {"origin": "http://testserver"}
            with client.websocket_connect("/live", headers=headers) as socket:
                socket.send_json({"say": "hello"})
                sizes = [_edit(socket, FIRST), _edit(socket, MORE)]
    line(f"server after {FIRST} edits", sizes[0], "MB")
    line(f"server after {FIRST + MORE} edits", sizes[1], "MB")
    grown = 100.0 * (sizes[1] / sizes[0] - 1.0)
    return line(f"growth over {MORE} edits after the first {FIRST}", grown, "%", gate=GROWTH)


def _edit(socket: Any, count: int) -> float:  # noqa: ANN401  (a test socket)
    """So many edits, each answered by its drawing; the resident size afterwards (MB)."""
    for number in range(count):
        value = f"{1.3 + 0.001 * (number % 200):.3f} m"
        change = {
            "say": "edit",
            "changes": [["vault.0.rise", value]],
            "label": f"rise {value}",
            "id": f"e{number}",
        }
        socket.send_json(change)
        while socket.receive_json().get("to") != f"e{number}":
            pass
    gc.collect()
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * resource.getpagesize() / 1e6


def main() -> None:
    """Every figure."""
    met: list[bool] = []
    for name in HOUSES:
        opened = load(EXAMPLES / f"{name}.toml")
        start = time.perf_counter()
        _, found = full_run(opened.house, opened.not_read)
        start, began = time.perf_counter(), time.process_time()
        _, found = full_run(opened.house, opened.not_read)
        met.append(line(f"{name}: the full run behind it, cost", time.process_time() - began, "s", gate=FULL))
        line(f"{name}: the full run, by the clock", time.perf_counter() - start, "s")
        met += drags(name, opened, found)
        if name == HOUSES[0] and "--growth" in sys.argv:
            met.append(growth(found))
    leave(met)


if __name__ == "__main__":
    main()
