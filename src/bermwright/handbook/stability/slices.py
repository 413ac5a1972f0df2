"""Methods of slices: the mass above a slip surface cut into upright slices.

Arrays end in the axis of the slices; what stands before it are surfaces that are worked out together.
A slice's base angle is positive where the base falls in the direction in which the mass would slide.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

if TYPE_CHECKING:
    from collections.abc import Callable

Array = NDArray[np.float64]

MOST_STEPS = 60
STILL_TOLERANCE = 1e-10
"""A factor that changes by less than this has settled (-)."""
LEVER_TOLERANCE = 0.2
"""Below this `cos a + sin a tan phi / F` a base is too steep against the movement for the method (-)."""
FIRST_STEP = 1.0
LEAST_STEP = 1e-3
"""The factor from which it starts, and the least from which it goes on (-)."""
STEEP = np.radians(89.9)


def ordinary_factor(
    weight: ArrayLike,
    angle: ArrayLike,
    width: ArrayLike,
    *,
    cohesion: ArrayLike,
    friction: ArrayLike,
    pore: ArrayLike = 0.0,
    driving: ArrayLike = 0.0,
) -> Array:
    r"""Factor of a slip circle by the ordinary method: each slice stands on its own base.

    :math:`F = \frac{\sum [c\,b/\cos\alpha + \max(W\cos\alpha - u\,b/\cos\alpha, 0)\tan\varphi]}
    {\sum W\sin\alpha + D}`

    Parameters
    ----------
    weight : array
        Weight of each slice W [N/m], from 0.
    angle : array
        Angle of its base [rad], -1.569 to 1.569.
    width : array
        Its width b [m], above 0.
    cohesion : float or array
        Cohesion on its base [Pa], from 0.
    friction : float or array
        Angle of friction on its base [rad], 0 to 0.873.
    pore : float or array
        Pore pressure on its base u [Pa], from 0.
    driving : float or array
        Further moment that drives the circle over its radius, one for each circle D [N/m], any sign.

    Returns
    -------
    array
        Factor F; infinite where nothing drives [-].

    Notes
    -----
    Low by up to 15 % where pore pressure is high and the circle deep; it never flatters.

    References
    ----------
    [SMITH2006] conventional method.
    """
    mass, tilt, wide = _slices(weight, angle, width, friction, cohesion, pore)
    base = wide / np.cos(tilt)
    press = np.maximum(mass * np.cos(tilt) - np.asarray(pore, dtype=float) * base, 0.0)
    grip = np.asarray(cohesion, dtype=float) * base + press * np.tan(friction)
    within("further moment", driving, unit="N/m")
    drive = np.sum(mass * np.sin(tilt), axis=-1) + np.asarray(driving, dtype=float)
    return _over(np.sum(grip, axis=-1), drive)


def bishop_factor(
    weight: ArrayLike,
    angle: ArrayLike,
    width: ArrayLike,
    *,
    cohesion: ArrayLike,
    friction: ArrayLike,
    pore: ArrayLike = 0.0,
    driving: ArrayLike = 0.0,
) -> Array:
    r"""Factor of a slip circle by Bishop's simplified method.

    :math:`F = \frac{1}{\sum W\sin\alpha + D}\sum\frac{c\,b + \max(W - u\,b, 0)\tan\varphi}
    {\cos\alpha + \sin\alpha\tan\varphi/F}`

    Parameters
    ----------
    weight : array
        Weight of each slice W [N/m], from 0.
    angle : array
        Angle of its base [rad], -1.569 to 1.569.
    width : array
        Its width b [m], above 0.
    cohesion : float or array
        Cohesion on its base [Pa], from 0.
    friction : float or array
        Angle of friction on its base [rad], 0 to 0.873.
    pore : float or array
        Pore pressure on its base u [Pa], from 0.
    driving : float or array
        Further moment that drives the circle over its radius, one for each circle D [N/m], any sign.

    Returns
    -------
    array
        Factor F; infinite where nothing drives, NaN where a base is too steep for the method [-].

    References
    ----------
    [SMITH2006] Bishop's simplified method.
    """
    mass, tilt, wide = _slices(weight, angle, width, friction, cohesion, pore)
    roll = np.broadcast_to(np.tan(friction), tilt.shape)
    press = np.maximum(mass - np.asarray(pore, dtype=float) * wide, 0.0)
    grip = np.asarray(cohesion, dtype=float) * wide + press * roll
    within("further moment", driving, unit="N/m")
    drive = np.sum(mass * np.sin(tilt), axis=-1) + np.asarray(driving, dtype=float)
    sine, cosine = np.sin(tilt), np.cos(tilt)

    def better(factor: Array) -> Array:
        lever = cosine + sine * roll / factor[..., None]
        held = np.where((lever > LEVER_TOLERANCE) | (tilt >= 0.0), grip / lever, np.nan)
        return _over(np.sum(held, axis=-1), drive)

    return _settled(better, drive)


def wedge_path_factor(
    weight: ArrayLike,
    angle: ArrayLike,
    width: ArrayLike,
    *,
    cohesion: ArrayLike,
    friction: ArrayLike,
    pore: ArrayLike = 0.0,
    sideways: ArrayLike = 0.0,
) -> Array:
    r"""Factor of a slip surface of any shape by horizontal balance, slices leaning level on each other.

    :math:`F = \frac{1}{\sum (W\tan\alpha + Q)}\sum\frac{c\,b + \max(W - u\,b, 0)\tan\varphi}
    {\cos^2\alpha\,(1 + \tan\alpha\tan\varphi/F)}`

    Parameters
    ----------
    weight : array
        Weight of each slice W [N/m], from 0.
    angle : array
        Angle of its base [rad], -1.569 to 1.569.
    width : array
        Its width b [m], above 0.
    cohesion : float or array
        Cohesion on its base [Pa], from 0.
    friction : float or array
        Angle of friction on its base [rad], 0 to 0.873.
    pore : float or array
        Pore pressure on its base u [Pa], from 0.
    sideways : float or array
        Level force on each slice in the direction of movement Q [N/m], any sign.

    Returns
    -------
    array
        Factor F; infinite where nothing drives, NaN where a base is too steep for the method [-].

    Notes
    -----
    Without the correction for upright friction between the slices, which would raise it by some per cent.

    References
    ----------
    [SMITH2006] methods of slices; horizontal balance after Janbu, without his correction.
    """
    mass, tilt, wide = _slices(weight, angle, width, friction, cohesion, pore)
    roll = np.broadcast_to(np.tan(friction), tilt.shape)
    press = np.maximum(mass - np.asarray(pore, dtype=float) * wide, 0.0)
    grip = np.asarray(cohesion, dtype=float) * wide + press * roll
    within("level force", sideways, unit="N/m")
    drive = np.sum(mass * np.tan(tilt) + np.asarray(sideways, dtype=float), axis=-1)
    sine, cosine = np.sin(tilt), np.cos(tilt)

    def better(factor: Array) -> Array:
        lever = cosine * (cosine + sine * roll / factor[..., None])
        held = np.where((lever > LEVER_TOLERANCE * cosine) | (tilt >= 0.0), grip / lever, np.nan)
        return _over(np.sum(held, axis=-1), drive)

    return _settled(better, drive)


def _slices(
    weight: ArrayLike,
    angle: ArrayLike,
    width: ArrayLike,
    friction: ArrayLike,
    cohesion: ArrayLike,
    pore: ArrayLike,
) -> tuple[Array, Array, Array]:
    within("weight of a slice", weight, 0.0, unit="N/m")
    within("angle of a base", angle, -STEEP, STEEP, unit="rad")
    within("width of a slice", width, 0.0, unit="m", open_low=True)
    within("cohesion", cohesion, 0.0, unit="Pa")
    within("angle of friction", friction, 0.0, np.radians(50.0), unit="rad")
    within("pore pressure", pore, 0.0, unit="Pa")
    mass, tilt, wide = np.broadcast_arrays(
        *(np.asarray(one, dtype=float) for one in (weight, angle, width)), subok=False
    )
    return mass, tilt, wide


def _over(held: Array, drive: Array) -> Array:
    driven = drive > 0.0
    return np.where(driven, held / np.where(driven, drive, np.nan), np.inf)


def _settled(better: Callable[[Array], Array], drive: Array) -> Array:
    """Repeat from 1 until no factor changes; one without drive is infinite from the start."""
    factor = np.where(drive > 0.0, FIRST_STEP, np.inf)
    for _ in range(MOST_STEPS):
        new = better(np.maximum(factor, LEAST_STEP))
        known = np.isfinite(new) & np.isfinite(factor)
        change = np.max(np.abs(np.where(known, new, 0.0) - np.where(known, factor, 0.0)), initial=0.0)
        factor = new
        if change < STILL_TOLERANCE:
            break
    return factor
