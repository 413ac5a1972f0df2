"""Patterns: curved faces unrolled, and the lines in which they meet.

Start reading at `meeting.py` (a small vault, box or pipe that meets a shell); `gores.py` cuts sheets for
vaults and domes, `cones.py` unrolls cones, `hips.py` draws hip ribs.
"""

from bermwright.handbook.developing.cones import ConePattern, cone_pattern
from bermwright.handbook.developing.gores import gore_area, gore_edge_excess, gore_half_width, strips_needed
from bermwright.handbook.developing.hips import hip_run
from bermwright.handbook.developing.meeting import PipeCut, pipe_cut, reach_of_dome, reach_of_vault

__all__ = [
    "ConePattern",
    "PipeCut",
    "cone_pattern",
    "gore_area",
    "gore_edge_excess",
    "gore_half_width",
    "hip_run",
    "pipe_cut",
    "reach_of_dome",
    "reach_of_vault",
    "strips_needed",
]
