"""Frost and seasons out of twelve monthly values. Start reading at `frost.py`."""

from bermwright.handbook.weather.frost import (
    FreezingIndex,
    IndexMethod,
    cold_below,
    freezing_index,
    freezing_index_normal_days,
    freezing_index_simple,
    freezing_index_trapezoid,
)
from bermwright.handbook.weather.seasons import (
    ColdSeason,
    cold_season,
    daily_means,
    month_and_day,
    winter_begins,
    winter_ends,
)

__all__ = [
    "ColdSeason",
    "FreezingIndex",
    "IndexMethod",
    "cold_below",
    "cold_season",
    "daily_means",
    "freezing_index",
    "freezing_index_normal_days",
    "freezing_index_simple",
    "freezing_index_trapezoid",
    "month_and_day",
    "winter_begins",
    "winter_ends",
]
