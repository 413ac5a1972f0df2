"""The chapter "What would make it hold", when a book is asked for it."""

from __future__ import annotations

from bermwright.book.pages.mend.chapter import mend_pages

__all__ = ["mend_pages"]
