"""The chapter on the room under the curve."""

from __future__ import annotations

from bermwright.book.pages.room.chapter import room_chapter

__all__ = ["room_chapter"]
