"""Drawings of the house as one body: every force on it in section and in plan, and ribs being raised."""

from __future__ import annotations

from bermwright.book.sheets.whole.forces import force_plan, force_section
from bermwright.book.sheets.whole.raising import raising_sheet

__all__ = ["force_plan", "force_section", "raising_sheet"]
