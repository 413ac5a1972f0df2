"""Weight limits for lifting by hand. They are guidance, not leave: local rules go first."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array

LOAD_CONSTANT = 23.0
"""kg: limit under the best conditions, NIOSH 94-110."""
NEAREST, FARTHEST = 0.25, 0.63
HIGHEST = 1.75
LEAST_TRAVEL = 0.25
TEAM_SHARE = {1: 1.0, 2: 2.0 / 3.0, 3: 0.5}
"""Share of the sum of what each could lift alone, by number of people. More rarely work together well."""
LARGEST_TEAM = 3


def recommended_weight_limit(
    *,
    reach: Number,
    height: Number,
    travel: Number,
    twist: Number,
    frequency_factor: Number,
    grip_factor: Number,
) -> Array:
    """Weight that nearly all healthy workers may lift with two hands, by the metric form of the equation.

    RWL = 23·(0.25/H)·(1 − 0.3·|V − 0.75|)·(0.82 + 0.045/D)·(1 − 0.1833·A)·FM·CM

    Parameters
    ----------
    reach : float or array
        Hands in front of the ankles, H [m], from 0 to 0.63; below 0.25 counts as 0.25.
    height : float or array
        Hands above the floor, V [m], from 0 to 1.75.
    travel : float or array
        Vertical way of the load, D [m], from 0 to 1.75; below 0.25 counts as 0.25.
    twist : float or array
        Turn of the load from straight ahead, A [rad], from 0 to 2.356.
    frequency_factor : float or array
        Factor for how often and how long, FM [-], from 0 to 1; 1 for a lift every five minutes or less.
    grip_factor : float or array
        Factor for the grip, CM [-], from 0.9 to 1.

    Returns
    -------
    float or array
        Recommended weight limit, RWL [kg].

    Notes
    -----
    The metric and the inch form differ by 2 to 3 %; this is the metric one. 0.1833 per radian is the
    printed 0.0032 per degree. Not for lifting one-handed, seated, kneeling, in cramped space, on slippery
    ground, or with somebody else.

    References
    ----------
    [NIOSH94110] : lifting equation and constants.

    Examples
    --------
    >>> found = recommended_weight_limit(
    ...     reach=0.25, height=0.75, travel=0.25, twist=0.0, frequency_factor=1.0, grip_factor=1.0
    ... )
    >>> round(float(found))
    23
    """
    within("reach", reach, 0.0, FARTHEST, unit="m")
    within("height of the hands", height, 0.0, HIGHEST, unit="m")
    within("vertical way", travel, 0.0, HIGHEST, unit="m")
    within("twist", twist, 0.0, np.radians(135.0) + 1e-9, unit="rad")
    within("frequency factor", frequency_factor, 0.0, 1.0)
    within("grip factor", grip_factor, 0.9, 1.0)
    near = NEAREST / np.maximum(np.asarray(reach, dtype=float), NEAREST)
    level = 1.0 - 0.3 * np.abs(np.asarray(height, dtype=float) - 0.75)
    way = 0.82 + 0.045 / np.maximum(np.asarray(travel, dtype=float), LEAST_TRAVEL)
    turn = 1.0 - 0.0032 * np.degrees(np.asarray(twist, dtype=float))
    return np.asarray(LOAD_CONSTANT * near * level * way * turn * frequency_factor * grip_factor)


def team_capacity(each: Number, *, people: int) -> Array:
    """Weight that a team may lift, by what each could lift alone.

    W = c_n·n·w, c = 1, 2/3, 1/2 for one, two, three people

    Parameters
    ----------
    each : float or array
        What one person may lift alone, w [kg], from 0.
    people : int
        Number of people, n [-], from 1 to 3.

    Returns
    -------
    float or array
        Weight the team may lift, W [kg].

    Notes
    -----
    More than three rarely lift well together. On a slope the lower end carries most.

    References
    ----------
    [HSEMHOR] : handling in teams.

    Examples
    --------
    >>> round(float(team_capacity(20.0, people=2)), 1)
    26.7
    """
    within("what each may lift", each, 0.0, unit="kg")
    within("people", people, 1, LARGEST_TEAM)
    return np.asarray(TEAM_SHARE[people] * people * np.asarray(each, dtype=float))


def lifters_needed(mass: float, *, each: float) -> int | None:
    """Least number of people for a load, or None when a team of three may not lift it.

    n = least n with W_n ≥ m

    Parameters
    ----------
    mass : float
        Mass of the load, m [kg], from 0.
    each : float
        What one person may lift alone, w [kg], above 0.

    Returns
    -------
    int or None
        Number of people, n [-]; None means tackle, a hoist or a lighter load.

    References
    ----------
    [HSEMHOR] : handling in teams.

    Examples
    --------
    >>> round(float(lifters_needed(23.0, each=23.0)))
    1
    """
    within("mass of the load", mass, 0.0, unit="kg")
    within("what each may lift", each, 0.0, unit="kg", open_low=True)
    teams = range(1, LARGEST_TEAM + 1)
    return next((people for people in teams if team_capacity(each, people=people) >= mass), None)
