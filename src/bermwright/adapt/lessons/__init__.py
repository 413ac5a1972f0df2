"""Lessons from failures that others have published: each as a small house, and its twin with the remedy.

A lesson changes a few lines of one ordinary house. What is not known of the real one is assumed, and moved
through a range, so that the answer does not hang on one guess. Start reading at `nouns.py`.
"""

from __future__ import annotations

from bermwright.adapt.lessons.changing import NoSuchPlaceError, changed
from bermwright.adapt.lessons.nouns import Answer, Built, Finds, Lesson, Moved, RestsOn
from bermwright.adapt.lessons.sweep import Tally, drawn, shares, tally

__all__ = [
    "Answer",
    "Built",
    "Finds",
    "Lesson",
    "Moved",
    "NoSuchPlaceError",
    "RestsOn",
    "Tally",
    "changed",
    "drawn",
    "shares",
    "tally",
]
