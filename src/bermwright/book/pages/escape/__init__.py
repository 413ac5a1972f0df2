"""The chapter on fire and the ways out."""

from __future__ import annotations

from bermwright.book.pages.escape.chapter import escape_chapter

__all__ = ["escape_chapter"]
