"""Soil as it presses: pressure ratios, its spring, friction on a membrane, and the runs of the soil law.

Start reading at `pressure.py`; `runs.py` holds the four runs of the rib analysis.
"""

from __future__ import annotations

from bermwright.handbook.soils.coulomb import coulomb_active_ratio, coulomb_passive_ratio
from bermwright.handbook.soils.culverts import (
    arching_factor,
    flexibility_number,
    moment_at_crown_level,
    moment_change_by_cover,
    ring_thrust,
    shape_factor,
)
from bermwright.handbook.soils.friction import largest_needed_wall_friction, needed_wall_friction
from bermwright.handbook.soils.pressure import (
    active_ratio,
    at_rest_ratio,
    buoyant_unit_weight,
    compacted_ratio,
    design_friction_angle,
    hydrostatic_pressure,
    passive_ratio,
    sloping_active_ratio,
    stress_modulus,
)
from bermwright.handbook.soils.runs import SoilRun, soil_runs
from bermwright.handbook.soils.weights import moist_unit_weight, saturated_unit_weight, void_ratio_of

__all__ = [
    "SoilRun",
    "active_ratio",
    "arching_factor",
    "at_rest_ratio",
    "buoyant_unit_weight",
    "compacted_ratio",
    "coulomb_active_ratio",
    "coulomb_passive_ratio",
    "design_friction_angle",
    "flexibility_number",
    "hydrostatic_pressure",
    "largest_needed_wall_friction",
    "moist_unit_weight",
    "moment_at_crown_level",
    "moment_change_by_cover",
    "needed_wall_friction",
    "passive_ratio",
    "ring_thrust",
    "saturated_unit_weight",
    "shape_factor",
    "sloping_active_ratio",
    "soil_runs",
    "stress_modulus",
    "void_ratio_of",
]
