"""Drawings as files: single ones in `files.py`, the drawing set and its parts in `sets.py`."""

from __future__ import annotations

from bermwright.app.drawing.files import CORNER, KINDS, Drawn, Order, draw_file, not_checked

__all__ = ["CORNER", "KINDS", "Drawn", "Order", "draw_file", "not_checked"]
