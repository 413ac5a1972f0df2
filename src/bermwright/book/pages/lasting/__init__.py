"""The chapter on what has to last unseen."""

from bermwright.book.pages.lasting.chapter import lasting_chapter

__all__ = ["lasting_chapter"]
