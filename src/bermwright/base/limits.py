"""Refusing a value outside the range for which an equation holds."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError

if TYPE_CHECKING:
    from numpy.typing import NDArray


def within(
    name: str,
    value: object,
    low: float = -np.inf,
    high: float = np.inf,
    *,
    unit: str = "",
    open_low: bool = False,
) -> None:
    """Raise `OutOfRangeError` unless every entry of `value` lies from `low` to `high`.

    NaN lies nowhere. `open_low` also refuses `low` itself.

    >>> within("span", 4.8, 0.0, 20.0, unit="m")
    """
    if isinstance(value, float) and (low < value if open_low else low <= value) and value <= high:
        return  # rules ask this many thousand times of one number
    array = np.asarray(value, dtype=float)
    if array.size and not _all_within(array, low, high, open_low=open_low):
        good = (array > low if open_low else array >= low) & (array <= high)
        worst = array if array.ndim == 0 else array[~good].flat[0]
        edge = "above" if open_low else "from"
        allowed = f"{edge} {low:g}" + (f" to {high:g}" if high < np.inf else "")
        message = (
            f"{name} is {worst:g} {unit}".rstrip() + f"; the source holds {allowed} {unit}".rstrip() + "."
        )
        raise OutOfRangeError(message)


def _all_within(array: NDArray[np.float64], low: float, high: float, *, open_low: bool) -> bool:
    """Whether the ends of an array lie within the limits; NaN passes into both of them."""
    least, most = array.min(), array.max()
    return bool((least > low if open_low else least >= low) and most <= high)
