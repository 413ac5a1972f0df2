"""Pressure that stays locked in behind a stiff wall after compaction, and that of a load beside it."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]


def compaction_pressure(line_load: ArrayLike, weight: ArrayLike) -> Array:
    r"""Sideways pressure that a roller or plate leaves behind in the soil beside a wall (Ingold).

    :math:`\sigma_h = \sqrt{2 Q \gamma / \pi}`

    Parameters
    ----------
    line_load : float or array
        Load of the tool on a metre of its width, its shaking included [N/m], 0 to 200e3.
    weight : float or array
        Unit weight of the soil [N/m3], 5e3 to 30e3.

    Returns
    -------
    array
        Pressure [Pa], down to where the soil's own pressure is greater.

    References
    ----------
    [INGOLD1979] the residual pressure.

    Examples
    --------
    >>> round(float(compaction_pressure(30e3, 18e3)))
    18541
    """
    within("line load", line_load, 0.0, 200e3, unit="N/m")
    within("unit weight", weight, 5e3, 30e3, unit="N/m3")
    return np.sqrt(
        2.0 * np.asarray(line_load, dtype=np.float64) * np.asarray(weight, dtype=np.float64) / np.pi
    )


def compaction_depth(line_load: ArrayLike, weight: ArrayLike, ratio: ArrayLike) -> Array:
    r"""Depth below which compaction no longer adds to the soil's own pressure (Ingold).

    :math:`h_c = \frac{1}{K}\sqrt{2 Q / (\pi\gamma)}`

    Parameters
    ----------
    line_load : float or array
        Load of the tool on a metre of its width, its shaking included [N/m], 0 to 200e3.
    weight : float or array
        Unit weight of the soil [N/m3], 5e3 to 30e3.
    ratio : float or array
        Pressure ratio of the soil itself [-], 0.05 to 1.

    Returns
    -------
    array
        Depth [m].

    References
    ----------
    [INGOLD1979] the residual pressure.

    Examples
    --------
    >>> round(float(compaction_depth(30e3, 18e3, 1 / 3)), 2)
    3.09
    """
    within("pressure ratio", ratio, 0.05, 1.0)
    kept = compaction_pressure(line_load, weight)
    depth: Array = kept / (np.asarray(ratio, dtype=np.float64) * np.asarray(weight, dtype=np.float64))
    return depth


def strip_pressure(load: ArrayLike, *, near: ArrayLike, width: ArrayLike, depth: ArrayLike) -> Array:
    r"""Sideways pressure of a strip load beside a wall that does not give way.

    :math:`\sigma_h = \frac{2 q}{\pi}\,(\alpha - \sin\alpha\cos(\alpha + 2\delta))`, twice that in the open.

    Parameters
    ----------
    load : float or array
        Pressure under the strip [Pa], from 0.
    near : float or array
        From the wall to the near edge of the strip [m], 0 to 20.
    width : float or array
        Width of the strip [m], 0.01 to 50.
    depth : float or array
        Depth below the strip [m], 0.001 to 20.

    Returns
    -------
    array
        Pressure on the wall at that depth [Pa].

    Notes
    -----
    α is the angle under which the strip is seen from that depth of the wall, δ that between the upright
    and its near edge.

    References
    ----------
    [DAS] strip load behind a wall.

    Examples
    --------
    >>> round(float(strip_pressure(20e3, near=0.5, width=1.0, depth=1.0)))
    5826
    """
    within("load of the strip", load, 0.0, unit="Pa")
    within("distance of the strip", near, 0.0, 20.0, unit="m")
    within("width of the strip", width, 0.01, 50.0, unit="m")
    within("depth", depth, 0.001, 20.0, unit="m")
    start = np.arctan2(near, depth)
    seen = np.arctan2(np.add(near, width), depth) - start
    share = seen - np.sin(seen) * np.cos(seen + 2.0 * start)
    pressure: Array = 2.0 / np.pi * np.asarray(load, dtype=np.float64) * share
    return pressure
