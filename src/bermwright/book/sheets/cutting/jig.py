"""The jig board: the rib at full size on a floor, and where the blocks stand that hold its pieces."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Dimension, Item, Pen, Sheet, Stroke, View, Wash
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.cutting.boards import SCALES
from bermwright.book.sheets.paper import Figures, curve_path, figure, heading, note

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import RibForm, VaultForm

APART = 0.45
"""Farthest that two blocks stand apart along the rib (m)."""
BLOCK = (0.10, 0.05)
"""Length along the rib and thickness of a block as drawn (m)."""
HEAD, FOOT, SIDE = 16.0, 22.0, 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockPlace:
    """A pair of blocks: the points where they touch the rib, from the left foot of its middle line."""

    number: int
    inside: tuple[float, float]
    outside: tuple[float, float]
    """Along the line between the feet, and square to it (m)."""
    angle: float
    """Of the blocks' faces against the line between the feet (rad)."""


def block_places(rib: RibForm) -> tuple[BlockPlace, ...]:
    """Pairs of blocks spread evenly from foot to foot."""
    line = rib.centreline
    count = max(2, math.ceil(line.length / APART)) + 1
    margin = 0.5 * BLOCK[0]
    spots = np.linspace(margin, line.length - margin, count)
    x0, z0, _ = (float(value) for value in line.at(0.0))
    found = []
    for number, spot in enumerate(spots.tolist(), 1):
        x, z, angle = (float(value) for value in line.at(spot))
        half = 0.5 * rib.depth
        out = (-math.sin(angle) * half, math.cos(angle) * half)
        found.append(
            BlockPlace(
                number=number,
                inside=(x - out[0] - x0, z - out[1] - z0),
                outside=(x + out[0] - x0, z + out[1] - z0),
                angle=angle,
            )
        )
    return tuple(found)


def jig_sheet(form: VaultForm, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """The rib on the floor with its blocks, numbered from the left foot."""
    rib, figures = form.rib, Figures(system=system)
    wide = float(np.ptp(rib.outside.x)) + 4 * BLOCK[1]
    scale = next((one for one in SCALES if wide * 1000.0 / one <= width - 2 * SIDE), SCALES[-1])
    factor = 1000.0 / scale
    middle = 0.5 * float(rib.outside.x.min() + rib.outside.x.max())
    low = float(min(rib.inside.z.min(), rib.outside.z.min()))
    high = float(rib.outside.z.max())
    view = View(origin=(0.5 * width - middle * factor, FOOT - low * factor), scale=scale)
    height = (high - low) * factor + FOOT + HEAD + 6.0
    line = rib.centreline
    feet = [view.point(float(line.x[at]), float(line.z[at])) for at in (0, -1)]
    crown = int(np.argmax(line.z))
    items: list[Item] = [
        Area(path=(*curve_path(view, rib.inside), *reversed(curve_path(view, rib.outside))), wash=Wash.TIMBER,
             outline=Pen.SEEN, layer="rib"),
        *(item for place in block_places(rib) for item in _blocks(rib, place, view)),
        Stroke(path=(feet[0], feet[1]), pen=Pen.HIDDEN, layer="baseline"),
        Dimension(start=feet[0], end=feet[1], offset=-12.0, text=figures.length(
            math.hypot(float(line.x[-1] - line.x[0]), float(line.z[-1] - line.z[0])))),
        Dimension(
            start=(view.point(float(line.x[crown]), 0.0)[0], feet[0][1]),
            end=view.point(float(line.x[crown]), float(line.z[crown])),
            offset=14.0,
            text=figures.length(float(line.z[crown] - line.z[0])),
        ),
        heading((0.0, height - 5.0), f"Jig board for the ribs of {form.name}"),
        figure((0.0, height - 10.5), f"1:{scale:.0f}; from foot to foot of the middle line; inside blocks "
               "fixed, outside with wedges"),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]  # fmt: skip
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title="Jig board",
        alt=f"The rib of {form.name} on the floor with numbered blocks on both faces.",
        view=view,
    )


def _blocks(rib: RibForm, place: BlockPlace, view: View) -> Iterator[Item]:
    """Two blocks outside the faces of the rib, and their number inside."""
    x0, z0, _ = (float(value) for value in rib.centreline.at(0.0))
    along = (math.cos(place.angle), math.sin(place.angle))
    out = (-along[1], along[0])
    for spot, away in ((place.inside, -1.0), (place.outside, 1.0)):
        x, z = x0 + spot[0], z0 + spot[1]
        half, deep = 0.5 * BLOCK[0], away * BLOCK[1]
        corners = [(-half, 0.0), (half, 0.0), (half, deep), (-half, deep)]
        path = tuple(
            view.point(x + u * along[0] + v * out[0], z + u * along[1] + v * out[1]) for u, v in corners
        )
        yield Area(path=path, wash=Wash.LAGGING, outline=Pen.SEEN, layer="blocks")
    x, z = x0 + place.inside[0], z0 + place.inside[1]
    at = view.point(x - 2.6 * BLOCK[1] * out[0], z - 2.6 * BLOCK[1] * out[1])
    yield figure((at[0], at[1] - 1.2), str(place.number), "middle")
