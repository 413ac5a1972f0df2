"""Measured points in a table: two columns, distance and height, with their unit."""

from __future__ import annotations

import csv
import io
import re
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import QuantityError
from bermwright.base.units import parse_exact
from bermwright.form.sketch import SketchError
from bermwright.formats.sketches.nouns import Drawn

if TYPE_CHECKING:
    from collections.abc import Sequence

_UNIT = re.compile(r"[\[(]\s*(mm|cm|m|ft|in)\s*[\])]\s*$")
_BARE = re.compile(r"[-+−]?\d+(?:[.,]\d+)?(?:e[-+]?\d+)?$", re.IGNORECASE)
HEADER = "x [m], z [m]"


def table(content: bytes) -> Drawn:
    """Points of a CSV file; its first two columns are distance to the right and height."""
    rows = _rows(content)
    head, body = ([], rows) if _numbers(rows[0]) else (rows[0], rows[1:])
    units = [_UNIT.search(cell) for cell in head[:2]]
    given = [unit[1] if unit else None for unit in units] if len(units) == 2 else [None, None]
    numbers = [
        (line, _pair(cells, given, line)) for line, cells in enumerate(body, len(rows) - len(body) + 1)
    ]
    sized = [bare is False for _, (_, bare) in numbers]
    if any(sized) and not all(sized):
        line = next(line for (line, _), has in zip(numbers, sized, strict=True) if not has)
        raise SketchError(
            f"Line {line} has no unit, others have. Write the unit once in the first line: {HEADER}."
        )
    points = np.array([pair for _, (pair, _) in numbers], dtype=float).reshape(-1, 2)
    return Drawn(x=points[:, 0], z=points[:, 1], unit=1.0 if sized and all(sized) else None)


def _rows(content: bytes) -> list[list[str]]:
    text = content.decode("utf-8-sig", errors="replace")
    mark = ";" if ";" in text else "\t" if "\t" in text else ","
    try:
        rows = [
            [cell.strip() for cell in row]
            for row in csv.reader(io.StringIO(text, newline=""), delimiter=mark)
        ]
    except csv.Error as error:
        raise SketchError(f"This is no table that can be read: {error}.") from None
    kept = [row for row in rows if any(row) and not row[0].startswith("#")]
    if not kept:
        raise SketchError(f"The table is empty. Write {HEADER} and a line for every point.")
    return kept


def _numbers(row: Sequence[str]) -> bool:
    return bool(row) and any(character.isdigit() for character in row[0]) and not _UNIT.search(row[0])


def _pair(cells: Sequence[str], units: Sequence[str | None], line: int) -> tuple[tuple[float, float], bool]:
    """Two numbers of a line, in metres or bare, and whether they are bare."""
    if len(cells) < 2 or not cells[0] or not cells[1]:
        raise SketchError(f"Line {line} has no two numbers; every point needs a distance and a height.")
    first, second = (_number(cell, unit, line) for cell, unit in zip(cells[:2], units, strict=True))
    if first[1] != second[1]:
        raise SketchError(f"Line {line} has one number with a unit and one without.")
    return (first[0], second[0]), first[1]


def _number(cell: str, unit: str | None, line: int) -> tuple[float, bool]:
    bare = _BARE.match(cell)
    plain = cell.replace("−", "-").replace(",", ".")
    try:
        if bare and unit is None:
            return float(plain), True
        return parse_exact(f"{plain} {unit}" if bare else cell, "length"), False
    except QuantityError as error:
        raise SketchError(f"Line {line}: {error}") from None
