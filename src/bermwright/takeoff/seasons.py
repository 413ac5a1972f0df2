"""Winter at the site, by the normals that the house file names: dates and the freezing index."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.base.wording import MONTH_NAMES
from bermwright.data.climates import PREFIX, MonthlyNormals, normals
from bermwright.handbook.weather import (
    ColdSeason,
    FreezingIndex,
    IndexMethod,
    cold_season,
    freezing_index,
    month_and_day,
)

if TYPE_CHECKING:
    from bermwright.base.sources import Cite
    from bermwright.house import House

WORK_STOPS = 5.0
"""Daily mean under which lime and mortar are not laid (°C)."""
FROST = 0.0
NEAR_ENOUGH = 100.0
"""Difference of height between site and station that goes unsaid (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seasons:
    """The average winter of one station, and how far that is the site's."""

    place: MonthlyNormals
    altitude: float | None
    """Of the site (m); None: not given."""
    work_stops: ColdSeason
    """Days with a mean below 5 °C."""
    frost: ColdSeason
    """Days with a mean below 0 °C."""
    frosty_nights: ColdSeason
    """Days whose lowest temperature is below 0 °C on average."""
    index: FreezingIndex

    @property
    def cites(self) -> tuple[Cite, ...]:
        """Where the months and their spread were published."""
        return tuple(cite for cite in (self.place.cite, self.place.daily_spread_cite) if cite is not None)

    def sentences(self, system: str = "metric") -> tuple[str, ...]:
        """What a builder should know of it, one sentence each."""
        return tuple(
            said
            for said in (
                self._source(),
                _span("The mean of the day stays below", WORK_STOPS, self.work_stops, system)
                + " Lime, mortar and stabilised earth do not harden then.",
                _span("It stays below", FROST, self.frost, system)
                + " Frozen soil is not fill: it cannot be compacted, and settles when it thaws.",
                _span("The lowest of the night is on average below", FROST, self.frosty_nights, system),
                self._index(),
                self._height(system),
                self.place.note,
            )
            if said
        )

    def _source(self) -> str:
        place = self.place
        return (
            f"By the months of {place.name}, {place.country} ({place.kind} {place.period}): an average year. "
            "A single autumn may come two or three weeks earlier."
        )

    def _index(self) -> str:
        # In K d in both systems: the table to compare it with says which it wants.
        low = (
            " It is counted from monthly means alone and reads low."
            if self.index.method is IndexMethod.SIMPLE
            else ""
        )
        return (
            f"Freezing index of the average year: {show(self.index.value, 'K d', 0)}.{low} A cold winter has "
            "far more; this is no value to design a footing with."
        )

    def _height(self, system: str) -> str:
        if self.altitude is None:
            return "The height of the site is not given: whether the station is like it is not known."
        apart = self.altitude - self.place.elevation
        if abs(apart) <= NEAR_ENOUGH:
            return ""
        side = "higher" if apart > 0.0 else "lower"
        return (
            f"The site lies {show(abs(apart), 'm', 0, system)} {side} than the station; nothing is corrected."
        )


def site_seasons(house: House) -> Seasons | None:
    """The winter of the house's station; None where the file names no packaged normals.

    Raises `UnknownClimateError` for a name that is not packaged.
    """
    climate = house.site.climate
    if climate is None or not climate.startswith(PREFIX):
        return None
    place = normals(climate)
    return Seasons(
        place=place,
        altitude=house.site.altitude,
        work_stops=cold_season(place.mean, below=WORK_STOPS),
        frost=cold_season(place.mean, below=FROST),
        frosty_nights=cold_season(place.minimum, below=FROST),
        index=freezing_index(place.mean, place.daily_spread),
    )


def day_text(day: int) -> str:
    """A day of the year as day and month.

    >>> day_text(283)
    '10 October'
    """
    month, day_of_month = month_and_day(day)
    return f"{day_of_month} {MONTH_NAMES[month - 1]}"


def _span(says: str, limit: float, season: ColdSeason, system: str) -> str:
    shown = show(limit, "degC", 0, system)
    if season.begins is None or season.ends is None:
        return f"{says} {shown} {'all year' if season.days else 'on no day of the average year'}."
    return f"{says} {shown} from about {day_text(season.begins)} to about {day_text(season.ends)}."
