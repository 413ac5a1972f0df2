"""What a dome needs, and its courses held against closed bodies. Everything stands in `counting.py`."""

from __future__ import annotations

from bermwright.takeoff.domes.counting import dome_compared, dome_quantities

__all__ = ["dome_compared", "dome_quantities"]
