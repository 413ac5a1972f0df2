"""What soil, water and a load on the surface push against an upright plane: force and height."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

WATER = 9810.0
"""Unit weight of water (N/m3)."""


class Push(NamedTuple):
    """A push on an upright plane, per metre of wall."""

    force: Array
    """N/m."""
    arm: Array
    """Height over the foot of the plane at which it acts (m)."""

    @property
    def moment(self) -> Array:
        """About the foot of the plane (N m/m)."""
        return self.force * self.arm


def soil_push(height: ArrayLike, *, weight: ArrayLike, ratio: ArrayLike, surcharge: ArrayLike = 0.0) -> Push:
    r"""Push of drained soil with a load on its surface.

    :math:`P = K\,(\tfrac{1}{2}\gamma h^2 + q h)`, at :math:`(\gamma h / 6 + q / 2)\,h /
    (\gamma h / 2 + q)`

    Parameters
    ----------
    height : float or array
        Height of the plane that the soil touches [m], 0 to 20.
    weight : float or array
        Unit weight of the soil [N/m3], 0 to 30e3.
    ratio : float or array
        Sideways over upright pressure [-], 0 to 20.
    surcharge : float or array
        Load on the surface, far and wide [Pa], from 0.

    Returns
    -------
    Push
        Force [N/m] and the height at which it acts [m].

    References
    ----------
    [DAS] earth pressure with surcharge.

    Examples
    --------
    >>> push = soil_push(3.0, weight=18e3, ratio=1 / 3, surcharge=10e3)
    >>> round(float(push.force)), round(float(push.arm), 3)
    (37000, 1.135)
    """
    within("height of the soil", height, 0.0, 20.0, unit="m")
    within("unit weight", weight, 0.0, 30e3, unit="N/m3")
    within("pressure ratio", ratio, 0.0, 20.0)
    within("surcharge", surcharge, 0.0, unit="Pa")
    deep, load = np.asarray(height, dtype=np.float64), np.asarray(surcharge, dtype=np.float64)
    triangle = np.asarray(weight, dtype=np.float64) * deep / 2.0
    force: Array = np.asarray(ratio, dtype=np.float64) * deep * (triangle + load)
    return Push(force, _arm(triangle * deep / 3.0 + load * deep / 2.0, triangle + load))


def wet_soil_push(
    height: ArrayLike,
    *,
    water: ArrayLike,
    weight: ArrayLike,
    saturated: ArrayLike,
    ratio: ArrayLike,
    surcharge: ArrayLike = 0.0,
) -> Push:
    r"""Push of soil in which water stands to a height, the water's own push included.

    Above the water :math:`K\gamma`, below it :math:`K(\gamma_{sat} - \gamma_w) + \gamma_w` a metre.

    Parameters
    ----------
    height : float or array
        Height of the plane that the soil touches [m], 0 to 20.
    water : float or array
        Height over the foot of the plane to which water stands [m], cut to 0 and the height.
    weight : float or array
        Unit weight of the moist soil [N/m3], 0 to 30e3.
    saturated : float or array
        Unit weight of the soil full of water [N/m3], 9.81e3 to 30e3.
    ratio : float or array
        Sideways over upright effective pressure [-], 0 to 20.
    surcharge : float or array
        Load on the surface, far and wide [Pa], from 0.

    Returns
    -------
    Push
        Force [N/m] and the height at which it acts [m].

    References
    ----------
    [DAS] earth pressure with ground water.

    Examples
    --------
    >>> push = wet_soil_push(3.0, water=1.0, weight=18e3, saturated=20e3, ratio=1 / 3)
    >>> round(float(push.force)), round(float(push.arm), 3)
    (30603, 0.922)
    """
    within("water over the foot", water, -20.0, 20.0, unit="m")
    within("saturated unit weight", saturated, WATER, 30e3, unit="N/m3")
    deep = np.asarray(height, dtype=np.float64)
    wet = np.clip(np.asarray(water, dtype=np.float64), 0.0, deep)
    dry = deep - wet
    above = soil_push(dry, weight=weight, ratio=ratio, surcharge=surcharge)
    load = np.asarray(surcharge, dtype=np.float64) + np.asarray(weight, dtype=np.float64) * dry
    below = soil_push(wet, weight=np.subtract(saturated, WATER), ratio=ratio, surcharge=load)
    still = WATER * wet**2 / 2.0
    force: Array = above.force + below.force + still
    moment = above.force * (above.arm + wet) + below.moment + still * wet / 3.0
    return Push(force, _arm(moment, force))


def _arm(moment: Array, force: Array) -> Array:
    """Where a force acts; at the foot where there is none."""
    turned, pushed = np.broadcast_arrays(moment, force)
    arm: Array = np.zeros(pushed.shape)
    np.divide(turned, pushed, out=arm, where=pushed > 0.0)
    return arm
