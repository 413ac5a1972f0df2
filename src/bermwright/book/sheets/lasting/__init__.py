"""What has to last: where the timbers lie in the section, and a pipe in its bed."""

from bermwright.book.sheets.lasting.pipe import pipe_sheet
from bermwright.book.sheets.lasting.places import places_sheet

__all__ = ["pipe_sheet", "places_sheet"]
