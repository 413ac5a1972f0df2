"""Sheets written out: SVG for screen and book, PDF for print, DXF for other programs.

Start with `lower.py` (items drawn out into plain fills, strokes, arcs and text) and `styles.py`
(pens, colours); then each writer is a short `match` over plain items.
"""

from bermwright.formats.drawings.dxf import dxf
from bermwright.formats.drawings.pdf import DrawingError, pdf
from bermwright.formats.drawings.svg import svg

__all__ = ["DrawingError", "dxf", "pdf", "svg"]
