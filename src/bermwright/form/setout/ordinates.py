"""Ordinates of the three curves of a rib: by distance near the crown, by height near the feet."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.shapes import crown_length

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import CurveLine, RibForm

    Array = NDArray[np.float64]

STEEP = math.radians(50.0)
"""Where the curve is steeper than this, heights are measured out, not distances."""
_STEPS = (0.05, 0.1, 0.2, 0.25, 0.5)
_MOST_ROWS = 17
_SAME = 0.0005
_END = 0.001


@dataclass(frozen=True, slots=True, kw_only=True)
class Ordinates:
    """One family: a place and the measure of inside, centreline and outside there (NaN: not reached)."""

    at: tuple[float, ...]
    left: Array
    """(rows, 3)."""
    right: Array

    @property
    def alike(self) -> bool:
        """Whether left and right are the same to half a millimetre."""
        pair = np.isfinite(self.left) & np.isfinite(self.right)
        same_reach = bool(np.all(np.isfinite(self.left) == np.isfinite(self.right)))
        return same_reach and bool(np.all(np.abs(self.left[pair] - self.right[pair]) < _SAME))


def curves_of(rib: RibForm) -> tuple[CurveLine, CurveLine, CurveLine]:
    """Inside, centreline, outside."""
    return (rib.inside, rib.centreline, rib.outside)


def by_distance(rib: RibForm, springing: float) -> Ordinates:
    """Height above the springing at distances from the axis, on each side as far as it is flat enough."""
    line = rib.centreline
    flat = np.abs(line.angle) < STEEP
    reaches = (-float(line.x[flat].min()), float(line.x[flat].max())) if flat.any() else (0.0, 0.0)
    if max(reaches) <= 0.0:
        return _none()
    at = _stations(max(reaches))
    places, step = np.array(at), at[1] - at[0]
    left, right = (
        np.column_stack([_height(curve, side * places) for curve in curves_of(rib)]) - springing
        for side in (-1.0, 1.0)
    )
    for side, reach in zip((left, right), reaches, strict=True):
        side[places > reach + step] = np.nan  # from there on the heights say it better
    return Ordinates(at=at, left=left, right=right)


def _none() -> Ordinates:
    return Ordinates(at=(), left=np.full((0, 3), np.nan), right=np.full((0, 3), np.nan))


def by_height(rib: RibForm, springing: float) -> Ordinates:
    """Distance from the axis at heights above the springing, where the curve is steep."""
    line = rib.centreline
    steep = np.abs(line.angle) > STEEP
    if not steep.any():
        return _none()
    at = _stations(float(line.z[steep].max()) - springing)
    levels = np.array(at) + springing
    left = np.column_stack([_distance(curve, levels, rib, left=True) for curve in curves_of(rib)])
    right = np.column_stack([_distance(curve, levels, rib, left=False) for curve in curves_of(rib)])
    return Ordinates(at=at, left=left, right=right)


def _stations(reach: float) -> tuple[float, ...]:
    """Even places from zero to a little past `reach`, not more than a page holds."""
    step = next((step for step in _STEPS if reach / step + 1.0 <= _MOST_ROWS), _STEPS[-1])
    return tuple(round(step * i, 6) for i in range(math.ceil(reach / step) + 1))


def _height(curve: CurveLine, places: Array) -> Array:
    """Level over places across; the part of the curve between its widest points."""
    low, high = int(np.argmin(curve.x)), int(np.argmax(curve.x))
    x, z = curve.x[low : high + 1], curve.z[low : high + 1]
    return _measured(places, x, z)


def _measured(places: Array, x: Array, y: Array) -> Array:
    """Y over x between the ends of a curve, not a number beyond them; an end is met within a millimetre."""
    reached = (places > x[0] - _END) & (places < x[-1] + _END)
    return np.where(reached, np.interp(places, x, y), np.nan)


def _distance(curve: CurveLine, levels: Array, rib: RibForm, *, left: bool) -> Array:
    """Distance from the axis over levels, on one half of the curve; below 0 past the axis."""
    crown = int(np.argmin(np.abs(rib.centreline.s - crown_length(rib))))
    crown = min(crown, curve.z.size - 1)
    half = slice(0, crown + 1) if left else slice(crown, None)
    z, x = curve.z[half], curve.x[half] * (-1.0 if left else 1.0)
    order = np.argsort(z, kind="stable")
    return _measured(levels, z[order], x[order])
