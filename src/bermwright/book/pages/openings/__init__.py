"""The chapter on openings and ends."""

from __future__ import annotations

from bermwright.book.pages.openings.chapter import openings_chapter

__all__ = ["openings_chapter"]
