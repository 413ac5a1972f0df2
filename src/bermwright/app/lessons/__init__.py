"""Lessons: the files that come with the program, and running their houses.

Start reading at `teaching.py`.
"""

from __future__ import annotations

from bermwright.app.lessons.teaching import (
    NoSuchLessonError,
    Taught,
    all_lessons,
    lesson_named,
    look_with,
    ordinary,
    reveal,
)

__all__ = [
    "NoSuchLessonError",
    "Taught",
    "all_lessons",
    "lesson_named",
    "look_with",
    "ordinary",
    "reveal",
]
