"""Digs of the other parts of a house as they lie beside one vault: no board of it stands in them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.form.lines import broken
from bermwright.form.setout.earthwork.dig import dig_of
from bermwright.form.setout.earthwork.strips import bare_outline, end_thickness, strip_of
from bermwright.form.setout.ground import surface_of
from bermwright.form.setout.nouns import SetOutError
from bermwright.form.setout.parts.between import on_ground, parts_between
from bermwright.house import SettingOut

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout.nouns import Spot
    from bermwright.form.setout.parts.between import PlacedPart
    from bermwright.house import House, Vault
    from bermwright.house.making.dome import Dome

ROUND = 24


def digs_beside(house: House, vault: Vault) -> tuple[tuple[str, tuple[Spot, ...]], ...]:
    """Name and edge of every other dig, along and across this vault; empty where the file places none."""
    between = parts_between(house)
    if between is None or not between.parts:
        return ()
    parts = {part.name: part for part in between.parts}
    own = parts[vault.name]
    found = [*_vaults(house, vault, parts), *_domes(house, parts)]
    return tuple((name, tuple(_seen(own, vault, spot) for spot in spots)) for name, spots in found)


def _vaults(
    house: House, vault: Vault, parts: dict[str, PlacedPart]
) -> Iterator[tuple[str, tuple[Spot, ...]]]:
    for other in house.vaults:
        if other.name == vault.name:
            continue
        part = parts[other.name]
        yield (
            other.name,
            tuple(
                on_ground(part.middle, part.axis or 0.0, (along - 0.5 * other.length, across))
                for along, across in _outline(house, other)
            ),
        )


def _outline(house: House, vault: Vault) -> tuple[Spot, ...]:
    """The edge of its dig; walls and working space where that is not known."""
    settings = house.setting_out or SettingOut()
    strips = strip_of(house, vault, "left"), strip_of(house, vault, "right")
    ends = end_thickness(house, vault)
    bare = bare_outline(vault, settings, strips, ends)
    natural = vault.mound.natural if vault.mound is not None else ()
    if not natural and house.site.floor is None:
        return bare
    surface = surface_of(house, vault, broken(natural) if natural else None)
    try:
        dig = dig_of(house, vault, settings, surface=surface, strips=strips, ends=ends)
    except SetOutError:
        return bare
    return dig.outline if dig is not None else bare


def _domes(house: House, parts: dict[str, PlacedPart]) -> Iterator[tuple[str, tuple[Spot, ...]]]:
    for dome in house.domes:
        yield dome.name, tuple(_ring(dome, parts[dome.name].middle, house.setting_out or SettingOut()))


def _ring(dome: Dome, middle: Spot, settings: SettingOut) -> Iterator[Spot]:
    """Its wall and the working space round it; a straight edge cuts into no circle from outside."""
    reach = 0.5 * dome.span + dome.thickness + settings.working_space
    reach /= math.cos(math.pi / ROUND)
    for number in range(ROUND):
        turn = 2.0 * math.pi * number / ROUND
        yield middle[0] + reach * math.cos(turn), middle[1] + reach * math.sin(turn)


def _seen(own: PlacedPart, vault: Vault, spot: Spot) -> Spot:
    """A place to the east and north, along and across this vault."""
    east, north = spot[0] - own.middle[0], spot[1] - own.middle[1]
    sine, cosine = math.sin(own.axis or 0.0), math.cos(own.axis or 0.0)
    return 0.5 * vault.length + east * sine + north * cosine, east * cosine - north * sine
