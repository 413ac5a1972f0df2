"""Drawings of what carries the feet: the joint of vault and wall, and the whole wall with its forces.

Start reading at `forces.py`: every force is one arrow with a letter and a line of words.
"""

from __future__ import annotations

from bermwright.book.sheets.supports.forces import Force
from bermwright.book.sheets.supports.joint import Joint, joint_sheet
from bermwright.book.sheets.supports.wall import WallView, wall_sheet

__all__ = ["Force", "Joint", "WallView", "joint_sheet", "wall_sheet"]
