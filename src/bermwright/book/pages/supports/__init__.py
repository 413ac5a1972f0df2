"""The chapter on what carries the feet."""

from __future__ import annotations

from bermwright.book.pages.supports.chapter import supports_chapter
from bermwright.book.pages.supports.drawings import joint_drawing, wall_drawing

__all__ = ["joint_drawing", "supports_chapter", "wall_drawing"]
