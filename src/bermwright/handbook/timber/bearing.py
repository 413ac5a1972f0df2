"""Bearing: feet and shoes that press on the grain, along it, across it and at an angle."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

LARGEST_SPREAD = 0.03
"""How far (m) the fibres beside a contact help to carry it."""


def bearing_strength_at_angle(
    angle: ArrayLike, *, along: ArrayLike, across: ArrayLike, k_c90: ArrayLike = 1.0
) -> Array:
    """Design strength of timber pressed at an angle to its grain.

    f_c,α = f_c,0/(f_c,0/(k_c,90·f_c,90)·sin²α + cos²α)

    Parameters
    ----------
    angle : float or array
        Angle α between the force and the grain [rad], 0 to π/2.
    along : float or array
        Design strength in compression along the grain [Pa], > 0.
    across : float or array
        Design strength in compression across the grain [Pa], > 0.
    k_c90 : float or array
        Factor for the way of bearing [-]: 1.0; 1.25 for a softwood sill on a continuous bed, 1.5 for
        discrete supports (with their conditions), 1 to 1.5.

    Returns
    -------
    array
        Design strength at that angle [Pa].

    References
    ----------
    [EN1995] eq. 6.16.

    Examples
    --------
    >>> strength = bearing_strength_at_angle(0.5236, along=12.0e6, across=1.5e6)
    >>> round(float(strength) / 1e6, 2)
    4.36
    """
    within("angle to the grain", angle, 0.0, np.pi / 2 * (1 + 1e-12), unit="rad")
    within("strength along the grain", along, 0.0, unit="Pa", open_low=True)
    within("strength across the grain", across, 0.0, unit="Pa", open_low=True)
    within("bearing factor", k_c90, 1.0, 1.5)
    across_all = np.asarray(k_c90, dtype=np.float64) * np.asarray(across, dtype=np.float64)
    parallel, turned = np.asarray(along, dtype=np.float64), np.asarray(angle, dtype=np.float64)
    strength: Array = parallel / (parallel / across_all * np.sin(turned) ** 2 + np.cos(turned) ** 2)
    return strength


def effective_contact_length(length: ArrayLike, *, left: ArrayLike, right: ArrayLike) -> Array:
    """Length of contact across the grain, with the fibres beside it that help.

    l_ef = l + min(30 mm, left, l) + min(30 mm, right, l)

    Parameters
    ----------
    length : float or array
        Length of contact along the grain [m], > 0.
    left : float or array
        Timber beyond the contact on one side, or half the gap to the next contact [m], ≥ 0.
    right : float or array
        The same on the other side [m], ≥ 0.

    Returns
    -------
    array
        Effective contact length [m].

    References
    ----------
    [EN1995] 6.1.5 (1).

    Examples
    --------
    >>> round(float(effective_contact_length(0.1, left=0.5, right=0.01)), 3)
    0.14
    """
    within("contact length", length, 0.0, unit="m", open_low=True)
    within("timber beyond the contact", left, 0.0, unit="m")
    within("timber beyond the contact", right, 0.0, unit="m")
    contact = np.asarray(length, dtype=np.float64)
    limit = np.minimum(LARGEST_SPREAD, contact)
    return contact + np.minimum(limit, left) + np.minimum(limit, right)
