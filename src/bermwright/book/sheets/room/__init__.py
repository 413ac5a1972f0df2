"""The section as a room: where one stands, sits, lies and walks through."""

from __future__ import annotations

from bermwright.book.sheets.room.strips import room_sheet

__all__ = ["room_sheet"]
