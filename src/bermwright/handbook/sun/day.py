"""Sunrise, sunset and the length of the day, polar day and polar night included."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.sun.position import DAY, SEEN_AT

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

STEEPEST = np.radians(24.0)
"""Largest declination that the sun ever has, with room to spare."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SunDay:
    """One day of the sun, in solar time; never NaN."""

    length: Array
    """From sunrise to sunset (s): 0 in the polar night, 86400 in the polar day."""
    noon_elevation: Array
    """Of the middle of the sun, without refraction (rad); below zero in the polar night."""

    @property
    def rise(self) -> Array:
        """After midnight, solar time (s); noon where the sun does not rise, 0 where it does not set."""
        return np.asarray(0.5 * (DAY - self.length))

    @property
    def set(self) -> Array:
        """After midnight, solar time (s); noon where the sun does not rise, 86400 where it does not set."""
        return np.asarray(0.5 * (DAY + self.length))


def declination(day: ArrayLike) -> Array:
    """Declination of the sun by the day of the year.

    δ = 0.006918 − 0.399912·cos Γ + 0.070257·sin Γ − 0.006758·cos 2Γ + 0.000907·sin 2Γ
    − 0.002697·cos 3Γ + 0.00148·sin 3Γ, Γ = 2π·(n − 1)/365

    Parameters
    ----------
    day : float or array
        Day of the year, 1 is 1 January, n [d], from 1 to 366.

    Returns
    -------
    float or array
        Declination [rad].

    Notes
    -----
    Within 0.04° of the exact one of an average year, and ±0.2° as leap years pass.

    References
    ----------
    [SPENCER1971] : declination.

    Examples
    --------
    >>> round(float(declination(1.0)), 4)
    -0.4024
    """
    within("day of the year", day, 1.0, 367.0, unit="d")
    turn = 2.0 * np.pi * (np.asarray(day, dtype=float) - 1.0) / 365.0
    return np.asarray(
        0.006918
        - 0.399912 * np.cos(turn)
        + 0.070257 * np.sin(turn)
        - 0.006758 * np.cos(2.0 * turn)
        + 0.000907 * np.sin(2.0 * turn)
        - 0.002697 * np.cos(3.0 * turn)
        + 0.00148 * np.sin(3.0 * turn)
    )


def sun_day(latitude: ArrayLike, declination: ArrayLike, *, seen_at: float = SEEN_AT) -> SunDay:
    """Length of a day and height of the noon sun.

    cos ω = (−sin a − sin φ·sin δ)/(cos φ·cos δ), day = 2·ω; no root: polar night or polar day

    Parameters
    ----------
    latitude : float or array
        Latitude, north positive, φ [rad], from -π/2 to π/2.
    declination : float or array
        Declination of the sun, δ [rad], from -0.42 to 0.42.
    seen_at : float
        How far below the horizon its middle is when the sun counts as rising, a [rad], from 0 to 0.2;
        0 for the geometry alone, 0.8333° for its upper edge in refracting air.

    Returns
    -------
    SunDay
        Length of the day [s] and elevation at noon [rad].

    References
    ----------
    [REDA2004] : A.2, sunrise and sunset; the polar cases are a choice of this handbook.

    Examples
    --------
    >>> import math
    >>> float(sun_day(math.radians(80.0), math.radians(-23.4)).length)
    0.0
    """
    within("latitude", latitude, -0.5 * np.pi, 0.5 * np.pi, unit="rad")
    within("declination", declination, -STEEPEST, STEEPEST, unit="rad")
    within("depth below the horizon", seen_at, 0.0, 0.2, unit="rad")
    north, sun = np.asarray(latitude, dtype=float), np.asarray(declination, dtype=float)
    upwards = np.sin(north) * np.sin(sun)
    across = np.maximum(np.cos(north) * np.cos(sun), 1e-12)
    half = np.arccos(np.clip((-np.sin(seen_at) - upwards) / across, -1.0, 1.0))
    return SunDay(
        length=np.asarray(half / np.pi * DAY),
        noon_elevation=np.asarray(0.5 * np.pi - np.abs(north - sun)),
    )
