"""What the winter of a vault needs and the file does not say."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.errors import BermwrightError
from bermwright.form.heat import missing_for_heat
from bermwright.house import EndKind, EndSide, Heated

if TYPE_CHECKING:
    from bermwright.house import End, House, Opening, Vault


class WinterUnknownError(BermwrightError):
    """Too little is said for a winter; `missing` are plain paths such as `heat.day`."""

    def __init__(self, vault: str, missing: tuple[str, ...]) -> None:
        self.vault, self.missing = vault, missing
        super().__init__(
            f'The winter of "{vault}" is not known: the file does not say {", ".join(missing)}. '
            "`bermwright check` asks for each and says how to learn it."
        )


def end_of(house: House, vault: Vault, side: EndSide) -> End | None:
    """What closes one end of a vault."""
    return next((end for end in house.ends if end.vault == vault.name and end.at is side), None)


def openings_of(house: House, vault: Vault) -> tuple[Opening, ...]:
    """The openings of a vault."""
    return tuple(one for one in house.openings if one.vault == vault.name)


def missing_for_winter(house: House, vault: Vault) -> tuple[str, ...]:
    """Everything that the winter of a vault needs and the file does not say, as plain paths."""
    missing = [name for name in ("latitude", "climate") if getattr(house.site, name) is None]
    missing = [f"site.{name}" for name in missing]
    heat = house.heat
    if heat is None:
        missing.append("heat")
    elif heat.heated is None:
        missing.append("heat.heated")
    elif heat.heated is Heated.YES and heat.day is None:
        missing.append("heat.day")
    if house.about.people is None:
        missing.append("house.people")
    for side in EndSide:
        missing += _missing_end(end_of(house, vault, side), side)
    if openings_of(house, vault) and vault.axis is None:
        missing.append("vault.axis")
    for one in openings_of(house, vault):
        missing += _missing_opening(one)
    if house.air is None or house.air.flow is None:
        missing.append("air.flow")
    return tuple(dict.fromkeys([*missing, *missing_for_heat(house, vault)]))


def _missing_opening(one: Opening) -> list[str]:
    """A window needs its panes, or both of its values; a door may be taken as a usual one."""
    if not one.kind.glazed or one.panes is not None:
        return []
    names = [name for name in ("u_value", "g_value") if getattr(one, name) is None]
    return [f'opening "{one.name}".panes'] if names else []


def _missing_end(end: End | None, side: EndSide) -> list[str]:
    if end is None:
        return [f"end at {side}"]
    if end.kind is EndKind.OPEN:
        return [f"end at {side} (it stands open: nothing inside can be kept warm)"]
    return [f"end.{name}" for name in ("thickness", "soil_to") if getattr(end, name) is None]
