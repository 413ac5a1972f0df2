"""The drawings of the shape advice: curves over each other, and their bending stage by stage."""

from bermwright.book.sheets.shape.curves import DrawnCurve, curves_sheet
from bermwright.book.sheets.shape.stages import Panel, stages_sheet

__all__ = ["DrawnCurve", "Panel", "curves_sheet", "stages_sheet"]
