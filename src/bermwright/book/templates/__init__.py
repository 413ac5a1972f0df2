"""Full-size templates as sheets: pieces laid flat, cut onto paper, with marks that prove the print.

Start reading at `rib.py`; `tiles.py` knows paper, `drawn.py` knows what is on a template.
"""

from __future__ import annotations

from bermwright.book.templates.curve import curve_count, curve_templates, whole_curves
from bermwright.book.templates.lengths import Lengths
from bermwright.book.templates.rib import (
    TemplateSummary,
    pattern_title,
    rib_templates,
    summed_templates,
    template_count,
    template_summary,
    whole_templates,
)
from bermwright.book.templates.sheets import Stamp
from bermwright.book.templates.tiles import PAPERS, TRUE
from bermwright.form.rib.flat import Flat, Pattern, lay_flat, patterns
from bermwright.form.rib.nails import Nailing, nail_spots

__all__ = [
    "PAPERS",
    "TRUE",
    "Flat",
    "Lengths",
    "Nailing",
    "Pattern",
    "Stamp",
    "TemplateSummary",
    "curve_count",
    "curve_templates",
    "lay_flat",
    "nail_spots",
    "pattern_title",
    "patterns",
    "rib_templates",
    "summed_templates",
    "template_count",
    "template_summary",
    "whole_curves",
    "whole_templates",
]
