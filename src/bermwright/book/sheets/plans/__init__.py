"""Plans, elevations and the section along a vault: drawn from its closed bodies.

Each gives one Sheet at a scale of ISO 5455 that fits the room it is given; frames come later.
"""

from bermwright.book.sheets.plans.along import section_along
from bermwright.book.sheets.plans.dome import dome_cut, dome_elevation, dome_plan
from bermwright.book.sheets.plans.elevations import elevation_sheet
from bermwright.book.sheets.plans.floor import floor_plan
from bermwright.book.sheets.plans.parts import are_placed, parts_plan
from bermwright.book.sheets.plans.site import site_plan

__all__ = [
    "are_placed",
    "dome_cut",
    "dome_elevation",
    "dome_plan",
    "elevation_sheet",
    "floor_plan",
    "parts_plan",
    "section_along",
    "site_plan",
]
