"""The chapters on the house as one body, and on raising its ribs."""

from __future__ import annotations

from bermwright.book.pages.whole.balance import balance_chapter
from bermwright.book.pages.whole.raising import raising_chapter

__all__ = ["balance_chapter", "raising_chapter"]
