"""Buttresses: upright bodies without tension that a thrust pushes at a height."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

_STEPS = 2000
_HALVINGS = 40


def kern_thrust(
    height: ArrayLike,
    *,
    depth: ArrayLike,
    width: ArrayLike,
    weight: ArrayLike,
    down: ArrayLike = 0.0,
    inset: ArrayLike = 0.0,
) -> Array:
    r"""Largest thrust at the top that leaves the base of a buttress pressed over its whole depth.

    :math:`H = (W d / 6 + V (2 d / 3 - i)) / h`, :math:`W = \gamma d b h`

    Parameters
    ----------
    height : float or array
        From the base to the thrust [m], 0.1 to 20.
    depth : float or array
        Depth of the buttress along the thrust [m], 0.05 to 10.
    width : float or array
        Width of the buttress across the thrust [m], 0.05 to 10.
    weight : float or array
        Unit weight of the buttress [N/m3], 5e3 to 30e3.
    down : float or array
        Force down that comes with the thrust [N], from 0.
    inset : float or array
        From the inner face to that force [m], 0 to the depth.

    Returns
    -------
    array
        Thrust [N]; negative where the force down alone already opens the base.

    Notes
    -----
    Without a force down it is γ·b·d²/6, whatever the height.

    References
    ----------
    [HEYMAN1995] the middle third.

    Examples
    --------
    >>> round(float(kern_thrust(3.0, depth=0.9, width=0.5, weight=20e3)))
    1350
    """
    return _thrust(2.0 / 3.0, height, depth, width, weight, down, inset)


def overturning_thrust(
    height: ArrayLike,
    *,
    depth: ArrayLike,
    width: ArrayLike,
    weight: ArrayLike,
    down: ArrayLike = 0.0,
    inset: ArrayLike = 0.0,
) -> Array:
    r"""Thrust at the top that turns a buttress over its outer edge while it stays in one piece.

    :math:`H = (W d / 2 + V (d - i)) / h`

    Parameters
    ----------
    height : float or array
        From the base to the thrust [m], 0.1 to 20.
    depth : float or array
        Depth of the buttress along the thrust [m], 0.05 to 10.
    width : float or array
        Width of the buttress across the thrust [m], 0.05 to 10.
    weight : float or array
        Unit weight of the buttress [N/m3], 5e3 to 30e3.
    down : float or array
        Force down that comes with the thrust [N], from 0.
    inset : float or array
        From the inner face to that force [m], 0 to the depth.

    Returns
    -------
    array
        Thrust [N].

    Notes
    -----
    It does not stay in one piece: see `cracked_buttress_thrust`, which is less.

    References
    ----------
    [HEYMAN1995] overturning of a buttress.

    Examples
    --------
    >>> round(float(overturning_thrust(3.0, depth=0.9, width=0.5, weight=20e3)))
    4050
    """
    return _thrust(1.0, height, depth, width, weight, down, inset)


def _thrust(
    edge: float,
    height: ArrayLike,
    depth: ArrayLike,
    width: ArrayLike,
    weight: ArrayLike,
    down: ArrayLike,
    inset: ArrayLike,
) -> Array:
    """Thrust that brings the force at the base to a share of the depth from the inner face."""
    _check(height, depth, width, weight, down, inset)
    deep, tall = np.asarray(depth, dtype=np.float64), np.asarray(height, dtype=np.float64)
    whole = np.asarray(weight, dtype=np.float64) * deep * np.asarray(width, dtype=np.float64) * tall
    own = whole * deep * (edge - 0.5)
    thrust: Array = (
        own + np.asarray(down, dtype=np.float64) * (edge * deep - np.asarray(inset, dtype=np.float64))
    ) / tall
    return thrust


def cracked_buttress_thrust(
    height: float, *, depth: float, width: float, weight: float, down: float = 0.0, inset: float = 0.0
) -> float:
    r"""Thrust at the top that turns a buttress over while what lies behind its crack no longer weighs.

    Where the force leaves the middle third, only :math:`3 a` of the depth is pressed (a: from the force
    to the outer face) and only that part still weighs: :math:`N' = \gamma b\,w`,
    :math:`(N a)' = \gamma b\,w^2 / 2 - H`, :math:`w = \min(d, 3 a)`.

    Parameters
    ----------
    height : float
        From the base to the thrust [m], 0.1 to 20.
    depth : float
        Depth of the buttress along the thrust [m], 0.05 to 10.
    width : float
        Width of the buttress across the thrust [m], 0.05 to 10.
    weight : float
        Unit weight of the buttress [N/m3], 5e3 to 30e3.
    down : float
        Force down that comes with the thrust [N], from 0.
    inset : float
        From the inner face to that force [m], 0 to the depth.

    Returns
    -------
    float
        Thrust [N]; the largest under which the force stays inside the buttress down to its base.

    References
    ----------
    [OCHSENDORF2004] the crack of a buttress at collapse; the equation above is derived from it.

    Examples
    --------
    >>> thrust = cracked_buttress_thrust(3.0, depth=0.9, width=0.5, weight=20e3, down=5e3, inset=0.2)
    >>> thrust < float(overturning_thrust(3.0, depth=0.9, width=0.5, weight=20e3, down=5e3, inset=0.2))
    True
    """
    _check(height, depth, width, weight, down, inset)
    body = (height, depth, width * weight, down, inset)
    low, high = (
        0.0,
        float(overturning_thrust(height, depth=depth, width=width, weight=weight, down=down, inset=inset)),
    )
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if _stands(middle, *body) else (low, middle)
    return low


def _stands(thrust: float, height: float, depth: float, weight: float, down: float, inset: float) -> bool:
    """Whether the force stays inside on its way down, in steps so small that their start stands for them."""
    step = height / _STEPS
    force, moment = down, down * (depth - inset)
    for _ in range(_STEPS):
        wide = _pressed(force, moment, depth)
        force += step * weight * wide
        moment += step * (weight * wide**2 / 2.0 - thrust)
        if moment < 0.0:
            return False
    return True


def _pressed(force: float, moment: float, depth: float) -> float:
    """Depth that is still pressed: all of it where nothing weighs on it yet."""
    if force <= 0.0:
        return depth
    return min(depth, 3.0 * max(moment / force, 0.0))


def bond_stress(thrust: ArrayLike, *, height: ArrayLike, width: ArrayLike, share: ArrayLike = 1.0) -> Array:
    r"""Mean shear in the joint between a wall and the buttress that is to share its load.

    :math:`\tau = \eta H / (h\,b)`

    Parameters
    ----------
    thrust : float or array
        Thrust at the top [N], from 0.
    height : float or array
        Height over which both are bonded [m], above 0.
    width : float or array
        Width of the joint [m], above 0.
    share : float or array
        How much of the force has to cross the joint, as a share of the thrust [-], 0 to 10: the lever
        of the wall's edge force over the joint's.

    Returns
    -------
    array
        Shear stress [Pa].

    References
    ----------
    [HEYMAN1995] bond of buttress and wall, as mean shear.

    Examples
    --------
    >>> round(float(bond_stress(12e3, height=2.0, width=0.4)))
    15000
    """
    within("thrust", thrust, 0.0, unit="N")
    within("bonded height", height, 0.0, unit="m", open_low=True)
    within("width of the joint", width, 0.0, unit="m", open_low=True)
    within("share of the thrust", share, 0.0, 10.0)
    stress: Array = (
        np.asarray(share, dtype=np.float64)
        * np.asarray(thrust, dtype=np.float64)
        / np.multiply(height, width)
    )
    return stress


def _check(
    height: ArrayLike,
    depth: ArrayLike,
    width: ArrayLike,
    weight: ArrayLike,
    down: ArrayLike,
    inset: ArrayLike,
) -> None:
    within("height of the thrust", height, 0.1, 20.0, unit="m")
    within("depth of the buttress", depth, 0.05, 10.0, unit="m")
    within("width of the buttress", width, 0.05, 10.0, unit="m")
    within("unit weight", weight, 5e3, 30e3, unit="N/m3")
    within("force down", down, 0.0, unit="N")
    within("inset of the force", inset, 0.0, 10.0, unit="m")
    within("inset over the depth", np.subtract(inset, depth), -10.0, 0.0, unit="m")
