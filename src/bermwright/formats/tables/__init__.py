"""Plain tables for other programs: `nouns.py` says what one is, the other files write CSV and XLSX."""

from __future__ import annotations

from bermwright.formats.tables.csv_file import table_csv
from bermwright.formats.tables.nouns import Cell, Table
from bermwright.formats.tables.workbook import tables_xlsx

__all__ = ["Cell", "Table", "table_csv", "tables_xlsx"]
