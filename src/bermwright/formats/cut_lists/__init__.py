"""Cut lists as tables for other programs: CSV, XLSX and data for JSON."""

from bermwright.formats.cut_lists.csv_file import cut_csv
from bermwright.formats.cut_lists.data import plan_data
from bermwright.formats.cut_lists.tables import cut_tables
from bermwright.formats.cut_lists.xlsx_file import cut_xlsx

__all__ = ["cut_csv", "cut_tables", "cut_xlsx", "plan_data"]
