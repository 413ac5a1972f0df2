"""What wood is worth: by its water, by how it is stacked."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

EVAPORATION = 2.443e6
"""Heat that drying a kilogram of water takes at 25 °C (J/kg)."""
MOST_WATER = 0.7


def heating_value(moisture: ArrayLike, dry: ArrayLike) -> Array:
    """Net heating value of wood as burned.

    q = q₀·(1 − w) − 2.443·10⁶·w

    Parameters
    ----------
    moisture : float or array
        Water in the mass as burned, w [-], 0 to 0.7.
    dry : float or array
        Net heating value of the dry wood, q₀ [J/kg], 1.5e7 to 2.2e7.

    Returns
    -------
    float or array
        Net heating value [J/kg].

    References
    ----------
    [ENISO17225] : net heating value as received.

    Examples
    --------
    >>> round(float(heating_value(0.3, dry=19450000.0)))
    12882100
    """
    within("moisture", moisture, 0.0, MOST_WATER)
    within("dry heating value", dry, 1.5e7, 2.2e7, unit="J/kg")
    water = np.asarray(moisture, dtype=float)
    return np.asarray(np.asarray(dry) * (1.0 - water) - EVAPORATION * water)


def dry_heating_value(value: ArrayLike, moisture: ArrayLike) -> Array:
    """Net heating value of the dry wood, from that of wood with water in it.

    q₀ = (q + 2.443·10⁶·w)/(1 − w)

    Parameters
    ----------
    value : float or array
        Net heating value as burned, q [J/kg], 0 to 2.2e7.
    moisture : float or array
        Water in the mass as burned, w [-], 0 to 0.7.

    Returns
    -------
    float or array
        Net heating value of the dry wood [J/kg].

    References
    ----------
    [ENISO17225] : net heating value as received, solved for the dry one.

    Examples
    --------
    >>> round(float(dry_heating_value(12637000.0, moisture=0.3)))
    19099857
    """
    within("heating value", value, 0.0, 2.2e7, unit="J/kg")
    within("moisture", moisture, 0.0, MOST_WATER)
    water = np.asarray(moisture, dtype=float)
    return np.asarray((np.asarray(value) + EVAPORATION * water) / (1.0 - water))


def water_in_dry_terms(moisture: ArrayLike) -> Array:
    """Water as share of the dry mass, as a moisture meter shows it.

    u = w/(1 − w)

    Parameters
    ----------
    moisture : float or array
        Water in the mass as burned, w [-], 0 to 0.7.

    Returns
    -------
    float or array
        Water as share of the dry mass [-].

    References
    ----------
    [ENISO17225] : the two ways of stating moisture.

    Examples
    --------
    >>> round(float(water_in_dry_terms(0.2)), 2)
    0.25
    """
    within("moisture", moisture, 0.0, MOST_WATER)
    water = np.asarray(moisture, dtype=float)
    return np.asarray(water / (1.0 - water))


def stacked_heat(dry_mass: ArrayLike, moisture: ArrayLike, dry: ArrayLike) -> Array:
    """Heat in a stacked cubic metre.

    h = m₀/(1 − w)·q(w)

    Parameters
    ----------
    dry_mass : float or array
        Dry wood in a stacked cubic metre, m₀ [kg/m3], 50 to 900.
    moisture : float or array
        Water in the mass as burned, w [-], 0 to 0.7.
    dry : float or array
        Net heating value of the dry wood, q₀ [J/kg], 1.5e7 to 2.2e7.

    Returns
    -------
    float or array
        Net heat [J/m3] of stacked volume.

    Notes
    -----
    The stack's volume counts as the same whether dry or wet; wood swells by up to a tenth.

    References
    ----------
    [ENISO17225] : net heating value as received, times the mass in the stack.

    Examples
    --------
    >>> round(float(stacked_heat(249.05, moisture=0.15, dry=19450000.0)))
    4736652650
    """
    within("dry mass of a stacked cubic metre", dry_mass, 50.0, 900.0, unit="kg/m3")
    water = np.asarray(moisture, dtype=float)
    return np.asarray(np.asarray(dry_mass) / (1.0 - water) * heating_value(water, dry))


def stack_volume(heat: ArrayLike, of_stack: ArrayLike, efficiency: ArrayLike) -> Array:
    """Stacked wood that a winter's heat takes.

    V = Q/(η·h)

    Parameters
    ----------
    heat : float or array
        Heat that the house takes from the stove, Q [J], from 0.
    of_stack : float or array
        Heat in a stacked cubic metre, h [J/m3], above 0.
    efficiency : float or array
        Share of it that stays in the house, η [-], above 0 to 1.

    Returns
    -------
    float or array
        Stacked volume [m3].

    References
    ----------
    [ENISO17225] : the energy in the wood; the volume follows by division.

    Examples
    --------
    >>> round(float(stack_volume(9000000000.0, of_stack=5000000000.0, efficiency=0.75)), 1)
    2.4
    """
    within("heat", heat, 0.0, unit="J")
    within("heat of a stacked cubic metre", of_stack, 0.0, unit="J/m3", open_low=True)
    within("efficiency", efficiency, 0.0, 1.0, open_low=True)
    return np.asarray(np.asarray(heat, dtype=float) / (np.asarray(of_stack) * efficiency))
