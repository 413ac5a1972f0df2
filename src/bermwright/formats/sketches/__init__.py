"""Sketches of a curve from other programs: tables (CSV), DXF and SVG, read as points.

Start reading at `reading.py`; `scale.py` gives a sketch without units its size.
"""

from __future__ import annotations

from bermwright.formats.sketches.nouns import Drawn
from bermwright.formats.sketches.reading import ENDINGS, read_sketch
from bermwright.formats.sketches.scale import Known, known_length, to_size

__all__ = ["ENDINGS", "Drawn", "Known", "known_length", "read_sketch", "to_size"]
