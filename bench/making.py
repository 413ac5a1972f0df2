"""How long it takes to make what leaves the tool: the drawing set, the model, full-size templates, IFC.

    .venv/bin/python bench/making.py

Each is made in memory from the house file, nothing kept from one to the next; processor time counts, as
other programs on the machine only ever add to the clock. Peak memory is that of a process that makes all of
them once.
"""

from __future__ import annotations

import resource
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

from bermwright.app.drawing import Order, draw_file
from bermwright.app.making.templating import TemplateWishes, make_templates, plan_templates
from bermwright.app.modelling import ModelOrder, model_file
from measure import leave, line

if TYPE_CHECKING:
    from collections.abc import Callable

HOUSE = str(Path(__file__).resolve().parent.parent / "examples" / "larch-bank.toml")
DATE = "2026-11-24"


def peak_memory() -> float:
    """Largest size of this process so far (MB)."""
    unit = 1e6 if sys.platform == "darwin" else 1e3
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / unit


def seconds(work: Callable[[], object]) -> float:
    """Least processor time of three."""
    taken = []
    for _ in range(3):
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return min(taken)


def main() -> None:
    """Print each figure; the last code is 1 where a gate is not met."""
    with tempfile.TemporaryDirectory() as folder:

        def drawing_set() -> object:
            return draw_file(HOUSE, Order(what="set", out=f"{folder}/set.pdf", date=DATE))

        def templates() -> object:
            wishes = TemplateWishes(out=f"{folder}/templates.pdf", date=DATE)
            return make_templates(plan_templates(HOUSE, wishes))

        def model(ending: str) -> object:
            return model_file(HOUSE, ModelOrder(out=f"{folder}/house{ending}", date=DATE))

        for work in (drawing_set, templates, lambda: model(".glb"), lambda: model(".ifc")):
            work()
        peak = peak_memory()
        drawn, cut = seconds(drawing_set), seconds(templates)
        glb, ifc = seconds(lambda: model(".glb")), seconds(lambda: model(".ifc"))
    line("drawing set", drawn, "s")
    line("full-size templates", cut, "s")
    line("model (GLB)", glb, "s")
    met = [line("set, templates and model together", drawn + cut + glb, "s", gate=6.0)]
    met.append(line("model (IFC) on top", ifc, "s", gate=4.0))
    met.append(line("peak memory, all of them once", peak, "MB", gate=600.0))
    leave(met)


if __name__ == "__main__":
    main()
