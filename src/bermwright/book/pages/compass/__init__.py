"""The chapter of the dome's compass: what to set for every course, who lays it, and what to beware of.

Start reading at `chapter.py`.
"""

from bermwright.book.pages.compass.chapter import compass_blocks, compass_chapter, compass_document
from bermwright.book.pages.compass.measured import measured_blocks

__all__ = ["compass_blocks", "compass_chapter", "compass_document", "measured_blocks"]
