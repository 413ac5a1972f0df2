"""Soil in its three states, and moving it by hand. Start reading at `states.py`."""

from bermwright.handbook.earthmoving.hauling import barrow_cycle, loads, output_of_cycle
from bermwright.handbook.earthmoving.states import bank_volume, compacted_volume, loose_volume
from bermwright.handbook.earthmoving.volumes import end_slope_area, prismoidal_volume

__all__ = [
    "bank_volume",
    "barrow_cycle",
    "compacted_volume",
    "end_slope_area",
    "loads",
    "loose_volume",
    "output_of_cycle",
    "prismoidal_volume",
]
