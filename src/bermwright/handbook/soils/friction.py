"""How rough the face of a vault must be for a pressure ratio to be possible on it."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]


def needed_wall_friction(ratio: ArrayLike, slope: ArrayLike) -> Array:
    r"""Friction angle that a face needs to carry the full soil column with this pressure ratio.

    :math:`\tan\delta = \frac{(1 - K)\sin\alpha\cos\alpha}{\cos^2\alpha + K\sin^2\alpha}`

    Parameters
    ----------
    ratio : float or array
        K, sideways over vertical pressure [-], above 0 to 1.
    slope : float or array
        Slope of the face from the horizontal [rad], 0 to pi/2.

    Returns
    -------
    array
        Needed angle of friction between soil and face [rad].

    References
    ----------
    [FILLINGMODEL2026] equilibrium of a wedge of fill on a slope.

    Examples
    --------
    >>> round(float(np.degrees(needed_wall_friction(0.47, np.arctan(1 / 0.47**0.5)))), 1)
    21.1
    """
    within("pressure ratio", ratio, 0.0, 1.0, open_low=True)
    within("slope", slope, 0.0, 0.5 * np.pi + 1e-9, unit="rad")
    k = np.asarray(ratio, dtype=np.float64)
    sine, cosine = np.sin(slope), np.cos(slope)
    angle: Array = np.arctan2((1.0 - k) * sine * cosine, cosine**2 + k * sine**2)
    return angle


def largest_needed_wall_friction(ratio: ArrayLike) -> Array:
    r"""The most friction that any slope needs for this pressure ratio.

    :math:`\tan\delta = (1 - K) / (2\sqrt{K})`

    Parameters
    ----------
    ratio : float or array
        K, sideways over vertical pressure [-], above 0 to 1.

    Returns
    -------
    array
        Needed angle of friction [rad], at the slope with tan = 1/sqrt(K).

    References
    ----------
    [FILLINGMODEL2026] equilibrium of a wedge of fill on a slope.

    Examples
    --------
    >>> round(float(np.degrees(largest_needed_wall_friction(0.60))), 1)
    14.5
    """
    within("pressure ratio", ratio, 0.0, 1.0, open_low=True)
    k = np.asarray(ratio, dtype=np.float64)
    return np.arctan((1.0 - k) / (2.0 * np.sqrt(k)))
