"""Whether soil on a slope stays: endless slopes, thin cover on a sheet, slices, and the worst circle.

Start reading at `infinite.py`; `slices.py` holds the methods of slices, `search.py` looks for the
worst circle.
"""

from __future__ import annotations

from bermwright.handbook.stability.infinite import infinite_slope_factor, steepest_infinite_slope
from bermwright.handbook.stability.search import (
    Circle,
    Columns,
    circle_factors,
    critical_circle,
    simple_slope_factor,
)
from bermwright.handbook.stability.slices import bishop_factor, ordinary_factor, wedge_path_factor
from bermwright.handbook.stability.veneer import (
    machine_on_veneer_factor,
    runout_length,
    seeping_veneer_factor,
    veneer_factor,
    veneer_tension,
)

__all__ = [
    "Circle",
    "Columns",
    "bishop_factor",
    "circle_factors",
    "critical_circle",
    "infinite_slope_factor",
    "machine_on_veneer_factor",
    "ordinary_factor",
    "runout_length",
    "seeping_veneer_factor",
    "simple_slope_factor",
    "steepest_infinite_slope",
    "veneer_factor",
    "veneer_tension",
    "wedge_path_factor",
]
