"""How deep frost goes into open ground in a cold winter, and what insulation makes of it."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

MELTING = 334e3
"""Heat that a kilogram of water gives off when it freezes (J/kg)."""
DAY = 86_400.0


def latent_heat(dry_density: ArrayLike, water: ArrayLike) -> Array:
    """Heat that a cubic metre of soil gives off when its water freezes.

    L = ρ_d·w·h

    Parameters
    ----------
    dry_density : float or array
        Density of the dry soil, ρ_d [kg/m3], 300 to 2600.
    water : float or array
        Mass of water over mass of dry soil, w [-], 0.005 to 3.

    Returns
    -------
    array
        Heat of freezing [J/m3]; h is 334 kJ/kg.

    References
    ----------
    [TM5852] latent heat of soils.

    Examples
    --------
    >>> round(float(latent_heat(1600.0, 0.15)) / 1e6, 1)
    80.2
    """
    within("dry density", dry_density, 300.0, 2600.0, unit="kg/m3")
    within("water content", water, 0.005, 3.0)
    return np.asarray(np.asarray(dry_density, dtype=float) * np.asarray(water, dtype=float) * MELTING)


def stefan_depth(conductivity: ArrayLike, index: ArrayLike, latent: ArrayLike) -> Array:
    r"""Depth of frost if only the freezing of water took heat (Stefan): too deep rather than too shallow.

    :math:`X = \sqrt{2 k F / L}`

    Parameters
    ----------
    conductivity : float or array
        Conductivity of the frozen soil, k [W/(m K)], 0.05 to 5.
    index : float or array
        Freezing index at the surface, F [K s], 0 to 1e9.
    latent : float or array
        Heat of freezing of the soil, L [J/m3], 1e6 to 4e8.

    Returns
    -------
    array
        Depth [m].

    References
    ----------
    [STEFANWSDOT] Stefan equation.

    Examples
    --------
    >>> round(float(stefan_depth(1.3135, 1389 * 86400.0, 80.5e6)), 3)
    1.979
    """
    within("conductivity", conductivity, 0.05, 5.0, unit="W/mK")
    within("freezing index", index, 0.0, 1e9, unit="K s")
    within("heat of freezing", latent, 1e6, 4e8, unit="J/m3")
    k, cold = (np.asarray(one, dtype=float) for one in (conductivity, index))
    return np.asarray(np.sqrt(2.0 * k * cold / np.asarray(latent, dtype=float)))


def frost_correction(warmth: ArrayLike, fusion: ArrayLike) -> Array:
    r"""Share of Stefan's depth that is left when the soil's own warmth has to be cooled off too.

    :math:`\lambda = x\sqrt{2/\mu}`, x from
    :math:`e^{-x^2}/\mathrm{erf}\,x - \alpha e^{-x^2}/\mathrm{erfc}\,x = \sqrt{\pi}\,x/\mu`

    Parameters
    ----------
    warmth : float or array
        Mean of the year over the mean cold of the frost season, α [-], 0 to 20.
    fusion : float or array
        Heat of cooling over heat of freezing, μ [-], 0.001 to 5.

    Returns
    -------
    array
        Factor λ on Stefan's depth [-].

    Notes
    -----
    Neumann's solution with the same conductivity and capacity, frozen or not.

    References
    ----------
    [ALDRICH1953] modified Berggren equation; solved here, not read off a chart.

    Examples
    --------
    >>> round(float(frost_correction(1.0, 0.2)), 3)
    0.776
    """
    within("warmth ratio", warmth, 0.0, 20.0)
    within("fusion parameter", fusion, 0.001, 5.0)
    return np.asarray(np.vectorize(_correction, otypes=[float])(warmth, fusion))


def _correction(warmth: float, fusion: float) -> float:
    from scipy.optimize import brentq
    from scipy.special import erf, erfcx

    def left_over(x: float) -> float:
        # Times e^(x²) throughout, so that nothing underflows.
        taken = np.sqrt(np.pi) * x / fusion * np.exp(x * x)
        return float(1.0 / erf(x) - warmth * np.exp(x * x) / erfcx(x) - taken)

    # Stefan is the deepest: x is at most √(μ/2).
    root = brentq(left_over, 1e-6, np.sqrt(fusion), xtol=1e-12)
    return float(root * np.sqrt(2.0 / fusion))


def frost_depth(
    conductivity: float,
    index: float,
    *,
    mean: float,
    duration: float,
    latent: float,
    capacity: float,
) -> float:
    """Depth of frost in open ground (modified Berggren).

    X = λ(α, μ)·√(2kF/L), v = F/t, α = T/v, μ = C·v/L

    Parameters
    ----------
    conductivity : float
        Conductivity of the soil, mean of frozen and thawed, k [W/(m K)], 0.05 to 5.
    index : float
        Freezing index at the surface, F [K s], 0 to 1e9.
    mean : float
        Mean temperature of the year, T [°C], 0 to 30.
    duration : float
        Length of the frost season, t [s], 86400 to 3.2e7.
    latent : float
        Heat of freezing of the soil, L [J/m3], 1e6 to 4e8.
    capacity : float
        Heat capacity of the soil, C [J/(m3 K)], 5e5 to 5e6.

    Returns
    -------
    float
        Depth [m]; 0 where nothing freezes.

    References
    ----------
    [ALDRICH1953] modified Berggren equation.
    [TM5852] worked value.

    Examples
    --------
    >>> frost = frost_depth(
    ...     1.3135, 1389 * 86400.0, mean=2.89, duration=160 * 86400.0, latent=80.5e6, capacity=1.895e6
    ... )
    >>> round(frost, 2)
    1.77
    """
    within("mean temperature", mean, 0.0, 30.0, unit="°C")
    within("duration", duration, DAY, 3.2e7, unit="s")
    within("heat capacity", capacity, 5e5, 5e6, unit="J/m3K")
    bare = float(stefan_depth(conductivity, index, latent))
    if index == 0.0:
        return 0.0
    cold = index / duration
    return bare * float(frost_correction(mean / cold, capacity * cold / latent))


def insulated_frost_depth(depth: ArrayLike, conductivity: ArrayLike, resistance: ArrayLike) -> Array:
    """Depth of frost under a wide sheet of insulation on the ground.

    X' = √((k·R)² + X²) − k·R

    Parameters
    ----------
    depth : float or array
        Depth of frost without it, X [m], 0 to 10.
    conductivity : float or array
        Conductivity of the soil, k [W/(m K)], 0.05 to 5.
    resistance : float or array
        Resistance of the insulation, R [m2K/W], 0 to 20.

    Returns
    -------
    array
        Depth below the insulation [m].

    Notes
    -----
    Stefan's equation with a resistance on top; holds under the middle of a sheet that reaches past the
    place by more than the depth of frost without it.

    References
    ----------
    [STEFANWSDOT] Stefan equation; the resistance is elementary.

    Examples
    --------
    >>> round(float(insulated_frost_depth(1.5, 1.5, 2.0)), 3)
    0.354
    """
    within("frost depth", depth, 0.0, 10.0, unit="m")
    within("conductivity", conductivity, 0.05, 5.0, unit="W/mK")
    within("resistance", resistance, 0.0, 20.0, unit="m2K/W")
    worth = np.asarray(conductivity, dtype=float) * np.asarray(resistance, dtype=float)
    return np.asarray(np.hypot(worth, depth) - worth)
