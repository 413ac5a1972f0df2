"""The chapter on the year: warmth, wood, frost, and what to do about them."""

from bermwright.book.pages.winter.chapter import winter_document, winter_pages

__all__ = ["winter_document", "winter_pages"]
