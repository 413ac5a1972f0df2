"""The seat of a rib on its support: angle of the cut, bearing, cheeks."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Arc, Area, Dimension, Hatch, Item, Pen, Sheet, Stroke, Wash
from bermwright.base.units import show
from bermwright.book.sheets.jigs.common import WIDTH, box, scale_for, told, tool_sheet
from bermwright.book.sheets.paper import Figures, note
from bermwright.data.jigs import SHOE_SIDE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout import SetOut

LEFT, FOOT = 44.0, 14.0
"""Where the shoe stands on the paper (mm)."""
LEVEL = 5e-4
"""A seat that tilts by less is level (rad)."""
LEAST = 0.03
"""Timber under the lower end of a seat (m)."""


def springing_shoe(out: SetOut, figures: Figures) -> Sheet:
    """Side view of the right foot in its shoe, and the shoe from above."""
    rib = out.form.rib
    lean = abs(float(rib.centreline.angle[-1]))
    depth, wide = rib.depth, rib.width
    base = depth * math.sin(lean) + 2.0 * LEAST
    rise = depth * math.cos(lean)
    tall = LEAST + abs(rise) + SHOE_SIDE.value + 0.2
    beyond = max(0.0, -math.cos(lean)) * (SHOE_SIDE.value + 0.2)
    scale = scale_for(2.0 * base + beyond + 0.06, tall + 0.05, (WIDTH - 90.0, 110.0))
    factor = 1000.0 / scale
    items = list(_side(lean, depth, base, factor, figures))
    items += _above(wide, base, (LEFT + (base + beyond) * factor + 30.0, FOOT), factor, figures)
    return tool_sheet(
        "Springing shoe, right foot",
        items,
        height=FOOT + max(tall * factor, (wide + 0.07) * factor + 6.0) + 2.0,
        scale=scale,
        origin=(LEFT, FOOT),
        notes=(
            f"The rib leaves the springing at {show(lean, 'deg', 1)} from the level; its foot is cut square.",
            _tilted(lean, rise, figures),
            f"Seat {told(depth, figures)} long up the slope, cheeks {told(wide + 0.003, figures)} apart.",
            "Bolts, straps and the force that the shoe must hold: see the feet of the ribs in the site book.",
        ),
    )


def _tilted(lean: float, rise: float, figures: Figures) -> str:
    tilt = 0.5 * math.pi - lean
    if abs(tilt) < LEVEL:
        return "So the seat lies level. The left shoe is its mirror image."
    way, edge = ("rises", "higher") if tilt > 0.0 else ("falls", "lower")
    return (
        f"So the seat {way} outwards by {show(abs(tilt), 'deg', 1)}; its outer edge lies "
        f"{told(abs(rise), figures)} {edge} than its inner edge. The left shoe is its mirror image."
    )


def _side(lean: float, depth: float, base: float, factor: float, figures: Figures) -> Iterator[Item]:
    x0, y0 = LEFT, FOOT
    # The foot is cut square: where the rib leans in over the room, on the left, the seat rises outward.
    rise = depth * math.cos(lean)
    inner = np.array([LEAST, LEAST + max(-rise, 0.0)])
    outer = inner + depth * np.array([math.sin(lean), math.cos(lean)])
    low, high = float(inner[1]), float(outer[1])
    points = [(0.0, 0.0), (base, 0.0), (base, high), tuple(outer), tuple(inner), (0.0, low)]
    path = tuple((x0 + factor * x, y0 + factor * y) for x, y in points)
    yield Area(path=path, wash=Wash.TIMBER, hatch=Hatch.TIMBER_ALONG, outline=Pen.CUT, along=0.0)
    lift = np.array([-math.cos(lean), math.sin(lean)])
    up, cheek = lift * (SHOE_SIDE.value + 0.2), lift * SHOE_SIDE.value
    rib = [inner, outer, outer + up, inner + up]
    rib_path = tuple((x0 + factor * float(p[0]), y0 + factor * float(p[1])) for p in rib)
    yield Area(path=rib_path, wash=Wash.LAGGING, outline=Pen.SEEN)
    ends = [(x0 + factor * float(p[0]), y0 + factor * float(p[1])) for p in (inner + cheek, outer + cheek)]
    yield Stroke(path=tuple(ends), pen=Pen.HIDDEN)
    a, b = path[4], path[3]
    yield Dimension(start=a, end=b, offset=4.0, text=figures.length(depth))
    yield Dimension(start=path[0], end=path[1], offset=-5.0, text=figures.length(base))
    yield Dimension(start=path[2], end=path[1], offset=6.0, text=figures.length(high))
    yield Dimension(start=path[5], end=path[0], offset=-6.0, text=figures.length(low))
    yield from _angle(a, b, 0.5 * math.pi - lean)
    middle = 0.5 * (inner + outer) + 0.75 * up
    yield note((x0 + factor * float(middle[0]), y0 + factor * float(middle[1])), "rib", "middle")
    yield note((x0, 1.0), "room side")


def _angle(inner: tuple[float, float], outer: tuple[float, float], tilt: float) -> Iterator[Item]:
    """The tilt of the seat, drawn from its lower edge; a level one has none."""
    if abs(tilt) < LEVEL:
        return
    low, away = (inner, 1.0) if tilt > 0.0 else (outer, -1.0)
    start, end = (0.0, tilt) if tilt > 0.0 else (math.pi + tilt, math.pi)
    yield Arc(centre=low, radius=14.0, start=start, end=end, pen=Pen.DIMENSION)
    yield Stroke(path=(low, (low[0] + away * 18.0, low[1])), pen=Pen.HIDDEN)


def _above(
    wide: float, base: float, at: tuple[float, float], factor: float, figures: Figures
) -> Iterator[Item]:
    x0, y0 = at
    cheek = 0.03 * factor
    inner = (wide + 0.003) * factor
    long = base * factor
    yield box(x0, y0, long, cheek)
    yield box(x0, y0 + cheek + inner, long, cheek)
    yield box(x0, y0 + cheek, long, inner, wash=Wash.PAPER)
    yield Dimension(
        start=(x0 + long, y0 + cheek), end=(x0 + long, y0 + cheek + inner), offset=-5.0,
        text=figures.length(wide + 0.003),
    )  # fmt: skip
    yield note((x0, y0 + inner + 2.0 * cheek + 1.5), "from above, between the cheeks")
