"""The hatch of an area: loose strokes over its bounding box, in millimetres of the sheet.

Each function yields strokes over the whole box; `expand` cuts them to the area. Their places are
whole multiples from the sheet's origin, so neighbouring areas run on in one pattern.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Hatch, Path, Point
from bermwright.formats.drawings.hatching.chance import chance, chances, spread, spreads

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from numpy.typing import NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Field:
    """The box to fill, the direction of grain or layer, and the levels of lifts or courses."""

    low: Point
    high: Point
    along: float = 0.0
    levels: tuple[float, ...] = ()

    def columns(self, pitch: float) -> range:
        """Whole multiples of the pitch that cover the width."""
        return range(math.floor(self.low[0] / pitch) - 1, math.ceil(self.high[0] / pitch) + 2)

    def rows(self, pitch: float) -> range:
        """Whole multiples of the pitch that cover the height."""
        return range(math.floor(self.low[1] / pitch) - 1, math.ceil(self.high[1] / pitch) + 2)


def slanted(field: Field, degrees: float, pitch: float) -> Iterator[Path]:
    """Parallel strokes over the whole box."""
    angle = math.radians(degrees)
    along, across = (math.cos(angle), math.sin(angle)), (-math.sin(angle), math.cos(angle))
    corners = [(x, y) for x in (field.low[0], field.high[0]) for y in (field.low[1], field.high[1])]
    reach = [x * along[0] + y * along[1] for x, y in corners]
    rows = [x * across[0] + y * across[1] for x, y in corners]
    for row in range(math.floor(min(rows) / pitch), math.ceil(max(rows) / pitch) + 1):
        foot = (row * pitch * across[0], row * pitch * across[1])
        yield (
            (foot[0] + min(reach) * along[0], foot[1] + min(reach) * along[1]),
            (foot[0] + max(reach) * along[0], foot[1] + max(reach) * along[1]),
        )


def masonry(field: Field) -> Iterator[Path]:
    """Close strokes at 45 degrees."""
    yield from slanted(field, 45.0, 1.1)


def overfilled(field: Field) -> Iterator[Path]:
    """Soil past its stop mark: strokes at 60 degrees."""
    yield from slanted(field, 60.0, 1.5)


def earth_in_place(field: Field) -> Iterator[Path]:
    """Triple strokes at 45 degrees, every second row offset."""
    pitch, rise, reach = 11.0, 5.6, 4.2
    rows, columns = field.rows(rise), field.columns(pitch)
    up, across = np.array(rows)[:, None], np.array(columns)[None, :]
    x = across * pitch + up % 2 * pitch / 2 + spreads(-0.9, 0.9, rows, columns, 1)
    y = up * rise + spreads(-0.6, 0.6, rows, columns, 2)
    starts = [
        (x + k * 1.35, y + spreads(-0.25, 0.25, rows, columns, 6 + k), 0.707 * reach * sizes)
        for k, sizes in enumerate(spreads(0.75, 1.05, rows, columns, 3 + k) for k in range(3))
    ]
    yield from _strokes(*(np.stack(column, axis=-1) for column in zip(*starts, strict=True)), slope=1.0)


def earth_placed(field: Field) -> Iterator[Path]:
    """Broken level strokes at the true lift heights, sparser ones between them, and dots."""
    for number, level in enumerate(field.levels):
        yield from _broken_level(field, level, (9.0, 26.0), number)
    pitch = 3.0
    rows = [
        row
        for row in field.rows(pitch)
        if all(abs(row * pitch - level) > pitch / 3 for level in field.levels)
    ]
    yield from _sparse_levels(field, rows, pitch)
    yield from _dots(field, 2.7, 0.42)


def _broken_level(field: Field, level: float, lengths: tuple[float, float], row: int) -> Iterator[Path]:
    """One lift line: long strokes with short gaps."""
    x, count = math.floor(field.low[0] / 20.0) * 20.0, 0
    while x < field.high[0]:
        size = spread(*lengths, row, count, 11)
        yield (x, level), (x + size, level)
        x, count = x + size + spread(0.7, 1.6, row, count, 12), count + 1


def _sparse_levels(field: Field, rows: Sequence[int], rise: float) -> Iterator[Path]:
    """Short strokes along rows, with wide gaps."""
    pitch = 9.0
    columns = field.columns(pitch)
    if not rows:
        return
    laid = chances(rows, columns, 13) < 0.62
    x = np.array(columns)[None, :] * pitch + spreads(0.0, 4.0, rows, columns, 14)
    y = np.array(rows)[:, None] * rise + spreads(-0.35, 0.35, rows, columns, 15)
    yield from _strokes(x[laid], y[laid], spreads(2.4, 6.5, rows, columns, 16)[laid], slope=0.0)


def _strokes(x: Array, y: Array, reach: Array, *, slope: float) -> Iterator[Path]:
    """Straight strokes from places, as far across as `reach`."""
    ends = (x, y, x + reach, y + slope * reach)
    for left, foot, right, top in zip(*(column.ravel().tolist() for column in ends), strict=True):
        yield (left, foot), (right, top)


def _dots(field: Field, pitch: float, share: float) -> Iterator[Path]:
    """Dots as very short strokes, so that every format can draw them."""
    rows, columns = list(field.rows(pitch)), list(field.columns(pitch))
    if not rows or not columns:
        return
    laid = chances(rows, columns, 17) < share
    across = (np.array(columns)[None, :] + chances(rows, columns, 18)) * pitch
    up = (np.array(rows)[:, None] + chances(rows, columns, 19)) * pitch
    for x, y in zip(across[laid].tolist(), up[laid].tolist(), strict=True):
        yield (x, y), (x + 0.22, y + 0.06)


def timber_along(field: Field) -> Iterator[Path]:
    """Loose grain lines along the piece."""
    cosine, sine = math.cos(field.along), math.sin(field.along)
    corners = [(x, y) for x in (field.low[0], field.high[0]) for y in (field.low[1], field.high[1])]
    us = [x * cosine + y * sine for x, y in corners]
    vs = [y * cosine - x * sine for x, y in corners]
    pitch, step = 1.3, 1.5
    for row in range(math.floor(min(vs) / pitch), math.ceil(max(vs) / pitch) + 1):
        count = math.ceil((max(us) - min(us)) / step) + 1
        bend = [
            (min(us) + k * step, row * pitch + 0.33 * math.sin(0.21 * (min(us) + k * step) + 2.3 * row))
            for k in range(count)
        ]
        yield tuple((u * cosine - v * sine, u * sine + v * cosine) for u, v in bend)


def timber_across(field: Field) -> Iterator[Path]:
    """Growth rings round a heart below the piece, with rays."""
    x = 0.5 * (field.low[0] + field.high[0])
    heart = (x, field.low[1] - 0.35 * (field.high[1] - field.low[1]))
    far = math.dist(heart, field.high)
    ring = 0.9
    for k in range(1, math.ceil(far / ring) + 1):
        radius = ring * k * spread(0.97, 1.03, k, 21)
        yield tuple(
            (heart[0] + radius * math.cos(a), heart[1] + radius * math.sin(a))
            for a in [math.pi * i / 40 for i in range(41)]
        )
    for degrees in range(35, 150, 16):
        a = math.radians(degrees + spread(-3.0, 3.0, degrees, 22))
        yield heart, (heart[0] + far * math.cos(a), heart[1] + far * math.sin(a))


def concrete(field: Field) -> Iterator[Path]:
    """Small stones as open triangles among dots."""
    pitch = 3.6
    rows, columns = list(field.rows(pitch)), list(field.columns(pitch))
    if rows and columns:
        across = (np.array(columns)[None, :] + 0.1 + 0.8 * chances(rows, columns, 23)) * pitch
        up = (np.array(rows)[:, None] + 0.1 + 0.8 * chances(rows, columns, 24)) * pitch
        turns, sizes = 2.1 * chances(rows, columns, 25), 0.4 + 0.35 * chances(rows, columns, 26)
        corners = turns.ravel()[:, None] + np.arange(4) * 2.094
        xs = across.ravel()[:, None] + sizes.ravel()[:, None] * np.cos(corners)
        ys = up.ravel()[:, None] + sizes.ravel()[:, None] * np.sin(corners)
        for x, y in zip(xs.tolist(), ys.tolist(), strict=True):
            yield tuple(zip(x, y, strict=True))
    yield from _dots(field, 1.5, 0.5)


def gravel(field: Field) -> Iterator[Path]:
    """Uneven ovals, packed."""
    pitch, rise = 1.75, 1.45
    rows, columns = field.rows(rise), field.columns(pitch)
    up, across = np.array(rows)[:, None], np.array(columns)[None, :]
    x = (across + 0.5 * (up % 2) + spreads(-0.1, 0.1, rows, columns, 27)) * pitch
    y = (up + spreads(-0.1, 0.1, rows, columns, 28)) * rise
    wide, tall = (
        spreads(low, high, rows, columns, key) for low, high, key in ((0.62, 0.86, 29), (0.5, 0.68, 30))
    )
    yield from _ovals(*(np.ravel(column) for column in (x, y, wide, tall, up + across)))


def _ovals(x: Array, y: Array, wide: Array, tall: Array, keys: Array) -> Iterator[Path]:
    """Stones: ovals that are not quite ones; `keys` say how rough each is and how far it is turned."""
    kinds, kind = np.unique(keys, return_inverse=True)
    turn = np.array([spread(-0.5, 0.5, key, 31) for key in kinds.tolist()])[kind][:, None]
    corners = [k % 12 for k in range(13)]
    rough = np.array([[spread(0.93, 1.05, key, k, 32) for k in corners] for key in kinds.tolist()])[kind]
    angle = 2.0 * np.pi * np.array(corners) / 12
    u, v = wide[:, None] * rough * np.cos(angle), tall[:, None] * rough * np.sin(angle)
    across = x[:, None] + u * np.cos(turn) - v * np.sin(turn)
    up = y[:, None] + u * np.sin(turn) + v * np.cos(turn)
    for xs, ys in zip(across.tolist(), up.tolist(), strict=True):
        yield tuple(zip(xs, ys, strict=True))


def earth_tube(field: Field) -> Iterator[Path]:
    """Courses of filled tube: flat rounded rectangles, one on the other."""
    levels = field.levels or tuple(
        field.low[1] + 2.6 * k for k in range(int((field.high[1] - field.low[1]) / 2.6) + 2)
    )
    for low, high in pairwise(levels):
        yield _stadium(field.low[0] + 0.1, field.high[0] - 0.1, low, high)


def _stadium(left: float, right: float, low: float, high: float) -> Path:
    """A rectangle with half-round ends."""
    radius, middle = 0.5 * (high - low), 0.5 * (high + low)
    radius = min(radius, 0.5 * (right - left))
    turn = [math.pi * k / 8 for k in range(9)]
    ends = [(right - radius + radius * math.sin(a), middle - radius * math.cos(a)) for a in turn]
    ends += [(left + radius - radius * math.sin(a), middle + radius * math.cos(a)) for a in turn]
    return (*ends, ends[0])


def snow(field: Field) -> Iterator[Path]:
    """Six-point stars, sparse."""
    pitch = 4.2
    for row in field.rows(pitch):
        for column in field.columns(pitch):
            if chance(row, column, 33) < 0.7:
                x = (column + spread(0.2, 0.8, row, column, 34)) * pitch
                y = (row + spread(0.2, 0.8, row, column, 35)) * pitch
                yield from star((x, y), 0.62, spread(0.0, 1.0, row, column, 36))


def star(centre: Point, size: float, turn: float) -> Iterator[Path]:
    """Three crossing strokes."""
    for k in range(3):
        a = turn + math.pi * k / 3
        u, v = size * math.cos(a), size * math.sin(a)
        yield (centre[0] - u, centre[1] - v), (centre[0] + u, centre[1] + v)


def turf(field: Field) -> Iterator[Path]:
    """Blades in rows."""
    pitch, rise = 0.8, 1.9
    for row in field.rows(rise):
        for column in field.columns(pitch):
            foot = (column * pitch, row * rise)
            lean = spread(-0.35, 0.5, row, column, 37)
            yield foot, (foot[0] + lean, foot[1] + spread(0.7, 1.5, row, column, 38))


def insulation_soft(field: Field) -> Iterator[Path]:
    """Rows of one looped line."""
    pitch = 3.0
    for row in field.rows(pitch):
        yield tuple(
            (
                field.low[0] + 0.11 * k - 0.55 * math.sin(0.4 * k),
                (row + 0.5) * pitch - 0.46 * pitch * math.cos(0.4 * k),
            )
            for k in range(int((field.high[0] - field.low[0]) / 0.11) + 2)
        )


def insulation_rigid(field: Field) -> Iterator[Path]:
    """Rows of zigzag."""
    pitch = 3.0
    for row in field.rows(pitch):
        yield tuple(
            (field.low[0] + 0.9 * k, (row + (0.95 if k % 2 else 0.05)) * pitch)
            for k in range(int((field.high[0] - field.low[0]) / 0.9) + 2)
        )


def membrane(field: Field) -> Iterator[Path]:
    """Close level strokes: a sheet seen in its own plane."""
    yield from slanted(field, 0.0, 0.5)


AREAS: dict[Hatch, Callable[[Field], Iterator[Path]]] = {
    Hatch.TIMBER_ALONG: timber_along,
    Hatch.TIMBER_ACROSS: timber_across,
    Hatch.EARTH_IN_PLACE: earth_in_place,
    Hatch.EARTH_PLACED: earth_placed,
    Hatch.INSULATION_SOFT: insulation_soft,
    Hatch.INSULATION_RIGID: insulation_rigid,
    Hatch.MEMBRANE: membrane,
    Hatch.MASONRY: masonry,
    Hatch.EARTH_TUBE: earth_tube,
    Hatch.CONCRETE: concrete,
    Hatch.GRAVEL: gravel,
    Hatch.TURF: turf,
    Hatch.SNOW: snow,
    Hatch.OVERFILLED: overfilled,
}
"""One drawer for each hatch an area may have."""
