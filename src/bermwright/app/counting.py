"""Counting what a house needs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.app.opening import open_house
from bermwright.form import vault_form
from bermwright.takeoff import vault_quantities

if TYPE_CHECKING:
    from pathlib import Path

    from bermwright.takeoff import Quantities


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """The quantities of a house, vault by vault."""

    house: str
    vaults: tuple[Quantities, ...]


def count_file(path: str | Path) -> Counted:
    """Count every vault. Raises `FormUnknownError` where the file leaves its shape open."""
    house = open_house(path).house
    return Counted(
        house=house.name,
        vaults=tuple(vault_quantities(house, vault, vault_form(house, vault)) for vault in house.vaults),
    )
