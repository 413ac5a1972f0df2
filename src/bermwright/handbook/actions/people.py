"""People and wheels on the cover: how a load spreads on its way down to the vault."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]


def spread_pressure(force: ArrayLike, *, length: ArrayLike, width: ArrayLike, depth: ArrayLike) -> Array:
    r"""Mean pressure at a depth below a loaded rectangle, spread 2 down to 1 out.

    :math:`p = F / ((l + z)(b + z))`

    Parameters
    ----------
    force : float or array
        Force on the surface [N], from 0.
    length : float or array
        Length of the loaded rectangle l [m], above 0.
    width : float or array
        Width of the loaded rectangle b [m], above 0.
    depth : float or array
        Depth z below the surface [m], from 0.

    Returns
    -------
    array
        Pressure [Pa].

    Notes
    -----
    Right under the middle the elastic pressure is up to a third larger.

    References
    ----------
    [DAS] 2 to 1 method.

    Examples
    --------
    >>> round(float(spread_pressure(1e3, length=0.15, width=0.3, depth=0.3)) / 1e3, 2)
    3.7
    """
    within("force", force, 0.0, unit="N")
    within("length", length, 0.0, unit="m", open_low=True)
    within("width", width, 0.0, unit="m", open_low=True)
    within("depth", depth, 0.0, unit="m")
    down = np.asarray(depth, dtype=np.float64)
    loaded = (np.asarray(length, dtype=np.float64) + down) * (np.asarray(width, dtype=np.float64) + down)
    return np.asarray(force, dtype=np.float64) / loaded


def pressure_under_patch(force: ArrayLike, *, length: ArrayLike, width: ArrayLike, depth: ArrayLike) -> Array:
    r"""Greatest upright pressure at a depth below a loaded rectangle, in an elastic ground.

    :math:`p = \frac{2q}{\pi}\left[\frac{m n (m^2 + n^2 + 2)}{(m^2 + 1)(n^2 + 1)\sqrt{m^2 + n^2 + 1}}
    + \arctan\frac{m n}{\sqrt{m^2 + n^2 + 1}}\right]`, :math:`m = l/2z`, :math:`n = b/2z`, :math:`q = F/lb`

    Parameters
    ----------
    force : float or array
        Force on the surface F [N], from 0.
    length : float or array
        Length of the loaded rectangle l [m], above 0.
    width : float or array
        Width of the loaded rectangle b [m], above 0.
    depth : float or array
        Depth z below the surface [m], above 0.

    Returns
    -------
    array
        Pressure under the middle [Pa].

    References
    ----------
    [DAS] Boussinesq, below the middle of a rectangle.

    Examples
    --------
    >>> round(float(pressure_under_patch(13500.0, length=1.5, width=0.3, depth=0.3)))
    16354
    """
    within("force", force, 0.0, unit="N")
    within("length", length, 0.0, unit="m", open_low=True)
    within("width", width, 0.0, unit="m", open_low=True)
    within("depth", depth, 0.0, unit="m", open_low=True)
    long, wide = np.asarray(length, dtype=np.float64), np.asarray(width, dtype=np.float64)
    down = np.asarray(depth, dtype=np.float64)
    m, n = 0.5 * long / down, 0.5 * wide / down
    root = np.sqrt(m**2 + n**2 + 1.0)
    near = m * n * (m**2 + n**2 + 2.0) / ((m**2 + 1.0) * (n**2 + 1.0) * root)
    share = 2.0 / np.pi * (near + np.arctan(m * n / root))
    return np.asarray(share * np.asarray(force, dtype=np.float64) / (long * wide))
