"""Changing values in a house file while its comments and its order stay."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Any

from bermwright.base.errors import BermwrightError
from bermwright.base.units import parse_exact
from bermwright.formats.house_file.files import write
from bermwright.formats.house_file.reading import read

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from bermwright.house.checks import Key

Written = str | int | float | bool | list[list[str]] | None
"""What a key is set to, as a builder would write it; None takes the key out."""


def save(document: str, changes: Mapping[Key, Written], path: str | Path) -> str:
    """Change values in the text of a house file and write it; the new text.

    Keys are those of the file, entries counted from 0: `("vault", 0, "span")`. A change that would make
    the file wrong is refused with `HouseFileError`, and nothing is written.
    """
    text = edited(document, changes)
    read(text, str(path))
    write(text, path)
    return text


def edited(document: str, changes: Mapping[Key, Written]) -> str:
    """The text with its changes, comments and order kept. Slopes get their degrees beside them.

    >>> edited('span = "4 m"  # measured', {("span",): "4.2 m"})
    'span = "4.2 m"  # measured'
    """
    # tomlkit is only needed here, and reading a file should not wait for it.
    import tomlkit

    whole = tomlkit.parse(document)
    for key, value in changes.items():
        _set(whole, key, value)
    text = tomlkit.dumps(whole)
    return _line_ends(text, document)


def _line_ends(text: str, document: str) -> str:
    """Line ends as the document has them: one kind throughout."""
    plain = text.replace("\r\n", "\n")
    return plain.replace("\n", "\r\n") if "\r\n" in document else plain


def _set(whole: Any, key: Key, value: Written) -> None:  # noqa: ANN401  (tomlkit's containers)
    import tomlkit

    *way, last = key
    table = whole
    for place, part in enumerate(way):
        table = _step(table, part, many=place + 1 < len(key) and isinstance(key[place + 1], int))
    if value is None:
        if last in table:
            del table[last]
        return
    before = table.get(last) if isinstance(last, str) else None
    item = tomlkit.item(value)
    trivia = getattr(before, "trivia", None)
    if trivia is not None and trivia.comment and not _DEGREES.fullmatch(trivia.comment):
        item.trivia.comment_ws, item.trivia.comment = trivia.comment_ws or "  ", trivia.comment
    else:
        _show_degrees(item, value)
    table[last] = item


_DEGREES = re.compile(r"# -?[\d.]+ degrees")


def _show_degrees(item: Any, value: Written) -> None:  # noqa: ANN401  (a tomlkit item)
    """Degrees beside a slope, so that nobody has to know which way round it is read."""
    if isinstance(value, str) and re.fullmatch(r"\s*1\s*:\s*\d+(\.\d+)?\s*", value):
        item.comment(f"{math.degrees(parse_exact(value, 'slope')):.1f} degrees")


def _step(table: Any, part: str | int, *, many: bool) -> Any:  # noqa: ANN401  (tomlkit's containers)
    import tomlkit

    if isinstance(part, int):
        return _entry(table, part)
    if part not in table:
        table[part] = tomlkit.aot() if many else tomlkit.table()
    return table[part]


def _entry(table: Any, part: int) -> Any:  # noqa: ANN401  (tomlkit's containers)
    import tomlkit
    from tomlkit.items import AoT

    if not isinstance(table, list):
        raise BermwrightError(f"Number {part + 1} is asked of something that is no list.")
    if part == len(table) and isinstance(table, AoT):
        table.append(tomlkit.table())
    if part >= len(table):
        raise BermwrightError(f"There is no number {part + 1}; the list has {len(table)}.")
    return table[part]
