"""Quantities as plain data for JSON, documented in docs/reference/json.md; unknown numbers are null."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.base.wording import NOT_REVIEWED
from bermwright.formats.assessment_json import FORMAT, cite_data, number, step_data

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.base.ranges import Range
    from bermwright.base.units import Money
    from bermwright.takeoff import CostRow, LiftRow, PieceRow, Quantities, Quantity


def quantities_data(
    house: str,
    counted: Sequence[Quantities],
    system: str = "metric",
    *,
    domes: Sequence[Quantities] = (),
) -> dict[str, Any]:
    """Everything that `count` says; a dome has the same fields as a vault, with `dome` for its name."""
    return {
        "format": FORMAT,
        "house": house,
        "mark": NOT_REVIEWED,
        "vaults": [_vault(one, system) for one in counted],
        "domes": [_dome(one, system) for one in domes],
    }


def _vault(counted: Quantities, system: str) -> dict[str, Any]:
    return {
        "vault": counted.vault,
        "quantities": [quantity_data(row, system) for row in counted.rows],
        "pieces": [_piece(row) for row in counted.pieces],
        "lifts": [_lift(row) for row in counted.lifts],
        "costs": [_cost(row, system) for row in counted.costs],
        "totals": [{"low": _money(low), "high": _money(high)} for low, high in counted.totals],
        "not_priced": list(counted.not_priced),
        "not_timed": list(counted.not_timed),
        "remarks": list(counted.remarks),
    }


def _dome(counted: Quantities, system: str) -> dict[str, Any]:
    data = _vault(counted, system)
    return {"dome": data.pop("vault"), **data}


def quantity_data(row: Quantity, system: str = "metric") -> dict[str, Any]:
    """One quantity; `low` and `high` are equal where there is no range."""
    return {
        "name": row.name,
        "group": str(row.group),
        "low": number(row.low, row.unit),
        "high": number(row.high, row.unit),
        "unit": row.unit,
        "text": row.text(system),
        "stage": str(row.stage) if row.stage else None,
        "note": row.note,
        "working": [step_data(step, system) for step in row.working],
        "sources": [cite_data(cite) for cite in row.cites],
        "provenance": [str(provenance) for provenance in row.provenances],
        "needs_review": row.needs_review,
    }


def _piece(row: PieceRow) -> dict[str, Any]:
    return {
        "name": row.name,
        "layer": row.layer,
        "count": row.count,
        "length_m": number(row.length),
        "width_m": number(row.width),
        "mass_kg": number(row.mass),
    }


def _lift(row: LiftRow) -> dict[str, Any]:
    return {
        "below_m": number(row.below),
        "above_m": number(row.above),
        "left_m3": number(row.left),
        "right_m3": number(row.right),
        "left_loose_m3": _range(row.left_loose),
        "right_loose_m3": _range(row.right_loose),
        "left_loads": _range(row.left_loads),
        "right_loads": _range(row.right_loads),
    }


def _range(values: Range) -> list[float | None]:
    return [number(values.low), number(values.high)]


def _cost(row: CostRow, system: str) -> dict[str, Any]:
    return {
        "name": row.name,
        "low": _money(row.low),
        "high": _money(row.high),
        "working": step_data(row.working, system),
        "note": row.note,
    }


def _money(amount: Money) -> dict[str, Any]:
    return {"amount": number(amount.amount), "currency": amount.currency}
