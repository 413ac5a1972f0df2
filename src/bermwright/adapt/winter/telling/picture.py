"""One week of the solved year as a picture: temperatures, isotherms and the line of frost."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.winter import begins
from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.groundheat import isotherms

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from bermwright.adapt.winter.winter import WinterYear

    Array = NDArray[np.float64]

WEEKS = 52
HOURS_A_WEEK = 168
HALF_FROZEN = -0.025
"""Temperature at which half of a soil's water is ice, as its freezing is computed (°C)."""
LEVELS = (4.0, 8.0, 12.0, 16.0)
"""Isotherms that are drawn beside the frost line (°C)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Week:
    """What a picture of one week needs."""

    number: int
    """0 to 51; week 0 begins on 1 January."""
    outdoors: float
    """Mean of the week (°C)."""
    room: float
    temperature: Array
    """Of the points of the mesh at the end of the week (°C)."""
    levels: Mapping[float, tuple[Array, ...]]
    """Isotherms: lines of points (m)."""
    frost: tuple[Array, ...]
    """The line at which half of the water is ice (m)."""
    frozen: float
    """How deep open ground beside the house is frozen (m)."""
    watch: Mapping[str, float]
    """What is watched, at the end of the week (°C)."""
    snow: float
    """Depth of the snow, mean of the week (m)."""


def week_of(year: WinterYear, number: int) -> Week:
    """The picture of one week, quick enough to follow a hand."""
    if not 0 <= number < WEEKS:
        raise OutOfRangeError(f"Week {number}: a year has the weeks 0 to {WEEKS - 1}.")
    hours = slice(number * HOURS_A_WEEK, (number + 1) * HOURS_A_WEEK)
    end = hours.stop - 1
    temperature = field_of(year, end // 24)
    frost, *others = isotherms(year.ground.mesh, temperature, (HALF_FROZEN, *LEVELS))
    return Week(
        number=number,
        outdoors=float(year.weather.temperature[hours].mean()),
        room=float(year.shown.room[hours].mean()),
        temperature=temperature,
        levels=dict(zip(LEVELS, others, strict=True)),
        frost=frost,
        frozen=frozen_depth(year, frost),
        watch={name: float(row[end]) for name, row in year.watch.items()},
        snow=float(year.weather.snow_depth[hours].mean()),
    )


def field_of(year: WinterYear, day: int) -> Array:
    """Temperature of the points of the mesh at the end of a day of the year, counted from 0 (°C)."""
    return np.asarray(year.frost.temperature[(day - begins(year.weather) // 24) % 365])


def frozen_depth(year: WinterYear, frost: tuple[Array, ...]) -> float:
    """How deep the frost line lies under open ground, far to the side of the house (m)."""
    surface = year.form.ground.finished
    beside = year.ground.beside
    depths = [0.0]
    for line in frost:
        for place in (-beside, beside):
            x, z = line[:, 0], line[:, 1]
            crossed = np.flatnonzero((x[:-1] - place) * (x[1:] - place) <= 0.0)
            for at in crossed:
                share = 0.0 if x[at + 1] == x[at] else (place - x[at]) / (x[at + 1] - x[at])
                level = float(z[at] + share * (z[at + 1] - z[at]))
                depths.append(float(surface.level(place)) - level)
    return max(depths)


def deepest_frost(year: WinterYear) -> int:
    """The week in which open ground is frozen deepest."""
    depths = [frozen_depth(year, _frost_line(year, number)) for number in range(WEEKS)]
    return int(np.argmax(depths))


def _frost_line(year: WinterYear, number: int) -> tuple[Array, ...]:
    return isotherms(year.ground.mesh, field_of(year, number * 7 + 6), (HALF_FROZEN,))[0]
