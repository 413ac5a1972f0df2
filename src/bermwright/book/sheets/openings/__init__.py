"""Elevations of the ends, and the shell unrolled with its openings, trimmers and headers."""

from __future__ import annotations

from bermwright.book.sheets.openings.ends import PAGE, end_sheet
from bermwright.book.sheets.openings.shell import hole_sheet, shell_sheet

__all__ = ["PAGE", "end_sheet", "hole_sheet", "shell_sheet"]
