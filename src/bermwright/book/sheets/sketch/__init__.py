"""Drawings of a sketched curve: its points with the fitted curve, and the arcs that stand for it."""

from __future__ import annotations

from bermwright.book.sheets.sketch.arcs import arc_sheet
from bermwright.book.sheets.sketch.fitted import fitted_sheet

__all__ = ["arc_sheet", "fitted_sheet"]
