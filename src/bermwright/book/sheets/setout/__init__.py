"""Sheets of setting out: a plan with pegs, boards, dig or mound, and a sheet for each day of work.

Start reading at `plan.py`; `day.py` puts the numbers, tick boxes and cautions beside it.
"""

from __future__ import annotations

from bermwright.book.sheets.setout.between import between_sheet
from bermwright.book.sheets.setout.curve import curve_sheet
from bermwright.book.sheets.setout.day import Day, day_sheet
from bermwright.book.sheets.setout.ladder import ladder_sheet
from bermwright.book.sheets.setout.plan import plan_sheet
from bermwright.book.sheets.setout.reach import Shows

__all__ = ["Day", "Shows", "between_sheet", "curve_sheet", "day_sheet", "ladder_sheet", "plan_sheet"]
