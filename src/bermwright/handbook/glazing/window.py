"""A whole window: glass, frame and edge, and a shutter at night."""

from __future__ import annotations

from enum import StrEnum

import numpy as np

from bermwright.base.limits import within

FRAME_WIDTH = 0.11
"""Usual width of frame and sash, seen from outside (m)."""


class Fit(StrEnum):
    """How tightly a shutter closes."""

    LOOSE = "loose"
    USUAL = "usual"
    TIGHT = "tight"


_SHUTTERS = {Fit.LOOSE: (0.25, 0.09), Fit.USUAL: (0.55, 0.11), Fit.TIGHT: (0.80, 0.14)}
"""What of the shutter's own resistance counts, and what the air behind it adds (m²K/W)."""


def frame_share(width: float, height: float, frame: float = FRAME_WIDTH) -> float:
    """Share of a window that its frame takes.

    1 − (b − 2·f)·(h − 2·f)/(b·h)

    Parameters
    ----------
    width : float
        Of the window, b [m], from 0.1 to 20.
    height : float
        Of the window, h [m], from 0.1 to 20.
    frame : float
        Width of the frame on each side, f [m], from 0 to 0.5.

    Returns
    -------
    float
        Share [-], 1 where nothing is left for glass.

    References
    ----------
    [ISO10077] : 4, areas of glass and frame.

    Examples
    --------
    >>> round(float(frame_share(1.23, height=1.48)), 4)
    0.3009
    """
    within("width", width, 0.1, 20.0, unit="m")
    within("height", height, 0.1, 20.0, unit="m")
    within("frame", frame, 0.0, 0.5, unit="m")
    glass = max(width - 2.0 * frame, 0.0) * max(height - 2.0 * frame, 0.0)
    return 1.0 - glass / (width * height)


def window_u(
    *, glass_area: float, frame_area: float, edge: float, glass_u: float, frame_u: float, edge_psi: float
) -> float:
    """Heat loss of a whole window.

    U = (A_g·U_g + A_f·U_f + l·ψ)/(A_g + A_f)

    Parameters
    ----------
    glass_area : float
        Area of glass, A_g [m2], from 0 to 100.
    frame_area : float
        Area of frame, A_f [m2], from 0 to 100.
    edge : float
        Length of the edge of the glass, l [m], from 0 to 500.
    glass_u : float
        Of the glass, U_g [W/m2K], from 0.1 to 7.
    frame_u : float
        Of the frame, U_f [W/m2K], from 0.3 to 10.
    edge_psi : float
        Of the edge, ψ [W/mK], from 0 to 0.3.

    Returns
    -------
    float
        Thermal transmittance of the window, U [W/m2K].

    References
    ----------
    [ISO10077] : equation 1.

    Examples
    --------
    >>> found = window_u(
    ...     glass_area=1.2726, frame_area=0.5478, edge=4.54, glass_u=0.7, frame_u=1.2, edge_psi=0.05
    ... )
    >>> round(float(found), 4)
    0.9752
    """
    within("area", (glass_area, frame_area), 0.0, 100.0, unit="m2")
    within("edge", edge, 0.0, 500.0, unit="m")
    within("U of the glass", glass_u, 0.1, 7.0, unit="W/m2K")
    within("U of the frame", frame_u, 0.3, 10.0, unit="W/m2K")
    within("psi of the edge", edge_psi, 0.0, 0.3, unit="W/mK")
    area = glass_area + frame_area
    within("whole area", area, 0.0, 200.0, unit="m2", open_low=True)
    return (glass_area * glass_u + frame_area * frame_u + edge * edge_psi) / area


def shuttered_u(window: float, resistance: float, fit: Fit = Fit.USUAL) -> float:
    """Heat loss of a window behind a closed shutter.

    1/U_s = 1/U + ΔR, ΔR = 0.25·R + 0.09 loose, 0.55·R + 0.11 usual, 0.80·R + 0.14 tight

    Parameters
    ----------
    window : float
        Of the window alone, U [W/m2K], from 0.3 to 7.
    resistance : float
        Of the shutter itself, R [m2K/W], from 0 to 5.
    fit : Fit
        How tightly it closes.

    Returns
    -------
    float
        Thermal transmittance with the shutter closed [W/m2K].

    References
    ----------
    [ISO10077] : 5.3 and its table of shutters by their tightness.

    Examples
    --------
    >>> round(float(shuttered_u(1.4, resistance=0.3)), 3)
    1.011
    """
    within("U of the window", window, 0.3, 7.0, unit="W/m2K")
    within("resistance of the shutter", resistance, 0.0, 5.0, unit="m2K/W")
    share, air = _SHUTTERS[fit]
    return float(1.0 / (1.0 / np.float64(window) + share * resistance + air))
