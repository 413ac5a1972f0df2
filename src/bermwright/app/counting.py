"""Counting what a house needs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.app.opening import open_house
from bermwright.form import vault_form
from bermwright.form.dome import dome_form
from bermwright.takeoff import vault_quantities
from bermwright.takeoff.domes import dome_quantities

if TYPE_CHECKING:
    from pathlib import Path

    from bermwright.takeoff import Quantities


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """The quantities of a house, vault by vault and dome by dome."""

    house: str
    vaults: tuple[Quantities, ...]
    domes: tuple[Quantities, ...] = ()


def count_file(path: str | Path) -> Counted:
    """Count every vault and dome.

    Raises `FormUnknownError` or `DomeUnknownError` where the file leaves a shape open.
    """
    house = open_house(path).house
    return Counted(
        house=house.name,
        vaults=tuple(vault_quantities(house, vault, vault_form(house, vault)) for vault in house.vaults),
        domes=tuple(dome_quantities(dome_form(dome)) for dome in house.domes),
    )
