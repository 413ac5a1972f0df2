"""Two sections over each other. Start reading at `overlay.py`."""

from __future__ import annotations

from bermwright.book.sheets.compared.overlay import overlay_sheet

__all__ = ["overlay_sheet"]
