"""One door for every kind of sketch."""

from __future__ import annotations

from pathlib import PurePath
from typing import TYPE_CHECKING

from bermwright.form.sketch import SketchError
from bermwright.formats.sketches.dxf import dxf
from bermwright.formats.sketches.svg import svg
from bermwright.formats.sketches.table import table

if TYPE_CHECKING:
    from bermwright.formats.sketches.nouns import Drawn

ENDINGS = (".csv", ".txt", ".dxf", ".svg")
LARGEST = 8_000_000
"""A sketch is far smaller (bytes)."""


def read_sketch(name: str, content: bytes, *, line: str | None = None) -> Drawn:
    """Points of a sketch by the ending of its file's name; `line` names the one that is meant."""
    if len(content) > LARGEST:
        raise SketchError(f"{name} has {len(content) / 1e6:.0f} MB; a sketch has less than 8 MB.")
    ending = PurePath(name).suffix.lower()
    try:
        match ending:
            case ".csv" | ".txt":
                return table(content)
            case ".dxf":
                return dxf(content, line)
            case ".svg":
                return svg(content, line)
    except SketchError as error:
        raise SketchError(f"{name}: {error}") from None
    raise SketchError(f"{name}: a sketch ends in {', '.join(ENDINGS)}.")
