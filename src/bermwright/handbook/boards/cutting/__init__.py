"""Cutting plans with a certified bound. Start reading at `best.py`."""

from bermwright.handbook.boards.cutting.best import best_cutting
from bermwright.handbook.boards.cutting.nouns import Cut, CuttingPlan, Stretch, Wanted

__all__ = ["Cut", "CuttingPlan", "Stretch", "Wanted", "best_cutting"]
