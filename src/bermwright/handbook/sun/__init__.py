"""The sun: where it stands, what it sends, what reaches a plane. Start reading at `plane.py`.

`position.py` and `day.py` say where and how long, `sky.py` what passes the air, `plane.py` what meets a
tilted plane, `shading.py` what hills, overhang and reveal leave of it.
"""

from bermwright.handbook.sun.day import SunDay, declination, sun_day
from bermwright.handbook.sun.plane import (
    Plane,
    PlaneSun,
    SkyModel,
    SunPath,
    facing,
    ground_albedo,
    on_plane,
    path_of,
    sun_path,
)
from bermwright.handbook.sun.position import SunPosition, julian_day, refraction, sun_position
from bermwright.handbook.sun.shading import (
    Horizon,
    Niche,
    behind_horizon,
    horizon_height,
    in_niche,
    lit_share,
    niche_sky,
    sky_view,
)
from bermwright.handbook.sun.sky import (
    Split,
    air_mass,
    clear_sky,
    erbs_fraction,
    erbs_month,
    erbs_split,
    extraterrestrial_day,
    extraterrestrial_normal,
    hour_share,
)

__all__ = [
    "Horizon", "Niche", "Plane", "PlaneSun", "SkyModel", "Split", "SunDay", "SunPath", "SunPosition",
    "air_mass", "behind_horizon", "clear_sky", "declination", "erbs_fraction", "erbs_month", "erbs_split",
    "extraterrestrial_day", "extraterrestrial_normal", "facing", "ground_albedo", "horizon_height",
    "hour_share", "in_niche", "julian_day", "lit_share", "niche_sky", "on_plane", "path_of", "refraction",
    "sky_view", "sun_day", "sun_path", "sun_position",
]  # fmt: skip
