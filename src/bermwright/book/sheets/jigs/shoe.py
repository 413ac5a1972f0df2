"""The seat of a rib on its support: angle of the cut, bearing, cheeks."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Arc, Area, Dimension, Hatch, Item, Pen, Sheet, Stroke, Wash
from bermwright.base.units import show
from bermwright.book.sheets.jigs.common import WIDTH, box, scale_for, tool_sheet
from bermwright.book.sheets.paper import Figures, figure, note
from bermwright.data.jigs import SHOE_SIDE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout import SetOut

LEFT = 40.0
LEAST = 0.03
"""Timber under the lower end of a seat (m)."""


def springing_shoe(out: SetOut, figures: Figures) -> Sheet:
    """Side view of the right foot in its shoe, and the shoe from above."""
    rib = out.form.rib
    lean = abs(float(rib.centreline.angle[-1]))
    depth, wide = rib.depth, rib.width
    base = depth * math.sin(lean) + 2.0 * LEAST
    rise = depth * math.cos(lean)
    tall = LEAST + rise + SHOE_SIDE.value + 0.2
    scale = scale_for(2.0 * base + 0.06, tall + 0.05, (WIDTH - 60.0, 110.0))
    factor = 1000.0 / scale
    items = list(_side(lean, depth, base, factor, figures))
    items += _above(wide, base, factor, figures)
    return tool_sheet(
        "Springing shoe, right foot",
        items,
        height=tall * factor + 10.0,
        scale=scale,
        origin=(LEFT, 8.0),
        notes=(
            f"The rib leaves the springing at {show(lean, 'deg', 1)} from the level; its foot is cut square.",
            f"So the seat tilts {show(0.5 * math.pi - lean, 'deg', 1)}. The left shoe is its mirror image.",
            f"Seat {figures.length(depth)} long up the slope, cheeks {figures.length(wide + 0.003)} apart.",
            f"Its outer edge lies {figures.length(rise)} higher than its inner edge.",
            "Bolts, straps and the force that the shoe must hold: see the feet of the ribs in the site book.",
        ),
    )


def _side(lean: float, depth: float, base: float, factor: float, figures: Figures) -> Iterator[Item]:
    x0, y0 = LEFT, 8.0
    # The rib leans in over the room, on the left; its foot is cut square, so that the seat rises outward.
    inner = np.array([LEAST, LEAST])
    outer = inner + depth * np.array([math.sin(lean), math.cos(lean)])
    points = [(0.0, 0.0), (base, 0.0), (base, float(outer[1])), tuple(outer), tuple(inner), (0.0, LEAST)]
    path = tuple((x0 + factor * x, y0 + factor * y) for x, y in points)
    yield Area(path=path, wash=Wash.TIMBER, hatch=Hatch.TIMBER_ALONG, outline=Pen.CUT, along=0.0)
    up = np.array([-math.cos(lean), math.sin(lean)]) * (SHOE_SIDE.value + 0.2)
    rib = [inner, outer, outer + up, inner + up]
    rib_path = tuple((x0 + factor * float(p[0]), y0 + factor * float(p[1])) for p in rib)
    yield Area(path=rib_path, wash=Wash.LAGGING, outline=Pen.SEEN)
    cheek = np.array([-math.cos(lean), math.sin(lean)]) * SHOE_SIDE.value
    ends = [(x0 + factor * float(p[0]), y0 + factor * float(p[1])) for p in (inner + cheek, outer + cheek)]
    yield Stroke(path=tuple(ends), pen=Pen.HIDDEN)
    a, b = path[4], path[3]
    yield Dimension(start=a, end=b, offset=-4.0, text=figures.length(depth))
    yield Dimension(start=path[0], end=path[1], offset=-3.0, text=figures.length(base))
    yield Dimension(start=path[2], end=path[1], offset=6.0, text=figures.length(float(outer[1])))
    yield Dimension(start=path[5], end=path[0], offset=-6.0, text=figures.length(LEAST))
    middle = (0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1]))
    yield Arc(centre=a, radius=14.0, start=0.0, end=0.5 * math.pi - lean, pen=Pen.DIMENSION)
    yield Stroke(path=(a, (a[0] + 18.0, a[1])), pen=Pen.HIDDEN)
    yield figure((b[0] + 2.0, b[1] + 3.0), f"seat rises {show(0.5 * math.pi - lean, 'deg', 1)}")
    yield note((middle[0] - 0.06 * factor, middle[1] + 0.12 * factor), "rib", "middle")
    yield note((x0, y0 - 8.0), "room side")


def _above(wide: float, base: float, factor: float, figures: Figures) -> Iterator[Item]:
    x0, y0 = LEFT + base * factor + 30.0, 8.0
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
