"""Setting out as plain data for other programs. Start reading at `data.py`."""

from __future__ import annotations

from bermwright.formats.setout.data import setout_data

__all__ = ["setout_data"]
