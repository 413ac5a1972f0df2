"""How a body stands on its base: overturning, sliding, and where the force leaves it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]


class Wall(NamedTuple):
    """An upright wall as a body, per metre."""

    weight: Array
    """N/m."""
    arm: Array
    """From its toe to its middle of weight (m)."""


class Stand(NamedTuple):
    """A body on its base, moments about the toe: the edge over which it would turn."""

    overturning: Array
    """What turns it over, over what holds it back (-); infinite where nothing does."""
    sliding: Array
    """What pushes it along, over what friction holds (-)."""
    eccentricity: Array
    """From the middle of the base to where the force leaves it, positive towards the toe (m)."""


def wall_body(height: ArrayLike, *, top: ArrayLike, base: ArrayLike, weight: ArrayLike) -> Wall:
    r"""Weight of a wall with an upright back whose face leans back from its toe.

    :math:`W = \gamma h (b_0 + b_1) / 2`; its middle lies :math:`b_1 - (b_0^2 + b_0 b_1 + b_1^2) /
    (3 (b_0 + b_1))` from the toe.

    Parameters
    ----------
    height : float or array
        Height of the wall [m], 0 to 20.
    top : float or array
        Thickness at the top [m], 0.05 to 10.
    base : float or array
        Thickness at the base [m], 0.05 to 10.
    weight : float or array
        Unit weight of the wall [N/m3], 5e3 to 30e3.

    Returns
    -------
    Wall
        Weight [N/m] and its arm about the toe [m].

    References
    ----------
    [WALLEXAMPLE] area and weight of the wall.

    Examples
    --------
    >>> wall = wall_body(1.6, top=0.4, base=0.8, weight=24e3)
    >>> round(float(wall.weight)), round(float(wall.arm), 4)
    (23040, 0.4889)
    """
    within("height of the wall", height, 0.0, 20.0, unit="m")
    within("thickness at the top", top, 0.05, 10.0, unit="m")
    within("thickness at the base", base, 0.05, 10.0, unit="m")
    within("unit weight", weight, 5e3, 30e3, unit="N/m3")
    thin, thick = np.asarray(top, dtype=np.float64), np.asarray(base, dtype=np.float64)
    whole: Array = (
        np.asarray(weight, dtype=np.float64) * np.asarray(height, dtype=np.float64) * (thin + thick) / 2.0
    )
    arm: Array = thick - (thin**2 + thin * thick + thick**2) / (3.0 * (thin + thick))
    return Wall(whole, arm)


def eccentricity(down: ArrayLike, moment: ArrayLike, width: ArrayLike) -> Array:
    r"""How far from the middle of its base the force of a body leaves it.

    :math:`e = b / 2 - M / N`

    Parameters
    ----------
    down : float or array
        Whole force down on the base [N/m], above 0.
    moment : float or array
        What holds the body back less what turns it over, about its toe [N m/m].
    width : float or array
        Width of the base [m], above 0.

    Returns
    -------
    array
        Eccentricity, positive towards the toe [m].

    References
    ----------
    [DAS] gravity walls.

    Examples
    --------
    >>> round(float(eccentricity(100e3, 35e3, 1.2)), 2)
    0.25
    """
    within("force down", down, 0.0, unit="N/m", open_low=True)
    within("width of the base", width, 0.0, unit="m", open_low=True)
    within("moment about the toe", moment, unit="N m/m")
    out: Array = np.asarray(width, dtype=np.float64) / 2.0 - np.asarray(
        moment, dtype=np.float64
    ) / np.asarray(down, dtype=np.float64)
    return out


def sliding_resistance(
    down: ArrayLike, friction: ArrayLike, *, grip: ArrayLike = 0.0, factor: ArrayLike = 1.0
) -> Array:
    r"""How much of a push along it a base holds.

    :math:`R = (N \tan\delta + a) / \gamma_R`

    Parameters
    ----------
    down : float or array
        Force down on the base [N/m], from 0.
    friction : float or array
        Angle of friction between base and ground [rad], 0 to 0.873.
    grip : float or array
        What it holds without weight, from cohesion or keys [N/m], from 0.
    factor : float or array
        Partial factor on the resistance [-], 1 to 3.

    Returns
    -------
    array
        Resistance [N/m].

    References
    ----------
    [EN1997] eq. 6.3a and 6.4a.

    Examples
    --------
    >>> round(float(sliding_resistance(100e3, 0.5, factor=1.1)))
    49664
    """
    within("force down", down, 0.0, unit="N/m")
    within("friction of the base", friction, 0.0, 0.873, unit="rad")
    within("grip of the base", grip, 0.0, unit="N/m")
    within("partial factor", factor, 1.0, 3.0)
    held: Array = np.asarray(down, dtype=np.float64) * np.tan(friction) + np.asarray(grip, dtype=np.float64)
    return held / np.asarray(factor, dtype=np.float64)


def stand_of(
    *,
    down: ArrayLike,
    along: ArrayLike,
    holding: ArrayLike,
    turning: ArrayLike,
    width: ArrayLike,
    resistance: ArrayLike,
) -> Stand:
    r"""How a body stands: :math:`M_{dst} / M_{stb}`, :math:`H / R` and :math:`e`.

    Parameters
    ----------
    down : float or array
        Whole force down on the base [N/m], above 0.
    along : float or array
        Push along the base, towards the toe [N/m]; negative pushes away from it.
    holding : float or array
        Moments about the toe that hold the body back [N m/m], from 0.
    turning : float or array
        Moments about the toe that turn it over [N m/m], from 0.
    width : float or array
        Width of the base [m], above 0.
    resistance : float or array
        Push along that the base holds [N/m], from 0.

    Returns
    -------
    Stand
        Share of overturning [-], share of sliding [-] and eccentricity [m].

    References
    ----------
    [DAS] gravity walls.

    Examples
    --------
    >>> stand = stand_of(down=100e3, along=30e3, holding=80e3, turning=45e3, width=1.2, resistance=50e3)
    >>> [round(float(one), 3) for one in stand]
    [0.562, 0.6, 0.25]
    """
    within("moment that holds", holding, 0.0, unit="N m/m")
    within("moment that turns over", turning, 0.0, unit="N m/m")
    within("push along the base", along, unit="N/m")
    within("resistance of the base", resistance, 0.0, unit="N/m")
    held, turned = np.asarray(holding, dtype=np.float64), np.asarray(turning, dtype=np.float64)
    return Stand(
        overturning=_share(turned, held),
        sliding=_share(np.asarray(along, dtype=np.float64), np.asarray(resistance, dtype=np.float64)),
        eccentricity=eccentricity(down, held - turned, width),
    )


def _share(demand: Array, capacity: Array) -> Array:
    """Demand over capacity; nothing asked is nothing used, and what nothing holds is infinite."""
    asked, held = np.broadcast_arrays(np.maximum(demand, 0.0), capacity)
    share: Array = np.zeros(asked.shape)
    with np.errstate(divide="ignore"):
        np.divide(asked, held, out=share, where=asked > 0.0)
    return share
