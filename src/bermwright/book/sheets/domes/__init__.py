"""The sheets of a drawing set that show a dome. Everything stands in `leaves.py`."""

from __future__ import annotations

from bermwright.book.sheets.domes.leaves import dome_leaves

__all__ = ["dome_leaves"]
