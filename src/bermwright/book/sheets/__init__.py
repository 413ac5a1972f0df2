"""The drawings of the book: sections, details, ribs, the building's axis, and the sheet round them.

Start with `section.py`; `scene.py` cuts the surfaces, `earth.py` and `shell.py` draw them,
`marks.py` draws what rules add.
"""

from bermwright.book.sheets.marks import draw_mark
from bermwright.book.sheets.paper import Board, Figures
from bermwright.book.sheets.scene import Scene, Support, scene_of
from bermwright.book.sheets.section import Dress, scene_sheet, section_sheet, stage_sheet

__all__ = [
    "Board",
    "Dress",
    "Figures",
    "Scene",
    "Support",
    "draw_mark",
    "scene_of",
    "scene_sheet",
    "section_sheet",
    "stage_sheet",
]
