"""Laying things on paper: paths from arrays, moved items, figures as text and a board of labels."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, assert_never

import numpy as np
import shapely

from bermwright.base.dimensions import dimension_text
from bermwright.base.drawing import (
    Arc,
    Area,
    Arrow,
    Band,
    Clip,
    Dimension,
    Item,
    Leader,
    Lettering,
    Path,
    Point,
    Sheet,
    Spline,
    Stroke,
    Text,
    View,
)
from bermwright.base.lettering import text_width
from bermwright.base.units import show

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from numpy.typing import NDArray

    from bermwright.form.shapes import CurveLine

    Array = NDArray[np.float64]

FIGURE = 2.5
"""Height of a capital in dimensions and drawing lettering (ISO 3098, mm)."""
CAPTION = 1.9
"""The smallest capital used, a body size of 2.6 mm."""
NOTE = 2.4
"""Height of a capital in italic notes."""
FINE = 0.01
"""A drawn curve may leave the true one by this much (mm)."""

Box = tuple[float, float, float, float]
"""Left, low, right, high (mm)."""


def path_of(view: View, x: Array, z: Array) -> Path:
    """A curve of the house on the sheet, with no more points than paper can show."""
    factor = 1000.0 / view.scale
    points = np.column_stack([view.origin[0] + factor * x, view.origin[1] + factor * z])
    line = shapely.linestrings(points)
    slim = shapely.get_coordinates(shapely.simplify(line, FINE, preserve_topology=False))
    return tuple((a, b) for a, b in slim.tolist())


def curve_path(view: View, curve: CurveLine) -> Path:
    """A curve line of a form on the sheet."""
    return path_of(view, curve.x, curve.z)


def smooth_path(view: View, curve: CurveLine, spacing: float = 4.0) -> Path:
    """Points along a smooth curve, close enough that a spline through them is the curve."""
    count = max(12, min(len(curve.s), math.ceil(view.length(curve.length) / spacing)))
    x, z, _ = curve.at(np.linspace(0.0, curve.length, count + 1))
    return tuple(view.point(float(a), float(b)) for a, b in zip(x, z, strict=True))


def moved(item: Item, by: Point) -> Item:
    """The item shifted on the sheet: every field that is a place moves, whatever kind of item it is."""
    changes: dict[str, Any] = {}
    for name in _PLACES:
        if hasattr(item, name):
            changes[name] = _at(getattr(item, name), by)
    match item:
        case Stroke() | Spline() | Band():
            changes["path"] = _along(item.path, by)
        case Area():
            changes["path"] = _along(item.path, by)
            changes["holes"] = tuple(_along(hole, by) for hole in item.holes)
            changes["levels"] = tuple(level + by[1] for level in item.levels)
        case Clip():
            changes["items"] = tuple(moved(part, by) for part in item.items)
        case Arc() | Text() | Leader() | Arrow():
            pass
        case Dimension():
            changes |= {"start": _at(item.start, by), "end": _at(item.end, by)}
        case _:
            assert_never(item)
    return replace(item, **changes)


_PLACES = ("at", "to", "centre", "tail", "head", "low", "high")
"""Fields that are a point in every kind of item that has them."""


def _at(point: Point, by: Point) -> Point:
    """A point shifted."""
    return point[0] + by[0], point[1] + by[1]


def _along(path: Path, by: Point) -> Path:
    """A path shifted."""
    return tuple(_at(point, by) for point in path)


def placed(sheet: Sheet, at: Point) -> tuple[Item, ...]:
    """The items of a drawing, its lower left corner put at `at` on a larger sheet."""
    return tuple(moved(item, at) for item in sheet.items)


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """How lengths and levels are written on a drawing."""

    system: str = "metric"
    metres: bool = False
    """Metres with two decimals (book and screen); else millimetres without separators (sheets)."""

    def length(self, metres: float) -> str:
        """A dimension."""
        if self.system != "metric":
            return show(metres, "m", system=self.system)
        return f"{metres:.2f}" if self.metres else f"{1000.0 * metres:.0f}"

    def level(self, metres: float) -> str:
        """A level with its sign; the finished floor is ±0.00."""
        if self.system != "metric":
            text = show(abs(metres), "m", system=self.system)
        else:
            text = f"{abs(metres):.2f}" if self.metres else f"{abs(metres):.3f}"
        if abs(metres) < 0.5 * (0.01 if self.metres else 0.001):
            return f"±{text}"
        return f"{'+' if metres > 0 else '−'}{text}"


@dataclass(slots=True)
class Board:
    """Where lettering already stands, so that no label is put over another."""

    boxes: list[Box] = field(default_factory=list)
    _table: Array = field(default_factory=lambda: np.zeros((0, 4)))
    """The same boxes as an array, made anew where they have become more."""

    def put(self, texts: Iterable[Text]) -> Text:
        """The first of several places for a label that is free; the last where none is."""
        candidates = list(texts)
        chosen = next((text for text in candidates if self.free(text)), candidates[-1])
        self.boxes += boxes_of(chosen)
        return chosen

    def take(self, item: Text) -> Text:
        """Note a label that stands where it must."""
        self.boxes += boxes_of(item)
        return item

    def fit(self, texts: Iterable[Text]) -> Iterator[Text]:
        """The first of several places for a label that is free; nothing where none is."""
        for text in texts:
            if self.free(text):
                self.boxes += boxes_of(text)
                yield text
                return

    def measure(self, items: Iterable[Dimension]) -> Iterator[Dimension]:
        """The first of several places for a dimension whose figure is free; nothing where none is."""
        for item in items:
            if self.free(text := dimension_text(item)):
                self.boxes += boxes_of(text)
                yield item
                return

    def block(self, low: Point, high: Point) -> None:
        """Keep labels off a rectangle."""
        self.boxes.append((*low, *high))

    def free(self, item: Text) -> bool:
        """Whether the label meets no other."""
        if not self.boxes:
            return True
        if len(self._table) != len(self.boxes):
            self._table = np.array(self.boxes)
        left, low, right, high = self._table.T
        return not any(
            bool(((a[0] < right) & (left < a[2]) & (a[1] < high) & (low < a[3])).any())
            for a in boxes_of(item)
        )


def boxes_of(item: Text, margin: float = 0.35) -> list[Box]:
    """The room a text takes: one rectangle, or a chain of small ones where it is turned."""
    width = text_width(item.text, item.height, item.face, strong=item.strong)
    start = {"start": 0.0, "middle": -0.5 * width, "end": -width}[item.anchor]
    count = max(1, math.ceil(width / item.height)) if item.angle else 1
    step = width / count
    return [_box(item, start + k * step, start + (k + 1) * step, margin) for k in range(count)]


def _box(item: Text, start: float, end: float, margin: float) -> Box:
    """The rectangle round part of a line of text."""
    cosine, sine = math.cos(item.angle), math.sin(item.angle)
    corners = [
        (item.at[0] + u * cosine - v * sine, item.at[1] + u * sine + v * cosine)
        for u in (start, end)
        for v in (-0.3 * item.height, 1.05 * item.height)
    ]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs) - margin, min(ys) - margin, max(xs) + margin, max(ys) + margin


def note(at: Point, text: str, anchor: str = "start", angle: float = 0.0) -> Text:
    """An italic note."""
    return Text(at=at, text=text, height=NOTE, anchor=anchor, angle=angle, face=Lettering.NOTE)


def figure(at: Point, text: str, anchor: str = "start") -> Text:
    """Drawing lettering."""
    return Text(at=at, text=text, height=FIGURE, anchor=anchor)


def heading(at: Point, text: str, height: float = 3.6, anchor: str = "start") -> Text:
    """A heading in strong words."""
    return Text(at=at, text=text, height=height, anchor=anchor, face=Lettering.WORDS, strong=True)
