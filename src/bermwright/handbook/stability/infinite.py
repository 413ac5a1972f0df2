"""A long even slope that slides as one sheet: dry, or with water running down inside it."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

WATER = 9810.0
"""Unit weight of water (N/m3)."""
STEEPEST = np.radians(80.0)


def infinite_slope_factor(
    slope: ArrayLike,
    friction: ArrayLike,
    *,
    unit_weight: ArrayLike,
    depth: ArrayLike,
    cohesion: ArrayLike = 0.0,
    wet_share: ArrayLike = 0.0,
) -> Array:
    r"""Strength over what is asked for along a plane parallel to a long slope.

    :math:`F = \frac{c + (\gamma - m\gamma_w) z \cos^2\beta \tan\varphi}{\gamma z \sin\beta\cos\beta}`

    Parameters
    ----------
    slope : float or array
        Slope of surface and plane [rad], above 0 to 1.396.
    friction : float or array
        Angle of friction on the plane [rad], 0 to 0.873.
    unit_weight : float or array
        Unit weight of the soil above the plane, with its water [N/m3], above 0.
    depth : float or array
        Upright depth z of the plane [m], above 0.
    cohesion : float or array
        Cohesion on the plane [Pa], from 0.
    wet_share : float or array
        Share m of the depth in which water runs parallel to the slope [-], 0 to 1.

    Returns
    -------
    array
        Factor F; below 1 it slides [-].

    References
    ----------
    [DAS] long slopes with and without seepage.

    Examples
    --------
    >>> tilt, grip = np.radians(20.0), np.radians(30.0)
    >>> round(float(infinite_slope_factor(tilt, grip, unit_weight=19e3, depth=0.5)), 3)
    1.586
    """
    within("slope", slope, 0.0, STEEPEST, unit="rad", open_low=True)
    within("angle of friction", friction, 0.0, np.radians(50.0), unit="rad")
    within("unit weight", unit_weight, 0.0, unit="N/m3", open_low=True)
    within("depth", depth, 0.0, unit="m", open_low=True)
    within("cohesion", cohesion, 0.0, unit="Pa")
    within("wet share", wet_share, 0.0, 1.0)
    weight, deep = np.asarray(unit_weight, dtype=float), np.asarray(depth, dtype=float)
    effective = (weight - np.asarray(wet_share, dtype=float) * WATER) * deep
    grip = np.asarray(cohesion, dtype=float) + effective * np.cos(slope) ** 2 * np.tan(friction)
    return np.asarray(grip / (weight * deep * np.sin(slope) * np.cos(slope)))


def steepest_infinite_slope(
    friction: ArrayLike, factor: ArrayLike, *, unit_weight: ArrayLike, wet_share: ArrayLike = 0.0
) -> Array:
    r"""Steepest long slope without cohesion that has a wanted factor.

    :math:`\tan\beta = \frac{\tan\varphi}{F}\left(1 - m\gamma_w/\gamma\right)`

    Parameters
    ----------
    friction : float or array
        Angle of friction on the plane [rad], 0 to 0.873.
    factor : float or array
        Wanted factor F [-], above 0.
    unit_weight : float or array
        Unit weight of the soil with its water [N/m3], above 0.
    wet_share : float or array
        Share m of the depth in which water runs parallel to the slope [-], 0 to 1.

    Returns
    -------
    array
        Slope [rad].

    References
    ----------
    [DAS] long slopes with and without seepage, solved for the slope.

    Examples
    --------
    >>> round(float(steepest_infinite_slope(0.192, factor=1.5, unit_weight=20000.0, wet_share=0.0)), 4)
    0.1289
    """
    within("angle of friction", friction, 0.0, np.radians(50.0), unit="rad")
    within("factor", factor, 0.0, unit="", open_low=True)
    within("unit weight", unit_weight, 0.0, unit="N/m3", open_low=True)
    within("wet share", wet_share, 0.0, 1.0)
    held = 1.0 - np.asarray(wet_share, dtype=float) * WATER / np.asarray(unit_weight, dtype=float)
    return np.asarray(np.arctan(np.tan(friction) / np.asarray(factor, dtype=float) * np.maximum(held, 0.0)))
