"""The holes that a window or door may go into: those of vaults, and those of domes as upright rectangles."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.house import Opening, OpeningKind, OpeningSide
from bermwright.house.making.words import Head

if TYPE_CHECKING:
    from bermwright.house import House
    from bermwright.house.making.dome import Dome, DomeOpening

LEAST = 0.1
"""A lower straight part under a round head takes no window (m)."""


def holes_of(house: House) -> tuple[Opening, ...]:
    """Every hole for a window or door: of vaults in the order of the file, then of domes."""
    own = tuple(one for one in house.openings if one.kind.glazed or one.kind is OpeningKind.DOOR)
    return own + dome_holes(house)


def dome_holes(house: House) -> tuple[Opening, ...]:
    """Holes of domes as holes of a straight wall; of a round head only the straight part under it counts."""
    return tuple(
        _straight(dome, one)
        for dome in house.domes
        for one in dome.openings
        if (one.kind.glazed or one.kind is OpeningKind.DOOR) and _tall(one) >= LEAST
    )


def axes_of(house: House) -> dict[str, float | None]:
    """Which way one looks when walking in, by the part that a hole is in (rad from north)."""
    axes = {vault.name: vault.axis for vault in house.vaults}
    for dome in house.domes:
        for one in dome.openings:
            axes[_part(dome, one)] = None if dome.axis is None else (dome.axis + one.at + math.pi) % math.tau
    return axes


def walls_of(house: House) -> dict[str, float]:
    """Thickness of the walls of domes, by the part that a hole is in (m)."""
    return {_part(dome, one): dome.thickness for dome in house.domes for one in dome.openings}


def _part(dome: Dome, one: DomeOpening) -> str:
    return f'dome "{dome.name}", opening "{one.name}"'


def _tall(one: DomeOpening) -> float:
    """Height of the part with upright sides (m)."""
    return one.height - (0.5 * one.width if one.head is Head.ROUND else 0.0)


def _straight(dome: Dome, one: DomeOpening) -> Opening:
    under = " under its round head" if one.head is Head.ROUND else ""
    return Opening(
        name=f"{one.name}{under}", vault=_part(dome, one), side=OpeningSide.FRONT, kind=one.kind,
        width=one.width, height=_tall(one), sill=one.sill,
    )  # fmt: skip
