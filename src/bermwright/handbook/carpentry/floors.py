"""Floors of joists: how they shake under a foot."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

MM = 1e-3
LONG = 4.0
"""Span (m) over which the allowed deflection falls."""


def floor_frequency(span: ArrayLike, *, stiffness: ArrayLike, mass: ArrayLike) -> Array:
    """First natural frequency of a floor on two supports.

    f_1 = π/(2·l²)·√(EI/m)

    Parameters
    ----------
    span : float or array
        Span l [m], > 0.
    stiffness : float or array
        Bending stiffness EI of a metre width of floor, along the joists [N m2/m], > 0.
    mass : float or array
        Mass m of a square metre, permanent load alone [kg/m2], > 0.

    Returns
    -------
    array
        Frequency [Hz].

    References
    ----------
    [EN1995] eq. 7.5.

    Examples
    --------
    >>> round(float(floor_frequency(4.0, stiffness=1.0e6, mass=50.0)), 1)
    13.9
    """
    within("span", span, 0.0, unit="m", open_low=True)
    within("stiffness of the floor", stiffness, 0.0, unit="N m2/m", open_low=True)
    within("mass of the floor", mass, 0.0, unit="kg/m2", open_low=True)
    bends = np.asarray(stiffness, dtype=np.float64) / np.asarray(mass, dtype=np.float64)
    return np.pi / (2 * np.asarray(span, dtype=np.float64) ** 2) * np.sqrt(bends)


def joist_share(board_stiffness: ArrayLike, spacing: ArrayLike) -> Array:
    """Share of a force on the floor that the joist under it carries.

    k_dist = max(0.38 − 0.08·ln(14·EI_b/s⁴), 0.30), EI_b in N·mm² per metre, s in mm; not over 1

    Parameters
    ----------
    board_stiffness : float or array
        Bending stiffness of the boards, across the joists, for a metre of floor [N m2/m], > 0.
    spacing : float or array
        Spacing s of the joists [m], above 0 to 1.5.

    Returns
    -------
    array
        Share [-].

    References
    ----------
    [UKNA1995] NA.2.6.2.

    Examples
    --------
    >>> round(float(joist_share(2.0e3, 0.6)), 3)
    0.503
    """
    within("stiffness of the boards", board_stiffness, 0.0, unit="N m2/m", open_low=True)
    within("spacing", spacing, 0.0, 1.5, unit="m", open_low=True)
    stiff = np.asarray(board_stiffness, dtype=np.float64) / MM**2
    apart = np.asarray(spacing, dtype=np.float64) / MM
    return np.clip(0.38 - 0.08 * np.log(14 * stiff / apart**4), 0.30, 1.0)


def foot_deflection(span: ArrayLike, *, stiffness: ArrayLike, share: ArrayLike) -> Array:
    """Deflection under the foot of one who walks, 1 kN in the middle.

    a = k_dist·k_amp·F·l³/(48·EI), F = 1 kN, k_amp = 1.05 for joists of solid timber

    Parameters
    ----------
    span : float or array
        Span l of the joist [m], > 0.
    stiffness : float or array
        Bending stiffness EI of one joist [N m2], > 0.
    share : float or array
        Share k_dist of the force on that joist [-], above 0 to 1.

    Returns
    -------
    array
        Deflection [m].

    References
    ----------
    [UKNA1995] NA.2.6.2.

    Examples
    --------
    >>> round(float(foot_deflection(3.2, stiffness=305.9e3, share=0.3)) * 1e3, 2)
    0.7
    """
    within("span", span, 0.0, unit="m", open_low=True)
    within("stiffness of the joist", stiffness, 0.0, unit="N m2", open_low=True)
    within("share of the force", share, 0.0, 1.0, open_low=True)
    bends = 48 * np.asarray(stiffness, dtype=np.float64)
    return (
        np.asarray(share, dtype=np.float64) * 1.05 * 1000.0 * np.asarray(span, dtype=np.float64) ** 3 / bends
    )


def foot_deflection_limit(span: ArrayLike) -> Array:
    """Deflection under 1 kN that people still call firm.

    1.8 mm up to 4 m, then 16500/l^1.1 mm with l in mm

    Parameters
    ----------
    span : float or array
        Span l [m], above 0 to 12.

    Returns
    -------
    array
        Limit [m].

    References
    ----------
    [UKNA1995] table NA.5.

    Examples
    --------
    >>> round(float(foot_deflection_limit(5.0)) * 1e3, 2)
    1.41
    """
    within("span", span, 0.0, 12.0, unit="m", open_low=True)
    length = np.asarray(span, dtype=np.float64)
    longer = 16500 / (np.maximum(length, LONG) / MM) ** 1.1
    return np.where(length <= LONG, 1.8, longer) * MM
