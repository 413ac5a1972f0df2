"""The pictures of the year: frost in the section, temperatures, where warmth goes, the wood pile."""

from bermwright.book.sheets.winter.balance import balance_sheet
from bermwright.book.sheets.winter.pile import pile_sheet
from bermwright.book.sheets.winter.section import months_sheet, week_sheet
from bermwright.book.sheets.winter.strip import year_sheet

__all__ = ["balance_sheet", "months_sheet", "pile_sheet", "week_sheet", "year_sheet"]
