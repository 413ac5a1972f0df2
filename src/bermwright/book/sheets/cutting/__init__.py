"""Drawings of sawing: boards with their marks, outlines beside each other, jig, nails, labels, end walls."""

from bermwright.book.sheets.cutting.boards import BoardPattern, board_patterns, board_sheets
from bermwright.book.sheets.cutting.end_wall import end_wall_sheet
from bermwright.book.sheets.cutting.glazing import door_sheet, fit_sheet, rebate_sheet
from bermwright.book.sheets.cutting.jig import jig_sheet
from bermwright.book.sheets.cutting.labels import label_sheets
from bermwright.book.sheets.cutting.logs import log_sheet
from bermwright.book.sheets.cutting.nails import nail_sheet
from bermwright.book.sheets.cutting.nest import nest_sheet, pair_sheet

__all__ = [
    "BoardPattern",
    "board_patterns",
    "board_sheets",
    "door_sheet",
    "end_wall_sheet",
    "fit_sheet",
    "jig_sheet",
    "label_sheets",
    "log_sheet",
    "nail_sheet",
    "nest_sheet",
    "pair_sheet",
    "rebate_sheet",
]
