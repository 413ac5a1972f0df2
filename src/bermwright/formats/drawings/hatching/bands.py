"""The hatch of a band: strokes that follow its path, in millimetres of the sheet."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Hatch, Path, Point
from bermwright.formats.drawings.hatching.areas import star
from bermwright.formats.drawings.hatching.chance import chance, spread

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from numpy.typing import NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Strip:
    """A path with its length from the start and its normals to the left, and a thickness."""

    points: Array
    """(n, 2)."""
    normals: Array
    s: Array
    thickness: float

    @property
    def length(self) -> float:
        """Whole length (mm)."""
        return float(self.s[-1])

    def at(self, u: float, v: float) -> Point:
        """The place `u` mm along the path and `v` mm to its left."""
        x, y, a, b = (
            float(np.interp(u, self.s, column))
            for column in (self.points[:, 0], self.points[:, 1], self.normals[:, 0], self.normals[:, 1])
        )
        return x + v * a, y + v * b

    def along(self, us: Array, vs: Array) -> Path:
        """Many places at once."""
        x = np.interp(us, self.s, self.points[:, 0]) + vs * np.interp(us, self.s, self.normals[:, 0])
        y = np.interp(us, self.s, self.points[:, 1]) + vs * np.interp(us, self.s, self.normals[:, 1])
        return tuple(zip(x.tolist(), y.tolist(), strict=True))

    def parallel(self, v: float) -> Path:
        """The line `v` mm to the left of the whole path."""
        moved = self.points + v * self.normals
        return tuple((float(x), float(y)) for x, y in moved)

    @property
    def outline(self) -> Path:
        """Out along the path and back along its far side."""
        return self.parallel(0.0) + self.parallel(self.thickness)[::-1]


def strip(path: Path, thickness: float) -> Strip:
    """The strip along a path; points that coincide are dropped."""
    points = np.array(path, dtype=float)
    kept = np.concatenate([[True], np.hypot(*np.diff(points, axis=0).T) > 1e-9])
    points = points[kept]
    lengths = np.hypot(*np.diff(points, axis=0).T)
    tangents = np.gradient(points, np.concatenate([[0.0], np.cumsum(lengths)]), axis=0)
    tangents /= np.hypot(tangents[:, 0], tangents[:, 1])[:, None]
    normals = np.column_stack([-tangents[:, 1], tangents[:, 0]])
    return Strip(points, normals, np.concatenate([[0.0], np.cumsum(lengths)]), thickness)


def _pitched(band: Strip, wanted: float) -> tuple[int, float]:
    """A whole number of steps along the band, and the pitch that makes it fit."""
    count = max(2, round(band.length / wanted))
    return count, band.length / count


def insulation_soft(band: Strip) -> Iterator[Path]:
    """One looped line from face to face."""
    count, pitch = _pitched(band, min(2.6, max(1.0, 0.75 * band.thickness)))
    turns = np.linspace(0.0, 2.0 * math.pi * count, 22 * count + 1)
    us = pitch * turns / (2.0 * math.pi) - 0.42 * pitch * np.sin(turns)
    vs = band.thickness * (0.5 - 0.45 * np.cos(turns))
    yield band.along(us, vs)


def insulation_rigid(band: Strip) -> Iterator[Path]:
    """A zigzag from face to face."""
    count, _ = _pitched(band, max(0.7, 0.45 * band.thickness))
    us = np.linspace(0.0, band.length, count + 1)
    vs = np.array([band.thickness * (k % 2) for k in range(count + 1)])
    yield band.along(us, vs)


def timber_along(band: Strip) -> Iterator[Path]:
    """Grain lines that follow the band, broken where a new one starts."""
    rows = max(2, round(band.thickness / 1.1))
    for row in range(1, rows):
        v, u, count = band.thickness * row / rows, spread(0.0, 5.0, row, 41), 0
        while u < band.length:
            size = spread(9.0, 26.0, row, count, 42)
            us = np.arange(u, min(u + size, band.length), 0.8)
            if us.size > 1:
                yield band.along(us, v + 0.11 * band.thickness / rows * np.sin(0.55 * us + 2.0 * row))
            u, count = u + size + spread(0.8, 2.5, row, count, 43), count + 1


def timber_across(band: Strip) -> Iterator[Path]:
    """Planks cut across: a joint between each and a ring or two in each."""
    count, pitch = _pitched(band, max(2.4, 2.8 * band.thickness))
    ends: Array = pitch * np.arange(count + 1, dtype=np.float64)
    inside, outside = (band.along(ends, np.full(count + 1, v)) for v in (0.0, band.thickness))
    yield from zip(inside, outside, strict=True)
    if band.thickness < 1.2:
        return
    for share in (0.45, 0.8):
        us = np.linspace(0.5 - 0.5 * share, 0.5 + 0.5 * share, 9)
        rise = share * np.sqrt(np.maximum(0.0, 1.0 - ((us - 0.5) / (0.5 * share)) ** 2))
        places = pitch * (np.arange(count)[:, None] + us[None, :])
        rings = band.along(places.ravel(), np.tile(0.92 * band.thickness * rise, count))
        yield from (rings[start : start + us.size] for start in range(0, len(rings), us.size))


def turf(band: Strip) -> Iterator[Path]:
    """Blades on the far side of the band, which is the surface."""
    count, pitch = _pitched(band, 0.62)
    grown = [k for k in range(count + 1) if chance(k, 44) < 0.8]
    feet = band.along(pitch * np.array(grown, dtype=np.float64), np.full(len(grown), band.thickness))
    for k, foot in zip(grown, feet, strict=True):
        size, lean = spread(0.5, 1.45, k, 45), spread(-0.45, 0.6, k, 46)
        yield foot, (foot[0] + lean, foot[1] + size)


def snow(band: Strip) -> Iterator[Path]:
    """Stars along the band."""
    count, pitch = _pitched(band, 4.0)
    for k in range(count):
        u = (k + spread(0.2, 0.8, k, 47)) * pitch
        yield from star(band.at(u, band.thickness * spread(0.25, 0.75, k, 48)), 0.6, chance(k, 49))


def masonry(band: Strip) -> Iterator[Path]:
    """Close slanted strokes from face to face."""
    count, pitch = _pitched(band, 1.1)
    starts: Array = pitch * np.arange(count, dtype=np.float64)
    inside = band.along(starts, np.zeros(count))
    yield from zip(inside, band.along(starts + band.thickness, np.full(count, band.thickness)), strict=True)


def gravel(band: Strip) -> Iterator[Path]:
    """A row of stones."""
    count, pitch = _pitched(band, max(1.0, 1.1 * band.thickness))
    turns = np.linspace(0.0, 2.0 * math.pi, 11)
    for k in range(count):
        wide = 0.45 * pitch * spread(0.8, 1.0, k, 50)
        yield band.along(
            (k + 0.5) * pitch + wide * np.cos(turns), band.thickness * (0.5 + 0.42 * np.sin(turns))
        )


BANDS: dict[Hatch, Callable[[Strip], Iterator[Path]]] = {
    Hatch.TIMBER_ALONG: timber_along,
    Hatch.TIMBER_ACROSS: timber_across,
    Hatch.INSULATION_SOFT: insulation_soft,
    Hatch.INSULATION_RIGID: insulation_rigid,
    Hatch.TURF: turf,
    Hatch.SNOW: snow,
    Hatch.MASONRY: masonry,
    Hatch.GRAVEL: gravel,
}
"""Hatches that follow a band; any other is drawn as that of an area. A membrane is drawn by `expand`."""
