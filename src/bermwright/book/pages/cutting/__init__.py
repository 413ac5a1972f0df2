"""The pages on sawing: what is cut from which board, the jig, logs, end walls, salvaged windows."""

from bermwright.book.pages.cutting.chapter import VaultCut, cutting_pages
from bermwright.book.pages.cutting.document import cut_document
from bermwright.book.pages.cutting.walls import wall_pages
from bermwright.book.pages.cutting.windows import window_pages

__all__ = ["VaultCut", "cut_document", "cutting_pages", "wall_pages", "window_pages"]
