"""Cut lists as tables for other programs: CSV, XLSX and data for JSON."""

from bermwright.formats.cut_lists.data import plan_data
from bermwright.formats.cut_lists.files import cut_csv, cut_xlsx
from bermwright.formats.cut_lists.tables import cut_tables

__all__ = ["cut_csv", "cut_tables", "cut_xlsx", "plan_data"]
