"""A cut list as a workbook, a sheet for each table; the same plan and date give the same bytes."""

from __future__ import annotations

import datetime as dt
import io
from typing import TYPE_CHECKING

from bermwright.formats.cut_lists.tables import cut_tables

if TYPE_CHECKING:
    from bermwright.formats.cut_lists.tables import CutTable
    from bermwright.takeoff.cutting import HousePlan

MARK = "calculation aid, not reviewed"
WIDEST = 40


def cut_xlsx(plan: HousePlan, *, date: str, system: str = "metric") -> bytes:
    """All tables; texts are never taken for formulas."""
    import xlsxwriter

    out = io.BytesIO()
    book = xlsxwriter.Workbook(
        out, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    )
    book.set_properties(
        {
            "title": f"Cutting: {plan.house}",
            "comments": MARK,
            "created": dt.datetime.fromisoformat(date).replace(tzinfo=dt.UTC).replace(tzinfo=None),
        }
    )
    strong = book.add_format({"bold": True, "bottom": 1})
    for table in cut_tables(plan, system):
        _sheet(book, table, strong)
    book.close()
    return out.getvalue()


def _sheet(book: object, table: CutTable, strong: object) -> None:
    sheet = book.add_worksheet(table.name)  # type: ignore[attr-defined]
    sheet.write_row(0, 0, table.head, strong)
    sheet.freeze_panes(1, 0)
    for number, row in enumerate(table.rows, 1):
        for place, cell in enumerate(row):
            if isinstance(cell, str):
                sheet.write_string(number, place, cell)
            else:
                sheet.write_number(number, place, cell)
    for place, head in enumerate(table.head):
        longest = max([len(head), *(len(str(row[place])) for row in table.rows)])
        sheet.set_column(place, place, min(WIDEST, longest + 2))
    if table.rows:
        sheet.autofilter(0, 0, len(table.rows), len(table.head) - 1)
    sheet.set_landscape()
    sheet.set_paper(9)
    sheet.repeat_rows(0)
    sheet.set_footer(f"&L{MARK}&R&P / &N")
