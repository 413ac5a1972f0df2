"""A cut through the layers, room on the left: how warm it is in them, and how much vapour there is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Hatch, Ink, Item, Lettering, Path, Pen, Sheet, Stroke, Text, Wash
from bermwright.base.lettering import text_width
from bermwright.book.sheets.paper import CAPTION, FIGURE

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

LEFT, RIGHT, FOOT = 26.0, 16.0, 7.0
"""Margins (mm); the room's film lies in the left one."""
ROOM = 12.0
"""Width of the room's air that is drawn (mm)."""
LAYERS, WARMTH, VAPOUR, GAP = 24.0, 34.0, 38.0, 9.0
"""Heights of the three strips and of what is between (mm)."""
ROW = 4.2
"""From one row of names to the next (mm)."""
THIN = 0.9
"""A sheet is drawn at least so wide (mm)."""
WASHES = {
    "lagging": (Wash.LAGGING, Hatch.TIMBER_ACROSS),
    "insulation": (Wash.INSULATION, Hatch.INSULATION_RIGID),
    "membrane": (Wash.INK, Hatch.NONE),
    "vapour control": (Wash.SOFT, Hatch.NONE),
    "drainage": (Wash.PAPER, Hatch.GRAVEL),
    "fleece": (Wash.PAPER, Hatch.NONE),
    "soil": (Wash.EARTH, Hatch.EARTH_PLACED),
    "turf": (Wash.EARTH, Hatch.EARTH_PLACED),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer from the room outwards."""

    name: str
    kind: str
    thickness: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerLines:
    """What is drawn through the layers."""

    layers: tuple[Layer, ...]
    depth: Array
    """(n,) distance of each face from the room's face (m)."""
    temperature: Array
    """(n,) °C."""
    room: float
    outdoors: float
    """Of the two airs (°C)."""
    vapour_depth: Array
    """(m,) faces of the covers (m)."""
    saturation: Array
    vapour: Array
    """(m,) Pa."""
    wet: tuple[int, ...]
    """Faces of `vapour_depth` on which water gathers."""
    title: str


def layer_sheet(lines: LayerLines, *, width: float = 174.0) -> Sheet:
    """The three strips under each other on one scale of thickness."""
    total = sum(layer.thickness for layer in lines.layers)
    scale = (width - LEFT - RIGHT) / total

    def across(depth: float) -> float:
        return LEFT + scale * depth

    names = _names(lines.layers, across, width)
    tall = ROW * (1 + max(name.row for name in names))
    height = FOOT + VAPOUR + GAP + WARMTH + GAP + LAYERS + tall + 7.0
    top = height - 7.0
    layers_at = top - tall - LAYERS
    warmth_at = layers_at - GAP - WARMTH
    items: list[Item] = [
        Text(at=(0.0, height - 3.4), text=lines.title, height=FIGURE, face=Lettering.WORDS, halo=False),
        *_boxes(lines.layers, across, layers_at),
        *_labels(names, layers_at + LAYERS),
        *_warmth(lines, across, warmth_at, width - RIGHT),
        *_vapour(lines, across, FOOT, width - RIGHT),
        Text(at=(LEFT, 1.6), text="room", height=CAPTION, anchor="end", halo=False),
        Text(at=(width - RIGHT, 1.6), text="outdoors", height=CAPTION, anchor="end", halo=False),
    ]
    wet = "Water gathers in them." if lines.wet else "No water gathers in them."
    return Sheet(width=width, height=height, items=tuple(items), title=lines.title,
                 alt=f"{lines.title}: warmth and vapour in {len(lines.layers)} layers. {wet}")  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Name:
    """A label over the layers, with its row and the line that leads down from it."""

    text: str
    line: float
    start: float
    end: float
    row: int

    def clears(self, line: float, end: float, row: int) -> bool:
        """Whether a label further left may stand in a row beside this one."""
        reach = self.start if self.row == row else self.line
        return self.row < row or end + 2.0 < reach or (self.row > row and line > self.line)


def _names(layers: tuple[Layer, ...], across: Callable[[float], float], width: float) -> tuple[_Name, ...]:
    """Labels from the outermost inwards, each in the lowest row in which nothing crosses it."""
    placed: list[_Name] = []
    start = sum(layer.thickness for layer in layers)
    for layer in reversed(layers):
        text = f"{layer.name}, {layer.thickness * 1e3:.0f}" if layer.thickness >= 1e-3 else layer.name
        wide = text_width(text, CAPTION, Lettering.FIGURES)
        start -= layer.thickness
        line = across(start + 0.5 * layer.thickness)
        at = min(line - 1.0, width - wide)
        row = next(r for r in range(len(layers)) if all(one.clears(line, at + wide, r) for one in placed))
        placed.append(_Name(text=text, line=line, start=at, end=at + wide, row=row))
    return tuple(reversed(placed))


def _labels(names: tuple[_Name, ...], base: float) -> Iterator[Item]:
    for name in names:
        level = base + 1.6 + ROW * name.row
        yield Stroke(path=((name.line, base), (name.line, level)), pen=Pen.DIMENSION)
        yield Text(at=(name.start, level + 0.4), text=name.text, height=CAPTION)


def _boxes(layers: tuple[Layer, ...], across: Callable[[float], float], base: float) -> Iterator[Item]:
    start = 0.0
    for layer in layers:
        left, right = across(start), across(start + layer.thickness)
        if right - left < THIN:
            middle = 0.5 * (left + right)
            left, right = middle - 0.5 * THIN, middle + 0.5 * THIN
        wash, hatch = WASHES.get(layer.kind, (Wash.PAPER, Hatch.NONE))
        yield Area(path=_box(left, base, right, base + LAYERS), wash=wash, hatch=hatch, along=np.pi / 2,
                   outline=Pen.LAYER)  # fmt: skip
        start += layer.thickness
    yield Stroke(path=((across(0.0), base), (across(0.0), base + LAYERS)), pen=Pen.CUT)


def _box(left: float, low: float, right: float, high: float) -> Path:
    return (left, low), (right, low), (right, high), (left, high)


def _guides(
    lines: LayerLines, across: Callable[[float], float], base: float, height: float
) -> Iterator[Item]:
    start = 0.0
    for layer in (*lines.layers, None):
        yield Stroke(path=((across(start), base), (across(start), base + height)), pen=Pen.HATCH)
        start += 0.0 if layer is None else layer.thickness


def _scale(
    low: float, high: float, step: float, *, base: float, height: float, right: float, unit: str
) -> Iterator[Item]:
    """Level lines with their figures on the left."""
    for value in np.arange(low, high + 0.5 * step, step).tolist():
        y = base + height * (value - low) / (high - low)
        yield Stroke(path=((LEFT - ROOM, y), (right, y)), pen=Pen.HATCH)
        yield Text(at=(LEFT - ROOM - 1.0, y - 0.5 * CAPTION), text=f"{value:.0f}".replace("-", "−"),
                   height=CAPTION, anchor="end", halo=False)  # fmt: skip
    yield Text(at=(0.0, base + height + 3.0), text=unit, height=CAPTION, halo=False)


def _warmth(lines: LayerLines, across: Callable[[float], float], base: float, right: float) -> Iterator[Item]:
    every = np.array([lines.room, lines.outdoors, *lines.temperature.tolist()])
    low, high = 5.0 * np.floor(every.min() / 5.0), 5.0 * np.ceil(every.max() / 5.0)
    high = max(float(high), float(low) + 5.0)

    def up(value: float) -> float:
        return float(base + WARMTH * (value - low) / (high - low))

    yield from _guides(lines, across, base, WARMTH)
    yield from _scale(float(low), high, 5.0, base=base, height=WARMTH, right=right, unit="warmth, °C")
    path = [
        (across(depth), up(warm))
        for depth, warm in zip(lines.depth.tolist(), lines.temperature.tolist(), strict=True)
    ]
    room, outdoors = (LEFT - ROOM, up(lines.room)), (right + 5.0, up(lines.outdoors))
    yield Stroke(path=(room, (LEFT - 4.0, room[1]), *path, (right + 2.0, outdoors[1]), outdoors), pen=Pen.CUT)
    yield Text(at=(right + 5.5, outdoors[1] - 0.9), text=_degrees(lines.outdoors), height=CAPTION)
    yield Text(at=(LEFT - ROOM + 0.5, room[1] + 1.0), text=_degrees(lines.room), height=CAPTION)
    if low < 0.0 < high:
        yield Stroke(path=((LEFT, up(0.0)), (right, up(0.0))), pen=Pen.HIDDEN)


def _degrees(value: float) -> str:
    return f"{value:.0f}°".replace("-", "−")


def _vapour(lines: LayerLines, across: Callable[[float], float], base: float, right: float) -> Iterator[Item]:
    most = float(max(lines.saturation.max(), lines.vapour.max()))
    step = 200.0 if most < 1200.0 else 500.0
    high = step * np.ceil(most / step)

    def up(value: float) -> float:
        return float(base + VAPOUR * value / high)

    yield from _guides(lines, across, base, VAPOUR)
    yield from _scale(0.0, float(high), step, base=base, height=VAPOUR, right=right,
                      unit="vapour, Pa: full line what is there, dashed the most the air holds")  # fmt: skip
    depths = lines.vapour_depth.tolist()
    most_held = [
        (across(depth), up(value)) for depth, value in zip(depths, lines.saturation.tolist(), strict=True)
    ]
    there = [(across(depth), up(value)) for depth, value in zip(depths, lines.vapour.tolist(), strict=True)]
    yield Stroke(path=tuple(most_held), pen=Pen.HIDDEN)
    yield Stroke(path=((LEFT - ROOM, there[0][1]), *there), pen=Pen.CUT)
    for face in lines.wet:
        x, y = there[face]
        yield Area(path=_drop(x, y), wash=Wash.STOP)
    if lines.wet:
        x, y = there[lines.wet[-1]]
        yield Text(at=(x - 2.6, y - 3.6), text="water gathers", height=CAPTION, anchor="end", ink=Ink.RED)
    if there[-1][0] < right - 20.0:
        yield Text(
            at=(there[-1][0] + 2.0, base + VAPOUR - 3.6), text="soil: damp all the year", height=CAPTION
        )


def _drop(x: float, y: float) -> Path:
    """A drop of water that hangs from its place."""
    turn = np.linspace(-0.25 * np.pi, 1.25 * np.pi, 13)
    round_end = [(x + 1.1 * float(np.cos(a)), y - 2.6 - 1.1 * float(np.sin(a))) for a in turn]
    return ((x, y), *round_end)
