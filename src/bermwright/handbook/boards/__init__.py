"""Boards and nails counted: cutting plans, pieces out of stock lengths, nails and what they weigh.

Start reading at `cutting/best.py`.
"""

from bermwright.handbook.boards.cutting import Cut, CuttingPlan, Stretch, Wanted, best_cutting
from bermwright.handbook.boards.nails import nail_mass, nails_along
from bermwright.handbook.boards.sheets import strips_across
from bermwright.handbook.boards.stock import first_fit, pieces_per_board

__all__ = [
    "Cut",
    "CuttingPlan",
    "Stretch",
    "Wanted",
    "best_cutting",
    "first_fit",
    "nail_mass",
    "nails_along",
    "pieces_per_board",
    "strips_across",
]
