"""A buried pipe in its bed, as laid and as the soil presses it after decades."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import (
    Arc,
    Area,
    Arrow,
    Dimension,
    Hatch,
    Ink,
    Item,
    Pen,
    Sheet,
    Stroke,
    View,
    Wash,
)
from bermwright.base.units import show
from bermwright.book.sheets.paper import Figures, figure, heading, note
from bermwright.house import Bedding, PipeKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import Pipe
    from bermwright.rules.lasting.pipes import Pressed

WIDTH, HEAD, FOOT = 84.0, 29.0, 25.0
"""Of the sheet; and what stands over and under the bed (mm)."""
UNDER, OVER, BESIDE = 0.05, 0.15, 0.10
"""Stone under, over and beside a pipe (m): two and six inches of a perimeter drain, a hand beside it."""
SHOWN = 4.0
"""The pressed shape is drawn with its change this many times as large."""
SCALES = (10.0, 20.0)


def pipe_sheet(pipe: Pipe, found: Pressed, *, system: str = "metric") -> Sheet:
    """One pipe with its bed, fleece, the soil over it, and how flat it becomes."""
    wide = pipe.diameter + 2.0 * BESIDE
    scale = next((one for one in SCALES if 1000.0 * wide / one <= WIDTH - 20.0), SCALES[-1])
    middle = FOOT + 1000.0 * (0.5 * pipe.diameter + UNDER) / scale
    height = middle + 1000.0 * (0.5 * pipe.diameter + OVER) / scale + HEAD
    view = View(origin=(0.5 * WIDTH, middle), scale=scale)
    items = tuple(_items(pipe, found, view, Figures(system=system), height))
    flat = show(found.flattening, "%", 1)
    return Sheet(
        width=WIDTH, height=height, items=items, title=pipe.name, view=view,
        alt=f"{pipe.name} in its bed under {show(pipe.soil_over or 0.0, 'm', 1, system)} of soil; pressed by "
        f"{flat} of its diameter after decades.",
    )  # fmt: skip


def _items(pipe: Pipe, found: Pressed, view: View, figures: Figures, height: float) -> Iterator[Item]:
    radius = 0.5 * pipe.diameter
    low, high = -radius - UNDER, radius + OVER
    half = radius + BESIDE
    bed = tuple(view.point(x, z) for x, z in ((-half, low), (half, low), (half, high), (-half, high)))
    hatch = Hatch.EARTH_PLACED if pipe.bedding is Bedding.SOIL else Hatch.GRAVEL
    hole = tuple(_turn(view, radius, 1.0, 1.0))
    yield Area(path=bed, holes=(hole,), wash=Wash.PAPER, hatch=hatch, outline=Pen.LAYER)
    yield Arc(centre=view.point(0.0, 0.0), radius=view.length(radius), start=0.0, end=math.tau, pen=Pen.CUT)
    change = SHOWN * min(found.flattening, 0.2)
    pressed = tuple(_turn(view, radius, 1.0 + change, 1.0 - change))
    yield Stroke(path=pressed, pen=Pen.HIDDEN, closed=True)
    if pipe.filter:
        yield Stroke(path=bed, pen=Pen.CUT, closed=True)
    top = view.point(0.0, high)[1]
    for share in (-0.8, -0.4, 0.0, 0.4, 0.8):
        x = view.point(share * half, 0.0)[0]
        yield Arrow(tail=(x, top + 9.0), head=(x, top + 0.6), pen=Pen.LOAD, ink=Ink.SOFT)
    bottom = view.point(0.0, low)[1]
    yield from _measures(pipe, view, (bottom, top, half), figures)
    yield from _words(pipe, found, height, figures.system)
    yield figure((WIDTH - 1.0, height - 4.6), f"1:{view.scale:.0f}", "end")
    yield figure((0.5 * WIDTH, top + 10.6), "soil straight over it", "middle")


def _measures(pipe: Pipe, view: View, bed: tuple[float, float, float], figures: Figures) -> Iterator[Item]:
    """Pipe and bed, under and beside them; `bed` is its foot and head (mm) and its half width (m)."""
    bottom, top, half = bed
    radius = 0.5 * pipe.diameter
    for reach, offset in ((radius, -4.5), (half, -9.5)):
        start, end = (view.point(sign * reach, 0.0)[0] for sign in (-1.0, 1.0))
        text = figures.length(2.0 * reach)
        yield Dimension(start=(start, bottom), end=(end, bottom), offset=offset, text=text)
    edge = view.point(half, 0.0)[0]
    over = (edge, view.point(0.0, radius)[1])
    yield Dimension(start=over, end=(edge, top), offset=-4.5, text=figures.length(OVER))


def _words(pipe: Pipe, found: Pressed, height: float, system: str) -> Iterator[Item]:
    soil, pressure = show(pipe.soil_over or 0.0, "m", 1, system), show(found.pressure, "kPa", 0, system)
    yield heading((1.0, height - 4.6), pipe.name, 3.4)
    yield figure((1.0, height - 9.2), f"{soil} of soaked soil over it: {pressure}")
    if pipe.kind is PipeKind.DRAIN and pipe.fall is not None:
        yield figure((1.0, height - 13.2), f"falls {show(math.tan(pipe.fall), '%', 1)} to its outlet")
    tamped = "tamped" if pipe.tamped else "tipped"
    fleece = ", fleece round it" if pipe.filter else ""
    yield note((1.0, 8.4), f"bed: {pipe.bedding}, {tamped}{fleece}")
    flat = show(found.flattening, "%", 1)
    yield note((1.0, 4.6), f"dashed: pressed by {flat} after decades,")
    yield note((1.0, 0.9), f"drawn {SHOWN:.0f} times as much")


def _turn(view: View, radius: float, wide: float, tall: float) -> Iterator[tuple[float, float]]:
    """Once round the pipe, wider and flatter."""
    for step in range(72):
        angle = math.tau * step / 72
        yield view.point(wide * radius * math.cos(angle), tall * radius * math.sin(angle))
