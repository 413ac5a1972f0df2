"""Windows, panes and doors: what the house file says, and what the yard offers. Start at `windows.py`."""

from bermwright.takeoff.light.door import DoorLayer, DoorLeaf, door_leaf, door_leaves
from bermwright.takeoff.light.holes import holes_of
from bermwright.takeoff.light.salvaged import Fitting, Item, Match, Pair, assigned, fitted
from bermwright.takeoff.light.setting import (
    PaneSetting,
    WindCheck,
    safety_asked,
    setting_of,
    settings_of,
    wind_checks,
)
from bermwright.takeoff.light.windows import SHUTTER, HouseWindow, site_horizon, windows_of

__all__ = [
    "SHUTTER",
    "DoorLayer",
    "DoorLeaf",
    "Fitting",
    "HouseWindow",
    "Item",
    "Match",
    "Pair",
    "PaneSetting",
    "WindCheck",
    "assigned",
    "door_leaf",
    "door_leaves",
    "fitted",
    "holes_of",
    "safety_asked",
    "setting_of",
    "settings_of",
    "site_horizon",
    "wind_checks",
    "windows_of",
]
