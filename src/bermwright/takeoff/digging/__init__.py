"""What the dig gives and what the mound takes: spare soil or missing. Start reading at `balance.py`."""

from __future__ import annotations

from bermwright.takeoff.digging.balance import Balance, balance_of

__all__ = ["Balance", "balance_of"]
