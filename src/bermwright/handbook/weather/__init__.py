"""Weather: frost and seasons out of twelve months, and whole years by the hour.

Start reading at `year.py` (what a year is) and `synthesis.py` (how one is made from monthly normals);
`frost.py` and `seasons.py` need the months alone.
"""

from bermwright.handbook.weather.clearness import (
    clearest_day,
    clearness_by_range,
    clearness_by_sunshine,
    day_clearness,
)
from bermwright.handbook.weather.design import coldest_days, degree_days, design_day, freezing_index_of
from bermwright.handbook.weather.diurnal import diurnal_shape, smooth_hours
from bermwright.handbook.weather.frost import (
    FreezingIndex,
    IndexMethod,
    cold_below,
    freezing_index,
    freezing_index_normal_days,
    freezing_index_simple,
    freezing_index_trapezoid,
)
from bermwright.handbook.weather.humidity import (
    dew_point_of,
    sky_emissivity,
    sky_temperature,
    standard_pressure,
    vapour_pressure_at,
)
from bermwright.handbook.weather.seasons import (
    ColdSeason,
    cold_season,
    daily_means,
    month_and_day,
    winter_begins,
    winter_ends,
)
from bermwright.handbook.weather.snow import snow_depth_of, snow_pack
from bermwright.handbook.weather.synthesis import month_clearness, synthesise
from bermwright.handbook.weather.year import WeatherYear, daily, monthly

__all__ = [
    "ColdSeason", "FreezingIndex", "IndexMethod", "WeatherYear", "clearest_day", "clearness_by_range",
    "clearness_by_sunshine", "cold_below", "cold_season", "coldest_days", "daily", "daily_means",
    "day_clearness", "degree_days", "design_day", "dew_point_of", "diurnal_shape", "freezing_index",
    "freezing_index_normal_days", "freezing_index_of", "freezing_index_simple", "freezing_index_trapezoid",
    "month_and_day", "month_clearness", "monthly", "sky_emissivity", "sky_temperature", "smooth_hours",
    "snow_depth_of", "snow_pack", "standard_pressure", "synthesise", "vapour_pressure_at", "winter_begins",
    "winter_ends",
]  # fmt: skip
