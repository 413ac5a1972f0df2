"""Soil that the dig gives against soil that mound and backfill take, in the bank (m3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.ranges import Range
from bermwright.data.rates import BARROW
from bermwright.form.setout.dig import CELL, HAIR
from bermwright.handbook.earthmoving import grid_volume, loads
from bermwright.takeoff.earth import bank_range, earth_of

if TYPE_CHECKING:
    from bermwright.form.setout import SetOut
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Vault


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """Of the soil that the mound is built of (m3)."""

    soil: str
    """Its name in the file."""
    cut: Range
    """What the dig gives of it, in the bank."""
    mound: Range
    """What the mound takes, in the bank."""
    backfill: Range
    """What goes back beside the walls, in the bank."""
    spare: Range
    """Cut less both; below 0 is missing."""
    trips: Range
    """Barrows from the dig to the heap, loose."""
    other: tuple[tuple[str, Range], ...]
    """Other soils of the dig, in the bank: not for the mound unless somebody says so."""

    @property
    def missing(self) -> bool:
        """Whether even the best case lacks soil."""
        return self.spare.high < 0.0


def balance_of(house: House, vault: Vault, form: VaultForm, out: SetOut) -> Balance | None:
    """The balance, or None where no dig is known."""
    if out.dig is None:
        return None
    earth = earth_of(house, vault, form)
    fill = house.fill(vault)
    name = fill.soil if fill is not None and fill.soil else ""
    own = next((cut for cut in out.dig.cuts if cut.soil == name), None)
    cut = own.bank if own is not None else Range(0.0, 0.0)
    mound = earth.bank
    # Both ends of the dig: what its sides give besides goes back beside the walls, at its own shrinkage.
    rooms = [bank_range(room, earth.states) for room in _beside(vault, out)]
    ends = list(zip((cut.low, cut.high), rooms, strict=True))
    trips = Range(
        *(float(loads(end, capacity=BARROW.value)) for end in (out.dig.loose.low, out.dig.loose.high))
    )
    return Balance(
        soil=name or "soil of the fill",
        cut=cut,
        mound=mound,
        backfill=Range(min(room.low for room in rooms), max(room.high for room in rooms)),
        spare=Range(
            min(dug - room.high for dug, room in ends) - mound.high,
            max(dug - room.low for dug, room in ends) - mound.low,
        ),
        trips=trips,
        other=tuple((one.soil, one.bank) for one in out.dig.cuts if one.soil != name),
    )


def _beside(vault: Vault, out: SetOut) -> tuple[float, float]:
    """Room beside the walls below the ground, with the steepest and the flattest sides (m3, compacted)."""
    dig = out.dig
    assert dig is not None  # noqa: S101  (the caller has looked)
    body = _body(vault, out)
    trenches = sum(
        (one.high[0] - one.low[0]) * (one.high[1] - one.low[1]) * (dig.formation - one.bottom)
        for one in dig.trenches
    )
    rooms = [max(end - trenches - body, 0.0) for end in (dig.bank.low, dig.bank.high)]
    return rooms[0], rooms[1]


def _body(vault: Vault, out: SetOut) -> float:
    """The house between its outer walls, from the bottom of the dig up to the ground (m3)."""
    dig = out.dig
    assert dig is not None  # noqa: S101  (the caller has looked)
    walls = [
        max((edge.offset for edge in strip.edges if "wall" in edge.words), default=0.0)
        for strip in out.strips
    ]
    low, high = -0.5 * vault.span - walls[0], 0.5 * vault.span + walls[1]
    along = np.linspace(0.0, vault.length, max(int(vault.length / CELL), 2))
    across = np.linspace(low, high, max(int((high - low) / CELL), 2))
    u, v = np.meshgrid(along, across)
    depth = np.maximum(out.surface.level(u, v) - dig.formation, 0.0)
    if np.max(depth) < HAIR:
        return 0.0
    return grid_volume(depth, spacing_x=float(along[1] - along[0]), spacing_y=float(across[1] - across[0]))
