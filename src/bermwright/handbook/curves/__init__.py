"""Arch curves: closed forms, chains of arcs, and the curve free of bending "under cover".

Every curve runs from its left foot over the crown to its right foot, x from mid-span, z from the
springing line. Start reading at `line.py`, then `catenaries.py`; `cover.py` is for buried vaults.
"""
# ruff: noqa: I001  (packed, so that a page shows the whole subject)
# fmt: off

from bermwright.handbook.curves.arcs import (
    Arc, arc_chain, centre_chain, egg_arcs, offset_arcs, pointed_arcs, pointed_half_width, pointed_radius,
    pointed_rise, tangent_break, three_centred_arcs)
from bermwright.handbook.curves.catenaries import (
    CatenaryForces, catenary, catenary_area, catenary_forces, catenary_height, catenary_length,
    catenary_parameter, catenary_parameter_from_length, catenary_radius, catenary_rise, catenary_span,
    catenary_springing_angle)
from bermwright.handbook.curves.conics import (
    ellipse, ellipse_height, even_pressure_proportion, parabola, parabola_crown_radius, parabola_height,
    parabola_length, parabola_thrust, segment, segment_angle, segment_radius)
from bermwright.handbook.curves.cover import CoverCurve, limiting_rise, under_cover
from bermwright.handbook.curves.drawn import through_points
from bermwright.handbook.curves.level import (
    LevelCoverForces, depth_for_weight_ratio, level_cover, level_cover_curvature, level_cover_depth,
    level_cover_forces, level_cover_parameter, level_cover_springing_angle, single_nosed_cover)
from bermwright.handbook.curves.line import PlaneCurve
from bermwright.handbook.curves.marching import CoverLoad
from bermwright.handbook.curves.measures import (
    Strip, area_centroid, enclosed_area, headroom_strip, line_centroid, parallel)

__all__ = [
    "Arc", "CatenaryForces", "CoverCurve", "CoverLoad", "LevelCoverForces", "PlaneCurve", "Strip",
    "arc_chain", "area_centroid", "catenary", "catenary_area", "catenary_forces", "catenary_height",
    "catenary_length", "catenary_parameter", "catenary_parameter_from_length", "catenary_radius",
    "catenary_rise", "catenary_span", "catenary_springing_angle", "centre_chain", "depth_for_weight_ratio",
    "egg_arcs", "ellipse", "ellipse_height", "enclosed_area", "even_pressure_proportion", "headroom_strip",
    "level_cover", "level_cover_curvature", "level_cover_depth", "level_cover_forces",
    "level_cover_parameter", "level_cover_springing_angle", "limiting_rise", "line_centroid", "offset_arcs",
    "parabola", "parabola_crown_radius", "parabola_height", "parabola_length", "parabola_thrust", "parallel",
    "pointed_arcs", "pointed_half_width", "pointed_radius", "pointed_rise", "segment", "segment_angle",
    "segment_radius", "single_nosed_cover", "tangent_break", "three_centred_arcs", "through_points",
    "under_cover"]
