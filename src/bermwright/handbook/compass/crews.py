"""Two crews on one ring: who lays how much, where the next course begins, who runs ahead."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


def work_shares(rates: ArrayLike) -> Array:
    """Share of a ring that each crew lays so that all come to its end together.

    w_i = v_i / (v_1 + v_2 + ...)

    Parameters
    ----------
    rates : array
        Length that each crew lays in an hour [m/h]; above 0.

    Returns
    -------
    array
        Shares of the ring [-]; they add up to 1.

    References
    ----------
    [MAKINGFORMS] shares of a ring.

    Examples
    --------
    >>> work_shares([3.0, 2.0]).tolist()
    [0.6, 0.4]
    """
    within("rates", rates, 0.0, unit="m/h", open_low=True)
    speed = np.asarray(rates, dtype=float)
    return np.asarray(speed / np.sum(speed))


def start_shift(radius: ArrayLike, lap: ArrayLike) -> Array:
    """Turn of the start from one course to the next, so that ends never lie over ends.

    a = l/r

    Parameters
    ----------
    radius : float or array
        Radius of the middle line of the course, r [m]; above 0.
    lap : float or array
        Least distance of an end from the end below, along the course, l [m]; from 0.

    Returns
    -------
    float or array
        Angle [rad].

    References
    ----------
    [MAKINGFORMS] shares of a ring.

    Examples
    --------
    >>> float(start_shift(2.0, 0.5))
    0.25
    """
    within("radius", radius, 0.0, unit="m", open_low=True)
    within("lap", lap, 0.0, unit="m")
    return np.asarray(np.asarray(lap, dtype=float) / np.asarray(radius, dtype=float))


def course_of_lead(lengths: ArrayLike, fast: float, slow: float, lead: int) -> int:
    """The course at which a faster crew with an equal half of every ring is so many courses ahead.

    least n with (L_1 + ... + L_n)/v_f <= (L_1 + ... + L_(n - lead))/v_s

    Parameters
    ----------
    lengths : array
        Length that each crew lays in every course, from the foot up, L [m]; above 0.
    fast : float
        Rate of the faster crew, v_f [m/h]; at least that of the slower one.
    slow : float
        Rate of the slower crew, v_s [m/h]; above 0.
    lead : int
        Courses ahead [-]; from 1.

    Returns
    -------
    int
        Number of the course, counted from 1 [-]; 0 where it never comes to that.

    References
    ----------
    [MAKINGFORMS] shares of a ring.

    Examples
    --------
    >>> course_of_lead([6.0] * 20, 3.0, 2.4, 1)
    5
    """
    within("lengths", lengths, 0.0, unit="m", open_low=True)
    within("slow", slow, 0.0, unit="m/h", open_low=True)
    within("fast", fast, slow, unit="m/h")
    within("lead", lead, 1)
    done = np.concatenate([[0.0], np.cumsum(np.asarray(lengths, dtype=float))])
    ahead = done[lead:] / fast <= done[: done.size - lead] / slow * (1.0 + 1e-12)
    ahead[0] = False
    return int(np.argmax(ahead)) + lead if bool(np.any(ahead)) else 0
