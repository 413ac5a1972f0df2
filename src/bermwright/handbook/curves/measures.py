"""What is measured on a curve: parallel faces, area, centroids, headroom."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.curves.line import PlaneCurve

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

KINK = 1e-9
"""Turn between two points at one place over which they count as a kink (rad)."""


class Strip(NamedTuple):
    """Left and right end of a strip of floor (m from mid-span)."""

    left: float
    right: float

    @property
    def width(self) -> float:
        """Width of the strip (m)."""
        return self.right - self.left


def parallel(curve: PlaneCurve, distance: float) -> PlaneCurve:
    """The parallel curve at a distance along the normal: a true offset, point by point.

    P' = P + d n, ds' = (1 + d kappa) ds, kappa' = kappa/(1 + d kappa)

    Parameters
    ----------
    curve : PlaneCurve
        The curve, hollow or straight towards the room [m].
    distance : float
        Distance outward, away from the room [m]; below 0 inward, by less than the sharpest radius.

    Returns
    -------
    PlaneCurve
        As many points as the curve has, each square to its own [m].

    Notes
    -----
    At a kink, such as a pointed crown, both faces run on straight until they meet; inward they are cut
    off where they meet. A chain of given length with another span is not a parallel curve.

    References
    ----------
    [DOCARMO1976] chapter 1, parallel curves.

    Examples
    --------
    >>> from bermwright.handbook.curves import segment
    >>> round(parallel(segment(4.0, 2.0), 0.5).length, 3)
    7.854
    """
    within("distance", distance, unit="m")
    stretch = 1.0 + distance * curve.curvature
    if not np.all(stretch > 0.0):
        raise OutOfRangeError(
            f"The curve is too tight: its radius falls to {1.0 / np.max(curve.curvature):.3g} m, and a face "
            f"{-distance:.3g} m inside it would fold over itself. Take less depth or a rounder curve."
        )
    x = curve.x - distance * np.sin(curve.angle)
    z = curve.z + distance * np.cos(curve.angle)
    pieces = np.diff(curve.s) * 0.5 * (stretch[:-1] + stretch[1:])
    s = np.concatenate([[0.0], np.cumsum(pieces)])
    for at in np.flatnonzero((np.diff(curve.s) == 0.0) & (np.abs(np.diff(curve.angle)) > KINK)):
        x, z, s = _meet(curve, distance, int(at), (x, z, s))
    return PlaneCurve(x=x, z=z, s=s, angle=curve.angle, curvature=curve.curvature / stretch)


def enclosed_area(x: ArrayLike, z: ArrayLike) -> float:
    """Area between a curve, walked from left to right over the top, and the chord of its ends.

    A = sum of (x_i+1 - x_i)(z_i + z_i+1)/2, closed by the chord.

    Parameters
    ----------
    x : array
        Distances of the points from mid-span [m].
    z : array
        Heights of the points [m].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    [DOCARMO1976] chapter 1.

    Examples
    --------
    >>> enclosed_area([0.0, 0.0, 2.0, 2.0], [0.0, 1.0, 1.0, 0.0])
    2.0
    """
    px, pz = _closed(x, z)
    return float(np.sum(np.diff(px) * 0.5 * (pz[:-1] + pz[1:])))


def area_centroid(x: ArrayLike, z: ArrayLike) -> tuple[float, float]:
    """Centroid of the area between a curve and the chord of its ends.

    A xs = sum (x_i + x_i+1)(cross_i)/6 with cross_i = x_i+1 z_i - x_i z_i+1, likewise for z.

    Parameters
    ----------
    x : array
        Distances of the points from mid-span [m].
    z : array
        Heights of the points [m].

    Returns
    -------
    tuple of float
        Place of the centroid, x and z [m].

    References
    ----------
    [DOCARMO1976] chapter 1.

    Examples
    --------
    >>> area_centroid([0.0, 0.0, 2.0, 2.0], [0.0, 1.0, 1.0, 0.0])
    (1.0, 0.5)
    """
    px, pz = _closed(x, z)
    cross = px[1:] * pz[:-1] - px[:-1] * pz[1:]
    six_areas = 3.0 * float(np.sum(cross))
    within("enclosed area", abs(six_areas), 0.0, unit="m2", open_low=True)
    return (
        float(np.sum((px[:-1] + px[1:]) * cross)) / six_areas,
        float(np.sum((pz[:-1] + pz[1:]) * cross)) / six_areas,
    )


def line_centroid(x: ArrayLike, z: ArrayLike) -> tuple[float, float]:
    """Centroid of the curve itself, as of a bent rod.

    L xs = sum of l_i (x_i + x_i+1)/2, likewise for z.

    Parameters
    ----------
    x : array
        Distances of the points from mid-span [m].
    z : array
        Heights of the points [m].

    Returns
    -------
    tuple of float
        Place of the centroid, x and z [m].

    References
    ----------
    [DOCARMO1976] chapter 1.

    Examples
    --------
    >>> line_centroid([0.0, 0.0, 2.0, 2.0], [0.0, 1.0, 1.0, 0.0])
    (1.0, 0.75)
    """
    px, pz = np.asarray(x, dtype=float), np.asarray(z, dtype=float)
    pieces = np.hypot(np.diff(px), np.diff(pz))
    within("length", float(np.sum(pieces)), 0.0, unit="m", open_low=True)
    share = pieces / np.sum(pieces)
    return float(share @ (0.5 * (px[:-1] + px[1:]))), float(share @ (0.5 * (pz[:-1] + pz[1:])))


def headroom_strip(x: ArrayLike, z: ArrayLike, height: float) -> Strip:
    """The strip of floor over which a curve leaves a height free.

    From the last point of the left half below the height to the first of the right half below it;
    straight between points.

    Parameters
    ----------
    x : array
        Distances of the curve's points from mid-span, from the left foot to the right [m].
    z : array
        Their heights over the floor [m]; rising to one crown, then falling.
    height : float
        Height to be free [m]; from 0 to the crown.

    Returns
    -------
    Strip
        Left and right end [m]; at most from foot to foot, where upright walls stand.

    References
    ----------
    [DOCARMO1976] chapter 1.

    Examples
    --------
    >>> headroom_strip([-2.0, 0.0, 2.0], [0.0, 2.0, 0.0], 1.5).width
    1.0
    """
    px, pz = np.asarray(x, dtype=float), np.asarray(z, dtype=float)
    within("height", height, 0.0, float(np.max(pz)), unit="m")
    top = int(np.argmax(pz))
    left = float(np.interp(height, pz[: top + 1], px[: top + 1]))
    right = float(np.interp(height, pz[top:][::-1], px[top:][::-1]))
    # Where the curve leans out over its feet, the wall below it is what stands in the way.
    return Strip(max(left, float(px[0])), min(right, float(px[-1])))


def _closed(x: ArrayLike, z: ArrayLike) -> tuple[Array, Array]:
    px, pz = np.asarray(x, dtype=float), np.asarray(z, dtype=float)
    return np.append(px, px[0]), np.append(pz, pz[0])


def _meet(
    curve: PlaneCurve, distance: float, at: int, faces: tuple[Array, Array, Array]
) -> tuple[Array, Array, Array]:
    """Bring both faces beside a kink, after point `at`, to the place where they meet."""
    x, z, s = faces
    turn = curve.angle[at] - curve.angle[at + 1]
    # Seen from the kink, a face runs `past` beyond its last square point (or stops that far short).
    past = distance * np.tan(0.5 * turn)
    along = np.array([np.cos(curve.angle[at]), np.sin(curve.angle[at])])
    if past >= 0.0:
        x[at : at + 2], z[at : at + 2] = x[at] + past * along[0], z[at] + past * along[1]
        shift = np.where(np.arange(s.size) < at, 0.0, np.where(np.arange(s.size) < at + 2, past, 2.0 * past))
        return x, z, s + shift
    middle = np.array([-np.sin(curve.angle[at] - 0.5 * turn), np.cos(curve.angle[at] - 0.5 * turn)])
    across = np.array([middle[1], -middle[0]])
    seen = (x - curve.x[at]) * across[0] + (z - curve.z[at]) * across[1]
    before, after = np.arange(s.size) <= at, np.arange(s.size) > at
    last = int(np.flatnonzero(before & (seen < 0.0))[-1])
    first = int(np.flatnonzero(after & (seen > 0.0))[0])
    share = seen[last] / (seen[last] - seen[last + 1])
    place = [float(array[last] + share * (array[last + 1] - array[last])) for array in (x, z, s)]
    x[last + 1 : first], z[last + 1 : first] = place[0], place[1]
    s = np.where(np.arange(s.size) < first, np.minimum(s, place[2]), place[2] + s - s[first])
    s[first:] += float(np.hypot(x[first] - place[0], z[first] - place[1]))
    return x, z, s
