"""A cut list as CSV: one table, a row for each piece, fault and offcut."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from bermwright.formats.cut_lists.tables import cut_tables

if TYPE_CHECKING:
    from bermwright.formats.cut_lists.tables import Cell
    from bermwright.takeoff.cutting import HousePlan

FORMULA = ("=", "+", "-", "@", "\t")
"""A cell that begins so is taken for a formula by a spreadsheet."""


def cut_csv(plan: HousePlan, system: str = "metric") -> bytes:
    """Everything that is sawn, board by board; UTF-8, with a comma between cells."""
    table = cut_tables(plan, system)[0]
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(table.head)
    writer.writerows([_plain(cell) for cell in row] for row in table.rows)
    return out.getvalue().encode("utf-8")


def _plain(cell: Cell) -> Cell:
    """A name that looks like a formula stays a name."""
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(FORMULA) else cell
