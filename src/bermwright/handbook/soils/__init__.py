"""Soil as it presses: pressure ratios, its spring, friction on a membrane, and the runs of the soil law.

Start reading at `pressure.py`; `runs.py` holds the four runs of the rib analysis.
"""

from __future__ import annotations

from bermwright.handbook.soils.coulomb import coulomb_active_ratio, coulomb_passive_ratio
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

__all__ = [
    "SoilRun",
    "active_ratio",
    "at_rest_ratio",
    "buoyant_unit_weight",
    "compacted_ratio",
    "coulomb_active_ratio",
    "coulomb_passive_ratio",
    "design_friction_angle",
    "hydrostatic_pressure",
    "largest_needed_wall_friction",
    "needed_wall_friction",
    "passive_ratio",
    "sloping_active_ratio",
    "soil_runs",
    "stress_modulus",
]
