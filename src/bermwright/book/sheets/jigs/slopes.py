"""Slope boards for the mound: a triangle with a level on top, one for each slope."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Dimension, Item, Pen, Sheet, Text, Wash
from bermwright.base.units import show
from bermwright.book.sheets.jigs.common import told, tool_sheet
from bermwright.book.sheets.paper import Figures, figure
from bermwright.data.jigs import BOARD, BOARD_FEET

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import Vault

SCALE = 10.0
PER_METRE = 1000.0 / SCALE
ROOM = 20.0
"""Paper above and below a board (mm)."""
SAME = 1e-4
LEVEL = 0.01


def slope_boards(vault: Vault, figures: Figures) -> Sheet | None:
    """A board for each different slope of the mound; None where it has none."""
    slopes = _slopes(vault)
    if not slopes:
        return None
    heights = [math.tan(slope) * PER_METRE * _board_length(figures) + ROOM for slope, _ in slopes]
    items: list[Item] = []
    y = sum(heights)
    for (slope, sides), tall in zip(slopes, heights, strict=True):
        y -= tall
        items += _board(slope, sides, (20.0, y + 9.0), figures)
    return tool_sheet(
        "Slope boards",
        items,
        height=sum(heights),
        scale=SCALE,
        notes=(
            "Lay the long edge on the slope: where the upper edge is level, the slope is right.",
            "Half as long and half as high does as well: only the proportion counts.",
        ),
    )


def _board_length(figures: Figures) -> float:
    """A round length in the units that the builder measures in (m)."""
    return BOARD.value if figures.system == "metric" else BOARD_FEET.value


def _slopes(vault: Vault) -> list[tuple[float, str]]:
    mound = vault.mound
    found: list[tuple[float, str]] = []
    if mound is None:
        return found
    for side in ("left", "right", "front", "back"):
        slope = getattr(mound, side)
        if slope is None or slope < LEVEL or slope > 1.2:
            continue
        at = next((n for n, (other, _) in enumerate(found) if abs(other - slope) < SAME), None)
        if at is None:
            found.append((slope, side))
        else:
            found[at] = (slope, f"{found[at][1]}, {side}")
    return found


def _board(slope: float, sides: str, at: tuple[float, float], figures: Figures) -> Iterator[Item]:
    long = _board_length(figures) * PER_METRE
    drop = long * math.tan(slope)
    x, y = at
    path = ((x, y + drop), (x + long, y + drop), (x + long, y))
    yield Area(path=path, wash=Wash.TIMBER, outline=Pen.CUT)
    yield Dimension(start=path[0], end=path[1], offset=4.0, text=figures.length(long / PER_METRE))
    yield Dimension(start=path[1], end=path[2], offset=4.0, text=figures.length(drop / PER_METRE))
    yield Text(at=(x, y + 0.25 * drop - 2.0), text=show(slope, "slope"), height=2.6, strong=True)
    yield figure(
        (x, y - 5.0), f"mound {sides}; long edge {told(long / PER_METRE / math.cos(slope), figures)}"
    )
