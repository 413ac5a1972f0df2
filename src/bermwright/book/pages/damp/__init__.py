"""The chapter on damp and air."""

from __future__ import annotations

from bermwright.book.pages.damp.chapter import damp_chapter

__all__ = ["damp_chapter"]
