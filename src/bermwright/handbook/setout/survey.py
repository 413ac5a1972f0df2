"""Surveyed points: places on the globe to metres, a plane through heights, a closed traverse."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]
    Number = float | Array

MAJOR, FLATTENING = 6378137.0, 1.0 / 298.257223563
"""The ellipsoid WGS 84 (m, -)."""
LEAST_POINTS = 3
LEAST_SPARE = {1: 3, 2: 6}
"""Points beyond those that fix a plane or a bent surface, from which one can be told to be wrong."""
ALONE = 1e-9
"""A point that alone holds the surface in some way: without it the others do not fix one."""
LIMIT = 3.5
"""Robust spreads beyond which a point is an outlier."""
TO_NORMAL = 1.4826
"""Median of absolute deviations to a standard deviation, for normal errors."""
FLATTEST = 1e-12


class Traverse(NamedTuple):
    """A closed traverse after its closing error was spread."""

    north: Array
    """Of every corner after the first (m)."""
    east: Array
    miss_north: float
    """What the loop fails to close by (m)."""
    miss_east: float
    ratio: float
    """Length of the loop over its closing error (-)."""
    area: float
    """Area it encloses (m2)."""


class Plane(NamedTuple):
    """A level plane through points: z = z0 + a·x + b·y."""

    level: float
    """Height over the middle of the points (m)."""
    east: float
    """Rise to the east, a (-)."""
    north: float
    """Rise to the north, b (-)."""
    residuals: Array
    """Measured less plane (m)."""
    spread: float
    """Standard error of a point (m); NaN where none is spare."""
    middle: tuple[float, float]
    """Middle of the points (m)."""

    @property
    def slope(self) -> float:
        """Steepest slope (rad)."""
        return float(np.arctan(np.hypot(self.east, self.north)))

    @property
    def faces(self) -> float:
        """Direction in which it falls, from north clockwise (rad)."""
        return float(np.arctan2(-self.east, -self.north) % (2.0 * np.pi))


def local_metres(
    latitude: Number, longitude: Number, *, from_latitude: float, from_longitude: float
) -> Array:
    """Metres to the east and to the north of a near place.

    x = (N + h)·cos φ·Δλ, y = M·Δφ, with N and M the radii of the ellipsoid

    Parameters
    ----------
    latitude : float or array
        Latitude of the point, φ [rad].
    longitude : float or array
        Longitude of the point, λ [rad].
    from_latitude : float
        Latitude of the place from which is counted [rad]; at most 89 degrees.
    from_longitude : float
        Its longitude [rad].

    Returns
    -------
    array
        East and north, in the last axis [m].

    Notes
    -----
    Within 1 km of the place the error is below 0.1 m at 65 degrees; heights over the sea are left out.

    References
    ----------
    [WGS84] : radii of curvature of the ellipsoid.

    Examples
    --------
    >>> point = local_metres(np.radians(60.001), 0.0, from_latitude=np.radians(60.0), from_longitude=0.0)
    >>> point.round(1).tolist()
    [0.0, 111.4]
    """
    within("latitude", from_latitude, -1.5533, 1.5533, unit="rad")
    within("latitude", latitude, -0.5 * np.pi, 0.5 * np.pi, unit="rad")
    within("longitude", longitude, -2.0 * np.pi, 2.0 * np.pi, unit="rad")
    within("longitude", from_longitude, -2.0 * np.pi, 2.0 * np.pi, unit="rad")
    squared = FLATTENING * (2.0 - FLATTENING)
    bulge = 1.0 - squared * np.sin(from_latitude) ** 2
    across = MAJOR / np.sqrt(bulge)
    along = MAJOR * (1.0 - squared) / bulge**1.5
    turn = (np.asarray(longitude, dtype=float) - from_longitude + np.pi) % (2.0 * np.pi) - np.pi
    east = across * np.cos(from_latitude) * turn
    north = along * (np.asarray(latitude, dtype=float) - from_latitude)
    return np.stack(np.broadcast_arrays(east, north), axis=-1)


def fit_plane(x: ArrayLike, y: ArrayLike, z: ArrayLike) -> Plane:
    """The plane through measured heights, by least squares.

    minimise Σ(z_i − z_0 − a·x_i − b·y_i)²

    Parameters
    ----------
    x : array
        To the east [m].
    y : array
        To the north [m].
    z : array
        Heights [m].

    Returns
    -------
    Plane
        Level, rises, residuals, spread [m].

    References
    ----------
    [LEVELNET] : the normal equations.

    Examples
    --------
    >>> plane = fit_plane([0.0, 10.0, 0.0, 10.0], [0.0, 0.0, 10.0, 10.0], [1.0, 1.0, 0.0, 0.0])
    >>> round(float(np.degrees(plane.slope)), 2), round(float(np.degrees(plane.faces)), 1)
    (5.71, 0.0)
    """
    for name, value in (("x", x), ("y", y), ("z", z)):
        within(name, value, unit="m")
    east, north, height = (np.asarray(value, dtype=float) for value in (x, y, z))
    if east.size < LEAST_POINTS:
        raise OutOfRangeError(f"A plane needs three points; there are {east.size}.")
    middle = float(east.mean()), float(north.mean())
    design = np.column_stack([np.ones(east.size), east - middle[0], north - middle[1]])
    width = np.linalg.svd(design[:, 1:], compute_uv=False)
    if width[1] <= FLATTEST + 1e-6 * width[0]:
        raise OutOfRangeError("All points lie on one line: a plane needs points on both sides of it.")
    found, *_ = np.linalg.lstsq(design, height, rcond=None)
    residuals = height - design @ found
    spare = east.size - LEAST_POINTS
    spread = float(np.sqrt(residuals @ residuals / spare)) if spare else float("nan")
    return Plane(float(found[0]), float(found[1]), float(found[2]), residuals, spread, middle)


def odd_heights(x: ArrayLike, y: ArrayLike, z: ArrayLike, *, least: float = 0.05, degree: int = 1) -> Array:
    """Which points do not belong to the surface that the others make, told one after another.

    |r_i| > max(3.5·1.4826·median|r|, least), the farthest first, each time against the rest

    Parameters
    ----------
    x : array
        To the east [m].
    y : array
        To the north [m].
    z : array
        Heights [m].
    least : float
        Distance from the surface that is never called odd [m], above 0: what grass and clods make.
    degree : int
        1: a plane. 2: a bent surface, z = c0 + c1·x + c2·y + c3·x² + c4·x·y + c5·y².

    Returns
    -------
    array
        True where a point is odd [-].

    Notes
    -----
    With fewer than six points for a plane, twelve for a bent surface, nothing can be told, and nothing is
    called odd. A point without which the others fix no surface is never called odd.

    References
    ----------
    [ROUSSEEUW1987] : section 5.1, robust scale.

    Examples
    --------
    >>> x, y = np.meshgrid(np.arange(3.0), np.arange(3.0))
    >>> heights = 0.1 * x
    >>> heights[1, 1] += 1.0
    >>> int(odd_heights(x.ravel(), y.ravel(), heights.ravel()).sum())
    1
    """
    within("least", least, 0.0, unit="m", open_low=True)
    within("degree", degree, min(LEAST_SPARE), max(LEAST_SPARE))
    for name, value in (("x", x), ("y", y), ("z", z)):
        within(name, value, unit="m")
    height = np.asarray(z, dtype=float)
    design = _surface(np.asarray(x, dtype=float), np.asarray(y, dtype=float), degree)
    odd = np.zeros(height.size, dtype=bool)
    while np.sum(~odd) >= design.shape[1] + LEAST_SPARE[degree]:
        worst = _farthest(design, height, ~odd, least)
        if worst is None:
            break
        odd[worst] = True
    return odd


def _surface(x: Array, y: Array, degree: int) -> Array:
    """The columns of a plane or a bent surface, counted from the middle of the points in their own width."""
    if not x.size:
        return np.zeros((0, 3))
    east, north = x - x.mean(), y - y.mean()
    wide = max(float(np.max(np.hypot(east, north))), FLATTEST)
    u, v = east / wide, north / wide
    columns = [np.ones_like(u), u, v] + ([u * u, u * v, v * v] if degree == max(LEAST_SPARE) else [])
    return np.column_stack(columns)


def _farthest(design: Array, z: Array, kept: NDArray[np.bool_], least: float) -> int | None:
    """The point that the others leave farthest off, where that is too far; each is tried against the rest."""
    at = np.flatnonzero(kept)
    basis, widths, _ = np.linalg.svd(design[at], full_matrices=False)
    basis = basis[:, widths > ALONE * widths[0]]
    alone = 1.0 - np.sum(basis * basis, axis=1)
    residual = z[at] - basis @ (basis.T @ z[at])
    off = np.where(alone > ALONE, np.abs(residual) / np.maximum(alone, ALONE), 0.0)
    worst = int(np.argmax(off))
    rest = np.delete(at, worst)
    found, *_ = np.linalg.lstsq(design[rest], z[rest], rcond=None)
    scale = float(np.median(np.abs(z[rest] - design[rest] @ found)))
    return int(at[worst]) if off[worst] > max(LIMIT * TO_NORMAL * scale, least) else None


def close_traverse(
    north: ArrayLike, east: ArrayLike, lengths: ArrayLike, *, start_north: float, start_east: float
) -> Traverse:
    """A loop of measured legs, its closing error spread over them by their length.

    c_i = −f·l_i/Σl, for north and east alike

    Parameters
    ----------
    north : array
        How far each leg goes north [m].
    east : array
        How far it goes east [m].
    lengths : array
        Length of each leg [m], above 0.
    start_north : float
        North of the first corner [m].
    start_east : float
        East of the first corner [m].

    Returns
    -------
    Traverse
        Corners after the first, closing errors, ratio and area [m, m2].

    References
    ----------
    [TRAVERSE] : the compass rule.

    Examples
    --------
    >>> loop = close_traverse(
    ...     [10.0, 0.0, -10.0, 0.0],
    ...     [0.0, 5.0, 0.0, -5.0],
    ...     [10.0, 5.0, 10.0, 5.0],
    ...     start_north=0.0,
    ...     start_east=0.0,
    ... )
    >>> loop.area
    50.0
    """
    within("length of a leg", lengths, 0.0, unit="m", open_low=True)
    for name, value in (("north", north), ("east", east), ("start", start_north), ("start", start_east)):
        within(name, value, unit="m")
    legs = np.asarray(lengths, dtype=float)
    share = legs / legs.sum()
    up, right = np.asarray(north, dtype=float), np.asarray(east, dtype=float)
    miss_up, miss_right = float(up.sum()), float(right.sum())
    y = start_north + np.cumsum(up - miss_up * share)
    x = start_east + np.cumsum(right - miss_right * share)
    ring_x, ring_y = np.append(start_east, x[:-1]), np.append(start_north, y[:-1])
    area = 0.5 * abs(float(ring_x @ np.roll(ring_y, -1) - ring_y @ np.roll(ring_x, -1)))
    miss = float(np.hypot(miss_up, miss_right))
    return Traverse(
        north=y[:-1],
        east=x[:-1],
        miss_north=miss_up,
        miss_east=miss_right,
        ratio=float(legs.sum() / miss) if miss else float("inf"),
        area=area,
    )
