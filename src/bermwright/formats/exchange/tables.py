"""Quantities and bodies as plain tables."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.formats.assessment_json import number
from bermwright.formats.tables import Table
from bermwright.takeoff.bodies import differing

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.form.solids import VaultSolids
    from bermwright.takeoff import Quantities
    from bermwright.takeoff.bodies import Compared

QUANTITY_HEAD = ("what", "vault", "group", "low", "high", "unit", "in words", "stage", "note", "sources")
BODY_HEAD = ("what", "vault", "layer", "kind", "pieces", "m3 each", "m3 in all", "m3 before openings")
COMPARED_HEAD = (
    "what", "vault", "unit", "take-off", "bodies along its lines", "within 0.1 %", "as built", "apart %",
    "why",
)  # fmt: skip


def quantity_table(counted: Sequence[Quantities], system: str = "metric") -> Table:
    """Every amount of the take-off; numbers stand in the unit beside them, words in the wanted units."""
    rows = tuple(
        (
            row.name,
            vault.vault,
            str(row.group),
            number(row.low, row.unit),
            number(row.high, row.unit),
            row.unit,
            row.text(system),
            "" if row.stage is None else str(row.stage),
            row.note,
            "; ".join(dict.fromkeys(cite.work.key for cite in row.cites)),
        )
        for vault in counted
        for row in vault.rows
    )
    return Table(name="quantities", head=QUANTITY_HEAD, rows=rows)


def body_table(vaults: Sequence[VaultSolids]) -> Table:
    """Every body with its volume."""
    rows = tuple(
        (
            solid.name,
            vault.name,
            layer.name,
            str(solid.kind),
            float(len(solid.places)),
            round(solid.volume, 6),
            round(solid.total, 6),
            round(solid.whole * len(solid.places), 6),
        )
        for vault in vaults
        for layer in vault.layers
        for solid in layer.solids
    )
    return Table(name="bodies", head=BODY_HEAD, rows=rows)


def compared_table(rows: Sequence[tuple[str, Compared]]) -> Table:
    """The take-off beside the bodies; each row with the vault it is of."""
    return Table(
        name="take-off and bodies",
        head=COMPARED_HEAD,
        rows=tuple(
            (
                row.name,
                vault,
                row.unit,
                round(row.taken_off, 4),
                round(row.bodies, 4),
                "yes" if row.agrees else "no",
                round(row.true, 4),
                round(100.0 * row.apart, 2) if math.isfinite(row.apart) else None,
                row.why,
            )
            for vault, row in rows
        ),
    )


def compared_lines(rows: Sequence[tuple[str, Compared]], system: str = "metric") -> Iterator[str]:
    """The same as sentences, of what differs as built."""
    return (f"{vault}: {differing(row, system)}" for vault, row in rows if row.differs)
