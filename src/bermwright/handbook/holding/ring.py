"""Rings and bond beams: their pull and bending, their bars, and how far bars overlap."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

_MPA = 1e6


def ring_tension(thrust: ArrayLike, radius: ArrayLike) -> Array:
    r"""Pull in a round ring that is pushed outward all round, :math:`T = H R`.

    Parameters
    ----------
    thrust : float or array
        Push outward on a metre of ring [N/m]; negative presses the ring together.
    radius : float or array
        Radius of the ring [m], above 0.

    Returns
    -------
    array
        Pull in the ring [N]; negative is compression.

    References
    ----------
    [HEYMAN1995] rings of domes.

    Examples
    --------
    >>> float(ring_tension(12e3, 2.5))
    30000.0
    """
    within("push on the ring", thrust, unit="N/m")
    within("radius of the ring", radius, 0.0, unit="m", open_low=True)
    return np.asarray(thrust, dtype=np.float64) * np.asarray(radius, dtype=np.float64)


def beam_moment(push: ArrayLike, span: ArrayLike) -> Array:
    r"""Bending of a beam between what holds it, each span by itself, :math:`M = q l^2 / 8`.

    Parameters
    ----------
    push : float or array
        Push on a metre of beam [N/m], from 0.
    span : float or array
        From one support to the next [m], 0 to 30.

    Returns
    -------
    array
        Bending moment [N m].

    References
    ----------
    [HEYMAN1995] a beam on two supports.

    Examples
    --------
    >>> float(beam_moment(8e3, 2.0))
    4000.0
    """
    within("push on the beam", push, 0.0, unit="N/m")
    within("span of the beam", span, 0.0, 30.0, unit="m")
    return np.asarray(push, dtype=np.float64) * np.asarray(span, dtype=np.float64) ** 2 / 8.0


def bar_area(diameter: ArrayLike, count: ArrayLike = 1.0) -> Array:
    r"""Area of round bars, :math:`n \pi d^2 / 4`.

    Parameters
    ----------
    diameter : float or array
        Diameter of one bar [m], 0.003 to 0.05.
    count : float or array
        How many [-], from 0.

    Returns
    -------
    array
        Area [m2].

    References
    ----------
    [EN1992] area of bars.

    Examples
    --------
    >>> round(float(bar_area(0.012, 4)) * 1e6, 1)
    452.4
    """
    within("diameter of the bar", diameter, 0.003, 0.05, unit="m")
    within("count of bars", count, 0.0)
    return np.asarray(count, dtype=np.float64) * np.pi * np.asarray(diameter, dtype=np.float64) ** 2 / 4.0


def concrete_tension(strength: ArrayLike) -> Array:
    r"""Low characteristic strength of concrete in tension, :math:`0.7 \cdot 0.3 f_{ck}^{2/3}` (MPa).

    Parameters
    ----------
    strength : float or array
        Characteristic cylinder strength [Pa], 8e6 to 50e6.

    Returns
    -------
    array
        Strength in tension [Pa].

    References
    ----------
    [EN1992] table 3.1.

    Examples
    --------
    >>> round(float(concrete_tension(25e6)) / 1e6, 2)
    1.8
    """
    within("strength of the concrete", strength, 8e6, 50e6, unit="Pa")
    low: Array = 0.7 * 0.3 * (np.asarray(strength, dtype=np.float64) / _MPA) ** (2.0 / 3.0) * _MPA
    return low


def bond_strength(tension: ArrayLike, *, good: bool) -> Array:
    r"""Bond of a ribbed bar in concrete, :math:`f_{bd} = 2.25 \eta_1 f_{ctd}`, for bars up to 32 mm.

    Parameters
    ----------
    tension : float or array
        Design strength of the concrete in tension [Pa], above 0.
    good : bool
        Whether the bar lies well: no more than 250 mm of fresh concrete under it; else η1 = 0.7.

    Returns
    -------
    array
        Bond strength [Pa].

    References
    ----------
    [EN1992] 8.4.2.

    Examples
    --------
    >>> round(float(bond_strength(1.2e6, good=True)) / 1e6, 2)
    2.7
    """
    within("strength in tension", tension, 0.0, unit="Pa", open_low=True)
    strength: Array = 2.25 * (1.0 if good else 0.7) * np.asarray(tension, dtype=np.float64)
    return strength


def anchorage_length(diameter: ArrayLike, stress: ArrayLike, bond: ArrayLike) -> Array:
    r"""Length by which a straight bar must reach into concrete.

    :math:`l_b = \frac{d}{4}\frac{\sigma}{f_{bd}}`, at least 10 d and 100 mm.

    Parameters
    ----------
    diameter : float or array
        Diameter of the bar [m], 0.003 to 0.032.
    stress : float or array
        Stress to be anchored [Pa], from 0.
    bond : float or array
        Bond strength [Pa], above 0.

    Returns
    -------
    array
        Length [m].

    References
    ----------
    [EN1992] 8.4.3 and 8.4.4, all α = 1.

    Examples
    --------
    >>> round(float(anchorage_length(0.012, 435e6, 2.7e6)), 3)
    0.483
    """
    needed = _basic(diameter, stress, bond)
    least = np.maximum(10.0 * np.asarray(diameter, dtype=np.float64), 0.1)
    return np.maximum(needed, least)


def lap_length(diameter: ArrayLike, stress: ArrayLike, bond: ArrayLike) -> Array:
    r"""Length by which two bars of a ring overlap, all of them lapped at one place.

    :math:`l_0 = 1.5 l_b`, at least 15 d and 200 mm.

    Parameters
    ----------
    diameter : float or array
        Diameter of the bar [m], 0.003 to 0.032.
    stress : float or array
        Stress in the bar [Pa], from 0.
    bond : float or array
        Bond strength [Pa], above 0.

    Returns
    -------
    array
        Length [m].

    References
    ----------
    [EN1992] 8.7.3, α6 = 1.5.

    Examples
    --------
    >>> round(float(lap_length(0.012, 435e6, 2.7e6)), 3)
    0.725
    """
    needed = 1.5 * _basic(diameter, stress, bond)
    return np.maximum(needed, np.maximum(15.0 * np.asarray(diameter, dtype=np.float64), 0.2))


def _basic(diameter: ArrayLike, stress: ArrayLike, bond: ArrayLike) -> Array:
    within("diameter of the bar", diameter, 0.003, 0.032, unit="m")
    within("stress in the bar", stress, 0.0, unit="Pa")
    within("bond strength", bond, 0.0, unit="Pa", open_low=True)
    share = np.asarray(stress, dtype=np.float64) / np.asarray(bond, dtype=np.float64)
    return np.asarray(diameter, dtype=np.float64) / 4.0 * share
