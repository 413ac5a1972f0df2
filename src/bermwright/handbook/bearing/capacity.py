"""What the ground under a strip or rectangle carries, with eccentric and inclined loads."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within
from bermwright.handbook.bearing.factors import (
    Formula,
    cohesion_factor,
    cohesion_inclination,
    surcharge_factor,
    surcharge_inclination,
    surcharge_shape,
    undrained_inclination,
    weight_factor,
    weight_inclination,
    weight_shape,
)

Array = NDArray[np.float64]

WATER = 9810.0
"""Unit weight of water (N/m3)."""
ENDLESS = 1e9
"""Length over width from which a footing counts as a strip."""
_LEAST_ANGLE = 0.02
_SQUARE_POWER = 2.0


def effective_width(width: ArrayLike, eccentricity: ArrayLike) -> Array:
    r"""Width of the base that a centric force of the same size would need.

    :math:`B' = B - 2|e|`, never below 0.

    Parameters
    ----------
    width : float or array
        Width of the base [m], above 0.
    eccentricity : float or array
        From the middle of the base to the force [m].

    Returns
    -------
    array
        Effective width [m]; 0 where the force has left the base.

    References
    ----------
    [MEYERHOF1953] effective area.

    Examples
    --------
    >>> round(float(effective_width(1.0, 0.15)), 2)
    0.7
    """
    within("width of the base", width, 0.0, unit="m", open_low=True)
    within("eccentricity", eccentricity, unit="m")
    kept: Array = np.asarray(width, dtype=np.float64) - 2.0 * np.abs(eccentricity)
    return np.maximum(kept, 0.0)


def weight_with_water(
    weight: ArrayLike, saturated: ArrayLike, *, water: ArrayLike, width: ArrayLike
) -> Array:
    r"""Unit weight that counts under a base with ground water near it.

    :math:`\gamma' + (\gamma - \gamma')\,z_w/B` for water between the base and one width below it.

    Parameters
    ----------
    weight : float or array
        Moist unit weight [N/m3], 5e3 to 30e3.
    saturated : float or array
        Unit weight full of water [N/m3], 9.81e3 to 30e3.
    water : float or array
        Depth of the water below the base [m]; negative stands above it.
    width : float or array
        Width of the base [m], above 0.

    Returns
    -------
    array
        Unit weight [N/m3].

    References
    ----------
    [MEYERHOF1963] influence of ground water.

    Examples
    --------
    >>> round(float(weight_with_water(18e3, 20e3, water=0.5, width=1.0)))
    14095
    """
    within("unit weight", weight, 5e3, 30e3, unit="N/m3")
    within("saturated unit weight", saturated, WATER, 30e3, unit="N/m3")
    within("depth of the water", water, -100.0, 1e4, unit="m")
    within("width of the base", width, 0.0, unit="m", open_low=True)
    buoyant = np.asarray(saturated, dtype=np.float64) - WATER
    share = np.clip(np.asarray(water, dtype=np.float64) / np.asarray(width, dtype=np.float64), 0.0, 1.0)
    counted: Array = buoyant + (np.asarray(weight, dtype=np.float64) - buoyant) * share
    return counted


def drained_capacity(  # noqa: PLR0913  (the equation has so many)
    *,
    angle: ArrayLike,
    cohesion: ArrayLike,
    weight: ArrayLike,
    surcharge: ArrayLike,
    width: ArrayLike,
    length: ArrayLike = ENDLESS,
    inclination: ArrayLike = 0.0,
    formula: Formula = Formula.EN1997,
) -> Array:
    r"""Pressure on the effective area under which drained ground gives way.

    :math:`c' N_c s_c i_c + q' N_q s_q i_q + \tfrac12\gamma' B' N_\gamma s_\gamma i_\gamma`

    Parameters
    ----------
    angle : float or array
        Angle of friction [rad], 0.02 to 0.873.
    cohesion : float or array
        Drained cohesion [Pa], from 0.
    weight : float or array
        Unit weight that counts under the base [N/m3], 0 to 30e3; see `weight_with_water`.
    surcharge : float or array
        Effective pressure of the soil beside the footing at its base [Pa], from 0.
    width : float or array
        Effective width [m], above 0.
    length : float or array
        Effective length [m], from the width; left out, it is a strip.
    inclination : float or array
        H/V of the force, or H/(V + A'·c'·cotφ) where cohesion is counted on [-], 0 to 1, across the width.
    formula : Formula
        Whose factor of the soil's own weight.

    Returns
    -------
    array
        Pressure at failure [Pa]; times the effective width it is the resistance.

    Notes
    -----
    No depth factors, and a level base on level ground.

    References
    ----------
    [EN1997] annex D.4.

    Examples
    --------
    >>> pressure = drained_capacity(angle=np.radians(30), cohesion=0, weight=18e3, surcharge=14.4e3, width=1)
    >>> round(float(pressure) / 1e3, 1)
    445.8
    """
    within("angle of friction", angle, _LEAST_ANGLE, 0.873, unit="rad")
    within("cohesion", cohesion, 0.0, unit="Pa")
    within("unit weight", weight, 0.0, 30e3, unit="N/m3")
    within("pressure beside the footing", surcharge, 0.0, unit="Pa")
    slim = np.asarray(width, dtype=np.float64) / np.asarray(length, dtype=np.float64)
    power = (_SQUARE_POWER + slim) / (1.0 + slim)
    flat = surcharge_inclination(inclination, power)
    wide, number = surcharge_shape(angle, width, length), surcharge_factor(angle)
    held = (wide * number - 1.0) / (number - 1.0)
    sticking = (
        np.asarray(cohesion, dtype=np.float64)
        * cohesion_factor(angle)
        * held
        * cohesion_inclination(flat, angle)
    )
    beside = np.asarray(surcharge, dtype=np.float64) * number * wide * flat
    under = 0.5 * np.asarray(weight, dtype=np.float64) * np.asarray(width, dtype=np.float64)
    under = (
        under
        * weight_factor(angle, formula)
        * weight_shape(width, length)
        * weight_inclination(inclination, power)
    )
    capacity: Array = sticking + beside + under
    return capacity


def undrained_capacity(
    *,
    strength: ArrayLike,
    surcharge: ArrayLike,
    width: ArrayLike,
    length: ArrayLike = ENDLESS,
    along: ArrayLike = 0.0,
) -> Array:
    r"""Pressure on the effective area under which clay gives way before it can drain.

    :math:`(\pi + 2)\,c_u s_c i_c + q`, with :math:`s_c = 1 + 0.2 B'/L'`

    Parameters
    ----------
    strength : float or array
        Undrained shear strength [Pa], above 0.
    surcharge : float or array
        Whole pressure of the soil beside the footing at its base [Pa], from 0.
    width : float or array
        Effective width [m], above 0.
    length : float or array
        Effective length [m], from the width; left out, it is a strip.
    along : float or array
        Push along the base, per metre of length [N/m], from 0 to width · strength.

    Returns
    -------
    array
        Pressure at failure [Pa]; times the effective width it is the resistance.

    References
    ----------
    [EN1997] annex D.3.

    Examples
    --------
    >>> round(float(undrained_capacity(strength=50e3, surcharge=14.4e3, width=1.0)) / 1e3, 1)
    271.5
    """
    within("undrained strength", strength, 0.0, unit="Pa", open_low=True)
    within("pressure beside the footing", surcharge, 0.0, unit="Pa")
    within("effective width", width, 0.0, unit="m", open_low=True)
    firm = np.asarray(strength, dtype=np.float64)
    slim = np.asarray(width, dtype=np.float64) / np.asarray(length, dtype=np.float64)
    within("width over length", slim, 0.0, 1.0 + 1e-9)
    shape = 1.0 + 0.2 * slim
    leaning = undrained_inclination(along, firm * np.asarray(width, dtype=np.float64))
    capacity: Array = cohesion_factor(0.0) * firm * shape * leaning + np.asarray(surcharge, dtype=np.float64)
    return capacity
