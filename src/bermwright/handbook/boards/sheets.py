"""Sheets from a roll, laid side by side with laps."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array

ROUNDING = 1e-9


def strips_across(width: Number, *, roll: Number, lap: Number) -> Array:
    """Strips of a roll that cover a width, each lapping its neighbour.

    n = ⌈(B − o)/(b − o)⌉, at least 1

    Parameters
    ----------
    width : float or array
        Width to cover, B [m], above 0.
    roll : float or array
        Width of the roll, b [m], above the lap.
    lap : float or array
        Lap of two neighbours, o [m], from 0.

    Returns
    -------
    float or array
        Number of strips, n [-].

    References
    ----------
    [CARPENTRYV4] : covering with lapped sheets; the count is elementary.

    Examples
    --------
    >>> int(strips_across(7.5, roll=2.0, lap=0.15))
    4
    """
    within("width to cover", width, 0.0, unit="m", open_low=True)
    within("lap", lap, 0.0, unit="m")
    within("width of the roll", roll, 0.0, unit="m", open_low=True)
    if np.any(np.asarray(roll) <= np.asarray(lap)):
        raise OutOfRangeError("The lap is as wide as the roll; nothing would be covered.")
    overlap = np.asarray(lap, dtype=float)
    return np.asarray(np.maximum(1.0, np.ceil((width - overlap) / (roll - overlap) - ROUNDING)))
