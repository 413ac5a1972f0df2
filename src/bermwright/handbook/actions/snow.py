"""Snow load shape factors of EN 1991-1-3 for the bare vault and for the mound.

Exposure and thermal factors are 1: no snow is taken off for wind or for warmth from below.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

Array = NDArray[np.float64]

EVEN_FACTOR = 0.8
PITCH_FULL = np.radians(30.0)
PITCH_NONE = np.radians(60.0)


def mu_pitched_roof(slope: ArrayLike) -> Array:
    r"""Shape factor of snow on a plane slope without a snow fence.

    :math:`\mu_1 = 0.8` to 30 degrees, :math:`0.8\,(60 - \alpha)/30` to 60, 0 beyond

    Parameters
    ----------
    slope : float or array
        Slope of the surface [rad], 0 to pi/2.

    Returns
    -------
    array
        Load on plan over load on the ground [-].

    References
    ----------
    [EN1991-1-3] table 5.2.

    Examples
    --------
    >>> float(mu_pitched_roof(0.2)), round(float(mu_pitched_roof(np.radians(45.0))), 3)
    (0.8, 0.4)
    """
    within("slope", slope, 0.0, 0.5 * np.pi + 1e-9, unit="rad")
    share = (PITCH_NONE - np.asarray(slope, dtype=np.float64)) / (PITCH_NONE - PITCH_FULL)
    factor: Array = EVEN_FACTOR * np.clip(share, 0.0, 1.0)
    return factor


def peak_mu_curved_roof(rise: ArrayLike, width: ArrayLike) -> Array:
    r"""Peak of drifted snow on a curved roof.

    :math:`\mu_3 = 0.2 + 10\,h/b \le 2.0`

    Parameters
    ----------
    rise : float or array
        Rise h of the roof [m], from 0.
    width : float or array
        Width b of the roof [m], above 0.

    Returns
    -------
    array
        Shape factor of the peak [-].

    References
    ----------
    [EN1991-1-3] 5.3.5, equation 5.5.

    Examples
    --------
    >>> float(peak_mu_curved_roof(0.5, 4.0)), float(peak_mu_curved_roof(3.0, 4.0))
    (1.45, 2.0)
    """
    within("rise", rise, 0.0, 100.0, unit="m")
    within("width", width, 0.0, 100.0, unit="m", open_low=True)
    ratio = np.asarray(rise, dtype=np.float64) / np.asarray(width, dtype=np.float64)
    return np.minimum(0.2 + 10.0 * ratio, 2.0)


def mu_curved_roof(x: ArrayLike, *, slope: ArrayLike, width: float, rise: float, arrangement: str) -> Array:
    r"""Shape factor of snow along a curved roof.

    even: 0.8 where the tangent is flatter than 60 degrees; drifted: over that length :math:`l_s` two
    triangles with their peaks at :math:`l_s/4` from its ends, :math:`\mu_3` on the named side and half of
    it on the other; 0 where it is steeper.

    Parameters
    ----------
    x : array
        Places across the roof, from its middle, + to the right [m].
    slope : array
        Slope of the tangent at each place [rad], 0 to pi/2.
    width : float
        Width b of the roof [m], above 0.
    rise : float
        Rise h of the roof [m], from 0.
    arrangement : str
        even, left or right: where the snow lies, or to which side it has drifted [-].

    Returns
    -------
    array
        Load on plan over load on the ground at each place [-].

    Notes
    -----
    The length with snow is taken from the flattest places given, so that fine points are needed near
    60 degrees.

    References
    ----------
    [EN1991-1-3] 5.3.5 and figure 5.6.

    Examples
    --------
    >>> x = np.linspace(-2.0, 2.0, 5)
    >>> mu_curved_roof(x, slope=np.zeros(5), width=4.0, rise=0.5, arrangement="right").round(3).tolist()
    [0.0, 0.725, 0.0, 1.45, 0.0]
    """
    if arrangement not in {"even", "left", "right"}:
        raise OutOfRangeError(f"The arrangement of snow is even, left or right, not {arrangement!r}.")
    peak = float(peak_mu_curved_roof(rise, width))
    place = np.asarray(x, dtype=np.float64)
    within("place", place, -width, width, unit="m")
    holds = np.asarray(slope, dtype=np.float64) <= PITCH_NONE
    within("slope", slope, 0.0, 0.5 * np.pi + 1e-9, unit="rad")
    if arrangement == "even" or not holds.any():
        return np.where(holds, EVEN_FACTOR, 0.0)
    start, end = float(place[holds].min()), float(place[holds].max())
    middle, half = 0.5 * (start + end), max(0.5 * (end - start), 1e-9)
    share = np.abs(place - middle) / half
    triangle = np.maximum(1.0 - np.abs(2.0 * share - 1.0), 0.0)
    heavy = place < middle if arrangement == "left" else place > middle
    return np.where(holds, peak * triangle * np.where(heavy, 1.0, 0.5), 0.0)
