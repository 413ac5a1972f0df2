"""`bermwright forms`: options and answer are in `command.py`."""

from __future__ import annotations

from bermwright.cli.commands.forms.command import add, run

__all__ = ["add", "run"]
