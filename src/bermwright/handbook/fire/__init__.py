"""Timber in a fire: charring, linings, what is left and what it carries. Start reading at `charring.py`."""

from __future__ import annotations

from bermwright.handbook.fire.charring import (
    char_depth,
    effective_depth,
    lined_char_depth,
    lining_time,
)
from bermwright.handbook.fire.residual import Residual, fire_strength, nail_extra_depth, residual_rib

__all__ = [
    "Residual", "char_depth", "effective_depth", "fire_strength", "lined_char_depth", "lining_time",
    "nail_extra_depth", "residual_rib",
]  # fmt: skip
