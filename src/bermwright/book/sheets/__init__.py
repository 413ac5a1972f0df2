"""The drawings of the book: sections, details, ribs, the building's axis, and the sheet round them.

Start with `section.py`; `scene.py` cuts the surfaces, `earth.py` and `shell.py` draw them,
`marks.py` draws what rules add.
"""

from bermwright.book.sheets.axis import AxisStep, axis_strip
from bermwright.book.sheets.details import detail_sheet, rib_sheet, rib_sheets
from bermwright.book.sheets.frame import Placed, TitleBlock, frame_sheet
from bermwright.book.sheets.marks import draw_mark
from bermwright.book.sheets.paper import Board, Figures
from bermwright.book.sheets.plate import legend_sheet, section_plate
from bermwright.book.sheets.scene import Scene, Support, scene_of, supports_of
from bermwright.book.sheets.section import Dress, scene_sheet, section_sheet, stage_sheet

__all__ = [
    "AxisStep",
    "Board",
    "Dress",
    "Figures",
    "Placed",
    "Scene",
    "Support",
    "TitleBlock",
    "axis_strip",
    "detail_sheet",
    "draw_mark",
    "frame_sheet",
    "legend_sheet",
    "rib_sheet",
    "rib_sheets",
    "scene_of",
    "scene_sheet",
    "section_plate",
    "section_sheet",
    "stage_sheet",
    "supports_of",
]
