"""The house file: TOML text to a `House` and back, with all mistakes at once.

Start reading at `reading.py`. `files.py` is the only module here that touches the disk.
"""

from __future__ import annotations

from bermwright.formats.house_file.described.reference import reference
from bermwright.formats.house_file.described.schema import schema
from bermwright.formats.house_file.editing import edited, save
from bermwright.formats.house_file.files import load, write
from bermwright.formats.house_file.reading import Opened, read
from bermwright.formats.house_file.starter import starter

__all__ = ["Opened", "edited", "load", "read", "reference", "save", "schema", "starter", "write"]
