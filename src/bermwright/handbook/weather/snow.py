"""Snow on the ground from precipitation and temperature, where nobody has measured it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

ALL_RAIN = 2.5
"""Daily mean from which all precipitation is rain; at 0 °C all of it is snow (°C)."""
MELT = 4.0
"""Water that a kelvin above zero melts in a day (kg/m²)."""
SETTLED = 250.0
"""Density of settled winter snow (kg/m³)."""


def snow_pack(temperature: ArrayLike, precipitation: ArrayLike) -> Array:
    """Water held as snow on the ground, day by day, of a year that follows itself.

    W ← max(0, W + p·f(T) − 4·max(0, T)), f falls from 1 at 0 °C to 0 at 2.5 °C

    Parameters
    ----------
    temperature : array
        (n,) daily means of the air, T [°C], from -90 to 60.
    precipitation : array
        (n,) precipitation of each day, p [kg/m2], from 0 to 2000.

    Returns
    -------
    array
        (n,) water in the snow at the end of each day [kg/m2]; where it never melts, what one year leaves
        is not carried on.

    Notes
    -----
    Degree-day factors of snow are 2.5 to 5.5 kg/m² a day and kelvin; wind and gauges are not thought of.

    References
    ----------
    [HOCK2003] : degree-day method and its factors.
    """
    within("temperature", temperature, -90.0, 60.0, unit="°C")
    within("precipitation", precipitation, 0.0, 2000.0, unit="kg/m2")
    warm = np.asarray(temperature, dtype=float)
    fall = np.asarray(precipitation, dtype=float)
    if warm.shape != fall.shape:
        raise OutOfRangeError("Temperature and precipitation need the same days.")
    falls = fall * np.clip((ALL_RAIN - warm) / ALL_RAIN, 0.0, 1.0)
    melts = MELT * np.maximum(warm, 0.0)
    start = int(np.argmax(warm))
    held, order = np.zeros_like(warm), np.roll(np.arange(warm.size), -start)
    water = 0.0
    for at in order:
        water = max(0.0, water + falls[at] - melts[at])
        held[at] = water
    return held


def snow_depth_of(pack: ArrayLike) -> Array:
    """Depth of settled snow.

    d = W/250

    Parameters
    ----------
    pack : float or array
        Water held as snow, W [kg/m2], from 0 to 10000.

    Returns
    -------
    float or array
        Depth [m].

    Notes
    -----
    Fresh snow is three times as deep, wet spring snow two thirds.

    References
    ----------
    [STURM2010] : densities of seasonal snow, 200 to 350 kg/m³ for most of the winter.

    Examples
    --------
    >>> round(float(snow_depth_of(100.0)), 1)
    0.4
    """
    within("snow", pack, 0.0, 10_000.0, unit="kg/m2")
    return np.asarray(np.asarray(pack, dtype=float) / SETTLED)
