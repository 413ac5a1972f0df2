"""Areas of the section that are filled with soil, by level and side: what the fill table counts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

import numpy as np

from bermwright.form.shapes import Line

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import CurveLine, VaultForm

    Array = NDArray[np.float64]

Side = Literal["left", "right", "both"]
Layer = Literal["all", "soil", "turf"]
COLUMNS = 1200
"""Columns of a side, besides those at every point of the soil face and of the ground lines."""
BEND = 1e-6
"""How near to a bend each slope keeps its own drop (m)."""
TURF_STEEPEST = 1.732
"""Rise over run of 60 degrees: nothing steeper holds turf (-)."""


def fill_area(form: VaultForm, below: float, above: float, side: Side, *, layer: Layer = "all") -> float:
    """Area of placed soil between two levels on one side of the crown (m2).

    It lies over the natural ground and under the finished one, outside the soil face and, below the
    feet, outside an upright line through the foot of the soil face. `layer` takes the turf, measured
    square to the surface, apart from the soil under it.
    """
    if side == "both":
        return fill_area(form, below, above, "left", layer=layer) + fill_area(
            form, below, above, "right", layer=layer
        )
    finished = form.ground.finished
    if layer == "all" or form.ground.turf == 0.0:
        return 0.0 if layer == "turf" else _area(form, finished, (below, above), side)
    under = _area(form, under_turf(form), (below, above), side)
    return under if layer == "soil" else _area(form, finished, (below, above), side) - under


def under_turf(form: VaultForm) -> Line:
    """The finished surface less the turf, which is as thick square to each slope as the file says.

    Every slope keeps its own drop right up to the bends, so that a step of a drawn line does not lower the
    level ground beside it. Nothing steeper than `TURF_STEEPEST` holds turf.
    """
    line, turf = form.ground.finished, form.ground.turf
    run = np.diff(line.x)
    slope = np.clip(np.diff(line.z) / run, -TURF_STEEPEST, TURF_STEEPEST)
    drop = turf * np.hypot(1.0, slope)
    margin = np.minimum(BEND, 0.25 * run)
    x = np.stack([line.x[:-1] + margin, line.x[1:] - margin], axis=1).ravel()
    return Line(x=x, z=line.level(x) - np.repeat(drop, 2))


def _area(form: VaultForm, surface: Line, levels: tuple[float, float], side: Side) -> float:
    """Columns of soil over, under and beside one half of the soil face."""
    mirror = -1.0 if side == "left" else 1.0
    x, z = _half(form.soil_face, mirror)
    widest = int(np.argmax(x))
    top = _Top(surface=surface, natural=form.ground.natural, mirror=mirror, levels=levels)
    far = max(abs(float(surface.x[0])), abs(float(surface.x[-1])))
    over = _columns(x[0], x[widest], (x, top.bends))
    beside = _columns(x[widest], far, (top.bends,))
    area = top.soil(over, np.interp(over, x[: widest + 1], z[: widest + 1])) + top.soil(beside, None)
    if widest < x.size - 1:
        under = _columns(x[-1], x[widest], (x, top.bends))
        roof = np.interp(under, x[widest:][::-1], z[widest:][::-1])
        area += top.soil(under, None, roof=roof)
    return area


class _Top:
    """The soil over a place: between two levels, under the surface, over the natural ground."""

    def __init__(self, *, surface: Line, natural: Line, mirror: float, levels: tuple[float, float]) -> None:
        self.surface, self.natural, self.mirror = surface, natural, mirror
        self.low, self.high = levels
        self.bends = mirror * np.concatenate([surface.x, natural.x])

    def soil(self, x: Array, floor: Array | None, *, roof: Array | None = None) -> float:
        """Area of the soil in columns at x (as seen from the crown outward), over a floor, under a roof."""
        top = np.minimum(self.surface.level(self.mirror * x), self.high)
        top = top if roof is None else np.minimum(top, roof)
        base = np.maximum(self.natural.level(self.mirror * x), self.low)
        base = base if floor is None else np.maximum(base, floor)
        return float(np.trapezoid(np.maximum(top - base, 0.0), x))


def _half(face: CurveLine, mirror: float) -> tuple[Array, Array]:
    """Places (outward) and levels of one half of the soil face, from its top to its foot."""
    top = int(np.argmax(face.z))
    part = slice(top, None) if mirror > 0 else slice(top, None, -1)
    return mirror * face.x[part], face.z[part]


def _columns(start: float, end: float, places: tuple[Array, ...]) -> Array:
    inside = np.concatenate([part[(part > start) & (part < end)] for part in places])
    return np.union1d(inside, np.linspace(start, end, COLUMNS))
