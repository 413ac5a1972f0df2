"""The pages of shape advice: which curve, why, what it bends stage by stage, and in which order to fill."""

from bermwright.book.pages.shape.advice import shape_document, shape_pages

__all__ = ["shape_document", "shape_pages"]
