"""The chapter on openings and ends."""

from __future__ import annotations

from bermwright.book.pages.openings.chapter import openings_chapter
from bermwright.book.pages.openings.drawings import end_drawings, shell_drawings

__all__ = ["end_drawings", "openings_chapter", "shell_drawings"]
