"""A house file on the desk: edited, undone, kept, and found again after a power cut.

Start reading at `desk.py`; `journal.py` is what survives a kill, `history.py` the undo.
"""

from __future__ import annotations

from bermwright.app.desk.desk import ChangedOnDiskError, Desk, StaleEditError
from bermwright.app.desk.history import History, Revision
from bermwright.app.desk.journal import Journal

__all__ = ["ChangedOnDiskError", "Desk", "History", "Journal", "Revision", "StaleEditError"]
