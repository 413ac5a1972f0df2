"""Lessons: their files to lessons, and lessons to text and plain data.

Start reading at `reading.py`.
"""

from __future__ import annotations

from bermwright.formats.lessons.plain import lesson_data, lessons_data
from bermwright.formats.lessons.reading import house_tables, house_text, read_lesson
from bermwright.formats.lessons.telling import lesson_text, lessons_text

__all__ = [
    "house_tables",
    "house_text",
    "lesson_data",
    "lesson_text",
    "lessons_data",
    "lessons_text",
    "read_lesson",
]
