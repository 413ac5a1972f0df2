"""Logs measured and sawn. Start reading at `pattern.py`."""

from bermwright.handbook.boards.sawing.logs import (
    cone_volume,
    huber_volume,
    newton_volume,
    quarter_girth_volume,
    smalian_volume,
)
from bermwright.handbook.boards.sawing.pattern import Heart, LogBoards, live_sawn, strongest_beam
from bermwright.handbook.boards.sawing.rules import doyle_volume, international_volume, scribner_volume

__all__ = [
    "Heart",
    "LogBoards",
    "cone_volume",
    "doyle_volume",
    "huber_volume",
    "international_volume",
    "live_sawn",
    "newton_volume",
    "quarter_girth_volume",
    "scribner_volume",
    "smalian_volume",
    "strongest_beam",
]
