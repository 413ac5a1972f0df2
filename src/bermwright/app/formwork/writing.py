"""Sheets as files of the kind that was asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.formats.drawings import dxf, pdf, svg

if TYPE_CHECKING:
    from pathlib import Path

    from bermwright.base.drawing import Sheet

MADE = (".pdf", ".svg", ".dxf")
"""Endings that can be written."""


def files_of(path: Path, sheets: tuple[Sheet, ...], date: str) -> tuple[tuple[Path, bytes], ...]:
    """One PDF or DXF, or an SVG for every sheet, numbered where there are several."""
    match path.suffix.lower():
        case ".pdf":
            return ((path, pdf(*sheets, date=date)),)
        case ".dxf":
            return ((path, dxf(*sheets)),)
        case _:
            names = (
                [path]
                if len(sheets) == 1
                else [
                    path.with_name(f"{path.stem}-{number}{path.suffix}")
                    for number in range(1, len(sheets) + 1)
                ]
            )
            return tuple(
                (name, svg(sheet).encode("utf-8")) for name, sheet in zip(names, sheets, strict=True)
            )
