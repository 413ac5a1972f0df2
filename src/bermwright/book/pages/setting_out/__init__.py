"""From numbers to ground and wood: pegs, the curve, the pieces of a rib, the templates.

Start reading at `curve.py` and `ground.py`.
"""

from __future__ import annotations

from bermwright.book.pages.setting_out.curve import setting_out_pages
from bermwright.book.pages.setting_out.daily.days import day_sheets
from bermwright.book.pages.setting_out.document import setout_document
from bermwright.book.pages.setting_out.ground import ground_pages
from bermwright.book.pages.setting_out.printing import curve_pages, template_pages
from bermwright.book.pages.setting_out.rib import rib_pages
from bermwright.book.pages.setting_out.shop import shop_pages

__all__ = [
    "curve_pages",
    "day_sheets",
    "ground_pages",
    "rib_pages",
    "setout_document",
    "setting_out_pages",
    "shop_pages",
    "template_pages",
]
