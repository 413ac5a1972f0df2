"""Small signs of a drawing: level triangle, compass, figure of a person, scale bar, flag."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Arc, Area, Ink, Item, Path, Pen, Point, Spline, Stroke, Text, Wash
from bermwright.book.sheets.paper import FIGURE, figure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import View

_FIGURE_HALF = (
    (0.000, 1.0),
    (0.038, 0.992),
    (0.052, 0.955),
    (0.045, 0.912),
    (0.026, 0.885),
    (0.028, 0.862),
    (0.075, 0.842),
    (0.112, 0.815),
    (0.128, 0.745),
    (0.140, 0.650),
    (0.168, 0.545),
    (0.172, 0.490),
    (0.152, 0.488),
    (0.128, 0.560),
    (0.106, 0.655),
    (0.094, 0.700),
    (0.090, 0.620),
    (0.098, 0.520),
    (0.094, 0.380),
    (0.082, 0.270),
    (0.076, 0.130),
    (0.070, 0.040),
    (0.096, 0.012),
    (0.092, 0.000),
    (0.026, 0.000),
    (0.024, 0.060),
    (0.024, 0.250),
    (0.012, 0.440),
    (0.000, 0.470),
)
"""Right half of the outline of a person, as shares of the height, from the crown of the head down."""
PERSON = 1.70
"""Height of the person drawn for scale (m)."""
DOOR_DROP = 2.4 + FIGURE
"""How far the door moves down where the letter of north would stand in it (mm)."""


def person(view: View, x: float, floor: float = 0.0) -> Iterator[Item]:
    """A person of 1.70 m standing on the floor, for scale."""
    right = [(x + PERSON * u, floor + PERSON * v) for u, v in _FIGURE_HALF]
    left = [(x - PERSON * u, floor + PERSON * v) for u, v in reversed(_FIGURE_HALF)]
    outline = tuple(view.point(*p) for p in [*right, *left[1:]])
    yield Area(path=outline, wash=Wash.PAPER, layer="person")
    yield Spline(path=outline, pen=Pen.DIMENSION, layer="person")


def level_triangle(at: Point) -> Area:
    """The filled triangle that stands on a level."""
    return Area(
        path=(at, (at[0] - 1.25, at[1] + 2.0), (at[0] + 1.25, at[1] + 2.0)), wash=Wash.INK, layer="text"
    )


def level_texts(at: Point, text: str) -> tuple[Text, ...]:
    """Places for the figure of a level mark: right of the triangle, left of it, above it."""
    return (
        figure((at[0] + 2.1, at[1] + 0.45), text),
        figure((at[0] - 2.1, at[1] + 0.45), text, "end"),
        figure((at[0], at[1] + 2.9), text, "middle"),
        figure((at[0], at[1] - 3.4), text, "middle"),
        figure((at[0] + 2.1, at[1] - 3.4), text),
        figure((at[0] - 2.1, at[1] - 3.4), text, "end"),
        figure((at[0], at[1] - 6.9), text, "middle"),
        figure((at[0], at[1] - 10.4), text, "middle"),
    )


def compass(at: Point, axis: float, radius: float = 6.5) -> Iterator[Item]:
    """A small plan seen from above: the door below, the way in upwards, and where north lies.

    `axis` is the direction in which one looks when walking in (rad from north, clockwise).
    """
    turn = math.pi / 2 + axis
    north = (math.cos(turn), math.sin(turn))
    across = (-north[1], north[0])
    yield Arc(centre=at, radius=radius, start=0.0, end=2.0 * math.pi, pen=Pen.LAYER, layer="text")
    tip = _off(at, north, radius)
    for sign, wash in ((1.0, Wash.INK), (-1.0, Wash.PAPER)):
        half = (
            tip,
            _off(_off(at, north, -0.62 * radius), across, sign * 0.42 * radius),
            _off(at, north, -0.35 * radius),
        )
        yield Area(path=half, wash=wash, outline=Pen.LAYER, layer="text")
    letter = _off(at, north, radius + 2.4)
    yield Text(
        at=(letter[0], letter[1] - 0.5 * FIGURE), text="N", height=FIGURE, anchor="middle", strong=True
    )
    room = 0.5 * radius
    foot = at[1] - radius - 1.0 - (DOOR_DROP if letter[1] < at[1] - 0.7 * radius else 0.0)
    yield Stroke(path=((at[0] - room, foot), (at[0] - 1.2, foot)), pen=Pen.SEEN, layer="text")
    yield Stroke(path=((at[0] + 1.2, foot), (at[0] + room, foot)), pen=Pen.SEEN, layer="text")
    yield figure((at[0], foot - FIGURE - 1.2), "door", "middle")


def _off(point: Point, along: Point, distance: float) -> Point:
    """A point moved along a unit direction."""
    return point[0] + along[0] * distance, point[1] + along[1] * distance


def bob(top: Point, bottom: Point) -> Iterator[Item]:
    """A plumb line with its bob; the bob's point is at `bottom`."""
    yield Stroke(path=(top, (bottom[0], bottom[1] + 4.4)), pen=Pen.LAYER, layer="text")
    outline = ((0.0, 0.0), (1.25, 2.3), (0.95, 3.5), (0.35, 4.4), (-0.35, 4.4), (-0.95, 3.5), (-1.25, 2.3))
    yield Area(path=tuple((bottom[0] + u, bottom[1] + v) for u, v in outline), wash=Wash.INK, layer="text")


def flag(at: Point, towards: float) -> Path:
    """The flag of a stop mark: its point looks along x towards the shell (+1 or -1)."""
    return ((at[0] + towards * 2.2, at[1]), (at[0], at[1] + 2.2), (at[0], at[1] - 2.2))


def red_line(path: Path, layer: str = "mark") -> Stroke:
    """A line of the red pencil."""
    return Stroke(path=path, pen=Pen.STOP, ink=Ink.RED, layer=layer)
