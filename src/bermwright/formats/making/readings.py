"""Radii of rings that were measured, from a table of plain text: course, direction, radius."""

from __future__ import annotations

import csv
import io
import math
from typing import TYPE_CHECKING

from bermwright.base.errors import BermwrightError, QuantityError
from bermwright.base.units import parse_exact
from bermwright.form.dome import Reading

if TYPE_CHECKING:
    from collections.abc import Iterator

HEAD = ("course", "direction", "radius")
HOW = (
    "Write a table with the head `course,direction,radius`, one radius a line, such as `12,45 deg,1.93 m`; "
    "directions count clockwise from the zero mark."
)
MOST = 5000
"""Lines that one table may have."""


class ReadingsError(BermwrightError, ValueError):
    """A table of radii that cannot be read; all its mistakes at once."""

    def __init__(self, name: str, mistakes: list[str]) -> None:
        things = "1 thing" if len(mistakes) == 1 else f"{len(mistakes)} things"
        super().__init__(
            "\n".join([f"{name}: {things} to put right", *(f"  {one}" for one in mistakes), f"  {HOW}"])
        )


def read_rings(name: str, content: bytes) -> tuple[Reading, ...]:
    """Every radius of a table; raises `ReadingsError` with every mistake."""
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise ReadingsError(name, ["It is no text in UTF-8."]) from None
    lines = [(at, line) for at, line in enumerate(text.splitlines(), 1) if line.strip() and line[0] != "#"]
    if not lines or len(lines) > MOST:
        raise ReadingsError(name, [f"It has {len(lines)} lines; from 2 to {MOST} are read."])
    at, head = lines[0]
    columns = [cell.strip().lower() for cell in next(csv.reader(io.StringIO(head)))]
    missing = [word for word in HEAD if word not in columns]
    if missing:
        raise ReadingsError(name, [f"line {at}: the head has no column {', '.join(missing)}."])
    mistakes: list[str] = []
    found = list(_rows(lines[1:], columns, mistakes))
    if not found and not mistakes:
        mistakes.append("There is no line under the head.")
    if mistakes:
        raise ReadingsError(name, mistakes)
    return tuple(found)


def _rows(lines: list[tuple[int, str]], columns: list[str], mistakes: list[str]) -> Iterator[Reading]:
    for at, line in lines:
        cells = [cell.strip() for cell in next(csv.reader(io.StringIO(line)))]
        if len(cells) != len(columns):
            mistakes.append(f"line {at}: {len(cells)} values under {len(columns)} columns.")
            continue
        row = dict(zip(columns, cells, strict=True))
        try:
            yield _reading(row)
        except (QuantityError, ValueError) as error:
            mistakes.append(f"line {at}: {error}")


def _reading(row: dict[str, str]) -> Reading:
    if not row["course"].isdigit():
        raise ValueError(f"course {row['course']!r} is no whole number.")
    direction = parse_exact(row["direction"], "angle")
    radius = parse_exact(row["radius"], "length")
    if not 0.0 < radius < 40.0:
        raise ValueError(f"radius {row['radius']} is not over 0 and below 40 m.")
    return Reading(course=int(row["course"]), direction=direction % (2.0 * math.pi), radius=radius)
