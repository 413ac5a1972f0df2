"""One soil, three volumes: in the bank, loose in the barrow, compacted in the fill.

Going straight from compacted to loose with the bulking factor alone is the usual mistake.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array

LEAST_COMPACTED = 0.5
MOST_COMPACTED = 1.3
"""Bounds of compacted over bank volume; broken rock stays above 1."""


def bank_volume(compacted: Number, *, compacted_over_bank: Number) -> Array:
    """Soil to take from the bank for a fill of a given compacted volume.

    V_b = V_c / f

    Parameters
    ----------
    compacted : float or array
        Volume in the finished fill, V_c [m3], from 0.
    compacted_over_bank : float or array
        Compacted over bank volume, f [-], from 0.5 to 1.3.

    Returns
    -------
    float or array
        Volume as it lies in the ground, V_b [m3].

    References
    ----------
    [FM5434] : section 1-6, material volume in three states.
    [INDIANEARTHWORK] : factors by soil.

    Examples
    --------
    >>> float(bank_volume(27.0, compacted_over_bank=0.9))
    30.0
    """
    within("compacted volume", compacted, 0.0, unit="m3")
    within("compacted over bank volume", compacted_over_bank, LEAST_COMPACTED, MOST_COMPACTED)
    return np.asarray(np.asarray(compacted, dtype=float) / compacted_over_bank)


def compacted_volume(bank: Number, *, compacted_over_bank: Number) -> Array:
    """Fill that a volume of the bank makes once compacted.

    V_c = V_b·f

    Parameters
    ----------
    bank : float or array
        Volume as it lies in the ground, V_b [m3], from 0.
    compacted_over_bank : float or array
        Compacted over bank volume, f [-], from 0.5 to 1.3.

    Returns
    -------
    float or array
        Volume in the finished fill, V_c [m3].

    References
    ----------
    [FM5434] : section 1-6, material volume in three states.
    [INDIANEARTHWORK] : factors by soil.

    Examples
    --------
    >>> round(float(compacted_volume(143.33, compacted_over_bank=0.8)), 1)
    114.7
    """
    within("bank volume", bank, 0.0, unit="m3")
    within("compacted over bank volume", compacted_over_bank, LEAST_COMPACTED, MOST_COMPACTED)
    return np.asarray(np.asarray(bank, dtype=float) * compacted_over_bank)


def loose_volume(bank: Number, *, bulking: Number) -> Array:
    """Volume of dug soil in heap or barrow.

    V_l = V_b·(1 + b)

    Parameters
    ----------
    bank : float or array
        Volume as it lies in the ground, V_b [m3], from 0.
    bulking : float or array
        Growth of the volume by digging, b [-], from 0 to 1.

    Returns
    -------
    float or array
        Loose volume, V_l [m3].

    References
    ----------
    [FM5434] : section 1-6, material volume in three states.
    [OUTPUTRATES] : bulking by soil.

    Examples
    --------
    >>> round(float(loose_volume(33.33, bulking=0.25)), 2)
    41.66
    """
    within("bank volume", bank, 0.0, unit="m3")
    within("bulking", bulking, 0.0, 1.0)
    return np.asarray(np.asarray(bank, dtype=float) * (1.0 + np.asarray(bulking, dtype=float)))
