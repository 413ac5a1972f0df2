"""Buckling of compressed and of bent members."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

STRAIGHTNESS = 0.2
"""beta_c of solid timber."""
STOCKY = 0.3


def relative_slenderness(strength: ArrayLike, critical: ArrayLike) -> Array:
    r"""Relative slenderness of a compressed member.

    :math:`\lambda_{rel} = \sqrt{f_{c,0,k} / \sigma_{cr}}`, :math:`\sigma_{cr} = \pi^2 E_{0.05}/\lambda^2` for a
    straight strut

    Parameters
    ----------
    strength : float or array
        Characteristic compressive strength [Pa], above 0.
    critical : float or array
        Compressive stress at which the member buckles with the low modulus [Pa], above 0.

    Returns
    -------
    array
        Relative slenderness [-].

    References
    ----------
    [EN1995] 6.3.2, equation 6.21.

    Examples
    --------
    >>> round(float(relative_slenderness(21e6, np.pi**2 * 7.4e9 / 100**2)), 3)
    1.696
    """
    within("compressive strength", strength, 0.0, unit="Pa", open_low=True)
    within("critical stress", critical, 0.0, unit="Pa", open_low=True)
    return np.sqrt(np.asarray(strength, dtype=float) / critical)


def buckling_reduction(slenderness: ArrayLike) -> Array:
    r"""Factor :math:`k_c` on compressive strength of a slender member.

    :math:`k_c = \frac{1}{k + \sqrt{k^2 - \lambda^2}}`, :math:`k = \frac{1}{2}(1 + 0.2(\lambda - 0.3) + \lambda^2)`

    Parameters
    ----------
    slenderness : float or array
        Relative slenderness [-], from 0.

    Returns
    -------
    array
        kc [-]; 1 up to a slenderness of 0.3.

    References
    ----------
    [EN1995] 6.3.2, equations 6.25 to 6.29.

    Examples
    --------
    >>> round(float(buckling_reduction(1.696)), 3)
    0.305
    """
    within("relative slenderness", slenderness, 0.0, 100.0)
    rel = np.asarray(slenderness, dtype=float)
    k = 0.5 * (1.0 + STRAIGHTNESS * (rel - STOCKY) + rel**2)
    return np.where(rel <= STOCKY, 1.0, 1.0 / (k + np.sqrt(np.maximum(k**2 - rel**2, 0.0))))


def lateral_critical_stress(
    modulus: ArrayLike, width: ArrayLike, depth: ArrayLike, length: ArrayLike
) -> Array:
    r"""Bending stress at which a rectangular softwood beam tips sideways.

    :math:`\sigma_{m,crit} = 0.78\,b^2 E_{0.05} / (h\,l_{ef})`

    Parameters
    ----------
    modulus : float or array
        Low modulus E0.05 [Pa], above 0.
    width : float or array
        Width b [m], above 0.
    depth : float or array
        Depth h [m], above 0.
    length : float or array
        Effective length between points held sideways [m], above 0.

    Returns
    -------
    array
        Critical bending stress [Pa].

    References
    ----------
    [EN1995] 6.3.3, equation 6.32.

    Examples
    --------
    >>> round(float(lateral_critical_stress(7.4e9, 0.045, 0.195, 2.0)) / 1e6, 2)
    29.97
    """
    for name, value in (("modulus", modulus), ("width", width), ("depth", depth), ("length", length)):
        within(name, value, 0.0, open_low=True)
    return 0.78 * np.asarray(width, dtype=float) ** 2 * modulus / (np.asarray(depth) * length)


def lateral_reduction(strength: ArrayLike, critical: ArrayLike) -> Array:
    r"""Factor :math:`k_{crit}` on bending strength of a beam that may tip sideways.

    1 up to :math:`\lambda_{rel,m} = 0.75`, :math:`1.56 - 0.75\lambda_{rel,m}` to 1.4, then
    :math:`1/\lambda_{rel,m}^2`, with :math:`\lambda_{rel,m} = \sqrt{f_{m,k}/\sigma_{m,crit}}`

    Parameters
    ----------
    strength : float or array
        Characteristic bending strength [Pa], above 0.
    critical : float or array
        Critical bending stress [Pa], above 0.

    Returns
    -------
    array
        kcrit [-].

    References
    ----------
    [EN1995] 6.3.3, equations 6.30 and 6.34.

    Examples
    --------
    >>> [round(float(lateral_reduction(24e6, stress)), 3) for stress in (60e6, 24e6, 6e6)]
    [1.0, 0.81, 0.25]
    """
    within("bending strength", strength, 0.0, unit="Pa", open_low=True)
    within("critical stress", critical, 0.0, unit="Pa", open_low=True)
    rel = np.sqrt(np.asarray(strength, dtype=float) / critical)
    return np.where(rel <= 0.75, 1.0, np.where(rel <= 1.4, 1.56 - 0.75 * rel, 1.0 / rel**2))
