"""Snow by a second family of codes, for whoever builds where it rules. Never mixed with the first.

Loads here go with that family's load factors and that family's strengths.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

Array = NDArray[np.float64]

FEET = 0.3048
"""Metres in a foot."""
PSF = 47.88025898033584
"""Pascals in a pound per square foot."""
PCF = 157.08746061538463
"""N/m3 in a pound per cubic foot."""
HEAVIEST_SNOW = 30.0
"""Greatest unit weight of drifted snow (lb/ft3)."""
PEAK = np.radians(30.0)
WARM, COOL = 1.0, 1.1
"""Thermal factors up to which a roof is warm, and cool (-)."""
LEAST_RISE, MOST_RISE = np.radians(10.0), np.radians(60.0)


def flat_roof_snow(
    ground: ArrayLike, *, exposure: ArrayLike = 1.0, thermal: ArrayLike = 1.0, importance: ArrayLike = 1.0
) -> Array:
    r"""Snow on a flat roof.

    :math:`p_f = 0.7\,C_e\,C_t\,I\,p_g`

    Parameters
    ----------
    ground : float or array
        Snow on the ground p_g [Pa], from 0.
    exposure : float or array
        Exposure factor C_e [-], 0.7 to 1.2.
    thermal : float or array
        Thermal factor C_t [-], 0.85 to 1.3.
    importance : float or array
        Importance factor I [-], 0.8 to 1.2.

    Returns
    -------
    array
        Load [Pa].

    References
    ----------
    [ASCE7] equation 7.3-1.

    Examples
    --------
    >>> round(float(flat_roof_snow(30 * PSF)) / PSF, 1)
    21.0
    """
    within("snow on the ground", ground, 0.0, 20e3, unit="Pa")
    within("exposure factor", exposure, 0.7, 1.2)
    within("thermal factor", thermal, 0.85, 1.3)
    within("importance factor", importance, 0.8, 1.2)
    factor = 0.7 * np.asarray(exposure, dtype=float) * np.asarray(thermal, dtype=float)
    return np.asarray(factor * np.asarray(importance, dtype=float) * np.asarray(ground, dtype=float))


def roof_slope_factor(slope: ArrayLike, *, thermal: ArrayLike = 1.0) -> Array:
    r"""Share of the flat roof's snow that stays on a rough slope.

    :math:`C_s = (70° - \alpha)/(70° - \alpha_0)`, between 0 and 1; :math:`\alpha_0` is 30 degrees on a warm
    roof (:math:`C_t \le 1`), 37.5 to :math:`C_t = 1.1`, 45 on a colder one

    Parameters
    ----------
    slope : float or array
        Slope [rad], 0 to pi/2.
    thermal : float or array
        Thermal factor C_t [-], 0.85 to 1.3.

    Returns
    -------
    array
        Slope factor [-].

    References
    ----------
    [ASCE7] figure 7.4-1, all other surfaces.

    Examples
    --------
    >>> round(float(roof_slope_factor(0.8727)), 4)
    0.4999
    """
    within("slope", slope, 0.0, 0.5 * np.pi + 1e-9, unit="rad")
    within("thermal factor", thermal, 0.85, 1.3)
    warm, cold = np.asarray(thermal, dtype=float) <= WARM, np.asarray(thermal, dtype=float) > COOL
    start = np.where(warm, 30.0, np.where(cold, 45.0, 37.5))
    return np.asarray(np.clip((70.0 - np.degrees(slope)) / (70.0 - start), 0.0, 1.0))


def mu_arch_american(
    x: ArrayLike,
    *,
    slope: ArrayLike,
    rise: float,
    arrangement: str,
    exposure: float = 1.0,
    thermal: float = 1.0,
) -> Array:
    r"""Snow along a curved roof over that on a flat one.

    even: C_s of each tangent; left or right: nothing on the other side, from 0.5 at the crown in a
    straight line to :math:`2 C_s/C_e` where the slope is 30 degrees, then :math:`2 C_s/C_e` of each tangent

    Parameters
    ----------
    x : array
        Places across the roof from its crown, + to the right [m].
    slope : array
        Slope of the tangent at each place [rad], 0 to pi/2.
    rise : float
        Rise of the roof from its eaves [m], from 0.
    arrangement : str
        even, left or right: to which side it has drifted [-].
    exposure : float
        Exposure factor C_e [-], 0.7 to 1.2.
    thermal : float
        Thermal factor C_t [-], 0.85 to 1.3.

    Returns
    -------
    array
        Load on plan over the flat roof's [-].

    Notes
    -----
    Where the line from crown to eaves is flatter than 10 degrees or steeper than 60 no drift counts.

    References
    ----------
    [ASCE7] 7.4.3, 7.6.2 and figure 7.4-2.
    """
    if arrangement not in {"even", "left", "right"}:
        raise OutOfRangeError(f"The arrangement of snow is even, left or right, not {arrangement!r}.")
    within("rise", rise, 0.0, 100.0, unit="m")
    within("exposure factor", exposure, 0.7, 1.2)
    place, tilt = np.asarray(x, dtype=float), np.asarray(slope, dtype=float)
    within("place", place, -100.0, 100.0, unit="m")
    stays = roof_slope_factor(tilt, thermal=thermal)
    if arrangement == "even":
        return stays
    reach = float(np.max(np.abs(place)))
    whole = np.arctan2(rise, reach)
    if not LEAST_RISE <= whole <= MOST_RISE:
        return np.zeros_like(place)
    lee = place < 0.0 if arrangement == "left" else place > 0.0
    beyond = np.abs(place)[lee & (tilt >= PEAK)]
    at = float(beyond.min()) if beyond.size else reach
    peak = 2.0 / exposure
    near = 0.5 + (peak - 0.5) * np.abs(place) / at
    return np.where(lee, np.where(np.abs(place) <= at, near, peak * stays), 0.0)


def drift_height(ground: ArrayLike, length: ArrayLike) -> Array:
    r"""Height of the drift that wind piles up behind a step, a parapet or an end wall.

    :math:`h_d = 0.43\,l_u^{1/3}(p_g + 10)^{1/4} - 1.5` in feet and pounds per square foot

    Parameters
    ----------
    ground : float or array
        Snow on the ground p_g [Pa], from 0.
    length : float or array
        Length of roof or field from which the wind brings it l_u [m], from 0.

    Returns
    -------
    array
        Height of the drift [m], from 0.

    Notes
    -----
    Shorter lengths than 20 ft count as 20 ft.

    References
    ----------
    [ASCE7] figure 7.6-1.

    Examples
    --------
    >>> round(float(drift_height(1436.0, length=30.48)), 3)
    1.073
    """
    within("snow on the ground", ground, 0.0, 20e3, unit="Pa")
    within("length", length, 0.0, 300.0, unit="m")
    far = np.maximum(np.asarray(length, dtype=float) / FEET, 20.0)
    height = 0.43 * np.cbrt(far) * (np.asarray(ground, dtype=float) / PSF + 10.0) ** 0.25 - 1.5
    return np.asarray(np.maximum(height, 0.0) * FEET)


def drift_unit_weight(ground: ArrayLike) -> Array:
    r"""Unit weight of drifted snow.

    :math:`\gamma = 0.13\,p_g + 14 \le 30` in pounds and feet

    Parameters
    ----------
    ground : float or array
        Snow on the ground p_g [Pa], from 0.

    Returns
    -------
    array
        Unit weight [N/m3].

    References
    ----------
    [ASCE7] equation 7.7-1.

    Examples
    --------
    >>> round(float(drift_unit_weight(1436.0)))
    2812
    """
    within("snow on the ground", ground, 0.0, 20e3, unit="Pa")
    weight = 0.13 * np.asarray(ground, dtype=float) / PSF + 14.0
    return np.asarray(PCF * np.minimum(weight, HEAVIEST_SNOW))
