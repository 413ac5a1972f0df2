"""Cut lists from the boards at hand, end walls from offcuts. Start reading at `plan.py`."""

from bermwright.takeoff.cutting.end_wall import EndWall, Gap, WallPiece, end_wall, end_walls
from bermwright.takeoff.cutting.nouns import (
    CutList,
    HousePlan,
    LogYield,
    Missing,
    Offcut,
    Part,
    PieceKind,
    Placed,
    SawnBoard,
    SawWords,
)
from bermwright.takeoff.cutting.plan import NothingFitsError, house_plan

__all__ = [
    "CutList",
    "EndWall",
    "Gap",
    "HousePlan",
    "LogYield",
    "Missing",
    "NothingFitsError",
    "Offcut",
    "Part",
    "PieceKind",
    "Placed",
    "SawWords",
    "SawnBoard",
    "WallPiece",
    "end_wall",
    "end_walls",
    "house_plan",
]
