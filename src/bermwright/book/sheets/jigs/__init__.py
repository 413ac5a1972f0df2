"""Simple tools and jigs as dimensioned drawings, from the measures of the house. Start at `whole.py`."""

from __future__ import annotations

from bermwright.book.sheets.jigs.domes import dome_tools
from bermwright.book.sheets.jigs.whole import jig_sheets

__all__ = ["dome_tools", "jig_sheets"]
