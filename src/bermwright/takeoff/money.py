"""What it costs, of what has a price in the house file; nothing else is priced."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.base.units import Money
from bermwright.takeoff.earth import GRID_AREA
from bermwright.takeoff.lines import line, number
from bermwright.takeoff.nouns import CostRow, Quantity
from bermwright.takeoff.work import HOURS

if TYPE_CHECKING:
    from bermwright.house import Prices


ALL_HIRED = "if every hour were hired; own hours are not priced"


@dataclass(frozen=True, slots=True, kw_only=True)
class Priced:
    """Cost rows, their sums by currency, and what has no price."""

    rows: tuple[CostRow, ...]
    totals: tuple[tuple[Money, Money], ...]
    without: tuple[str, ...]


def priced(rows: tuple[Quantity, ...], prices: Prices, kinds: dict[str, str]) -> Priced:
    """Cost of the rows; `kinds` says for each row's name which price of the file it takes."""
    costs, without = [], []
    for row in rows:
        if row.name not in kinds:
            continue
        price: Money | None = getattr(prices, kinds[row.name])
        if price is not None and row.known:
            costs.append(_cost(row, price))
        else:
            without.append(row.name if row.known else f"{row.name} (amount unknown)")
    return Priced(rows=tuple(costs), totals=_totals(costs), without=tuple(without))


def kinds_of(rows: tuple[Quantity, ...], layers: dict[str, str]) -> dict[str, str]:
    """Which price each row takes; `layers` gives the kind of each layer by its name."""
    fixed = {
        "rib boards, volume bought": "boards",
        "rib nails, mass": "nails",
        "fill, loose": "soil",
        "turf": "turf",
        HOURS: "work",
    }
    ends = {
        "lagging": (", volume bought", "planks"),
        "membrane": (", area bought", "membrane"),
        "insulation": (", volume", "insulation"),
        "drainage": (", area", "drainage"),
    }
    found = {row.name: fixed[row.name] for row in rows if row.name in fixed}
    found |= {row.name: "geogrid" for row in rows if row.name.endswith(GRID_AREA)}
    for layer, kind in layers.items():
        if kind in ends:
            tail, price = ends[kind]
            found[layer + tail] = price
    return found


def _cost(row: Quantity, price: Money) -> CostRow:
    # Prices are for one m, m2, m3, kg or ph: the SI amount itself.
    working = line(
        f"{row.name.capitalize()} at the price in the file",
        "c",
        "amount·price",
        f"{number(row.high, row.unit, row.digits)}·{price}",
        result=Shown(row.high * price.amount, "", 2),
    )
    return CostRow(
        name=row.name,
        low=Money(row.low * price.amount, price.currency),
        high=Money(row.high * price.amount, price.currency),
        working=working,
        note=ALL_HIRED if row.name == HOURS else "",
    )


def _totals(costs: list[CostRow]) -> tuple[tuple[Money, Money], ...]:
    currencies = dict.fromkeys(cost.low.currency for cost in costs)
    return tuple(
        (
            Money(sum(cost.low.amount for cost in costs if cost.low.currency == one), one),
            Money(sum(cost.high.amount for cost in costs if cost.high.currency == one), one),
        )
        for one in currencies
    )
