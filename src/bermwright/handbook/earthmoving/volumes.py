"""Volumes between measured sections."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array


def prismoidal_volume(first: Number, middle: Number, last: Number, *, length: Number) -> Array:
    """Volume of a body whose section area varies as a square along its length.

    V = L/6·(A_1 + 4·A_m + A_2)

    Parameters
    ----------
    first : float or array
        Section area at one end, A_1 [m2], from 0.
    middle : float or array
        Section area halfway, measured and not averaged, A_m [m2], from 0.
    last : float or array
        Section area at the other end, A_2 [m2], from 0.
    length : float or array
        Distance between the ends, L [m], from 0.

    Returns
    -------
    float or array
        Volume, V [m3].

    Notes
    -----
    Exact for pits and heaps with plane faces. Averaging the two ends alone gives too much, half as
    much again at a point.

    References
    ----------
    [FM5434] : earthwork volumes; the rule is Simpson's.
    """
    for name, area in (("first", first), ("middle", middle), ("last", last)):
        within(f"{name} area", area, 0.0, unit="m2")
    within("length", length, 0.0, unit="m")
    total = np.asarray(first, dtype=float) + 4.0 * np.asarray(middle, dtype=float) + last
    return np.asarray(np.asarray(length, dtype=float) * total / 6.0)
