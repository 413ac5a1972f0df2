"""Pressure ratios on a wall that leans, under a slope, and in an earthquake.

Upright walls at rest in level ground are in `handbook.soils`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

Array = NDArray[np.float64]

STEEPEST = np.radians(50.0)
HAIR = 1e-12


def leaning_active_ratio(
    angle: ArrayLike, wall: ArrayLike, slope: ArrayLike = 0.0, lean: ArrayLike = 0.0
) -> Array:
    r"""Active pressure ratio on a wall whose back leans (Coulomb).

    :math:`K_a = \frac{\cos^2(\varphi - \theta)}{\cos^2\theta\,\cos(\delta + \theta)
    \left(1 + \sqrt{\frac{\sin(\varphi + \delta)\sin(\varphi - \beta)}
    {\cos(\delta + \theta)\cos(\beta - \theta)}}\right)^2}`

    Parameters
    ----------
    angle : float or array
        Angle of friction of the soil [rad], 0 to 0.873.
    wall : float or array
        Angle of friction of the wall [rad], 0 to the soil's.
    slope : float or array
        Slope of the surface, rising away from the wall [rad], minus to plus the soil's angle of friction.
    lean : float or array
        How far the back leans from upright [rad], positive where soil rests on it; -0.7 to 0.7.

    Returns
    -------
    array
        Ka [-]; the pressure acts at the wall's angle of friction to the normal of the back.

    References
    ----------
    [DAS] Coulomb's active pressure.

    Examples
    --------
    >>> round(float(leaning_active_ratio(np.radians(28.0), 0.0)), 4)
    0.361
    """
    return earthquake_active_ratio(angle, wall, slope=slope, lean=lean, sideways=0.0, upward=0.0)


def earthquake_active_ratio(
    angle: ArrayLike,
    wall: ArrayLike,
    *,
    sideways: ArrayLike,
    upward: ArrayLike = 0.0,
    slope: ArrayLike = 0.0,
    lean: ArrayLike = 0.0,
) -> Array:
    r"""Active pressure ratio, soil and earthquake together (Mononobe and Okabe).

    :math:`K_{AE} = \frac{\cos^2(\varphi - \psi - \theta)}{\cos\psi\,\cos^2\theta\,
    \cos(\delta + \theta + \psi)\left(1 + \sqrt{\frac{\sin(\varphi + \delta)\sin(\varphi - \psi - \beta)}
    {\cos(\delta + \theta + \psi)\cos(\beta - \theta)}}\right)^2}`, :math:`\tan\psi = k_h / (1 - k_v)`

    Parameters
    ----------
    angle : float or array
        Angle of friction of the soil [rad], 0 to 0.873.
    wall : float or array
        Angle of friction of the wall [rad], 0 to the soil's.
    sideways : float or array
        Share of gravity that pushes the soil against the wall [-], 0 to 1.
    upward : float or array
        Share of gravity that lifts the soil [-], -0.5 to 0.5; negative presses it down.
    slope : float or array
        Slope of the surface, rising away from the wall [rad].
    lean : float or array
        How far the back leans from upright [rad], positive where soil rests on it; -0.7 to 0.7.

    Returns
    -------
    array
        KAE [-]; the push of a height H is ½·KAE·(1 - kv)·γ·H².

    Raises
    ------
    OutOfRangeError
        "no solution" where φ - ψ - β is negative: no wedge of that soil stands in such a shaking.

    Notes
    -----
    The earthquake's part of the push acts higher than a third of the height; EN 1998-5 puts it at half.

    References
    ----------
    [OKABE1926] and [EN1998-5] annex E.

    Examples
    --------
    >>> shaken = earthquake_active_ratio(np.radians(30.0), np.radians(15.0), sideways=0.1)
    >>> round(float(shaken), 4)
    0.3679
    """
    turn = _turn(sideways, upward)
    _check(angle, wall, slope, lean)
    left = np.subtract(angle, turn) - np.asarray(slope, dtype=np.float64)
    _solvable(left)
    tilt = np.add(lean, turn)
    across = np.cos(np.add(wall, tilt))
    root = (
        np.sin(np.add(angle, wall))
        * np.sin(np.maximum(left, 0.0))
        / (across * np.cos(np.subtract(slope, lean)))
    )
    below = np.cos(turn) * np.cos(lean) ** 2 * across * (1.0 + np.sqrt(root)) ** 2
    ratio: Array = np.cos(np.subtract(angle, tilt)) ** 2 / below
    return ratio


def earthquake_passive_ratio(
    angle: ArrayLike,
    wall: ArrayLike,
    *,
    sideways: ArrayLike,
    upward: ArrayLike = 0.0,
    slope: ArrayLike = 0.0,
    lean: ArrayLike = 0.0,
) -> Array:
    r"""Passive pressure ratio in an earthquake that pulls the soil away (Mononobe and Okabe).

    :math:`K_{PE} = \frac{\cos^2(\varphi - \psi + \theta)}{\cos\psi\,\cos^2\theta\,
    \cos(\delta - \theta + \psi)\left(1 - \sqrt{\frac{\sin(\varphi + \delta)\sin(\varphi - \psi + \beta)}
    {\cos(\delta - \theta + \psi)\cos(\beta - \theta)}}\right)^2}`

    Parameters
    ----------
    angle : float or array
        Angle of friction of the soil [rad], 0 to 0.873.
    wall : float or array
        Angle of friction of the wall [rad], 0 to the soil's. EN 1998-5 takes 0.
    sideways : float or array
        Share of gravity that pulls the soil away from the wall [-], 0 to 1.
    upward : float or array
        Share of gravity that lifts the soil [-], -0.5 to 0.5.
    slope : float or array
        Slope of the surface, rising away from the wall [rad].
    lean : float or array
        How far the back leans from upright [rad], positive where soil rests on it; -0.7 to 0.7.

    Returns
    -------
    array
        KPE [-].

    Raises
    ------
    OutOfRangeError
        "no solution" where φ - ψ + β is negative, or where the wedge has no finite resistance.

    References
    ----------
    [OKABE1926] and [EN1998-5] annex E.

    Examples
    --------
    >>> round(float(earthquake_passive_ratio(np.radians(30.0), 0.0, sideways=0.0)), 3)
    3.0
    """
    turn = _turn(sideways, upward)
    _check(angle, wall, slope, lean)
    left = np.subtract(angle, turn) + np.asarray(slope, dtype=np.float64)
    _solvable(left)
    across = np.cos(np.subtract(np.add(wall, turn), lean))
    root = (
        np.sin(np.add(angle, wall))
        * np.sin(np.maximum(left, 0.0))
        / (across * np.cos(np.subtract(slope, lean)))
    )
    if np.any(root >= 1.0):
        raise OutOfRangeError("The passive wedge has no finite resistance at these angles: no solution.")
    below = np.cos(turn) * np.cos(lean) ** 2 * across * (1.0 - np.sqrt(root)) ** 2
    ratio: Array = np.cos(np.subtract(angle, turn) + np.asarray(lean, dtype=np.float64)) ** 2 / below
    return ratio


def sloping_at_rest_ratio(angle: ArrayLike, slope: ArrayLike) -> Array:
    r"""Ratio of pressure to weight of soil at rest whose surface rises away from the wall.

    :math:`K_{0;\beta} = (1 - \sin\varphi)(1 + \sin\beta)`

    Parameters
    ----------
    angle : float or array
        Angle of friction [rad], 0 to 0.873.
    slope : float or array
        Slope of the surface, rising away from the wall [rad], 0 to the angle of friction.

    Returns
    -------
    array
        K0 [-]; the pressure acts along the slope.

    References
    ----------
    [EN1997] 9.5.2 (4).

    Examples
    --------
    >>> round(float(sloping_at_rest_ratio(np.radians(30.0), np.radians(20.0))), 4)
    0.671
    """
    within("angle of friction", angle, 0.0, STEEPEST, unit="rad")
    within("slope", slope, 0.0, STEEPEST, unit="rad")
    within("slope over the angle of friction", np.subtract(slope, angle), -2.0, 0.0, unit="rad")
    ratio: Array = (1.0 - np.sin(angle)) * (1.0 + np.sin(slope))
    return ratio


def _turn(sideways: ArrayLike, upward: ArrayLike) -> Array:
    """How far the earthquake turns gravity from upright."""
    within("sideways share of gravity", sideways, 0.0, 1.0)
    within("upward share of gravity", upward, -0.5, 0.5)
    down = 1.0 - np.asarray(upward, dtype=np.float64)
    turn: Array = np.arctan(np.asarray(sideways, dtype=np.float64) / down)
    return turn


def _check(angle: ArrayLike, wall: ArrayLike, slope: ArrayLike, lean: ArrayLike) -> None:
    within("angle of friction", angle, 0.0, STEEPEST, unit="rad")
    within("wall friction", wall, 0.0, STEEPEST, unit="rad")
    within("wall friction over the soil's", np.subtract(wall, angle), -2.0, 0.0, unit="rad")
    within(
        "slope over the angle of friction",
        np.abs(slope) - np.asarray(angle, dtype=np.float64),
        -2.0,
        0.0,
        unit="rad",
    )
    within("lean of the back", lean, -0.7, 0.7, unit="rad")


def _solvable(left: Array) -> None:
    if np.any(left < -HAIR):
        raise OutOfRangeError(
            "Mononobe and Okabe have no solution here: no slope of this soil stands in such a shaking."
        )
