"""Factors of the bearing capacity of ground: by weight, cohesion and surcharge, shape and inclination."""

from __future__ import annotations

from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

STEEPEST = np.radians(50.0)
SMOOTH = 1e-6
"""A friction below this counts as none."""


class Formula(StrEnum):
    """Whose factor of the soil's own weight is used."""

    EN1997 = "EN 1997-1"
    MEYERHOF = "Meyerhof"
    HANSEN = "Hansen"
    VESIC = "Vesić"


def surcharge_factor(angle: ArrayLike) -> Array:
    r"""Bearing factor of the load beside the footing.

    :math:`N_q = e^{\pi\tan\varphi}\tan^2(45° + \varphi/2)`

    Parameters
    ----------
    angle : float or array
        Angle of friction [rad], 0 to 0.873.

    Returns
    -------
    array
        Nq [-].

    References
    ----------
    [EN1997] annex D.4.

    Examples
    --------
    >>> round(float(surcharge_factor(np.radians(30.0))), 1)
    18.4
    """
    within("angle of friction", angle, 0.0, STEEPEST, unit="rad")
    turned = np.asarray(angle, dtype=np.float64)
    factor: Array = np.exp(np.pi * np.tan(turned)) * np.tan(np.pi / 4.0 + turned / 2.0) ** 2
    return factor


def cohesion_factor(angle: ArrayLike) -> Array:
    r"""Bearing factor of cohesion.

    :math:`N_c = (N_q - 1)\cot\varphi`; 2 + π without friction.

    Parameters
    ----------
    angle : float or array
        Angle of friction [rad], 0 to 0.873.

    Returns
    -------
    array
        Nc [-].

    References
    ----------
    [EN1997] annex D.3 and D.4.

    Examples
    --------
    >>> round(float(cohesion_factor(np.radians(30.0))), 1), round(float(cohesion_factor(0.0)), 2)
    (30.1, 5.14)
    """
    surplus = surcharge_factor(angle) - 1.0
    slope = np.tan(angle)
    rough = slope > SMOOTH
    factor: Array = np.where(rough, surplus / np.where(rough, slope, 1.0), 2.0 + np.pi)
    return factor


def weight_factor(angle: ArrayLike, formula: Formula = Formula.EN1997) -> Array:
    r"""Bearing factor of the soil's own weight under the footing.

    EN 1997-1 :math:`2(N_q - 1)\tan\varphi`, Vesić :math:`2(N_q + 1)\tan\varphi`, Hansen
    :math:`1.5(N_q - 1)\tan\varphi`, Meyerhof :math:`(N_q - 1)\tan 1.4\varphi`.

    Parameters
    ----------
    angle : float or array
        Angle of friction [rad], 0 to 0.873.
    formula : Formula
        Whose factor.

    Returns
    -------
    array
        Nγ [-].

    References
    ----------
    [EN1997] annex D.4; [VESIC1973], [HANSEN1970] and [MEYERHOF1963].

    Examples
    --------
    >>> [round(float(weight_factor(np.radians(30.0), one)), 1) for one in Formula]
    [20.1, 15.7, 15.1, 22.4]
    """
    number, slope = surcharge_factor(angle), np.tan(angle)
    match formula:
        case Formula.EN1997:
            factor: Array = 2.0 * (number - 1.0) * slope
        case Formula.VESIC:
            factor = 2.0 * (number + 1.0) * slope
        case Formula.HANSEN:
            factor = 1.5 * (number - 1.0) * slope
        case Formula.MEYERHOF:
            factor = (number - 1.0) * np.tan(1.4 * np.asarray(angle, dtype=np.float64))
    return factor


def skempton_factor(depth: ArrayLike, width: ArrayLike, *, square: bool = False) -> Array:
    r"""Bearing factor of clay that has no time to drain, by depth (Skempton).

    :math:`N_c = 5(1 + 0.2 D/B)`, square :math:`6(1 + 0.2 D/B)`; D/B counts up to 2.5.

    Parameters
    ----------
    depth : float or array
        Depth of the base [m], from 0.
    width : float or array
        Width of the base [m], above 0.
    square : bool
        Whether the footing is square; else it is a strip.

    Returns
    -------
    array
        Nc [-].

    References
    ----------
    [SKEMPTON1951] strips and squares.

    Examples
    --------
    >>> round(float(skempton_factor(0.8, 1.0)), 2)
    5.8
    """
    within("depth of the base", depth, 0.0, unit="m")
    within("width of the base", width, 0.0, unit="m", open_low=True)
    sunk = np.minimum(np.asarray(depth, dtype=np.float64) / np.asarray(width, dtype=np.float64), 2.5)
    factor: Array = (6.0 if square else 5.0) * (1.0 + 0.2 * sunk)
    return factor


def surcharge_shape(angle: ArrayLike, width: ArrayLike, length: ArrayLike) -> Array:
    r"""Shape factor beside the footing, :math:`s_q = 1 + (B'/L')\sin\varphi`.

    Parameters
    ----------
    angle : float or array
        Angle of friction [rad], 0 to 0.873.
    width : float or array
        Effective width [m], above 0.
    length : float or array
        Effective length [m], from the width.

    Returns
    -------
    array
        sq [-].

    References
    ----------
    [EN1997] annex D.4.

    Examples
    --------
    >>> round(float(surcharge_shape(np.radians(30.0), 1.0, 2.0)), 2)
    1.25
    """
    within("angle of friction", angle, 0.0, STEEPEST, unit="rad")
    factor: Array = 1.0 + _slim(width, length) * np.sin(angle)
    return factor


def weight_shape(width: ArrayLike, length: ArrayLike) -> Array:
    r"""Shape factor under the footing, :math:`s_\gamma = 1 - 0.3 B'/L'`.

    Parameters
    ----------
    width : float or array
        Effective width [m], above 0.
    length : float or array
        Effective length [m], from the width.

    Returns
    -------
    array
        sγ [-].

    References
    ----------
    [EN1997] annex D.4.

    Examples
    --------
    >>> round(float(weight_shape(0.225, 0.45)), 2)
    0.85
    """
    factor: Array = 1.0 - 0.3 * _slim(width, length)
    return factor


def surcharge_inclination(share: ArrayLike, power: ArrayLike = 2.0) -> Array:
    r"""Inclination factor beside the footing, :math:`i_q = (1 - H/(V + A'c'\cot\varphi))^m`.

    Parameters
    ----------
    share : float or array
        H/(V + A'·c'·cotφ) [-], 0 to 1.
    power : float or array
        m [-]: 2 for a strip pushed across, 1 to 2.

    Returns
    -------
    array
        iq [-].

    References
    ----------
    [EN1997] annex D.4.

    Examples
    --------
    >>> round(float(surcharge_inclination(0.2)), 2)
    0.64
    """
    within("push over force down", share, 0.0, 1.0)
    within("power", power, 1.0, 2.0)
    factor: Array = (1.0 - np.asarray(share, dtype=np.float64)) ** np.asarray(power, dtype=np.float64)
    return factor


def weight_inclination(share: ArrayLike, power: ArrayLike = 2.0) -> Array:
    r"""Inclination factor under the footing, :math:`i_\gamma = (1 - H/(V + A'c'\cot\varphi))^{m+1}`.

    Parameters
    ----------
    share : float or array
        H/(V + A'·c'·cotφ) [-], 0 to 1.
    power : float or array
        m [-]: 2 for a strip pushed across, 1 to 2.

    Returns
    -------
    array
        iγ [-].

    References
    ----------
    [EN1997] annex D.4.

    Examples
    --------
    >>> round(float(weight_inclination(0.2)), 3)
    0.512
    """
    within("push over force down", share, 0.0, 1.0)
    within("power", power, 1.0, 2.0)
    factor: Array = (1.0 - np.asarray(share, dtype=np.float64)) ** (np.asarray(power, dtype=np.float64) + 1.0)
    return factor


def cohesion_inclination(inclined: ArrayLike, angle: ArrayLike) -> Array:
    r"""Inclination factor of cohesion, :math:`i_c = i_q - (1 - i_q)/(N_c\tan\varphi)`.

    Parameters
    ----------
    inclined : float or array
        iq [-], 0 to 1.
    angle : float or array
        Angle of friction [rad], 0.01 to 0.873.

    Returns
    -------
    array
        ic [-], never below 0.

    References
    ----------
    [EN1997] annex D.4.

    Examples
    --------
    >>> round(float(cohesion_inclination(0.64, np.radians(30.0))), 3)
    0.619
    """
    within("iq", inclined, 0.0, 1.0)
    within("angle of friction", angle, 0.01, STEEPEST, unit="rad")
    flat = np.asarray(inclined, dtype=np.float64)
    factor: Array = np.maximum(flat - (1.0 - flat) / (cohesion_factor(angle) * np.tan(angle)), 0.0)
    return factor


def undrained_inclination(along: ArrayLike, grip: ArrayLike) -> Array:
    r"""Inclination factor of undrained clay, :math:`i_c = \tfrac12(1 + \sqrt{1 - H/(A'c_u)})`.

    Parameters
    ----------
    along : float or array
        Push along the base [N/m], from 0 to the grip.
    grip : float or array
        A'·cu [N/m], above 0.

    Returns
    -------
    array
        ic [-], 0.5 to 1.

    References
    ----------
    [EN1997] annex D.3.

    Examples
    --------
    >>> round(float(undrained_inclination(20e3, 50e3)), 3)
    0.887
    """
    within("push along the base", along, 0.0, unit="N/m")
    within("grip of the base", grip, 0.0, unit="N/m", open_low=True)
    share = np.asarray(along, dtype=np.float64) / np.asarray(grip, dtype=np.float64)
    within("push over grip", share, 0.0, 1.0)
    factor: Array = 0.5 * (1.0 + np.sqrt(1.0 - share))
    return factor


def _slim(width: ArrayLike, length: ArrayLike) -> Array:
    within("effective width", width, 0.0, unit="m", open_low=True)
    within("effective length", length, 0.0, unit="m", open_low=True)
    share: Array = np.asarray(width, dtype=np.float64) / np.asarray(length, dtype=np.float64)
    within("width over length", share, 0.0, 1.0 + 1e-9)
    return share
