"""House to pegs, heights, dig and ordinates: what leaves the drawing for the ground and the workshop.

Start reading at `whole.py`; the places are those of one vault: along its axis from the middle of the front
rib, across to the right as seen walking in, up from the finished floor.
"""

from __future__ import annotations

from bermwright.form.setout.curve import CurveOut, MeasuredRow, compare_ordinates
from bermwright.form.setout.earthwork.dig import Cut, Dig, dig_of
from bermwright.form.setout.ground import Surface, house_surface
from bermwright.form.setout.heights import Heights
from bermwright.form.setout.levelling import Levels, Reading, reduce_readings
from bermwright.form.setout.nouns import (
    BatterBoard,
    CheckLength,
    LevelRow,
    Peg,
    Plan,
    SetOutError,
    StringLine,
)
from bermwright.form.setout.rounds import RoundOut, round_out
from bermwright.form.setout.surveyed import Surveyed, SurveyPoint, surveyed
from bermwright.form.setout.whole import SetOut, setting_out, tape_of

__all__ = [
    "BatterBoard", "CheckLength", "CurveOut", "Cut", "Dig", "Heights", "LevelRow", "Levels",
    "MeasuredRow", "Peg", "Plan", "Reading", "RoundOut", "SetOut", "SetOutError", "StringLine", "Surface",
    "SurveyPoint", "Surveyed", "compare_ordinates", "dig_of", "house_surface", "reduce_readings", "round_out",
    "setting_out", "surveyed",
    "tape_of",
]  # fmt: skip
