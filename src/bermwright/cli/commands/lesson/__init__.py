"""`bermwright lesson`: predict which stage of a published failure fails, then reveal it."""

from __future__ import annotations

from bermwright.cli.commands.lesson.lesson import add, run

__all__ = ["add", "run"]
