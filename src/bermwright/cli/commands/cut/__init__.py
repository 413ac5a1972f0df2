"""`bermwright cut`: the command and its options."""

from __future__ import annotations

from bermwright.cli.commands.cut.command import add, run

__all__ = ["add", "run"]
