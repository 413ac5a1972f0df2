"""Volume of a pit with sloped sides: closed form under level ground, slices under a slope, grid anywhere."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]
    Number = float | Array


def pit_volume(length: Number, width: Number, *, depth: Number, batter: Number) -> Array:
    """Volume of a pit under level ground whose four sides lean out alike.

    V = b·l·d + (b + l)·s·d² + 4/3·s²·d³

    Parameters
    ----------
    length : float or array
        Length of the bottom, l [m], from 0.
    width : float or array
        Width of the bottom, b [m], from 0.
    depth : float or array
        Depth, d [m], from 0.
    batter : float or array
        How far a side leans out for each metre up, s [-], from 0: 0 is upright.

    Returns
    -------
    float or array
        Volume in the bank, V [m3].

    References
    ----------
    [FM5434] : earthwork volumes; the pit with plane faces.

    Examples
    --------
    >>> round(float(pit_volume(6.0, 5.0, depth=2.0, batter=1.0)), 3)
    114.667
    """
    for name, value in (("length", length), ("width", width), ("depth", depth)):
        within(name, value, 0.0, unit="m")
    within("batter", batter, 0.0)
    long, wide, deep, lean = (np.asarray(value, dtype=float) for value in (length, width, depth, batter))
    return np.asarray(wide * long * deep + (wide + long) * lean * deep**2 + 4.0 / 3.0 * lean**2 * deep**3)


def grid_volume(depths: ArrayLike, *, spacing_x: float, spacing_y: float) -> float:
    """Volume over a grid of depths, by the mean of the four corners of every cell.

    V = Σ a·(d_1 + d_2 + d_3 + d_4)/4

    Parameters
    ----------
    depths : array
        Depths at the corners of the grid, rows by columns [m].
    spacing_x : float
        Distance of the columns [m], above 0.
    spacing_y : float
        Distance of the rows [m], above 0.

    Returns
    -------
    float
        Volume [m3]; cut is positive where depths are.

    References
    ----------
    [FM5434] : earthwork volumes; the grid.

    Examples
    --------
    >>> grid_volume([[1.0, 1.0], [1.0, 3.0]], spacing_x=2.0, spacing_y=2.0)
    6.0
    """
    within("spacing", spacing_x, 0.0, unit="m", open_low=True)
    within("spacing", spacing_y, 0.0, unit="m", open_low=True)
    within("depths", depths, unit="m")
    corners = np.asarray(depths, dtype=float)
    if min(corners.shape) < 2:  # noqa: PLR2004  (a cell has two by two corners)
        raise OutOfRangeError("A grid needs two rows and two columns at least.")
    cells = corners[:-1, :-1] + corners[1:, :-1] + corners[:-1, 1:] + corners[1:, 1:]
    return float(0.25 * spacing_x * spacing_y * cells.sum())


def slice_volume(levels: ArrayLike, areas: ArrayLike) -> float:
    """Volume of a body from its level sections, each pair with the section halfway between.

    V = Σ L/6·(A_1 + 4·A_m + A_2), exact where areas vary as a cube between the levels

    Parameters
    ----------
    levels : array
        Levels of the sections, rising: every second one lies halfway between its neighbours [m].
    areas : array
        Areas of the sections [m2], from 0.

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    [FM5434] : earthwork volumes; the rule is Simpson's.

    Examples
    --------
    >>> round(slice_volume([0.0, 1.0, 2.0], [30.0, 56.0, 90.0]), 3)
    114.667
    """
    within("areas", areas, 0.0, unit="m2")
    within("levels", levels, unit="m")
    z, a = np.asarray(levels, dtype=float), np.asarray(areas, dtype=float)
    if z.size != a.size or z.size % 2 == 0:
        raise OutOfRangeError("Slices need an area for every level, and a level halfway in every step.")
    return float(np.sum((z[2::2] - z[:-2:2]) / 6.0 * (a[:-2:2] + 4.0 * a[1::2] + a[2::2])))
