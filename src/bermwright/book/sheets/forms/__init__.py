"""Patterns on paper: small with their measures, at full size on one sheet, or cut into tiles.

Start reading at `small.py`; `full.py` prints true.
"""

from bermwright.book.sheets.forms.full import full_sheet, tile_count, tiled
from bermwright.book.sheets.forms.slip import slip_sheet
from bermwright.book.sheets.forms.small import pattern_sheet

__all__ = ["full_sheet", "pattern_sheet", "slip_sheet", "tile_count", "tiled"]
