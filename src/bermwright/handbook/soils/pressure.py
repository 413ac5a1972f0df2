"""Sideways over vertical pressure of a soil, and its stiffness with stress."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

STEEPEST = np.radians(50.0)
WATER = 9810.0
"""Unit weight of water (N/m3)."""
COMPACTION_EXCESS = 0.13
REFERENCE_STRESS = 50e3
LEAST_STRESS = 5e3


def design_friction_angle(angle: ArrayLike, factor: ArrayLike) -> Array:
    r"""Design value of an angle of friction: its tangent is divided by the partial factor.

    :math:`\tan\varphi_d = \tan\varphi / \gamma_\varphi`

    Parameters
    ----------
    angle : float or array
        Characteristic angle of friction [rad], 0 to 0.873 (50 degrees).
    factor : float or array
        Partial factor on its tangent [-], from 1 to 2.

    Returns
    -------
    array
        Design angle of friction [rad].

    References
    ----------
    [EN1997] 2.4.6.2 and table A.4.

    Examples
    --------
    >>> round(float(np.degrees(design_friction_angle(np.radians(32.0), 1.25))), 2)
    26.56
    """
    within("angle of friction", angle, 0.0, STEEPEST, unit="rad")
    within("partial factor", factor, 1.0, 2.0)
    return np.arctan(np.tan(angle) / np.asarray(factor, dtype=np.float64))


def active_ratio(angle: ArrayLike) -> Array:
    r"""Least ratio of sideways to vertical pressure under a level surface (Rankine).

    :math:`K_a = (1 - \sin\varphi) / (1 + \sin\varphi)`

    Parameters
    ----------
    angle : float or array
        Angle of friction [rad], 0 to 0.873.

    Returns
    -------
    array
        Ka [-].

    References
    ----------
    [DAS] earth pressure after Rankine.

    Examples
    --------
    >>> round(float(active_ratio(np.radians(30.0))), 4)
    0.3333
    """
    within("angle of friction", angle, 0.0, STEEPEST, unit="rad")
    return (1.0 - np.sin(angle)) / (1.0 + np.sin(angle))


def passive_ratio(angle: ArrayLike) -> Array:
    r"""Greatest ratio of sideways to vertical pressure under a level surface (Rankine).

    :math:`K_p = (1 + \sin\varphi) / (1 - \sin\varphi)`

    Parameters
    ----------
    angle : float or array
        Angle of friction [rad], 0 to 0.873.

    Returns
    -------
    array
        Kp [-].

    References
    ----------
    [DAS] earth pressure after Rankine.

    Examples
    --------
    >>> round(float(passive_ratio(np.radians(30.0))), 4)
    3.0
    """
    within("angle of friction", angle, 0.0, STEEPEST, unit="rad")
    return (1.0 + np.sin(angle)) / (1.0 - np.sin(angle))


def at_rest_ratio(angle: ArrayLike) -> Array:
    r"""Ratio of sideways to vertical pressure of soil that has not moved (Jaky).

    :math:`K_0 = 1 - \sin\varphi`

    Parameters
    ----------
    angle : float or array
        Angle of friction [rad], 0 to 0.873.

    Returns
    -------
    array
        K0 [-].

    Notes
    -----
    For soil that was never loaded more than now; compaction locks in more, see `compacted_ratio`.

    References
    ----------
    [EN1997] 9.5.2.

    Examples
    --------
    >>> round(float(at_rest_ratio(np.radians(30.0))), 4)
    0.5
    """
    within("angle of friction", angle, 0.0, STEEPEST, unit="rad")
    return 1.0 - np.sin(angle)


def compacted_ratio(angle: ArrayLike) -> Array:
    r"""Ratio of sideways to vertical pressure beside a rib when each lift is compacted hard.

    :math:`K = 1 - \sin\varphi + 0.13`

    Parameters
    ----------
    angle : float or array
        Angle of friction [rad], 0 to 0.873.

    Returns
    -------
    array
        K [-].

    Notes
    -----
    The excess is set so that the largest bending of a frame equals that of a plane continuum whose
    lifts were loaded with 20 kPa and unloaded (0.60 at 32 degrees; frame over continuum 1.03 to 1.20).

    References
    ----------
    [FILLINGMODEL2026] the soil law, calibration of compacted fill.

    Examples
    --------
    >>> round(float(compacted_ratio(np.radians(32.0))), 2)
    0.6
    """
    return at_rest_ratio(angle) + COMPACTION_EXCESS


def sloping_active_ratio(angle: ArrayLike, slope: ArrayLike) -> Array:
    r"""Least ratio under a surface that slopes, for pressure that acts along the slope (Rankine).

    :math:`K_a = \cos\beta\,\frac{\cos\beta - \sqrt{\cos^2\beta - \cos^2\varphi}}
    {\cos\beta + \sqrt{\cos^2\beta - \cos^2\varphi}}`

    Parameters
    ----------
    angle : float or array
        Angle of friction [rad], 0 to 0.873.
    slope : float or array
        Slope of the surface [rad], 0 to the angle of friction.

    Returns
    -------
    array
        Ka, acting at the angle of the slope [-].

    References
    ----------
    [DAS] earth pressure after Rankine, sloping backfill.

    Examples
    --------
    >>> round(float(sloping_active_ratio(np.radians(30.0), np.radians(10.0))), 4)
    0.3495
    """
    within("angle of friction", angle, 0.0, STEEPEST, unit="rad")
    steeper = np.asarray(slope, dtype=np.float64) - np.asarray(angle, dtype=np.float64)
    within("slope over angle of friction", steeper, -2.0, 0.0, unit="rad")
    within("slope", slope, 0.0, STEEPEST, unit="rad")
    root = np.sqrt(np.cos(slope) ** 2 - np.cos(angle) ** 2)
    ratio: Array = np.cos(slope) * (np.cos(slope) - root) / (np.cos(slope) + root)
    return ratio


def stress_modulus(modulus: ArrayLike, vertical: ArrayLike, ratio: ArrayLike) -> Array:
    r"""Young's modulus of a soil at its present stress.

    :math:`E = E_{50}\sqrt{\max(p, 5\,\mathrm{kPa}) / 50\,\mathrm{kPa}}`, with
    :math:`p = \sigma_v (1 + 2K) / 3`

    Parameters
    ----------
    modulus : float or array
        Young's modulus at a mean stress of 50 kPa [Pa], from 0.
    vertical : float or array
        Vertical effective stress [Pa], from 0.
    ratio : float or array
        Sideways over vertical stress [-], 0 to 5.

    Returns
    -------
    array
        Young's modulus [Pa].

    References
    ----------
    [FILLINGMODEL2026] the soil law.

    Examples
    --------
    >>> round(float(0.25 * stress_modulus(15e6, 0.0, 0.47)) / 1e3)
    1186
    """
    within("modulus", modulus, 0.0, unit="Pa")
    within("vertical stress", vertical, 0.0, unit="Pa")
    within("pressure ratio", ratio, 0.0, 5.0)
    mean = np.asarray(vertical, dtype=np.float64) * (1.0 + 2.0 * np.asarray(ratio, dtype=np.float64)) / 3.0
    return np.asarray(modulus, dtype=np.float64) * np.sqrt(np.maximum(mean, LEAST_STRESS) / REFERENCE_STRESS)


def buoyant_unit_weight(saturated: ArrayLike) -> Array:
    r"""Unit weight of soil under water.

    :math:`\gamma' = \gamma_{sat} - \gamma_w`

    Parameters
    ----------
    saturated : float or array
        Saturated unit weight [N/m3], from 9810.

    Returns
    -------
    array
        Buoyant unit weight [N/m3].

    References
    ----------
    [DAS] effective stress.

    Examples
    --------
    >>> float(buoyant_unit_weight(21e3))
    11190.0
    """
    within("saturated unit weight", saturated, WATER, 30e3, unit="N/m3")
    return np.asarray(saturated, dtype=np.float64) - WATER


def hydrostatic_pressure(depth: ArrayLike) -> Array:
    r"""Pressure of still water.

    :math:`u = \gamma_w \max(h, 0)`

    Parameters
    ----------
    depth : float or array
        Depth below the water level [m]; above it negative, and the pressure 0.

    Returns
    -------
    array
        Pressure [Pa].

    References
    ----------
    [DAS] effective stress.

    Examples
    --------
    >>> float(hydrostatic_pressure(2.0))
    19620.0
    """
    within("depth", depth, -1e4, 1e4, unit="m")
    return WATER * np.maximum(np.asarray(depth, dtype=np.float64), 0.0)
