"""`bermwright setout`: options and answer are in `command.py`."""

from __future__ import annotations

from bermwright.cli.commands.setout.command import add, run

__all__ = ["add", "run"]
