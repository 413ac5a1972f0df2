"""The chapter of plans: the house from above, along and from outside."""

from __future__ import annotations

from bermwright.book.pages.plans.chapter import plans_chapter

__all__ = ["plans_chapter"]
