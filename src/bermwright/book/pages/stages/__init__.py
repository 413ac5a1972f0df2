"""The pages of the building stages: do, measure, stop, sign. Start reading at `pages.py`."""

from __future__ import annotations

from bermwright.book.pages.stages.pages import paged, stage_pages

__all__ = ["paged", "stage_pages"]
