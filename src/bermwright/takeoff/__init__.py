"""Form to quantities: what to buy, move, lift and how long it takes, each number with its working.

Asks the form for lengths and areas and the handbook for the arithmetic; prices come from the house file
alone. Start reading at `vault.py`; `cutting` lays every piece into the boards of the yard, `digging` says
where the soil comes from and goes.
"""

from __future__ import annotations

from bermwright.takeoff.nouns import CostRow, Group, LiftRow, PieceRow, Quantities, Quantity
from bermwright.takeoff.seasons import Seasons, day_text, site_seasons
from bermwright.takeoff.vault import vault_quantities

__all__ = [
    "CostRow",
    "Group",
    "LiftRow",
    "PieceRow",
    "Quantities",
    "Quantity",
    "Seasons",
    "day_text",
    "site_seasons",
    "vault_quantities",
]
