"""Published values as data: a folder per subject, one module per work, one row per value.

The rows feed the tests, `bermwright evidence`, the docs and the mutation gate. Recorded values
(what the program gave yesterday) do not belong here. Start reading at `rows.py`; a module
exposes `ROWS`, and `catalogue.py` finds it by itself.
"""

from __future__ import annotations

from bermwright.evidence.catalogue import all_rows
from bermwright.evidence.rows import Kind, Outcome, Row, check, printed_tolerance

__all__ = ["Kind", "Outcome", "Row", "all_rows", "check", "printed_tolerance"]
