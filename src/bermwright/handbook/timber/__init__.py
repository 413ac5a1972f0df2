"""Timber after EN 1995-1-1, and ribs nailed together from short pieces.

Start reading at `factors.py`; `joint.py` holds what no standard covers: butt joints in a nailed rib.
"""

from bermwright.handbook.timber.bearing import bearing_strength_at_angle, effective_contact_length
from bermwright.handbook.timber.buckling import (
    buckling_factor,
    curvature_factor,
    relative_slenderness,
    relative_slenderness_of_force,
    slenderness,
)
from bermwright.handbook.timber.deflection import final_deflection, simple_beam_deflection
from bermwright.handbook.timber.factors import (
    deformation_factor,
    depth_factor,
    design_strength,
    modification_factor,
)
from bermwright.handbook.timber.joint import (
    Coupling,
    NailForce,
    RibOfPieces,
    SingleJoint,
    joint_nail_force,
    nail_coupling,
    pieces_in_rib,
    single_joint,
)
from bermwright.handbook.timber.nailing import (
    NailDistances,
    effective_nails,
    nail_distances,
    pointside_penetration,
    splitting_thickness,
)
from bermwright.handbook.timber.nails import (
    ShearModes,
    double_shear,
    embedment_strength,
    single_shear,
    yield_moment,
)
from bermwright.handbook.timber.planks import PlankDemand, plank_demand
from bermwright.handbook.timber.section import Section, laminated_section, rectangular_section
from bermwright.handbook.timber.sideways import (
    critical_bending_stress,
    critical_bending_stress_general,
    critical_moment_held_edge,
    effective_length,
    relative_slenderness_bending,
    sideways_factor,
    sideways_ratio,
)
from bermwright.handbook.timber.slip import (
    Composite,
    composite_stiffness,
    final_modulus,
    final_slip_modulus,
    nail_slip_modulus,
    ultimate_slip_modulus,
)
from bermwright.handbook.timber.stress import (
    bending_and_compression,
    bending_and_tension,
    buckling_and_bending,
    shear_stress,
)

__all__ = [
    "Composite",
    "Coupling",
    "NailDistances",
    "NailForce",
    "PlankDemand",
    "RibOfPieces",
    "Section",
    "ShearModes",
    "SingleJoint",
    "bearing_strength_at_angle",
    "bending_and_compression",
    "bending_and_tension",
    "buckling_and_bending",
    "buckling_factor",
    "composite_stiffness",
    "critical_bending_stress",
    "critical_bending_stress_general",
    "critical_moment_held_edge",
    "curvature_factor",
    "deformation_factor",
    "depth_factor",
    "design_strength",
    "double_shear",
    "effective_contact_length",
    "effective_length",
    "effective_nails",
    "embedment_strength",
    "final_deflection",
    "final_modulus",
    "final_slip_modulus",
    "joint_nail_force",
    "laminated_section",
    "modification_factor",
    "nail_coupling",
    "nail_distances",
    "nail_slip_modulus",
    "pieces_in_rib",
    "plank_demand",
    "pointside_penetration",
    "rectangular_section",
    "relative_slenderness",
    "relative_slenderness_bending",
    "relative_slenderness_of_force",
    "shear_stress",
    "sideways_factor",
    "sideways_ratio",
    "simple_beam_deflection",
    "single_joint",
    "single_shear",
    "slenderness",
    "splitting_thickness",
    "ultimate_slip_modulus",
    "yield_moment",
]
