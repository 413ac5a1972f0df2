"""Monthly climate normals of real places, each with where it was published.

A house file names one as `climate = "normals:Estevan"`. The numbers are the published ones; nothing is
filled in: a row that the source does not give is None.
"""

from __future__ import annotations

import difflib
import math
import unicodedata
from dataclasses import dataclass, fields
from typing import Final

from bermwright.base.errors import BermwrightError
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.climate import DWDCLIMAT

Months = tuple[float, ...]
"""Twelve values, January to December."""

PREFIX: Final = "normals:"
"""What stands before a place's name in a house file."""
MONTHS: Final = 12
ABSOLUTE_ZERO: Final = -273.15
"""°C."""


class UnknownClimateError(BermwrightError, KeyError):
    """A climate was asked for that is not packaged; the message lists what is."""

    def __str__(self) -> str:
        return str(self.args[0])


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthlyNormals:
    """Long-term monthly means of one place. Temperatures in °C, everything else SI unless named."""

    name: str
    country: str
    latitude: float
    """Degrees, north positive."""
    longitude: float
    """Degrees, east positive."""
    elevation: float
    """Above sea level (m)."""
    period: str
    kind: str
    """published normals, or averaged from published monthly reports."""
    cite: Cite
    mean: Months
    """Monthly mean of the air (°C)."""
    maximum: Months
    """Monthly mean of the daily highest (°C)."""
    minimum: Months
    """Monthly mean of the daily lowest (°C)."""
    precipitation: Months
    """Monthly sum (mm of water)."""
    sunshine: Months | None = None
    """Monthly sum (h)."""
    snow_days: Months | None = None
    """Days with snow on the ground."""
    snow_days_cite: Cite | None = None
    daily_spread: Months | None = None
    """Standard deviation of the daily means within a month (K)."""
    daily_spread_cite: Cite | None = None
    note: str = ""
    """What to know before relying on it."""

    def __post_init__(self) -> None:
        for field in fields(self):
            row = getattr(self, field.name)
            if isinstance(row, tuple):
                _check_row(f"{self.name}, {field.name}", row)
        for month in range(MONTHS):
            if not self.minimum[month] <= self.mean[month] <= self.maximum[month]:
                raise ValueError(
                    f"{self.name}: month {month + 1} is not in the order minimum, mean, maximum."
                )
        _check_low(f"{self.name}, temperatures", self.minimum, low=ABSOLUTE_ZERO)
        for row in (self.precipitation, self.sunshine, self.snow_days, self.daily_spread):
            _check_low(f"{self.name}, sums and days", row or (), low=0.0)

    @property
    def annual_mean(self) -> float:
        """Mean of the twelve monthly means (°C), each month counted alike."""
        return sum(self.mean) / MONTHS

    @property
    def coldest_month(self) -> int:
        """Number of the coldest month, January is 1."""
        return 1 + min(range(MONTHS), key=lambda month: self.mean[month])


def _check_row(name: str, row: Months) -> None:
    if len(row) != MONTHS or not all(math.isfinite(value) for value in row):
        raise ValueError(f"{name}: twelve finite numbers are due, January to December.")


def _check_low(name: str, row: Months, *, low: float) -> None:
    if any(value < low for value in row):
        raise ValueError(f"{name}: no value may be below {low:g}.")


def _section(number: int, station: str, says: str) -> Cite:
    return Cite(
        work=DWDCLIMAT, place=f"section {number}, station {station}: {says}", provenance=Provenance.READ
    )


OSTERSUND = MonthlyNormals(
    name="Östersund Frösön",
    country="Sweden",
    latitude=63.20,
    longitude=14.48,
    elevation=375.0,
    period="1961-1990",
    kind="published normals",
    cite=_section(2, "02226", "normals 1961-1990, the value most often sent for each month"),
    mean=(-8.6, -7.3, -3.6, 1.0, 7.2, 11.8, 13.4, 12.3, 8.0, 3.8, -2.2, -6.1),
    maximum=(-5.2, -3.8, 0.2, 4.8, 12.1, 16.9, 18.0, 16.4, 11.2, 6.3, 0.1, -3.2),
    minimum=(-12.1, -10.8, -7.2, -2.6, 2.8, 7.7, 9.6, 8.8, 5.3, 1.5, -4.6, -9.3),
    precipitation=(27.0, 21.0, 23.0, 28.0, 35.0, 57.0, 76.0, 60.0, 59.0, 37.0, 31.0, 31.0),
    sunshine=(26.0, 74.0, 131.0, 169.0, 233.0, 246.0, 228.0, 187.0, 115.0, 72.0, 38.0, 17.0),
    snow_days=(24.1, 21.9, 22.8, 13.1, 0.0, 0.2, 0.0, 0.8, 0.3, 3.2, 10.7, 18.4),
    snow_days_cite=_section(
        3, "02226", "days with snow 2003-2021, averaged here over at least 5 years a month"
    ),
    daily_spread=(5.1, 5.2, 3.9, 3.1, 3.7, 3.4, 3.0, 2.7, 2.6, 3.1, 3.6, 3.9),
    daily_spread_cite=_section(1, "02226", "2003-2021, averaged here over at least 17 years a month"),
    note="The years 2003-2021 were 1.5 K warmer than this table; for frost that is on the careful side.",
)

ESTEVAN = MonthlyNormals(
    name="Estevan",
    country="Canada",
    latitude=49.21,
    longitude=-102.96,
    elevation=581.0,
    period="1971-2000",
    kind="published normals",
    cite=_section(2, "71862", "normals 1971-2000, the value most often sent for each month"),
    mean=(-14.8, -10.4, -3.8, 5.0, 12.1, 16.8, 19.5, 18.6, 12.4, 5.6, -4.3, -11.7),
    maximum=(-9.4, -5.2, 1.4, 11.5, 18.9, 23.4, 26.5, 26.0, 19.3, 12.2, 0.7, -6.5),
    minimum=(-20.1, -15.5, -9.0, -1.6, 5.1, 10.2, 12.5, 11.3, 5.4, -1.0, -9.4, -16.9),
    precipitation=(17.0, 15.0, 23.0, 29.0, 56.0, 76.0, 65.0, 50.0, 44.0, 24.0, 18.0, 17.0),
    sunshine=(115.0, 133.0, 177.0, 225.0, 265.0, 289.0, 335.0, 297.0, 209.0, 177.0, 111.0, 98.0),
    snow_days=(30.3, 28.2, 25.8, 8.1, 3.5, 0.0, 0.0, 0.0, 0.0, 4.7, 16.4, 30.2),
    snow_days_cite=_section(
        3, "71862", "days with snow 2003-2021, averaged here over at least 6 years a month"
    ),
    daily_spread=(8.3, 6.3, 6.9, 5.1, 4.4, 3.2, 2.9, 3.2, 4.3, 4.9, 6.2, 6.4),
    daily_spread_cite=_section(1, "71862", "2003-2021, averaged here over at least 11 years a month"),
    note="The years 2003-2021 were 0.3 K colder than this table, which hints at a station that was moved.",
)

PLACES: Final[tuple[MonthlyNormals, ...]] = (OSTERSUND, ESTEVAN)
"""All packaged places."""


def normals(name: str) -> MonthlyNormals:
    """The packaged normals of a place; blind to case and accents, with or without `normals:`.

    >>> normals("normals:ostersund froson").country
    'Sweden'
    """
    found = {_plain(place.name): place for place in PLACES}
    wanted = _plain(name.removeprefix(PREFIX))
    if wanted not in found:
        raise UnknownClimateError(_unknown(name.removeprefix(PREFIX), wanted, found))
    return found[wanted]


def _unknown(name: str, wanted: str, found: dict[str, MonthlyNormals]) -> str:
    near = difflib.get_close_matches(wanted, found, n=1, cutoff=0.5)
    nearest = f" Nearest: {PREFIX}{found[near[0]].name}." if near else ""
    listed = ", ".join(f'"{PREFIX}{place.name}"' for place in PLACES)
    return f'No climate is called "{name.strip()}".{nearest} Packaged: {listed}.'


def _plain(name: str) -> str:
    """Lower case without accents, single spaces."""
    letters = unicodedata.normalize("NFKD", name.casefold())
    return " ".join("".join(letter for letter in letters if not unicodedata.combining(letter)).split())
