"""What is left when hatches, dimensions, leaders and arrows are drawn out: fills, strokes, arcs, text.

Every writer starts from these, so a sheet looks the same in each format.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.drawing import Arc, Ink, Spline, Text

if TYPE_CHECKING:
    from bermwright.base.drawing import Path, Pen, Point, Wash


Box = tuple[tuple[float, float], tuple[float, float]]
"""Lower left and upper right corner of what is seen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """A flat tint inside a path, holes left out."""

    path: Path
    wash: Wash
    holes: tuple[Path, ...] = ()
    layer: str = "drawing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Strokes:
    """Polylines drawn with one pen."""

    paths: tuple[Path, ...]
    pen: Pen
    ink: Ink = Ink.INK
    closed: bool = False
    layer: str = "drawing"
    hatch: bool = False
    """Whether they are strokes of a hatch."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """Plain items seen through a rectangle, or through the ellipse that fits into it."""

    low: Point
    high: Point
    items: tuple[Plain, ...]
    round: bool = False


Plain = Fill | Strokes | Arc | Spline | Text | Window
