"""How deep timber chars, bare or behind a lining."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

MINUTE = 60.0
LONGEST = 7200.0
"""Standard fire for which the rates hold (s)."""
RAMP = 1200.0
"""Time until the layer without strength has its whole depth on a bare face (s)."""
FAST_UNTIL = 25e-3
"""Char depth at which the char protects again after a lining has fallen (m)."""
FASTER = 2.0
"""How much faster wood chars just after its lining has fallen: it is hot and has no char."""


def char_depth(rate: ArrayLike, time: ArrayLike) -> Array:
    """Char depth of a bare face in the standard fire.

    d = beta t

    Parameters
    ----------
    rate : float or array
        Charring rate, beta [m/s]; above 0.
    time : float or array
        Time in the standard fire, t [s]; from 0 to 7200.

    Returns
    -------
    float or array
        Char depth [m].

    References
    ----------
    [EN1995-1-2] 3.4.2, eq. 3.1 and 3.2.

    Examples
    --------
    >>> round(1e3 * float(char_depth(0.8e-3 / 60.0, 1800.0)), 1)
    24.0
    """
    within("rate", rate, 0.0, unit="m/s", open_low=True)
    within("time", time, 0.0, LONGEST, unit="s")
    return np.asarray(np.asarray(rate, dtype=float) * np.asarray(time, dtype=float))


def effective_depth(
    char: ArrayLike, time: ArrayLike, zero_strength: ArrayLike, *, bare: bool = True
) -> Array:
    """Depth that counts for nothing: char and the hot wood behind it.

    d_ef = d_char + k0 d0; k0 = t/20 min up to 1 for a bare face, 1 behind a lining

    Parameters
    ----------
    char : float or array
        Char depth, d_char [m]; from 0.
    time : float or array
        Time in the standard fire, t [s]; from 0 to 7200.
    zero_strength : float or array
        Depth of the layer without strength, d0 [m]; from 0.
    bare : bool
        Whether the face has no lining [-].

    Returns
    -------
    float or array
        Depth [m]; 0 at time 0.

    References
    ----------
    [EN1995-1-2] 4.2.2, eq. 4.1 and table 4.1.

    Examples
    --------
    >>> round(1e3 * float(effective_depth(0.024, 1800.0, 0.007)), 1)
    31.0
    """
    within("char", char, 0.0, unit="m")
    within("time", time, 0.0, LONGEST, unit="s")
    within("zero_strength", zero_strength, 0.0, unit="m")
    share = np.minimum(np.asarray(time, dtype=float) / RAMP, 1.0) if bare else 1.0
    whole = np.asarray(char, dtype=float) + share * np.asarray(zero_strength, dtype=float)
    return np.asarray(np.where(np.asarray(time, dtype=float) > 0.0, whole, 0.0))


def lining_time(kind: str, thickness: ArrayLike, *, gaps: bool, rate: float) -> Array:
    """Time at which the wood behind a lining begins to char.

    boards: h/beta; gypsum board: 2.8 h - 14 (h in mm, minutes), 2.8 h - 23 with open joints over 2 mm

    Parameters
    ----------
    kind : str
        "boards" or "gypsum board" [-].
    thickness : float or array
        Thickness of the lining, h [m]; from 0.009 to 0.05 (gypsum) or 0.1 (boards).
    gaps : bool
        Whether joints stay open by more than 2 mm [-].
    rate : float
        Charring rate of the boards on a flat face [m/s]; above 0.

    Returns
    -------
    float or array
        Time [s]; 0 where the lining gives none.

    Notes
    -----
    Boards with open joints protect no longer than the joint: they count half, which is bermwright's own
    caution. Clay and lime plasters have no value in the work and count for nothing.

    References
    ----------
    [EN1995-1-2] 3.4.3.3, eq. 3.10 to 3.12.

    Examples
    --------
    >>> round(float(lining_time("gypsum board", 0.015, gaps=False, rate=1e-5)) / 60.0)
    28
    """
    h = np.asarray(thickness, dtype=float)
    within("rate", rate, 0.0, unit="m/s", open_low=True)
    match kind:
        case "boards":
            within("thickness", h, 0.009, 0.1, unit="m")
            return np.asarray(h / rate * (0.5 if gaps else 1.0))
        case "gypsum board":
            within("thickness", h, 0.009, 0.05, unit="m")
            less = 23.0 if gaps else 14.0
            return np.asarray(MINUTE * np.maximum(2.8 * 1e3 * h - less, 0.0))
        case _:
            return np.zeros_like(h)


def lined_char_depth(rate: ArrayLike, time: ArrayLike, lining: ArrayLike) -> Array:
    """Char depth behind a lining that falls when the wood behind it begins to char.

    0 until t_ch; then 2 beta (t - t_ch) until 25 mm; then beta

    Parameters
    ----------
    rate : float or array
        Charring rate without lining, beta [m/s]; above 0.
    time : float or array
        Time in the standard fire, t [s]; from 0 to 7200.
    lining : float or array
        Time at which charring begins and the lining falls, t_ch [s]; from 0.

    Returns
    -------
    float or array
        Char depth [m]; without a lining (0) that of a bare face.

    References
    ----------
    [EN1995-1-2] 3.4.3.2, figure 3.4 and eq. 3.8.

    Examples
    --------
    >>> [round(1e3 * float(lined_char_depth(0.8e-3 / 60.0, 60.0 * t, 1200.0)), 1) for t in (20, 30, 60)]
    [0.0, 16.0, 44.5]
    """
    within("rate", rate, 0.0, unit="m/s", open_low=True)
    within("time", time, 0.0, LONGEST, unit="s")
    within("lining", lining, 0.0, unit="s")
    beta, begins = np.asarray(rate, dtype=float), np.asarray(lining, dtype=float)
    after = np.maximum(np.asarray(time, dtype=float) - begins, 0.0)
    fast = np.where(begins > 0.0, FAST_UNTIL / (FASTER * beta), 0.0)
    return np.asarray(beta * (FASTER * np.minimum(after, fast) + np.maximum(after - fast, 0.0)))
