"""Refusing a value outside the range for which an equation holds."""

from __future__ import annotations

import numpy as np

from bermwright.base.errors import OutOfRangeError


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
    array = np.asarray(value, dtype=float)
    above = array > low if open_low else array >= low
    good = above & (array <= high)
    if not np.all(good):
        worst = array if array.ndim == 0 else array[~good].flat[0]
        edge = "above" if open_low else "from"
        allowed = f"{edge} {low:g}" + (f" to {high:g}" if high < np.inf else "")
        message = (
            f"{name} is {worst:g} {unit}".rstrip() + f"; the source holds {allowed} {unit}".rstrip() + "."
        )
        raise OutOfRangeError(message)
