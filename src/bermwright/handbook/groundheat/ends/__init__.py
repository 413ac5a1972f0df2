"""What a section misses of a house that ends: `closed.py` has equations, `cells.py` three dimensions."""

from bermwright.handbook.groundheat.ends.cells import FloorCase, floor_flow
from bermwright.handbook.groundheat.ends.closed import end_factor, floor_conductance, strip_conductance

__all__ = ["FloorCase", "end_factor", "floor_conductance", "floor_flow", "strip_conductance"]
