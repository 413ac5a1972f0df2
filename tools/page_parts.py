"""The small parts of a generated page."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

NOTE = "Written by `make docs`; do not edit by hand.\n"


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A Markdown table."""
    lines = [head, ["---"] * len(head), *rows]
    return "".join("| " + " | ".join(cell(text) for text in line) + " |\n" for line in lines)


def cell(text: str) -> str:
    """A text that fits into one cell."""
    return " ".join(text.replace("|", "\\|").split())
