"""Domes by hand: courses, chains and pivots, crews, openings, bricks, and a course that went wrong.

A profile is the inner face from the foot to the crown: heights over the springing and radii from the
axis. Start reading at `courses.py`; `pivots.py` holds chain and rod, `built.py` what was measured.
"""

from bermwright.handbook.compass.bricks import brick_taper, bricks_in_ring, ring_joint
from bermwright.handbook.compass.built import RingFit, Roundness, fit_ring, recover, ring_roundness
from bermwright.handbook.compass.courses import Courses, course_radius, level_courses, tilted_courses
from bermwright.handbook.compass.crews import course_of_lead, start_shift, work_shares
from bermwright.handbook.compass.openings import free_length, opening_angle, round_head_width
from bermwright.handbook.compass.pivots import (
    chain_angle,
    chain_from_pivot,
    pivot_clearance,
    rod_level_at_wall,
)
from bermwright.handbook.compass.surface import dome_surface, dome_volume

__all__ = [
    "Courses",
    "RingFit",
    "Roundness",
    "brick_taper",
    "bricks_in_ring",
    "chain_angle",
    "chain_from_pivot",
    "course_of_lead",
    "course_radius",
    "dome_surface",
    "dome_volume",
    "fit_ring",
    "free_length",
    "level_courses",
    "opening_angle",
    "pivot_clearance",
    "recover",
    "ring_joint",
    "ring_roundness",
    "rod_level_at_wall",
    "round_head_width",
    "start_shift",
    "tilted_courses",
    "work_shares",
]
