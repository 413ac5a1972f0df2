"""Heights from one datum: readings reduced, closing errors spread, least squares."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]
    Number = float | Array

CURVATURE = 0.0675
"""Fall of a level line of sight below the earth's level with usual refraction (m per km²)."""


class Levelled(NamedTuple):
    """Heights from differences that were measured more than once."""

    heights: Array
    """Of every point, the fixed ones as given (m)."""
    residuals: Array
    """Adjusted less measured difference (m)."""
    spread: float
    """Error of a difference of weight 1 (m); NaN where nothing was measured twice."""


def rise_and_fall(back: ArrayLike, fore: ArrayLike) -> Array:
    """Differences of height from pairs of readings.

    Δh = back − fore

    Parameters
    ----------
    back : array
        Readings on the points that are left, one by one [m].
    fore : array
        Readings on the points that are come to [m].

    Returns
    -------
    array
        Rises (above 0) and falls [m].

    Notes
    -----
    With a water level the reading is the height of the water over the peg, on a stick. The sum of all
    equals the sum of the back less the sum of the fore readings; a wrong reading in between does not show
    in that check, only in a second reading.

    References
    ----------
    [LEVELBOOK] : rise and fall.

    Examples
    --------
    >>> rise_and_fall([1.35, 0.80], [0.80, 1.65]).round(2).tolist()
    [0.55, -0.85]
    """
    within("back", back, unit="m")
    within("fore", fore, unit="m")
    left, come = np.asarray(back, dtype=float), np.asarray(fore, dtype=float)
    if left.shape != come.shape:
        raise OutOfRangeError("Every reading back needs one fore: a reading is missing.")
    return np.asarray(left - come)


def spread_closure(error: float, lengths: ArrayLike) -> Array:
    """Corrections that spread the closing error of a loop over its legs, by their length.

    c_i = −f·l_i/Σl

    Parameters
    ----------
    error : float
        Sum of all differences round the loop, f [m]; 0 where it closes.
    lengths : array
        Length of every leg, l_i [m], above 0.

    Returns
    -------
    array
        Correction of every leg, c_i [m].

    References
    ----------
    [LEVELLOOP] : closing a loop.

    Examples
    --------
    >>> (1000.0 * spread_closure(-0.009, [120.0, 80.0, 100.0])).round(1).tolist()
    [3.6, 2.4, 3.0]
    """
    within("closing error", error, unit="m")
    within("length of a leg", lengths, 0.0, unit="m", open_low=True)
    legs = np.asarray(lengths, dtype=float)
    return np.asarray(-error * legs / legs.sum())


def allowed_closure(length: Number, *, per_root_km: Number) -> Array:
    """Closing error of a loop that may be spread; more means levelling again.

    f_max = k·√K, K in kilometres

    Parameters
    ----------
    length : float or array
        Length of the whole loop [m], above 0.
    per_root_km : float or array
        What a loop of a kilometre may miss, k [m], above 0: 0.005 to 0.015 by what is built.

    Returns
    -------
    float or array
        Allowed closing error, f_max [m].

    References
    ----------
    [LEVELLOOP] : limits by the root of the length.

    Examples
    --------
    >>> round(1000.0 * float(allowed_closure(300.0, per_root_km=0.012)), 1)
    6.6
    """
    within("length", length, 0.0, unit="m", open_low=True)
    within("error of a kilometre", per_root_km, 0.0, unit="m", open_low=True)
    return np.asarray(
        np.asarray(per_root_km, dtype=float) * np.sqrt(np.asarray(length, dtype=float) / 1000.0)
    )


def sight_error(distance: Number) -> Array:
    """How much too high a far staff reads, from the round earth and the air.

    e = 0.0675·K², K in kilometres

    Parameters
    ----------
    distance : float or array
        Length of the sight [m], from 0; to 5 km.

    Returns
    -------
    float or array
        Error of the reading, e [m]. A water level has none.

    References
    ----------
    [LEVELLOOP] : curvature and refraction.

    Examples
    --------
    >>> round(1000.0 * float(sight_error(100.0)), 2)
    0.68
    """
    within("distance", distance, 0.0, 5000.0, unit="m")
    return np.asarray(CURVATURE * (np.asarray(distance, dtype=float) / 1000.0) ** 2)


def adjust_heights(
    start: ArrayLike, end: ArrayLike, difference: ArrayLike, *, weights: ArrayLike, fixed: ArrayLike
) -> Levelled:
    """Heights of a net of measured differences by least squares.

    minimise Σ w_i·(h_end − h_start − Δ_i)²

    Parameters
    ----------
    start : array
        Number of the point where each difference begins [-].
    end : array
        Number of the point where it ends [-].
    difference : array
        Measured height of the end over the start [m].
    weights : array
        Weight of each, such as one over its length [-]; above 0.
    fixed : array
        Known height of each point, NaN where it is sought [m]; at least one known.

    Returns
    -------
    Levelled
        Heights, residuals (adjusted less measured) and the error of weight 1 [m].

    References
    ----------
    [LEVELNET] : the normal equations of a levelling net.

    Examples
    --------
    >>> adjust_heights([0], [1], [0.25], weights=[1.0], fixed=[1.0, np.nan]).heights.tolist()
    [1.0, 1.25]
    """
    within("difference", difference, unit="m")
    within("weights", weights, 0.0, open_low=True)
    heights = np.array(fixed, dtype=float)
    sought = np.flatnonzero(np.isnan(heights))
    if sought.size == heights.size:
        raise OutOfRangeError("No height is known: give one point a height, the datum.")
    first, last = np.asarray(start, dtype=int), np.asarray(end, dtype=int)
    measured, root = np.asarray(difference, dtype=float), np.sqrt(np.asarray(weights, dtype=float))
    rows = np.arange(measured.size)
    design = np.zeros((measured.size, heights.size))
    np.add.at(design, (rows, last), 1.0)
    np.add.at(design, (rows, first), -1.0)
    known = np.where(np.isnan(heights), 0.0, heights)
    matrix = design[:, sought] * root[:, None]
    if np.linalg.matrix_rank(matrix) < sought.size:
        raise OutOfRangeError("A point hangs on nothing: no difference leads to it from a known height.")
    found, *_ = np.linalg.lstsq(matrix, root * (measured - design @ known), rcond=None)
    heights[sought] = found
    residuals = design @ heights - measured
    spare = measured.size - sought.size
    spread = float(np.sqrt(np.sum((root * residuals) ** 2) / spare)) if spare else float("nan")
    return Levelled(heights=heights, residuals=residuals, spread=spread)


def footing_steps(fall: Number, *, step: Number) -> Array:
    """Number of steps of a footing that follows falling ground.

    n = ⌈F/s⌉

    Parameters
    ----------
    fall : float or array
        Fall of the ground from end to end of the footing, F [m], from 0.
    step : float or array
        Largest height of one step, s [m], above 0.

    Returns
    -------
    float or array
        Number of steps, n [-]; each is F/n high.

    References
    ----------
    [PRACTICE] : a step is no higher than the footing is thick, and laps by twice its height.

    Examples
    --------
    >>> float(footing_steps(1.05, step=0.3))
    4.0
    """
    within("fall", fall, 0.0, unit="m")
    within("step", step, 0.0, unit="m", open_low=True)
    return np.asarray(np.ceil(np.asarray(fall, dtype=float) / step - 1e-9))
