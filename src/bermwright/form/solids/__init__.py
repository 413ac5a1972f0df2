"""A house as closed bodies: what models, quantities and elevations are made from.

Start reading at `house.py`; `nouns.py` says what a body is. The booleans stand in `bodies.py`.
"""

from bermwright.form.solids.house import house_solids, vault_solids
from bermwright.form.solids.nouns import (
    Counted,
    Hole,
    Kind,
    Layer,
    Pushed,
    Solid,
    VaultSolids,
    is_closed,
    volume_of,
)

__all__ = [
    "Counted",
    "Hole",
    "Kind",
    "Layer",
    "Pushed",
    "Solid",
    "VaultSolids",
    "house_solids",
    "is_closed",
    "vault_solids",
    "volume_of",
]
