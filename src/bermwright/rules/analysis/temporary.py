"""How stiff props and ties are."""

from __future__ import annotations

PROP_MODULUS = 7.0e9
"""Softwood along the grain, the least class (Pa): EN 338, C14."""
SHORTEST_PROP = 0.5
"""Wedges and plates make a prop no stiffer than one of this length (m)."""
STEEL_MODULUS = 210e9
"""Young's modulus of steel (Pa): EN 1993-1-1, 3.2.6."""
SHORTEST_TIE = 0.1
"""Nuts and plates make a tie no stiffer than one of this length (m)."""


def prop_stiffness(area: float, length: float) -> float:
    """Stiffness of one upright softwood prop from the floor (N/m)."""
    return PROP_MODULUS * area / max(length, SHORTEST_PROP)


def tie_stiffness(area: float, length: float) -> float:
    """Stiffness of one steel tie (N/m)."""
    return STEEL_MODULUS * area / max(length, SHORTEST_TIE)
