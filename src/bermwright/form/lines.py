"""Lines of the section: from the handbook's curves, and the higher of two ground lines."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.shapes import CurveLine, Line

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    from bermwright.handbook.curves import PlaneCurve

    Array = NDArray[np.float64]

STRAIGHT = 1e-12
"""Twice the area of a triangle of three neighbouring points that lie on one line (m2)."""


def frozen(values: ArrayLike) -> Array:
    """A read-only array of floats."""
    array = np.array(values, dtype=float)
    array.setflags(write=False)
    return array


def lifted(curve: PlaneCurve, height: float) -> CurveLine:
    """A handbook curve whose springing line lies at a height over the floor."""
    return CurveLine(x=curve.x, z=frozen(curve.z + height), s=frozen(curve.s - curve.s[0]), angle=curve.angle)


def broken(points: Sequence[tuple[float, float]]) -> Line:
    """A ground line through points, ordered by x."""
    x, z = np.array(sorted(points), dtype=float).T
    return Line(x=frozen(x), z=frozen(z))


def upper(one: Line, other: Line) -> Line:
    """The higher of two ground lines, with a point where they cross."""
    x = np.union1d(one.x, other.x)
    ahead = one.level(x) - other.level(x)
    change = np.flatnonzero(ahead[:-1] * ahead[1:] < 0.0)
    share = ahead[change] / (ahead[change] - ahead[change + 1])
    x = np.union1d(x, x[change] + share * (x[change + 1] - x[change]))
    z = np.maximum(one.level(x), other.level(x))
    # Points inside a straight stretch say nothing; a drawing is better without them.
    bend = np.abs((z[1:-1] - z[:-2]) * np.diff(x)[1:] - (z[2:] - z[1:-1]) * np.diff(x)[:-1])
    kept = np.concatenate([[True], bend > STRAIGHT, [True]])
    return Line(x=frozen(x[kept]), z=frozen(z[kept]))
