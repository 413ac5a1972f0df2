"""Timber to EN 1995-1-1: factors, stresses in members, buckling, nails, and the butt joint of a rib.

Start reading at `factors.py`, then `stresses.py`.
"""

from __future__ import annotations

from bermwright.handbook.timber.buckling import (
    buckling_reduction,
    lateral_critical_stress,
    lateral_reduction,
    relative_slenderness,
)
from bermwright.handbook.timber.factors import (
    MATERIAL_FACTOR_SOLID,
    deformation_factor,
    depth_factor,
    design_strength,
    final_deflection,
    modification_factor,
)
from bermwright.handbook.timber.joint import NailGroup, joint_stiffness, largest_nail_force, nail_group
from bermwright.handbook.timber.nails import (
    NailSpacings,
    bearing_strength,
    effective_number,
    nail_spacings,
    nail_yield_moment,
    single_shear,
    slip_modulus,
)
from bermwright.handbook.timber.stresses import (
    bending_with_compression,
    bending_with_tension,
    compression_at_angle,
    plank_bending,
    plank_shear,
    shear_stress,
)

__all__ = [
    "MATERIAL_FACTOR_SOLID",
    "NailGroup",
    "NailSpacings",
    "bearing_strength",
    "bending_with_compression",
    "bending_with_tension",
    "buckling_reduction",
    "compression_at_angle",
    "deformation_factor",
    "depth_factor",
    "design_strength",
    "effective_number",
    "final_deflection",
    "joint_stiffness",
    "largest_nail_force",
    "lateral_critical_stress",
    "lateral_reduction",
    "modification_factor",
    "nail_group",
    "nail_spacings",
    "nail_yield_moment",
    "plank_bending",
    "plank_shear",
    "relative_slenderness",
    "shear_stress",
    "single_shear",
    "slip_modulus",
]
