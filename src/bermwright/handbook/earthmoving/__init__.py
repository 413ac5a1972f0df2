"""Soil in its three states, and moving it by hand. Start reading at `states.py`."""

from bermwright.handbook.earthmoving.hauling import barrow_cycle, loads, output_of_cycle
from bermwright.handbook.earthmoving.heaps import Cone, Windrow, cone_heap, windrow
from bermwright.handbook.earthmoving.pits import grid_volume, pit_volume, slice_volume
from bermwright.handbook.earthmoving.states import bank_volume, compacted_volume, loose_volume
from bermwright.handbook.earthmoving.volumes import end_slope_area, prismoidal_volume

__all__ = [
    "Cone", "Windrow", "bank_volume", "barrow_cycle", "compacted_volume", "cone_heap", "end_slope_area",
    "grid_volume", "loads", "loose_volume", "output_of_cycle", "pit_volume", "prismoidal_volume",
    "slice_volume", "windrow",
]  # fmt: skip
