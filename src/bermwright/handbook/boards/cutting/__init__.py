"""Cutting plans with a certified bound. Start reading at `best.py`."""

from bermwright.handbook.boards.cutting.best import best_cutting, cut_all_at_once, cut_board_by_board
from bermwright.handbook.boards.cutting.columns import ways_worth
from bermwright.handbook.boards.cutting.kernel import fill_exactly
from bermwright.handbook.boards.cutting.nouns import Cut, CuttingPlan, Stretch, Wanted
from bermwright.handbook.boards.cutting.sequential import leaned_areas

__all__ = [
    "Cut",
    "CuttingPlan",
    "Stretch",
    "Wanted",
    "best_cutting",
    "cut_all_at_once",
    "cut_board_by_board",
    "fill_exactly",
    "leaned_areas",
    "ways_worth",
]
