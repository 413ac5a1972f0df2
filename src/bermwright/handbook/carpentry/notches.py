"""Notched ends of beams: how much of the shear strength a notch leaves."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

SOLID = 5.0
"""k_n of solid timber."""
MM = 1e-3


def notch_factor(
    depth: ArrayLike, left: ArrayLike, *, distance: ArrayLike, incline: ArrayLike = 0.0
) -> Array:
    """Share of the shear strength that counts on what a notch on the underside of an end leaves.

    k_v = min(1, k_n·(1 + 1.1·i^1.5/√h)/(√h·(√(α·(1 − α)) + 0.8·(x/h)·√(1/α − α²)))), α = h_ef/h,
    h and x in mm, k_n = 5

    Parameters
    ----------
    depth : float or array
        Whole depth h [m], above 0 to 2.
    left : float or array
        Depth h_ef left over the notch [m], above 0 to h.
    distance : float or array
        From the line of the support force to the corner of the notch, x [m], ≥ 0.
    incline : float or array
        Slope of the notch, i along to 1 up [-], 0 to 10; 0 is square.

    Returns
    -------
    array
        Factor on the shear strength, for the stress 1.5·V/(b·h_ef) [-].

    Notes
    -----
    The notch starts a crack along the grain: a notch of a quarter of the depth costs about a third of the
    strength besides what it takes away. A notch in the top costs nothing by this rule.

    References
    ----------
    [EN1995] 6.5.2, eq. 6.60 to 6.62; [TRADA1994] F6.

    Examples
    --------
    >>> round(float(notch_factor(0.245, 0.182, distance=0.024)), 2)
    0.63
    """
    within("depth", depth, 0.0, 2.0, unit="m", open_low=True)
    h = np.asarray(depth, dtype=np.float64)
    alpha = np.asarray(left, dtype=np.float64) / h
    within("share of the depth left over a notch", alpha, 0.0, 1.0, open_low=True)
    within("distance to the notch", distance, 0.0, unit="m")
    within("incline of the notch", incline, 0.0, 10.0)
    root = np.sqrt(h / MM)
    slope = np.asarray(incline, dtype=np.float64)
    away = np.asarray(distance, dtype=np.float64) / h
    splits = np.sqrt(alpha * (1 - alpha)) + 0.8 * away * np.sqrt(np.maximum(1 / alpha - alpha**2, 0.0))
    with np.errstate(divide="ignore"):
        factor: Array = SOLID * (1 + 1.1 * slope**1.5 / root) / (root * splits)
    return np.minimum(factor, 1.0)
