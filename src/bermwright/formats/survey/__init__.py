"""Points of the ground and readings of a water level, read from files. Start reading at `reading.py`."""

from __future__ import annotations

from bermwright.formats.survey.reading import read_points
from bermwright.formats.survey.readings import read_ordinates, read_readings

__all__ = ["read_ordinates", "read_points", "read_readings"]
