"""What holds the feet of a vault: rings and bond beams, ties and struts, wall sections, sockets.

Start reading at `ring.py`; `section.py` holds what a cut through a wall or footing can take.
"""

from __future__ import annotations

from bermwright.handbook.holding.ring import (
    anchorage_length,
    bar_area,
    beam_moment,
    bond_strength,
    concrete_tension,
    lap_length,
    ring_tension,
)
from bermwright.handbook.holding.section import (
    course_shear,
    pressed_moment,
    pressed_strut,
    reinforced_moment,
    reinforced_shear,
    uncracked_moment,
)
from bermwright.handbook.holding.socket import lip_shear, split_capacity

__all__ = [
    "anchorage_length",
    "bar_area",
    "beam_moment",
    "bond_strength",
    "concrete_tension",
    "course_shear",
    "lap_length",
    "lip_shear",
    "pressed_moment",
    "pressed_strut",
    "reinforced_moment",
    "reinforced_shear",
    "ring_tension",
    "split_capacity",
    "uncracked_moment",
]
