"""Drawings of a dome for its compass: section, plan of a ring, and the band that is glued to the pole.

Start reading at `section.py`; `band.py` prints true.
"""

from bermwright.book.sheets.compass.band import Band, band_of_chain, band_of_heights, band_sheets
from bermwright.book.sheets.compass.plan import ring_sheet
from bermwright.book.sheets.compass.section import dome_section
from bermwright.book.sheets.compass.turns import turns_sheet

__all__ = [
    "Band",
    "band_of_chain",
    "band_of_heights",
    "band_sheets",
    "dome_section",
    "ring_sheet",
    "turns_sheet",
]
