"""A table as CSV."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bermwright.formats.tables.nouns import Cell, Table

FORMULA = ("=", "+", "-", "@", "\t")
"""A text that begins so is taken for a formula by a spreadsheet."""


def table_csv(table: Table) -> bytes:
    """The table as UTF-8 with a head line; what a spreadsheet takes for a formula gets a space before it."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(table.head)
    writer.writerows([_plain(cell) for cell in row] for row in table.rows)
    return out.getvalue().encode("utf-8")


def _plain(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, str):
        return f" {cell}" if cell.startswith(FORMULA) else cell
    return f"{cell:.12g}" if isinstance(cell, float) else str(cell)
