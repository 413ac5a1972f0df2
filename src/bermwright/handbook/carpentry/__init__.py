"""Logs, notches, posts in the ground, lintels, floors, bent boards, and grading by eye.

Start reading at `upright.py`: a post that soil leans against. `laminations.py` holds the slip of nails
between any number of boards.
"""

from __future__ import annotations

from bermwright.handbook.carpentry.floors import (
    floor_frequency,
    foot_deflection,
    foot_deflection_limit,
    joist_share,
)
from bermwright.handbook.carpentry.grading import Graded, visual_grade
from bermwright.handbook.carpentry.laminations import Layered, curving_stress, kept_stress, layered_stack
from bermwright.handbook.carpentry.lintels import LintelLoad, lintel_load
from bermwright.handbook.carpentry.notches import notch_factor
from bermwright.handbook.carpentry.round import (
    Round,
    round_section,
    round_shear_stress,
    seat_width,
    tapered_diameter,
)
from bermwright.handbook.carpentry.upright import (
    PostForces,
    free_post_holds,
    free_post_moment,
    held_foot_holds,
    leaning_post,
    standing_post,
)

__all__ = [
    "Graded",
    "Layered",
    "LintelLoad",
    "PostForces",
    "Round",
    "curving_stress",
    "floor_frequency",
    "foot_deflection",
    "foot_deflection_limit",
    "free_post_holds",
    "free_post_moment",
    "held_foot_holds",
    "joist_share",
    "kept_stress",
    "layered_stack",
    "leaning_post",
    "lintel_load",
    "notch_factor",
    "round_section",
    "round_shear_stress",
    "seat_width",
    "standing_post",
    "tapered_diameter",
    "visual_grade",
]
