"""Water under a floor."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

WATER = 9.81e3
"""Weight of a cubic metre of water (N/m3)."""


def lifting_head(weight: ArrayLike, *, favourable: ArrayLike = 1.0) -> Array:
    """Head of water over the underside of a floor that lifts it.

    h = γ·g/γ_w

    Parameters
    ----------
    weight : float or array
        Weight of the floor with all that lies on it for good, g [Pa], 0 to 1e5.
    favourable : float or array
        Partial factor on a weight that helps, γ [-], 0.5 to 1.

    Returns
    -------
    array
        Head [m].

    References
    ----------
    [EN1997] 2.4.7.4, uplift.

    Examples
    --------
    >>> round(float(lifting_head(0.15 * 24e3)), 3)
    0.367
    """
    within("weight of the floor", weight, 0.0, 1e5, unit="Pa")
    within("factor on a helpful weight", favourable, 0.5, 1.0)
    return np.asarray(np.asarray(favourable, dtype=float) * np.asarray(weight, dtype=float) / WATER)
