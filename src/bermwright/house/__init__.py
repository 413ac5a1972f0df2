"""The house as its builder describes it: frozen, in SI, without behaviour beyond simple properties.

Start reading at `model.py`. Each field carries what is said of it (`fields.py`): its words, dimension,
limits, and the question that is asked when it is missing. The reader, the JSON Schema and the reference
page are made from that and from nothing else.
"""

from __future__ import annotations

from bermwright.house.around import Cover, Feet, Fill, Mound
from bermwright.house.building import Ballast, Prop, Stages, Tie
from bermwright.house.checks import Contradiction, contradictions
from bermwright.house.choices import (
    Approach,
    CoverKind,
    CurveKind,
    Frost,
    Hold,
    Order,
    Structure,
    Support,
    Tamping,
    Terrain,
)
from bermwright.house.living.air import Air, Drive, Moisture, Supply, Tube, TubeWall
from bermwright.house.living.fire import Bedroom, Fire, Lining
from bermwright.house.living.heat import Animals, Heat, Mass
from bermwright.house.living.stove import Stove, Wood
from bermwright.house.living.words import AnimalKind, Heated, Species, Stacked, StoveAir, StoveKind
from bermwright.house.model import About, House
from bermwright.house.parts.boards import GradedBoards
from bermwright.house.parts.choices import (
    BoardSide,
    EndKind,
    EndSide,
    FloorUse,
    OpeningKind,
    OpeningSide,
    Panes,
)
from bermwright.house.parts.ends import End
from bermwright.house.parts.erection import Anchor, BraceBoards, Erection, Guy, Lifted, Raised
from bermwright.house.parts.lasting import Bedding, Outlet, Pipe, PipeKind, Timbers, Tree, WoodPart
from bermwright.house.parts.openings import Opening
from bermwright.house.parts.posts import Beam, Floor, Post
from bermwright.house.parts.stock import Log, SafetyGlass, Salvaged, SalvagedKind, Saw, Stock
from bermwright.house.parts.survey import SettingOut, Survey
from bermwright.house.questions import questions
from bermwright.house.settings import Crew, Prices, Review, RuleSettings
from bermwright.house.site import Site, Soil
from bermwright.house.values import Assumption, Board, Nail
from bermwright.house.vault import Vault

__all__ = [
    "About", "Air", "Anchor", "AnimalKind", "Animals", "Approach", "Assumption", "Ballast", "Beam",
    "Bedding", "Bedroom", "Board", "BoardSide", "BraceBoards", "Contradiction", "Cover", "CoverKind",
    "Crew", "CurveKind", "Drive", "End", "EndKind", "EndSide", "Erection", "Feet", "Fill", "Fire",
    "Floor", "FloorUse", "Frost", "GradedBoards", "Guy", "Heat", "Heated", "Hold", "House", "Lifted",
    "Lining", "Log", "Mass", "Moisture", "Mound", "Nail", "Opening", "OpeningKind", "OpeningSide",
    "Order", "Outlet", "Panes", "Pipe", "PipeKind", "Post", "Prices", "Prop", "Raised", "Review",
    "RuleSettings", "SafetyGlass", "Salvaged", "SalvagedKind", "Saw", "SettingOut", "Site", "Soil",
    "Species", "Stacked", "Stages", "Stock", "Stove", "StoveAir", "StoveKind", "Structure", "Supply",
    "Support", "Survey", "Tamping", "Terrain", "Tie", "Timbers", "Tree", "Tube", "TubeWall", "Vault",
    "Wood", "WoodPart", "contradictions", "questions",
]  # fmt: skip
