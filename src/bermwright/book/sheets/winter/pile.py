"""The winter's wood as a pile, to scale beside a person."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Arc, Dimension, Item, Pen, Sheet, Stroke, View
from bermwright.base.units import show
from bermwright.book.sheets.paper import Figures, figure
from bermwright.book.sheets.signs import person

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.adapt.winter.nouns import Wood

HIGH = 1.5
"""Height to which people stack (m)."""
LONG, SHORT = 1.0, 0.33
"""Depth of the pile: the length of its logs (m)."""
LOG = 0.14
"""Mean thickness of a log (m)."""
SCALES = (50.0, 100.0, 200.0)
ROW = 2.4
"""Rows behind each other once a pile gets longer than the sheet."""


def pile_sheet(wood: Wood, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """The pile from its long side; where it does not fit the sheet it is shown at a smaller scale."""
    deep = LONG if wood.stacked == "split 1 m" else SHORT
    length = max(wood.volume / (HIGH * deep), 0.2)
    scale = next((one for one in SCALES if 1000.0 * (length + ROW) / one <= width - 14.0), SCALES[-1])
    rows = 1
    while 1000.0 * (length / rows + ROW) / scale > width - 14.0:
        rows += 1
    length /= rows
    height = 1000.0 * 1.9 / scale + 16.0
    view = View(origin=(8.0, 11.0), scale=scale)
    items = tuple(_items(view, length, rows, (deep, system)))
    return Sheet(
        width=width,
        height=height,
        items=items,
        title="The wood of one year",
        alt=(
            f"{show(wood.volume, 'm3', 1, system)} of {wood.species}, {HIGH:.1f} m high and "
            f"{length:.1f} m long."
        ),
    )


def _items(view: View, length: float, rows: int, how: tuple[float, str]) -> Iterator[Item]:
    deep, system = how
    right = view.point(length + ROW, 0.0)
    yield Stroke(path=((view.origin[0] - 4.0, view.origin[1]), right), pen=Pen.CUT, layer="ground")
    yield from _logs(view, length)
    for x in (0.0, length):
        yield Stroke(path=(view.point(x, 0.0), view.point(x, HIGH + 0.1)), pen=Pen.SEEN, layer="pile")
    yield from person(view, length + 0.5 * ROW - 0.3)
    figures = Figures(system=system, metres=True)
    low, end, top = view.point(0.0, 0.0), view.point(length, 0.0), view.point(length, HIGH)
    yield Dimension(start=low, end=end, offset=-6.0, text=figures.length(length))
    yield Dimension(start=end, end=top, offset=-4.0, text=figures.length(HIGH))
    more = f", {rows} rows behind each other" if rows > 1 else ""
    words = f"{figures.length(deep)} deep{more}   1:{view.scale:.0f}"
    yield figure((right[0] + 1.0, low[1] - 7.0), words, "end")


def _logs(view: View, length: float) -> Iterator[Item]:
    """Ends of logs in rows, each a little different, the same every time."""
    count = max(1, round(length / LOG))
    layers = max(1, round(HIGH / (0.9 * LOG)))
    for layer in range(layers):
        shift = 0.5 * (layer % 2)
        for place in range(count - layer % 2):
            wobble = math.sin(12.9898 * place + 78.233 * layer)
            radius = 0.5 * LOG * (0.86 + 0.1 * wobble)
            x = (place + 0.5 + shift) * length / count
            z = (layer + 0.5) * HIGH / layers
            yield Arc(
                centre=view.point(x, z), radius=view.length(radius), start=0.0, end=2.0 * math.pi,
                pen=Pen.LAYER, layer="pile",
            )  # fmt: skip
            if view.scale <= SCALES[0]:
                heart = view.length(0.35 * radius)
                yield Arc(
                    centre=view.point(x + 0.1 * radius * wobble, z), radius=heart, start=0.4, end=4.6,
                    pen=Pen.HATCH, layer="pile",
                )  # fmt: skip
