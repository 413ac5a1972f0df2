"""Upper floors as their boards: joists and what they rest on have no place in the file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.solids.bodies import box, solid
from bermwright.form.solids.nouns import Kind, Layer

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.house import Floor, House, Vault


def upper_layer(house: House, vault: Vault, form: VaultForm, ends: tuple[float, float]) -> Layer | None:
    """The boards of every floor of a vault, from rib to rib, between the end walls' inner faces."""
    found = [
        solid(
            floor.name, Kind.UPPER_FLOOR, box(across, _along(floor, ends), (floor.level - thick, floor.level))
        )
        for floor in _mine(house, vault)
        if floor.level is not None and (thick := floor.boards) is not None
        if (across := _across(form, floor.level)) is not None
    ]
    return Layer(name="upper floors", kind=Kind.UPPER_FLOOR, solids=tuple(found)) if found else None


def _mine(house: House, vault: Vault) -> Iterator[Floor]:
    return (floor for floor in house.floors if floor.vault == vault.name)


def _across(form: VaultForm, level: float) -> tuple[float, float] | None:
    """Where the boards meet the inside of the ribs at their upper side."""
    inside = form.rib.inside
    over = inside.x[inside.z >= level]
    if level <= form.springing:
        over = inside.x
    if over.size == 0:
        return None
    low, high = float(np.min(over)), float(np.max(over))
    return (low, high) if high > low else None


def _along(floor: Floor, ends: tuple[float, float]) -> tuple[float, float]:
    """In the middle of the room where the floor is narrower than the room is long."""
    room = ends[1] - ends[0]
    wide = room if floor.width is None else min(floor.width, room)
    middle = 0.5 * (ends[0] + ends[1])
    return middle - 0.5 * wide, middle + 0.5 * wide


def upper_remarks(house: House, vault: Vault) -> Iterator[str]:
    """What of the floors is not drawn."""
    for floor in _mine(house, vault):
        if floor.level is None or floor.boards is None:
            yield f"The floor {floor.name} is not drawn: the file does not give its level and boards."
        else:
            yield f"The floor {floor.name} is drawn as its boards alone, in the middle of the room."
    if house.posts or house.beams or any(True for _ in _mine(house, vault)):
        yield "Joists, posts and beams are not drawn: the file does not say where they stand."
