"""Wind on what stands above the ground: its pressure in a gust, and how a vault takes it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

AIR = 1.25
"""Density of air (kg/m3)."""
OPEN_ROUGHNESS = 0.05
"""Roughness length of the country for which maps give their wind (m)."""
GUST_SHARE = 7.0
FLATTEST, ROUNDEST = 0.05, 0.5


@dataclass(frozen=True, slots=True)
class VaultWind:
    """Outside pressure over the gust's pressure, + towards the surface, across a vault."""

    windward: Array
    crown: Array
    leeward: Array


def gust_pressure(
    speed: ArrayLike, height: ArrayLike, *, roughness: ArrayLike, least_height: ArrayLike
) -> Array:
    r"""Pressure of a gust on open land without hills.

    :math:`q_p = \left(1 + \frac{7}{\ln(z/z_0)}\right)\frac{\rho}{2}\left(c_r v_b\right)^2`,
    :math:`c_r = 0.19\,(z_0/0.05)^{0.07}\ln(z/z_0)`, z not below the least height

    Parameters
    ----------
    speed : float or array
        Wind speed of the map v_b [m/s], 0 to 70.
    height : float or array
        Height over the ground z [m], 0 to 200.
    roughness : float or array
        Roughness length of the land z_0 [m], 0.001 to 2.
    least_height : float or array
        Height below which the wind counts as no weaker [m], above 0.

    Returns
    -------
    array
        Pressure q_p [Pa].

    References
    ----------
    [EN1991-1-4] equations 4.4, 4.5 and 4.8.

    Examples
    --------
    >>> round(float(gust_pressure(26.0, 9.0, roughness=1.0, least_height=10.0)) / 1e3, 3)
    0.497
    """
    within("wind speed", speed, 0.0, 70.0, unit="m/s")
    within("height", height, 0.0, 200.0, unit="m")
    within("roughness", roughness, 0.001, 2.0, unit="m")
    within("least height", least_height, 0.0, 50.0, unit="m", open_low=True)
    rough = np.asarray(roughness, dtype=float)
    log = np.log(np.maximum(height, least_height) / rough)
    share = 0.19 * (rough / OPEN_ROUGHNESS) ** 0.07 * log
    return np.asarray((1.0 + GUST_SHARE / log) * 0.5 * AIR * (share * np.asarray(speed, dtype=float)) ** 2)


def wind_on_vault(rise: ArrayLike, width: ArrayLike) -> VaultWind:
    r"""Outside coefficients of a vault that springs from the ground, wind across it.

    first quarter :math:`c_A = 0.1 + 1.556\,(f/d - 0.05)`, middle half
    :math:`c_B = -0.8 - 0.889\,(f/d - 0.05)`, last quarter :math:`c_C = -0.4`

    Parameters
    ----------
    rise : float or array
        Rise of the vault f over the ground [m], from 0.
    width : float or array
        Its width d at the ground [m], above 0.

    Returns
    -------
    VaultWind
        Coefficients of the three zones [-].

    Notes
    -----
    Straight lines between the ends of the curves of the figure at f/d = 0.05 and 0.5; a taller vault
    counts as the tallest of the figure. Pressure inside is another action.

    References
    ----------
    [EN1991-1-4] figure 7.11.
    """
    within("rise", rise, 0.0, 100.0, unit="m")
    within("width", width, 0.0, 100.0, unit="m", open_low=True)
    ratio = np.asarray(rise, dtype=float) / np.asarray(width, dtype=float)
    share = (np.clip(ratio, FLATTEST, ROUNDEST) - FLATTEST) / (ROUNDEST - FLATTEST)
    return VaultWind(0.1 + 0.7 * share, -0.8 - 0.4 * share, np.full_like(share, -0.4))


def wind_on_arch_american(rise: ArrayLike, width: ArrayLike) -> VaultWind:
    r"""The same by the other family of codes.

    windward quarter :math:`1.4\,r`, centre half :math:`-0.7 - r`, leeward quarter :math:`-0.5`

    Parameters
    ----------
    rise : float or array
        Rise of the arch over the ground [m], from 0.
    width : float or array
        Its width at the ground [m], above 0.

    Returns
    -------
    VaultWind
        Coefficients of the three zones [-].

    Notes
    -----
    The source holds for r, rise over span, up to 0.6.

    References
    ----------
    [ASCE7] figure 27.3-3, arched roofs springing from the ground.
    """
    within("rise", rise, 0.0, 100.0, unit="m")
    within("width", width, 0.0, 100.0, unit="m", open_low=True)
    ratio = np.asarray(rise, dtype=float) / np.asarray(width, dtype=float)
    within("rise over width", ratio, 0.0, 0.6)
    return VaultWind(1.4 * ratio, -0.7 - ratio, np.full_like(ratio, -0.5))
