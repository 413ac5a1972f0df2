"""How moist and frozen soil carries and holds heat."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

    from bermwright.handbook.groundheat.section import Array

GRAINS = 2700.0
"""Density of soil grains (kg/m3)."""
QUARTZ_CONDUCTS, OTHERS_CONDUCT, POOR_CONDUCT = 7.7, 2.0, 3.0
"""Quartz, other minerals, and other minerals where there is little quartz (W/(m K))."""
LITTLE_QUARTZ = 0.2
WATER_CONDUCTS, ICE_CONDUCTS = 0.57, 2.2
"""W/(m K)."""
GRAINS_HOLD, WATER_HOLDS, ICE_HOLDS = 730.0, 4190.0, 2090.0
"""J/(kg K)."""
MELTING = 334e3
"""Heat of melting of ice (J/kg)."""


def moist_conductivity(
    dry_density: ArrayLike,
    saturation: ArrayLike,
    quartz: ArrayLike,
    *,
    fine: bool = False,
    frozen: bool = False,
) -> Array:
    """Conductivity of moist soil, λ = (λs - λd)·Ke + λd.

    Dry λd = (0.135ρ + 64.7)/(2700 - 0.947ρ); saturated λs = λg^(1-n)·λw^n with the grains
    λg = 7.7^q·2^(1-q) and the pores n = 1 - ρ/2700; Ke = lg S + 1 in fine, 0.7 lg S + 1 in coarse
    soil, S when frozen.

    Parameters
    ----------
    dry_density : float or array
        Dry density ρ [kg/m3], 800 to 2200.
    saturation : float or array
        Share S of the pores that is full of water [-], 0.05 to 1; from 0.1 in fine soil.
    quartz : float or array
        Share q of quartz in the grains [-], 0 to 1.
    fine : bool
        Silt or clay, not sand or gravel.
    frozen : bool
        Whether the water is ice.

    Returns
    -------
    float or array
        Conductivity λ [W/(m K)].

    References
    ----------
    [JOHANSEN1975] : equations for natural, not crushed soils.

    Examples
    --------
    >>> round(float(moist_conductivity(1600.0, 0.6, 0.35, fine=True)), 3)
    1.287
    """
    within("dry density", dry_density, 800.0, 2200.0, unit="kg/m3")
    within("saturation", saturation, 0.1 if fine else 0.05, 1.0)
    within("share of quartz", quartz, 0.0, 1.0)
    density, full, share = (np.asarray(one, dtype=float) for one in (dry_density, saturation, quartz))
    dry = (0.135 * density + 64.7) / (GRAINS - 0.947 * density)
    pores = 1.0 - density / GRAINS
    others = np.where(share > LITTLE_QUARTZ, OTHERS_CONDUCT, POOR_CONDUCT)
    grains = QUARTZ_CONDUCTS**share * others ** (1.0 - share)
    soaked = grains ** (1.0 - pores) * (ICE_CONDUCTS if frozen else WATER_CONDUCTS) ** pores
    part = full if frozen else (1.0 if fine else 0.7) * np.log10(full) + 1.0
    return np.asarray((soaked - dry) * part + dry)


def soil_heat_capacity(dry_density: ArrayLike, water_content: ArrayLike, *, frozen: bool = False) -> Array:
    """Heat capacity of a volume of moist soil, ρ·(cs + w·cw).

    Parameters
    ----------
    dry_density : float or array
        Dry density ρ [kg/m3], 100 to 2800.
    water_content : float or array
        Water over dry mass w [-], 0 to 4.
    frozen : bool
        Whether the water is ice.

    Returns
    -------
    float or array
        Heat capacity [J/(m3 K)].

    References
    ----------
    [JOHANSEN1975] : heat capacity as the sum of grains and water.

    Examples
    --------
    >>> round(float(soil_heat_capacity(1600.0, 0.15)))
    2173600
    """
    within("dry density", dry_density, 100.0, 2800.0, unit="kg/m3")
    within("water content", water_content, 0.0, 4.0)
    water = np.asarray(water_content, dtype=float)
    density = np.asarray(dry_density, dtype=float)
    return np.asarray(density * (GRAINS_HOLD + water * (ICE_HOLDS if frozen else WATER_HOLDS)))


def freezing_heat(dry_density: ArrayLike, water_content: ArrayLike) -> Array:
    """Heat that a volume of soil gives off when its water freezes, ρ·w·334 kJ/kg.

    Parameters
    ----------
    dry_density : float or array
        Dry density ρ [kg/m3], 100 to 2800.
    water_content : float or array
        Water over dry mass w [-], 0 to 4; ρ·w at most that of ice alone.

    Returns
    -------
    float or array
        Latent heat [J/m3].

    References
    ----------
    [JOHANSEN1975] : latent heat of the pore water.

    Examples
    --------
    >>> round(float(freezing_heat(1600.0, 0.15)) / 1e6, 2)
    80.16
    """
    within("dry density", dry_density, 100.0, 2800.0, unit="kg/m3")
    within("water content", water_content, 0.0, 4.0)
    return np.asarray(np.asarray(dry_density, dtype=float) * water_content * MELTING)
