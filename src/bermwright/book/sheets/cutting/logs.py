"""The end of a log with the boards that are sawn out of it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Arc, Area, Item, Pen, Sheet, Wash
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import Figures, figure, heading, note
from bermwright.handbook.boards.sawing import Heart

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.takeoff.cutting import LogYield

PITCH, HEAD, FOOT = 58.0, 16.0, 16.0
SCALES = (5, 10, 20, 25, 50)


def log_sheet(
    logs: Sequence[LogYield], kerf: float, *, width: float = 174.0, system: str = "metric"
) -> Sheet:
    """Every line of logs, seen at its thin end."""
    figures = Figures(system=system)
    largest = max(log.diameter for log in logs)
    scale = next((one for one in SCALES if largest * 1000.0 / one <= PITCH - 8.0), SCALES[-1])
    columns = int(width // PITCH)
    tall = largest * 1000.0 / scale + 15.0
    rows = math.ceil(len(logs) / columns)
    height = rows * tall + HEAD + FOOT - 10.0
    items: list[Item] = [
        heading((0.0, height - 5.0), "Logs, sawn through and through"),
        figure((0.0, height - 10.5), f"1:{scale}; thin end inside the bark; widths when dry, edges square"),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]  # fmt: skip
    for number, log in enumerate(logs):
        middle = (
            (number % columns + 0.5) * PITCH,
            height - HEAD - (number // columns + 0.5) * tall + 5.0,
        )
        items += _log(log, middle, (1000.0 / scale, kerf), figures)
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title="Logs",
        alt="Logs sawn to boards: " + ", ".join(log.name for log in logs) + ".",
    )


def _log(
    log: LogYield, middle: tuple[float, float], drawn: tuple[float, float], figures: Figures
) -> Iterator[Item]:
    factor, kerf = drawn
    x, y = middle
    radius = 0.5 * log.diameter * factor
    yield Arc(centre=middle, radius=radius, start=0.0, end=2.0 * math.pi, pen=Pen.CUT, layer="log")
    wet = log.thickness / (1.0 - log.shrinks)
    for place, dry in zip(log.places, log.widths, strict=True):
        half, thick = 0.5 * dry / (1.0 - log.shrinks) * factor, 0.5 * wet * factor
        low, high = y + place * factor - thick, y + place * factor + thick
        box = ((x - half, low), (x + half, low), (x + half, high), (x - half, high))
        yield Area(path=box, wash=Wash.TIMBER, outline=Pen.SEEN, layer="board")
        yield figure((x, 0.5 * (low + high) - 1.2), figures.length(dry), "middle")
    heart = "board" if log.heart == Heart.BOARD else "cut"
    words = f"{log.name}: {len(log.widths)} boards of {figures.length(log.thickness)}"
    yield figure((x, y - radius - 4.5), words, "middle")
    yield figure((x, y - radius - 8.5), f"{heart} on the heart, saw cut {_cut(kerf, figures)}", "middle")


def _cut(kerf: float, figures: Figures) -> str:
    return f"{kerf * 1000.0:.1f} mm" if figures.system == "metric" else figures.length(kerf)
