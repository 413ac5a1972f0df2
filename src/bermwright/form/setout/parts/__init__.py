"""How the vaults and domes of a house lie to each other. Everything stands in `between.py`."""

from __future__ import annotations

from bermwright.form.setout.parts.between import Between, PlacedPart, parts_between

__all__ = ["Between", "PlacedPart", "parts_between"]
