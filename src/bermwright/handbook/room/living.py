"""Warmth that people and animals bring into a room."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.room.comfort import MET, _moist_loss

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

BODY = 1.8
"""Surface of a grown person (m2)."""


def person_warmth(activity: ArrayLike, vapour_pressure: ArrayLike, *, body: float = BODY) -> Array:
    """Dry warmth of a person, without what leaves as moisture.

    P = A·(M − skin moisture − sweat − moisture of the breath)

    Parameters
    ----------
    activity : float or array
        In met, 1 is sitting still [-], 0.7 to 4.
    vapour_pressure : float or array
        Of the room's air [Pa], 0 to 4000.
    body : float
        Surface of the body [m2], 0.3 to 3.

    Returns
    -------
    float or array
        Warmth to air and walls [W].

    References
    ----------
    [ISO7730] : the moist terms of equation 1, taken from the warmth made.

    Examples
    --------
    >>> round(float(person_warmth(1.2, vapour_pressure=1200.0)), 2)
    84.64
    """
    within("activity", activity, 0.7, 4.0)
    within("vapour pressure", vapour_pressure, 0.0, 4000.0, unit="Pa")
    within("body surface", body, 0.3, 3.0, unit="m2")
    made = MET * np.asarray(activity, dtype=float)
    return np.asarray(body * (made - _moist_loss(made, np.asarray(vapour_pressure, dtype=float))))


def animal_warmth(mass: ArrayLike, coefficient: ArrayLike, air: ArrayLike) -> Array:
    """Dry warmth of an animal at rest and upkeep.

    P = a·m^0.75·(0.8 − 1.85·10⁻⁷·(T + 10)⁴)·(1 + 4·10⁻⁵·(20 − T)³)

    Parameters
    ----------
    mass : float or array
        Mass of the animal, m [kg], 0.5 to 1200.
    coefficient : float or array
        Warmth made a kg^0.75 by its kind, a [W], 3 to 12.
    air : float or array
        Temperature around it, T [°C], -10 to 35.

    Returns
    -------
    float or array
        Dry warmth [W], never below 0.

    Notes
    -----
    Upkeep alone: a milking, growing or laying animal gives a third to a whole more.

    References
    ----------
    [CIGR1984] : total heat by kind, its change with temperature, and the dry share.

    Examples
    --------
    >>> round(float(animal_warmth(60.0, coefficient=6.4, air=20.0)), 1)
    89.7
    """
    within("mass", mass, 0.5, 1200.0, unit="kg")
    within("coefficient", coefficient, 3.0, 12.0)
    within("air temperature", air, -10.0, 35.0, unit="°C")
    around = np.asarray(air, dtype=float)
    total = np.asarray(coefficient) * np.asarray(mass, dtype=float) ** 0.75
    at_temperature = 1.0 + 4e-5 * (20.0 - around) ** 3
    dry_share = 0.8 - 1.85e-7 * (around + 10.0) ** 4
    return np.asarray(np.maximum(total * at_temperature * dry_share, 0.0))
