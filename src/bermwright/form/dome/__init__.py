"""A dome's geometry: its inner face, its courses with chains and pieces, its pivots, its closing.

Knows no strength: nothing here says that a dome stands. Start reading at `building.py`.
"""

from bermwright.form.dome.building import DomeUnknownError, dome_form, missing_for_dome
from bermwright.form.dome.built import Correction, Reading, correct
from bermwright.form.dome.profile import DomeProblemError, inner_face, outer_face
from bermwright.form.dome.shapes import (
    Closing,
    Course,
    CrewPart,
    DomeForm,
    Face,
    Piece,
    PivotPlace,
    PivotSetting,
)

__all__ = [
    "Closing",
    "Correction",
    "Course",
    "CrewPart",
    "DomeForm",
    "DomeProblemError",
    "DomeUnknownError",
    "Face",
    "Piece",
    "PivotPlace",
    "PivotSetting",
    "Reading",
    "correct",
    "dome_form",
    "inner_face",
    "missing_for_dome",
    "outer_face",
]
