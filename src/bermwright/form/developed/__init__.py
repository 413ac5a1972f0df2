"""Patterns of boxes, arch forms, sheets and meeting lines: flat outlines in metres, with what to check.

Start reading at `gathering.py`, which finds everything that a house file describes.
"""

from bermwright.form.developed.gathering import Forms, Waiting, forms_of
from bermwright.form.developed.shapes import ArchForm, Box, CordTable, Meeting, Pattern, SheetPlan, Slat
from bermwright.form.developed.slip import WET_DAYS, Asked, SlipPlan

__all__ = [
    "WET_DAYS",
    "ArchForm",
    "Asked",
    "Box",
    "CordTable",
    "Forms",
    "Meeting",
    "Pattern",
    "SheetPlan",
    "Slat",
    "SlipPlan",
    "Waiting",
    "forms_of",
]
