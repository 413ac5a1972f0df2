"""What a row of hourly weather may hold on Earth."""

from __future__ import annotations

from typing import Final

RANGES: Final[dict[str, tuple[float, float, str]]] = {
    "temperature": (-90.0, 60.0, "°C"),
    "dew_point": (-95.0, 60.0, "°C"),
    "global_horizontal": (0.0, 1500.0, "W/m²"),
    "direct_normal": (0.0, 1500.0, "W/m²"),
    "diffuse_horizontal": (0.0, 1200.0, "W/m²"),
    "wind": (0.0, 90.0, "m/s"),
    "pressure": (30_000.0, 110_000.0, "Pa"),
    "sky_temperature": (-120.0, 60.0, "°C"),
    "snow_cover": (0.0, 1.0, ""),
    "snow_depth": (0.0, 20.0, "m"),
}
"""What each row may hold on Earth; a value outside is a slip of units or a mark for a gap."""

FARTHEST_NORTH: Final = 5.0
"""A climate farther north or south of the site than this has another sun and other seasons (degrees of
latitude). Judgement, no source: five degrees are a tenth of a year's noon sun between summer and winter."""

FROZEN_GROUND_MEAN: Final = -1.0
"""Where the year's mean air is no warmer than this, ground may stay frozen through the summer in places
(°C). Common knowledge of cold regions, from memory."""
