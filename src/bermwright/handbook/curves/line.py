"""A plane curve as points with tangent and curvature: what every family of curves gives back."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

FINE_POINTS = 401
"""Points of a curve unless told otherwise: chords stay within 0.1 mm of a 10 m curve."""
GAUSS = np.polynomial.legendre.leggauss(4)
"""Places and weights of the quadrature between two neighbouring points."""

LEVEL_TOLERANCE = 1e-12
"""Slope of a half at its crown below which both halves share one point there (rad)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneCurve:
    """Points of an arch from its left foot over the crown to its right foot; arrays are read-only.

    x runs to the right from mid-span and z up from the springing line, in metres.
    """

    x: Array
    z: Array
    s: Array
    """Arc length from the left foot (m)."""
    angle: Array
    """Tangent angle in the direction of travel (rad): +90 deg is straight up, 0 is the crown."""
    curvature: Array
    """1/radius (1/m), positive where the curve is hollow towards the room."""

    def __post_init__(self) -> None:
        for array in (self.x, self.z, self.s, self.angle, self.curvature):
            array.setflags(write=False)

    @property
    def length(self) -> float:
        """Whole arc length (m)."""
        return float(self.s[-1])

    @property
    def half_width(self) -> float:
        """Largest distance of the curve from mid-span (m)."""
        return float(np.max(np.abs(self.x)))

    @property
    def crown(self) -> float:
        """Height of the highest point (m)."""
        return float(np.max(self.z))


def quadrature(speed: Callable[[Array], Array], t: Array) -> Array:
    """Integral of `speed` from the first entry of t to each entry, piece by piece (n,)."""
    places, weights = GAUSS
    half = 0.5 * np.diff(t)
    middle = t[:-1] + half
    pieces = half * (speed(middle[:, None] + half[:, None] * places) @ weights)
    return np.concatenate([[0.0], np.cumsum(pieces)])


def mirrored(x: Array, z: Array, s: Array, fall: Array, curvature: Array) -> PlaneCurve:
    """The whole curve from its right half, given from the crown (x = 0) down to the right foot.

    `s` is the arc length from the crown and `fall` the tangent angle below the horizontal; both rise.
    A half that leaves the crown with a slope (a point, or a valley) keeps both tangents there: the
    crown then stands twice in the arrays.
    """
    first = 0 if abs(fall[0]) > LEVEL_TOLERANCE else 1
    left = slice(None, None, -1)
    return PlaneCurve(
        x=np.concatenate([-x[left], x[first:]]),
        z=np.concatenate([z[left], z[first:]]),
        s=s[-1] + np.concatenate([-s[left], s[first:]]),
        angle=np.concatenate([fall[left], -fall[first:]]),
        curvature=np.concatenate([curvature[left], curvature[first:]]),
    )
