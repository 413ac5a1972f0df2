"""Tables as a workbook; the same tables and date give the same bytes."""

from __future__ import annotations

import datetime as dt
import io
from typing import TYPE_CHECKING, Any

from bermwright.base.wording import NOT_REVIEWED

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.formats.tables.nouns import Table

WIDEST = 44
A4 = 9


def tables_xlsx(tables: Sequence[Table], *, title: str, date: str) -> bytes:
    """A sheet for each table; texts are never taken for formulas."""
    import xlsxwriter

    out = io.BytesIO()
    settings = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    book = xlsxwriter.Workbook(out, settings)
    created = dt.datetime.fromisoformat(date)
    book.set_properties({"title": title, "comments": NOT_REVIEWED, "created": created})
    strong = book.add_format({"bold": True, "bottom": 1})
    for table in tables:
        _sheet(book.add_worksheet(table.name), table, strong)
    book.close()
    return out.getvalue()


def _sheet(sheet: Any, table: Table, strong: object) -> None:  # noqa: ANN401  (the library has no types)
    sheet.write_row(0, 0, table.head, strong)
    sheet.freeze_panes(1, 1)
    for number, row in enumerate(table.rows, 1):
        for place, cell in enumerate(row):
            if isinstance(cell, str):
                sheet.write_string(number, place, cell)
            elif cell is not None:
                sheet.write_number(number, place, cell)
    for place, head in enumerate(table.head):
        longest = max([len(head), *(len(str(row[place])) for row in table.rows)])
        sheet.set_column(place, place, min(WIDEST, longest + 2))
    if table.rows:
        sheet.autofilter(0, 0, len(table.rows), len(table.head) - 1)
    sheet.set_landscape()
    sheet.set_paper(A4)
    sheet.repeat_rows(0)
    sheet.set_footer(f"&L{NOT_REVIEWED}&R&P / &N")
