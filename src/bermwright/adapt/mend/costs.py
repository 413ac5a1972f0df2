"""What a changed house costs beyond the house as it is: money where it is priced, hours, what is lifted.

Hours of earth, planks and turf are the take-off's; those of walls, footings, rib pieces and nails have no
published rate and are common practice, rough, only good for ranking.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.adapt.mend.nouns import Cost
from bermwright.base.errors import BermwrightError
from bermwright.data.densities import GRAVITY
from bermwright.takeoff import vault_quantities
from bermwright.takeoff.work import HOURS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from bermwright.adapt.mend.nouns import Change
    from bermwright.house import House, Vault
    from bermwright.rules.study import Study
    from bermwright.takeoff import Quantities

CONCRETE_HOURS = 6.0
"""Person-hours to mix, wheel and place one cubic metre of wall or footing (common practice, no source)."""
PIECE_HOURS = 0.25
"""To mark, cut and place one rib piece (common practice, no source)."""
NAIL_HOURS = 1.0 / 60.0
"""To drive one nail of a rib (common practice, no source)."""
NAILS_ROW, MASS_ROW = "rib nails", "rib nails, mass"
SIDES = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Bill:
    """What a house takes, as far as it is counted."""

    money: Mapping[str, float]
    """By currency."""
    hours: float
    mass: float
    """What is built in, without soil (kg)."""


def cost_of(before: Bill, after: Bill, changes: Iterable[Change]) -> Cost:
    """The difference of two bills, with the hours that no take-off counts."""
    currencies = sorted({*before.money, *after.money})
    flat = sum(change.hours for change in changes)
    one = currencies[0] if len(currencies) == 1 else ""
    money = after.money.get(one, 0.0) - before.money.get(one, 0.0) if one else None
    return Cost(
        money=money, currency=one, hours=after.hours - before.hours + flat, lifted=after.mass - before.mass
    )


def bill_of(house: House, studies: Mapping[str, Study]) -> Bill:
    """Count a house whose vaults are studied; a vault that cannot be counted is left out."""
    money: dict[str, float] = {}
    hours, mass = 0.0, 0.0
    for vault in house.vaults:
        study = studies.get(vault.name)
        if study is None:
            continue
        try:
            counted = vault_quantities(house, vault, study.form)
        except BermwrightError:
            continue
        for _, total in counted.totals:
            money[total.currency] = money.get(total.currency, 0.0) + total.amount
        hours += _hours(counted)
        mass += _timber(counted) + _layers(study)
        volume, weight = _supports(house, vault)
        hours += volume * CONCRETE_HOURS
        mass += weight / GRAVITY
    return Bill(money=money, hours=hours, mass=mass)


def _hours(counted: Quantities) -> float:
    rows = {row.name: row.high for row in counted.rows if row.known}
    pieces = sum(piece.count for piece in counted.pieces)
    nails = next((rows[name] for name in rows if name == NAILS_ROW), 0.0)
    return rows.get(HOURS, 0.0) + PIECE_HOURS * pieces + NAIL_HOURS * nails


def _timber(counted: Quantities) -> float:
    rows = {row.name: row.high for row in counted.rows if row.known}
    pieces = [piece.count * piece.mass for piece in counted.pieces]
    return sum(one for one in pieces if math.isfinite(one)) + rows.get(MASS_ROW, 0.0)


def _layers(study: Study) -> float:
    """Mass of the layers over the ribs (kg)."""
    form = study.form
    pairs = zip(study.vault.cover, form.bands, strict=False)
    weights = [
        band.inner.length * form.length * cover.thickness * (cover.unit_weight or 0.0)
        for cover, band in pairs
    ]
    return sum(weights) / GRAVITY


def _supports(house: House, vault: Vault) -> tuple[float, float]:
    """Volume (m3) and weight (N) of walls, footings, buttresses and slabs of a vault."""
    parts = list(_bodies(house, vault))
    return sum(volume for volume, _ in parts), sum(volume * weight for volume, weight in parts)


def _bodies(house: House, vault: Vault) -> Iterator[tuple[float, float]]:
    length, name = vault.length, vault.name
    for wall in (one for one in house.walls if one.vault == name):
        top = vault.springing if wall.top is None else wall.top
        area = (wall.thickness or 0.0) * max(top - (wall.bottom or 0.0), 0.0)
        yield _sides(wall.side) * area * length, wall.unit_weight or 0.0
    for footing in (one for one in house.footings if one.vault == name):
        area = (footing.width or 0.0) * (footing.thickness or 0.0)
        yield _sides(footing.side) * area * length, footing.unit_weight
    for one in (one for one in house.buttresses if one.vault == name):
        count = math.floor(length / one.spacing) + 1 if one.spacing else 0
        high = max((vault.springing if one.top is None else one.top) - (one.bottom or 0.0), 0.0)
        volume = _sides(one.side) * count * (one.width or 0.0) * (one.depth or 0.0) * high
        yield volume, one.unit_weight or 0.0
    for tie in (one for one in house.floor_ties if one.vault == name):
        yield vault.span * length * (tie.thickness or 0.0), SLAB_WEIGHT


SLAB_WEIGHT = 24e3
"""Unit weight of a concrete slab (N/m3)."""


def _sides(side: object) -> float:
    return SIDES if str(side) == "both" else 1.0
