"""Everything of timber beside ribs and planks, with its size: counted and cut from one list.

`listing.py` says what there is, `rows.py` counts it.
"""

from __future__ import annotations

from bermwright.takeoff.members.listing import Wooden, WoodMember, trimmer_ribs, wooden_members
from bermwright.takeoff.members.rows import member_rows

__all__ = ["WoodMember", "Wooden", "member_rows", "trimmer_ribs", "wooden_members"]
