"""Active and passive pressure on a rough wall with a sloping surface (Coulomb's wedge)."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

Array = NDArray[np.float64]

STEEPEST = np.radians(50.0)


def coulomb_active_ratio(angle: ArrayLike, wall: ArrayLike, slope: ArrayLike = 0.0) -> Array:
    r"""Active pressure ratio on an upright wall.

    :math:`K_a = \frac{\cos^2\varphi}{\cos\delta\,\left(1 + \sqrt{\frac{\sin(\varphi + \delta)
    \sin(\varphi - \beta)}{\cos\delta\cos\beta}}\right)^2}`

    Parameters
    ----------
    angle : float or array
        Angle of friction of the soil [rad], 0 to 0.873.
    wall : float or array
        Angle of friction of the wall [rad], 0 to the soil's.
    slope : float or array
        Slope of the surface [rad], 0 to the soil's angle of friction.

    Returns
    -------
    array
        Ka; the pressure acts at the wall's angle of friction to the normal [-].

    References
    ----------
    [DAS] table 6.4.

    Examples
    --------
    >>> round(float(coulomb_active_ratio(np.radians(28.0), 0.0)), 4)
    0.361
    """
    _check(angle, wall, slope)
    root = np.sin(np.add(angle, wall)) * np.sin(np.subtract(angle, slope)) / (np.cos(wall) * np.cos(slope))
    ratio: Array = np.cos(angle) ** 2 / (np.cos(wall) * (1.0 + np.sqrt(root)) ** 2)
    return ratio


def coulomb_passive_ratio(angle: ArrayLike, wall: ArrayLike, slope: ArrayLike = 0.0) -> Array:
    r"""Passive pressure ratio on an upright wall.

    :math:`K_p = \frac{\cos^2\varphi}{\cos\delta\,\left(1 - \sqrt{\frac{\sin(\varphi + \delta)
    \sin(\varphi + \beta)}{\cos\delta\cos\beta}}\right)^2}`

    Parameters
    ----------
    angle : float or array
        Angle of friction of the soil [rad], 0 to 0.873.
    wall : float or array
        Angle of friction of the wall [rad], 0 to the soil's.
    slope : float or array
        Slope of the surface, rising from the wall [rad], minus to plus the soil's angle of friction.

    Returns
    -------
    array
        Kp [-].

    Raises
    ------
    OutOfRangeError
        Where the wedge has no finite resistance.

    References
    ----------
    [DAS] passive pressure after Coulomb.

    Examples
    --------
    >>> round(float(coulomb_passive_ratio(np.radians(30.0), np.radians(22.0))), 3)
    6.675
    """
    _check(angle, wall, slope)
    root = np.sin(np.add(angle, wall)) * np.sin(np.add(angle, slope)) / (np.cos(wall) * np.cos(slope))
    if np.any(root >= 1.0):
        raise OutOfRangeError("Coulomb's passive wedge has no finite resistance at these angles.")
    ratio: Array = np.cos(angle) ** 2 / (np.cos(wall) * (1.0 - np.sqrt(root)) ** 2)
    return ratio


def _check(angle: ArrayLike, wall: ArrayLike, slope: ArrayLike) -> None:
    within("angle of friction", angle, 0.0, STEEPEST, unit="rad")
    within("wall friction", wall, 0.0, STEEPEST, unit="rad")
    within("wall friction over the soil's", np.subtract(wall, angle), -2.0, 0.0, unit="rad")
    steeper = np.abs(slope) - np.asarray(angle, dtype=np.float64)
    within("slope over the angle of friction", steeper, -2.0, 0.0, unit="rad")
