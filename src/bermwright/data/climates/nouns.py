"""What one row of the table of climates holds. Nothing is filled in: what a source does not give is None."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from bermwright.base.sources import Cite

Months = tuple[float, ...]
"""Twelve values, January to December."""

PUBLISHED: Final = "published normals"
AVERAGED: Final = "averaged from published monthly reports"
MONTHS: Final = 12
ABSOLUTE_ZERO: Final = -273.15
"""°C."""


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
    climate: str = ""
    """What kind of climate it is, in a few words."""
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
    humidity: Months | None = None
    """Mean relative humidity over water [-]."""
    vapour_pressure: Months | None = None
    """Mean pressure of the water vapour in the air (Pa)."""
    record_low: Months | None = None
    """Lowest ever reported (°C)."""
    lowest: Months | None = None
    """Lowest of the reports of 2003 to 2021 (°C)."""
    snow_depth: Months | None = None
    """Mean depth of the snow on the ground (m)."""
    snowy: bool = False
    """Whether snow lies for most of at least two months."""
    note: str = ""
    """What to know before relying on it."""
    doubts: tuple[str, ...] = ()
    """Smaller doubts about single rows."""

    def __post_init__(self) -> None:
        for field in fields(self):
            row = getattr(self, field.name)
            if isinstance(row, tuple) and field.name != "doubts":
                _check_row(f"{self.name}, {field.name}", row)
        for month in range(MONTHS):
            if not self.minimum[month] <= self.mean[month] <= self.maximum[month]:
                raise ValueError(
                    f"{self.name}: month {month + 1} is not in the order minimum, mean, maximum."
                )
        _check_low(f"{self.name}, temperatures", self.minimum, low=ABSOLUTE_ZERO)
        for row in (self.precipitation, self.sunshine, self.snow_days, self.daily_spread, self.humidity):
            _check_low(f"{self.name}, sums and days", row or (), low=0.0)


def _check_row(name: str, row: Months) -> None:
    if len(row) != MONTHS or not all(math.isfinite(value) for value in row):
        raise ValueError(f"{name}: twelve finite numbers are due, January to December.")


def _check_low(name: str, row: Months, *, low: float) -> None:
    if any(value < low for value in row):
        raise ValueError(f"{name}: no value may be below {low:g}.")
