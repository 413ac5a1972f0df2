"""What mending found, as text, as data for JSON, and as a changed copy of the house file."""

from __future__ import annotations

from bermwright.formats.mends.copying import mended_copy
from bermwright.formats.mends.data import mends_data
from bermwright.formats.mends.text import mends_text

__all__ = ["mended_copy", "mends_data", "mends_text"]
