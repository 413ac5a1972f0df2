"""What does not fit together of fire and the places to sleep."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.house.checks.common import Check, Contradiction, Key, bound, clash, each, metres, names_once
from bermwright.house.living.fire import Lining

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.living.fire import Bedroom, Fire
    from bermwright.house.model import House


def fire_checks(house: House) -> Iterator[Check]:
    """The checks of [fire] and of every bedroom."""
    if house.fire is not None:
        yield Check(("fire",), ("lining", "lining_thickness"), bound(_bare, house.fire))
    rooms = house.bedrooms
    yield names_once(("bedroom",), rooms)
    vaults = (
        *each(("vault",), house.vaults, "name", "length"),
        *each(("floor",), house.floors, "vault", "level"),
    )
    for count, room in enumerate(rooms):
        here: Key = ("bedroom", count)
        yield Check(here, ("begins", "ends"), bound(_backwards, here, room))
        yield Check(here, ("vault", "ends", "level"), bound(_outside, here, room, house), vaults)


def _bare(fire: Fire) -> Iterator[Contradiction]:
    if fire.lining is Lining.NONE and fire.lining_thickness is not None:
        yield clash(
            ("fire",),
            "lining_thickness",
            f"{fire.lining_thickness * 1e3:.0f} mm",
            'is given, but the lining is "none".',
            "Say what the lining is, or take its thickness out.",
        )


def _backwards(here: Key, room: Bedroom) -> Iterator[Contradiction]:
    if room.ends <= room.begins:
        yield clash(
            here,
            "ends",
            metres(room.ends),
            f"is not beyond begins, {metres(room.begins)}; both count from the front.",
            "Swap the two, or write a larger one.",
        )


def _outside(here: Key, room: Bedroom, house: House) -> Iterator[Contradiction]:
    vault = next((one for one in house.vaults if one.name == room.vault), None)
    if vault is None:
        known = ", ".join(one.name for one in house.vaults) or "none"
        yield clash(
            here,
            "vault",
            f'"{room.vault}"',
            f"is not the name of a vault; there is: {known}.",
            "Write one of these names.",
        )
    elif room.ends > vault.length + 1e-9:
        yield clash(
            here,
            "ends",
            metres(room.ends),
            f"lies beyond the vault, which is {metres(vault.length)} long.",
            "Distances count from the front end.",
        )
    floors = {0.0, *(one.level for one in house.floors if one.vault == room.vault)}
    if vault is not None and room.level not in floors:
        named = ", ".join(show(level, "level") for level in sorted(one for one in floors if one is not None))
        yield clash(
            here,
            "level",
            show(room.level, "level"),
            f"is not the level of a floor of this vault; there is: {named}.",
            "Write a [[floor]] for it, or the level of one.",
        )
