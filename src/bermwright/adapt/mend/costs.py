"""What a changed house costs beyond the house as it is: money where it is priced, hours, what is lifted.

Hours of earth, planks and turf are the take-off's; those of walls, footings, rib pieces and nails have no
published rate and are common practice, rough, only good for ranking.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.adapt.mend.nouns import Cost
from bermwright.base.errors import BermwrightError
from bermwright.data.densities import GRAVITY
from bermwright.house.parts.support_words import Behind
from bermwright.rules.grids.blocks import LAID_BACK
from bermwright.takeoff import vault_quantities
from bermwright.takeoff.earth import GRID_AREA, grid_levels
from bermwright.takeoff.work import HOURS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from bermwright.adapt.mend.nouns import Change
    from bermwright.house import House, Vault
    from bermwright.house.parts.holds import Geogrid
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
SUPPORTS, GRID = "walls, footings, buttresses and slabs", "geogrid"
SAME = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Bill:
    """What a house takes, as far as it is counted."""

    money: Mapping[str, float]
    """By currency."""
    hours: float
    mass: float
    """What is built in, without soil (kg)."""
    unpriced: Mapping[str, float] = field(default_factory=dict)
    """Amounts of what has no price in the file, by name: where one changes, the sum is not the whole."""


def cost_of(before: Bill, after: Bill, changes: Iterable[Change]) -> Cost:
    """The difference of two bills, with the hours that no take-off counts."""
    currencies = sorted({*before.money, *after.money})
    flat = sum(change.hours for change in changes)
    one = currencies[0] if len(currencies) == 1 else ""
    money = after.money.get(one, 0.0) - before.money.get(one, 0.0) if one else None
    # What changes without a price makes the sum worthless; so does a sum that nothing of the change is in.
    if not money or _differ(before.unpriced, after.unpriced):
        money = None
    return Cost(
        money=money, currency=one, hours=after.hours - before.hours + flat, lifted=after.mass - before.mass
    )


def _differ(one: Mapping[str, float], other: Mapping[str, float]) -> bool:
    names = one.keys() | other.keys()
    return any(abs(one.get(name, 0.0) - other.get(name, 0.0)) > SAME for name in names)


def bill_of(house: House, studies: Mapping[str, Study]) -> Bill:
    """Count a house whose vaults are studied; a vault that cannot be counted is left out."""
    money: dict[str, float] = {}
    unpriced: dict[str, float] = {}
    hours, mass, paid = 0.0, 0.0, set[str]()
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
        paid |= {row.name for row in counted.costs}
        hours += _hours(counted)
        mass += _timber(counted) + _layers(study)
        for row in counted.rows:
            if row.known and row.name in counted.not_priced:
                unpriced[row.name] = unpriced.get(row.name, 0.0) + row.high
        volume, weight = _supports(house, vault)
        unpriced[SUPPORTS] = unpriced.get(SUPPORTS, 0.0) + volume
        hours += volume * CONCRETE_HOURS
        mass += weight / GRAVITY
    grids = [one for one in house.geogrids if f"{one.name}{GRID_AREA}" not in paid]
    unpriced[GRID] = sum(_grid_area(house, one) for one in grids)
    return Bill(money=money, hours=hours, mass=mass, unpriced=unpriced)


def _grid_area(house: House, grid: Geogrid) -> float:
    """Geogrid of all layers, each wrapped round its step and laid back a metre (m2), as far as it is said."""
    vault = next((one for one in house.vaults if one.name == grid.vault), None)
    if vault is None or not grid.length or not grid.spacing:
        return 0.0
    beside = grid.behind in {Behind.LEFT, Behind.RIGHT, Behind.SIDES}
    faces = (SIDES if grid.behind is Behind.SIDES else 1.0) * (vault.length if beside else vault.span)
    walls = [one for one in house.walls if one.vault == vault.name] if beside else []
    high = max((vault.springing - (one.bottom or 0.0) for one in walls), default=vault.rise or 0.0)
    layers = len(grid_levels(0.0, high, grid.spacing))
    return faces * layers * (grid.length + grid.spacing + LAID_BACK)


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
