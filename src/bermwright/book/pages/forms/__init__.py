"""The chapter of boxes, arch forms, sheets and meeting lines. Start reading at `chapter.py`."""

from bermwright.book.pages.forms.chapter import forms_blocks, forms_chapter, forms_document, printed_patterns

__all__ = ["forms_blocks", "forms_chapter", "forms_document", "printed_patterns"]
