"""Loads and trips: how many barrows, how long a trip, how much an hour moves."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array

SECONDS_AN_HOUR = 3600.0


def loads(loose: Number, *, capacity: Number) -> Array:
    """Whole loads that a loose volume makes.

    n = ⌈V_l / c⌉

    Parameters
    ----------
    loose : float or array
        Loose volume, V_l [m3], from 0.
    capacity : float or array
        Loose volume of one load, c [m3], above 0.

    Returns
    -------
    float or array
        Number of loads, n [-].

    References
    ----------
    [WORLDBANK1975] : haulage by barrow.

    Examples
    --------
    >>> int(loads(41.667, capacity=0.060))
    695
    """
    within("loose volume", loose, 0.0, unit="m3")
    within("capacity of a load", capacity, 0.0, unit="m3", open_low=True)
    return np.asarray(np.ceil(np.asarray(loose, dtype=float) / capacity))


def barrow_cycle(
    distance: Number,
    *,
    speed_out: Number,
    speed_back: Number,
    loading: Number,
    tipping: Number,
) -> Array:
    """Time of one trip with a barrow.

    t = d/v_o + d/v_b + t_l + t_t

    Parameters
    ----------
    distance : float or array
        One way, d [m], from 0.
    speed_out : float or array
        Loaded, v_o [m/s], above 0.
    speed_back : float or array
        Empty, v_b [m/s], above 0.
    loading : float or array
        Time to load, t_l [s], from 0.
    tipping : float or array
        Time to tip, t_t [s], from 0.

    Returns
    -------
    float or array
        Time of a trip, t [s].

    References
    ----------
    [WORLDBANK1975] : haulage by barrow.

    Examples
    --------
    >>> round(float(barrow_cycle(25.0, speed_out=0.8, speed_back=1.2, loading=60.0, tipping=20.0)), 1)
    132.1
    """
    within("distance", distance, 0.0, unit="m")
    within("speed out", speed_out, 0.0, unit="m/s", open_low=True)
    within("speed back", speed_back, 0.0, unit="m/s", open_low=True)
    within("time to load", loading, 0.0, unit="s")
    within("time to tip", tipping, 0.0, unit="s")
    way = np.asarray(distance, dtype=float)
    return np.asarray(way / speed_out + way / speed_back + loading + tipping)


def output_of_cycle(cycle: Number, *, capacity: Number, worked: Number) -> Array:
    """Loose soil that one person moves in an hour.

    q = c·w·3600/t

    Parameters
    ----------
    cycle : float or array
        Time of one trip, t [s], above 0.
    capacity : float or array
        Loose volume of one load, c [m3], above 0.
    worked : float or array
        Share of the hour that is worked, w [-], from 0 to 1.

    Returns
    -------
    float or array
        Loose volume per person-hour, q [m3/ph].

    References
    ----------
    [WORLDBANK1975] : haulage by barrow.

    Examples
    --------
    >>> round(float(output_of_cycle(132.1, capacity=0.06, worked=1.0)), 3)
    1.635
    """
    within("time of a trip", cycle, 0.0, unit="s", open_low=True)
    within("capacity of a load", capacity, 0.0, unit="m3", open_low=True)
    within("share of the hour worked", worked, 0.0, 1.0)
    return np.asarray(SECONDS_AN_HOUR * np.asarray(worked, dtype=float) * capacity / cycle)
