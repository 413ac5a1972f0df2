"""What a table is."""

from __future__ import annotations

from dataclasses import dataclass

Cell = str | int | float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A named table; a cell that is None is empty: the amount is not known."""

    name: str
    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
