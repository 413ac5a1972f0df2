"""The ground far from any house through an average year, at once: from monthly means of the air alone.

No house, no snow, even soil. Frost goes down by the modified Berggren equation, week by week as the cold adds
up; in spring the ground thaws from the top by Stefan's. Both are on the deep side. Temperatures are a wave
that goes down from the surface; ground that is not frozen is never shown colder than zero.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.heat.ground import soil_material
from bermwright.handbook.conduction import undisturbed_ground
from bermwright.handbook.lasting import frost_correction, stefan_depth
from bermwright.handbook.weather import daily_means

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from bermwright.handbook.groundheat import Material
    from bermwright.house import House

    Array = NDArray[np.float64]

DAY = 86_400.0
WEEKS = 52
MOST_WARMTH, LEAST_FUSION = 20.0, 0.001
"""Ends of what the correction of Stefan's depth is known for; milder winters come out a little too deep."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenGround:
    """The year of open ground, one value a week; nothing of it is known where the ground never thaws."""

    air: Array
    """Mean of each week (°C)."""
    frost: Array
    """How deep the ground is frozen at the end of the week, 0 where it is not (m)."""
    thawed: Array
    """How deep it has thawed again from the top, less than `frost` (m)."""
    mean: float
    swing: float
    coldest_day: float
    diffusivity: float

    def temperature(self, depth: float, week: int) -> float:
        """At a depth (m) at the end of a week, counted from 0 (°C)."""
        wave = undisturbed_ground(
            depth,
            float(_end_of(week)),
            mean=self.mean,
            swing=self.swing,
            coldest_day=self.coldest_day,
            diffusivity=self.diffusivity,
        )
        frozen = self.thawed[week] <= depth < self.frost[week]
        return float(np.minimum(wave, 0.0) if frozen else np.maximum(wave, 0.0))


def open_ground(house: House, means: Sequence[float]) -> OpenGround | None:
    """The year of the site's own soil under air with these monthly means (°C); None where it never thaws."""
    days = daily_means(means)
    if float(days.mean()) <= 0.0:
        return None
    soil = soil_material(house.site.soil[0] if house.site.soil else None, "the natural ground", [])
    frost, thawed = _fronts(days, soil)
    ends = [_end_of(week) for week in range(WEEKS)]
    return OpenGround(
        air=np.array([float(days[end - 6 : end + 1].mean()) for end in ends]),
        frost=frost[ends],
        thawed=thawed[ends],
        mean=float(days.mean()),
        swing=0.5 * float(days.max() - days.min()),
        coldest_day=float(np.argmin(days)),
        diffusivity=soil.conductivity / soil.capacity,
    )


def _end_of(week: int) -> int:
    """The last day of a week, counted from 0."""
    return 7 * week + 6


def _fronts(days: Array, soil: Material) -> tuple[Array, Array]:
    """How deep the ground is frozen and thawed again at the end of every day of the year (m).

    Raises `OutOfRangeError` for ground too dry to hold the heat of freezing.
    """
    begins = int(np.argmax(days))
    cold, warm = _cold_and_warm(np.roll(days, -begins))
    frozen = soil.frozen_conductivity or soil.conductivity
    bare = stefan_depth(0.5 * (soil.conductivity + frozen), cold, soil.latent)
    down = _correction(days, soil) * bare
    top = np.asarray(stefan_depth(soil.conductivity, warm, soil.latent))
    gone = top >= down
    frost, thawed = np.where(gone, 0.0, down), np.where(gone, 0.0, top)
    return np.roll(frost, begins), np.roll(thawed, begins)


def _cold_and_warm(days: Array) -> tuple[Array, Array]:
    """Cold since the warmest day, and warmth since that cold began (K s); what has thawed freezes first."""
    cold, warm = np.zeros(len(days)), np.zeros(len(days))
    deep = top = 0.0
    for day, air in enumerate(days):
        if air < 0.0:
            again = min(top, -air)
            top, deep = top - again, deep + (-air - again)
        elif deep > 0.0:
            top += air
        cold[day], warm[day] = DAY * deep, DAY * top
    return cold, warm


def _correction(days: Array, soil: Material) -> float:
    """What the soil's own warmth leaves of Stefan's depth in this winter (-)."""
    below = days[days < 0.0]
    if not below.size:
        return 1.0
    cold = -float(below.mean())
    warmth = min(float(days.mean()) / cold, MOST_WARMTH)
    return float(frost_correction(warmth, max(soil.capacity * cold / soil.latent, LEAST_FUSION)))
