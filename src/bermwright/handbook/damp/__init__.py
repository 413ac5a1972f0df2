"""Vapour in air and through layers, mould and rot. Start reading at `vapour.py`, then `year.py`."""

from bermwright.handbook.damp.diffusion import (
    MOST_AIR,
    STILL_AIR,
    Profile,
    air_permeability,
    air_thickness,
    cut_layers,
    outer_film,
    vapour_profile,
)
from bermwright.handbook.damp.mould import (
    DAMP_FACE,
    factor_with_film,
    least_surface,
    mould_begins,
    rot_begins_after,
    rot_dose,
    surface_factor,
    wood_moisture,
)
from bermwright.handbook.damp.vapour import (
    class_excess,
    dew_point,
    enthalpy,
    humidity_ratio,
    indoor_pressure,
    saturation_pressure,
    saturation_pressure_fine,
    vapour_content,
)
from bermwright.handbook.damp.year import MonthlyAir, WetYear, drying_time, wet_year

__all__ = [
    "DAMP_FACE", "MOST_AIR", "STILL_AIR", "MonthlyAir", "Profile", "WetYear", "air_permeability",
    "air_thickness", "class_excess", "cut_layers", "dew_point", "drying_time", "enthalpy", "factor_with_film",
    "humidity_ratio",
    "indoor_pressure", "least_surface", "mould_begins", "outer_film", "rot_begins_after", "rot_dose",
    "saturation_pressure", "saturation_pressure_fine", "surface_factor", "vapour_content", "vapour_profile",
    "wet_year", "wood_moisture",
]  # fmt: skip
