"""Where the sun stands over a house through one day, as seen from its axis."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import BermwrightError
from bermwright.handbook.sun import julian_day, sun_position

if TYPE_CHECKING:
    from bermwright.house import House, Vault

YEAR = 2027
"""An ordinary year; from one to the next the sun moves less than its own width."""
STEPS = 48
"""Places of a day: one every half hour."""
LAST_DAY = 365


class NoSunError(BermwrightError):
    """What the file would have to say before the sun can be placed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SunOfDay:
    """Heights and directions every half hour from midnight to midnight, by the sun's own time."""

    day: int
    height: tuple[float, ...]
    """Over the horizon (degrees)."""
    turn: tuple[float, ...]
    """From the axis as seen walking in, to the right (degrees)."""


def sun_of_day(house: House, vault: Vault, day: int) -> SunOfDay:
    """The sun over a vault on one day of the year. Raises `NoSunError` without latitude or axis."""
    missing = [
        name
        for name, value in (("site.latitude", house.site.latitude), ("vault.axis", vault.axis))
        if value is None
    ]
    latitude, axis = house.site.latitude, vault.axis
    if latitude is None or axis is None:
        raise NoSunError(f"The file does not say {' and '.join(missing)}: the sun has no place yet.")
    if not 1 <= day <= LAST_DAY:
        raise NoSunError(f"There is no day {day}; a year runs from 1 to {LAST_DAY}.")
    hours = 24.0 * (day - 1 + np.arange(STEPS + 1) / STEPS)
    # At longitude nought universal time is the place's own mean time; the sun runs some minutes off it.
    noon = sun_position(julian_day(YEAR, hours[STEPS // 2]), latitude, longitude=0.0)
    late = float(noon.hour_angle) * 24.0 / (2.0 * math.pi)
    place = sun_position(julian_day(YEAR, hours - late), latitude, longitude=0.0)
    turn = np.degrees(np.mod(place.azimuth - axis + math.pi, 2.0 * math.pi) - math.pi)
    return SunOfDay(day=day, height=_rounded(np.degrees(place.elevation)), turn=_rounded(turn))


def _rounded(values: np.ndarray) -> tuple[float, ...]:
    return tuple(round(float(value), 2) for value in values)
