"""Fill and turf before and behind a vault by their heights on a grid: the same surfaces as the bodies, quick.

The take-off counts every house that a search looks at; bodies would take too long for that.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.earth import under_turf
from bermwright.form.solids.earthwork.earth import BESIDE, Earth, Slope, earth_of, mound_line

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Vault

    Array = NDArray[np.float64]

COLUMN, ROWS = 0.05, 400
"""Widest column across (m), and rows along."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EndEarth:
    """What lies before one end wall, compacted (m3)."""

    fill: float
    turf: float


def end_earth(house: House, vault: Vault, form: VaultForm) -> dict[str, EndEarth]:
    """Fill and turf of each end that the file gives a slope, without the ways kept free before its wall."""
    earth = earth_of(house, vault, form, float(np.min(form.ground.natural.z)))
    return {slope.side: _amounts(earth, slope) for slope in earth.slopes if slope.fall is not None}


def _amounts(earth: Earth, slope: Slope) -> EndEarth:
    x, wide = _columns(earth)
    reach = slope.toe + BESIDE
    out = (reach * (np.arange(ROWS) + 0.5) / ROWS)[:, None]
    natural = _natural(earth, slope, x, out)
    under = np.minimum(_surface(earth, slope, x, out, drop=earth.form.ground.turf), earth.top)
    over = _surface(earth, slope, x, out, drop=0.0)
    cell = wide * reach / ROWS
    fill = np.maximum(under - natural, 0.0)
    turf = np.maximum(over - np.maximum(under, natural), 0.0)
    return EndEarth(fill=float((fill * cell).sum()), turf=float((turf * cell).sum()))


def _columns(earth: Earth) -> tuple[Array, Array]:
    """Middles and widths of the columns; none has a kink or a step of the ground in it."""
    ground = earth.form.ground
    kinks = [*earth.across, *earth.half, *ground.finished.x, *ground.natural.x, *under_turf(earth.form).x]
    edges = np.unique(np.clip(kinks, *earth.across))
    counts = np.ceil(np.diff(edges) / COLUMN).astype(int)
    parts = [
        np.linspace(*pair, count, endpoint=False) for pair, count in zip(pairwise(edges), counts, strict=True)
    ]
    borders = np.append(np.concatenate(parts), edges[-1])
    return 0.5 * (borders[1:] + borders[:-1]), np.diff(borders)


def _natural(earth: Earth, slope: Slope, x: Array, out: Array) -> Array:
    """(rows, columns) natural ground, with the hillside where there is one."""
    along = slope.start + slope.sign * out - earth.middle
    level = earth.form.ground.natural.level(x)[None, :] + earth.fall * along
    if earth.fall != 0.0 or slope.hill is None:
        return np.asarray(level)
    return np.asarray(np.maximum(level, (slope.free or 0.0) + slope.hill * out))


def _surface(earth: Earth, slope: Slope, x: Array, out: Array, *, drop: float) -> Array:
    """(rows, columns) the finished surface, or what lies `drop` under it (square to it)."""
    fall = slope.fall or 0.0
    line = earth.form.ground.finished if drop == 0.0 else under_turf(earth.form)
    plane = earth.top - drop * np.hypot(1.0, fall) - fall * out
    level = np.minimum(mound_line(earth, line).level(x)[None, :], plane)
    if slope.free is None:
        return np.asarray(level)
    inside = (x >= earth.half[0]) & (x <= earth.half[1])
    return np.asarray(np.where(inside[None, :], np.minimum(level, _way(slope, out) - drop), level))


def _way(slope: Slope, out: Array) -> Array:
    """(rows, 1) level of the way before the wall: level out to the toe, or rising with the hill."""
    level = slope.free or 0.0
    if slope.hill is not None:
        return np.asarray(level + slope.hill * out)
    return np.asarray(level + (slope.fall or 0.0) * np.maximum(out - slope.toe, 0.0))
