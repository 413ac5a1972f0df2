"""Soil that presses on a wall, and walls and buttresses that stand against it.

Start reading at `stand.py`: every wall, footing and buttress is one body on one base. `wedge.py` and
`push.py` give what presses on it.
"""

from __future__ import annotations

from bermwright.handbook.retaining.buttress import (
    bond_stress,
    cracked_buttress_thrust,
    kern_thrust,
    overturning_thrust,
)
from bermwright.handbook.retaining.compaction import compaction_depth, compaction_pressure, strip_pressure
from bermwright.handbook.retaining.layers import (
    beyond_wedge,
    face_bulge,
    layer_hold,
    layer_pull,
    long_term_strength,
)
from bermwright.handbook.retaining.push import Push, soil_push, wet_soil_push
from bermwright.handbook.retaining.stand import (
    Stand,
    Wall,
    eccentricity,
    sliding_resistance,
    stand_of,
    wall_body,
)
from bermwright.handbook.retaining.wedge import (
    earthquake_active_ratio,
    earthquake_passive_ratio,
    leaning_active_ratio,
    sloping_at_rest_ratio,
)

__all__ = [
    "Push",
    "Stand",
    "Wall",
    "beyond_wedge",
    "bond_stress",
    "compaction_depth",
    "compaction_pressure",
    "cracked_buttress_thrust",
    "earthquake_active_ratio",
    "earthquake_passive_ratio",
    "eccentricity",
    "face_bulge",
    "kern_thrust",
    "layer_hold",
    "layer_pull",
    "leaning_active_ratio",
    "long_term_strength",
    "overturning_thrust",
    "sliding_resistance",
    "sloping_at_rest_ratio",
    "soil_push",
    "stand_of",
    "strip_pressure",
    "wall_body",
    "wet_soil_push",
]
