"""Soil that the dig gives against soil that mound and backfill take, in the bank (m3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.ranges import Range
from bermwright.data.rates import BARROW
from bermwright.handbook.earthmoving import loads
from bermwright.takeoff.digging.built import built_below
from bermwright.takeoff.earth import bank_range, earth_of

if TYPE_CHECKING:
    from bermwright.form.setout import SetOut
    from bermwright.form.setout.earthwork.dig import Dig
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
    """The balance, or None where no dig is known, or not of which soil the mound is."""
    fill = house.fill(vault)
    if out.dig is None or fill is None or not fill.soil:
        return None
    earth, name = earth_of(house, vault, form), fill.soil
    own = next((cut for cut in out.dig.cuts if cut.soil == name), None)
    cut = own.bank if own is not None else Range(0.0, 0.0)
    mound = earth.bank
    # Both ends of the dig: what its sides give besides goes back beside the walls, at its own shrinkage.
    rooms = [bank_range(room, earth.states) for room in _beside(out, form, out.dig)]
    ends = list(zip((cut.low, cut.high), rooms, strict=True))
    trips = Range(
        *(float(loads(end, capacity=BARROW.value)) for end in (out.dig.loose.low, out.dig.loose.high))
    )
    return Balance(
        soil=name,
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


def _beside(out: SetOut, form: VaultForm, dig: Dig) -> tuple[float, float]:
    """Room round what is built, below the ground, with steepest and flattest sides (m3, compacted)."""
    built = built_below(out, form, dig)
    return max(dig.bank.low - built, 0.0), max(dig.bank.high - built, 0.0)
