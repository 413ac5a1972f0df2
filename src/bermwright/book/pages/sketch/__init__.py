"""The pages on a sketched curve: what it is, what it bends, and the arcs that stand for it."""

from __future__ import annotations

from bermwright.book.pages.sketch.document import sketch_document

__all__ = ["sketch_document"]
