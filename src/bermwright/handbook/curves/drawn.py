"""A smooth curve through drawn points."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.curves.line import FINE_POINTS, PlaneCurve, quadrature

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

LEAST_POINTS = 4


def through_points(x: ArrayLike, z: ArrayLike, *, points: int = FINE_POINTS) -> PlaneCurve:
    """Smooth curve through points, as a batten bent round nails.

    Cubic splines x(t) and z(t) over the share t of the chords' length, with natural ends.

    Parameters
    ----------
    x : array
        Distances of the points from mid-span, from the left foot to the right [m]; at least 4.
    z : array
        Their heights over the springing line [m].
    points : int
        Points of each half [-]; at least 2.

    Returns
    -------
    PlaneCurve
        Left foot over crown to right foot [m].

    References
    ----------
    [DOCARMO1976] chapter 1, for tangent and curvature.

    Examples
    --------
    >>> t = np.linspace(np.pi, 0.0, 19)
    >>> round(through_points(2.0 * np.cos(t), 2.0 * np.sin(t)).length, 2)
    6.28
    """
    from scipy.interpolate import CubicSpline

    px, pz = np.asarray(x, dtype=float), np.asarray(z, dtype=float)
    within("number of points", px.size, LEAST_POINTS)
    chords = np.hypot(np.diff(px), np.diff(pz))
    within("distance between points", chords, 0.0, unit="m", open_low=True)
    knots = np.concatenate([[0.0], np.cumsum(chords) / np.sum(chords)])
    spline = CubicSpline(knots, np.column_stack([px, pz]), bc_type="natural")
    first = spline.derivative()
    even_points = np.linspace(0.0, 1.0, 2 * points - 1)
    t = np.union1d(even_points, knots)
    (dx, dz), (ddx, ddz) = first(t).T, first.derivative()(t).T
    speed = np.hypot(dx, dz)
    return PlaneCurve(
        x=spline(t)[:, 0],
        z=spline(t)[:, 1],
        s=quadrature(lambda at: np.linalg.norm(first(at), axis=-1), t),
        angle=np.unwrap(np.arctan2(dz, dx)),
        curvature=(ddx * dz - dx * ddz) / speed**3,
    )
