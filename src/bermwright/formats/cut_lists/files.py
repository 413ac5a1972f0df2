"""A cut list as CSV, a row for each piece, fault and offcut, and as a workbook of all its tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.formats.cut_lists.tables import cut_tables
from bermwright.formats.tables import table_csv, tables_xlsx

if TYPE_CHECKING:
    from bermwright.takeoff.cutting import HousePlan


def cut_csv(plan: HousePlan, system: str = "metric") -> bytes:
    """Everything that is sawn, board by board."""
    return table_csv(cut_tables(plan, system)[0])


def cut_xlsx(plan: HousePlan, *, date: str, system: str = "metric") -> bytes:
    """All tables, a sheet for each."""
    return tables_xlsx(cut_tables(plan, system), title=f"Cutting: {plan.house}", date=date)
