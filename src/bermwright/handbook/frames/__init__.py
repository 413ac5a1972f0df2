"""Plane rib frames: second order, the soil law over the stages, joints, feet, props, buckling.

Start reading at `nouns.py` (what goes in and comes out), then `solving.py`. The rest is compiled:
`kernel.py` holds the iteration, `soil_law.py` the soil, `band.py` the equations, `links.py` props and
ties, `sturm.py` buckling.
"""

from __future__ import annotations

from bermwright.handbook.frames.buckling import buckling_factor
from bermwright.handbook.frames.nouns import (
    FIXED,
    GROUND,
    PINNED,
    Frame,
    Member,
    Response,
    Soil,
    States,
    Works,
)
from bermwright.handbook.frames.solving import solve

__all__ = [
    "FIXED",
    "GROUND",
    "PINNED",
    "Frame",
    "Member",
    "Response",
    "Soil",
    "States",
    "Works",
    "buckling_factor",
    "solve",
]
