"""Plans with the ways out."""

from __future__ import annotations

from bermwright.book.sheets.escape.plan import escape_plan

__all__ = ["escape_plan"]
