"""From numbers to wood: the curve, the pieces of a rib, the templates. Start reading at `curve.py`."""

from __future__ import annotations

from bermwright.book.pages.setting_out.curve import setting_out_pages
from bermwright.book.pages.setting_out.printing import template_pages
from bermwright.book.pages.setting_out.rib import rib_pages

__all__ = ["rib_pages", "setting_out_pages", "template_pages"]
