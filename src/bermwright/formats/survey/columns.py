"""A table of text taken apart: its head, its lines, and every mistake at once."""

from __future__ import annotations

import csv
import io
import math
import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.base.errors import QuantityError
from bermwright.base.units import parse_exact
from bermwright.form.setout import SetOutError

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

_UNIT = re.compile(r"\s*[\[(]\s*([a-zA-Z°]+)\s*[\])]\s*$|_(m|mm|cm|ft|in)\s*$")
_WAYS = {"east", "north", "up", "height"}
"""Words in brackets behind a name that are no unit."""
_BARE = re.compile(r"[-+−]?(?:\d+(?:[.,]\d+)?|[.,]\d+)$")
MARKS = (";", "\t", ",")
"""What parts columns, where the first line has it; else blanks do."""
MOST_TOLD = 12
"""Mistakes told at once; a file with more is another kind of file."""


@dataclass(slots=True)
class Lines:
    """The lines of a table by the names of its columns, with what is wrong gathered on the way."""

    name: str
    head: tuple[str, ...]
    units: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]
    """Line in the file, cells."""
    mistakes: list[str] = field(default_factory=list)

    def column(self, words: tuple[str, ...]) -> int | None:
        """Number of the column that is called by one of these words; the first word that is there counts."""
        return next((self.head.index(word) for word in words if word in self.head), None)

    def length(self, line: int, cells: tuple[str, ...], at: int, what: str) -> float:
        """A length in metres; not a number where it is wrong, which is then told."""
        cell = cells[at] if at < len(cells) else ""
        unit = self.units[at] or "m"
        try:
            return _length(cell, unit)
        except QuantityError as error:
            self.wrong(line, f"{what} ({cell!r}): {error}" if cell else f"{what} is missing")
            return math.nan

    def degrees(self, line: int, cells: tuple[str, ...], at: int, what: str, most: float) -> float:
        """An angle in degrees."""
        cell = (cells[at] if at < len(cells) else "").replace("−", "-").rstrip("°")
        try:
            value = float(cell)
        except ValueError:
            self.wrong(line, f"{what} ({cell!r}): write decimal degrees, such as 62.90013")
            return math.nan
        if not -most <= value <= most:
            self.wrong(line, f"{what} is {value:g}; it lies from -{most:g} to {most:g} degrees")
            return math.nan
        return value

    def wrong(self, line: int, text: str) -> None:
        """Note a mistake."""
        self.mistakes.append(f"  line {line}: {text}")

    def refuse(self) -> None:
        """Raise everything that is wrong, at once."""
        if not self.mistakes:
            return
        count = len(self.mistakes)
        told = self.mistakes[:MOST_TOLD]
        rest = [f"  and {count - MOST_TOLD} more"] if count > MOST_TOLD else []
        things = "1 thing" if count == 1 else f"{count} things"
        raise SetOutError("\n".join([f"{self.name}: {things} to put right", *told, *rest]))


def _length(cell: str, unit: str) -> float:
    plain = cell.replace("−", "-")
    if _BARE.match(plain):
        return parse_exact(f"{float(plain.replace(',', '.')):.6f} {unit}", "level")
    return parse_exact(plain, "level")


def lines_of(name: str, content: bytes, *, head: str) -> Lines:
    """The lines of a CSV file; `head` is the first line that should stand there."""
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise SetOutError(f"{name} is no text in UTF-8. Save the table as CSV, UTF-8.") from None
    try:
        found = list(_rows(text))
    except csv.Error as error:
        raise SetOutError(f"{name} is no table: {error}. Its first line is: {head}") from None
    if not found:
        raise SetOutError(f"{name} is empty. Its first line is: {head}")
    first = found[0][1]
    lines = Lines(
        name=name,
        head=tuple(_UNIT.sub("", cell).strip().casefold() for cell in first),
        units=tuple(_unit(cell) for cell in first),
        rows=tuple(found[1:]),
    )
    _note_longer(lines)
    return lines


def _unit(cell: str) -> str:
    match = _UNIT.search(cell)
    word = (match[1] or match[2]) if match else ""
    return "" if word.casefold() in _WAYS else word


def _note_longer(lines: Lines) -> None:
    """Lines with more values than names: decimal commas in a table whose columns are parted by commas."""
    for line, cells in lines.rows:
        if any(cells[len(lines.head) :]):
            lines.wrong(
                line,
                f"{len(cells)} values for {len(lines.head)} columns. Write decimals with a point, or part "
                'the columns by ";"',
            )


def _rows(text: str) -> Iterator[tuple[int, tuple[str, ...]]]:
    plain = [line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    mark = next((one for one in MARKS if plain and one in plain[0]), None)
    if mark is None:
        rows = ((number, line.split()) for number, line in enumerate(text.splitlines(), start=1))
        yield from ((number, tuple(cells)) for number, cells in rows if cells and cells[0][0] != "#")
        return
    reader = csv.reader(io.StringIO(text), delimiter=mark)
    for cells in reader:
        stripped = tuple(cell.strip() for cell in cells)
        if any(stripped) and not stripped[0].startswith("#"):
            yield reader.line_num, stripped


def columns_of(lines: Lines, wanted: Mapping[str, tuple[str, ...]], *, head: str) -> dict[str, int]:
    """The number of every wanted column; refused with the right first line where one is missing."""
    found = {name: lines.column(words) for name, words in wanted.items()}
    missing = [name for name, at in found.items() if at is None]
    if missing:
        raise SetOutError(
            f"{lines.name}: the first line has no {' and no '.join(missing)} (it says: "
            f"{', '.join(lines.head)}). Write: {head}"
        )
    return {name: at for name, at in found.items() if at is not None}
