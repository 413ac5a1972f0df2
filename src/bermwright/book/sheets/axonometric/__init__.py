"""The house as lines seen from above, where no model can be turned. Start reading at `lines.py`."""

from __future__ import annotations

from bermwright.book.sheets.axonometric.lines import axonometric_sheet

__all__ = ["axonometric_sheet"]
