"""Parts of a house file as blocks of its text: added, copied, renamed, removed, comments kept.

A block begins with the header of its entry, `[[opening]]`, and ends before the next header that is not one
of its own; comments right above a header belong to it.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from bermwright.base.errors import BermwrightError, HouseFileError
from bermwright.base.units import parse_exact
from bermwright.formats.house_file.editing import edited
from bermwright.formats.house_file.reading import read
from bermwright.formats.house_file.scan import lines_of
from bermwright.house import House
from bermwright.house.fields import Table, Tables, Words, said_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bermwright.house.checks import Key
    from bermwright.house.fields import Said

_HEADER = re.compile(r"^\s*\[\[?\s*[A-Za-z0-9_-]+(?:\s*\.\s*[A-Za-z0-9_-]+)*\s*\]?\]\s*(?:#.*)?$")
NEEDED_BESIDE = frozenset({"rise"})
"""Keys without which most curves cannot be drawn, though a few can."""
ROOM = 0.3
"""Between an opening and its copy (m): room for a post."""
STARTS_WITH = "an example to start with: write your own"
"""The comment beside a value that a new part has to have."""


class PartError(BermwrightError):
    """A part that is not there, or cannot be made."""


@dataclass(frozen=True, slots=True)
class Block:
    """The lines of one entry, counted from 0: `end` is the first that is not its own."""

    start: int
    end: int


def copied(text: str, place: Key, new_name: str | None) -> str:
    """The text with an entry twice, the second right behind the first under a name of its own."""
    block, lines = _block(text, place), text.splitlines(keepends=True)
    mine = _whole(lines[block.start : block.end])
    new = "".join([*_whole(lines[: block.end]), *_apart(mine), *lines[block.end :]])
    twin = (*place[:-1], int(place[-1]) + 1)
    if _entry(text, place).get("name") is None:
        return new
    named = edited(new, {(*twin, "name"): new_name or _free_name(text, place)})
    return _beside(named, twin)


def _beside(text: str, twin: Key) -> str:
    """The text with a copy moved to where it fits beside the first; as it is where it fits nowhere."""
    entry = _entry(text, twin)
    if _reads(text) or not isinstance(entry.get("width"), str):
        return text
    for way in ("across", "along"):
        start, wide = (_metres(entry.get(key, "0 m")) for key in (way, "width"))
        for step in (1, -1, 2, -2, 3, -3):
            moved = edited(text, {(*twin, way): f"{start + step * (wide + ROOM):.2f} m"})
            if _reads(moved):
                return moved
    return text


def _metres(text: str) -> float:
    return parse_exact(text, "level")


def _reads(text: str) -> bool:
    try:
        read(text, "")
    except HouseFileError:
        return False
    return True


def removed(text: str, place: Key) -> str:
    """The text without an entry; with a vault goes whatever names it as its own."""
    entry = _entry(text, place)
    if not isinstance(place[-1], int):
        return _without(text, place)
    gone = [place]
    if place[:-1] == ("vault",):
        gone += [
            (kind, number)
            for kind, entries in tomllib.loads(text).items()
            if isinstance(entries, list) and kind != "vault"
            for number, one in enumerate(entries)
            if isinstance(one, dict) and one.get("vault") == entry.get("name")
        ]
    for one in sorted(gone, key=lambda key: (str(key[0]), -int(key[-1]))):
        text = _without(text, one)
    return text


def _without(text: str, place: Key) -> str:
    """The text without the block of an entry or of a table."""
    block, lines = _block(text, place), text.splitlines(keepends=True)
    return "".join(lines[: _above(lines, block.start)] + lines[block.end :])


def renamed(text: str, place: Key, new_name: str) -> str:
    """The text with another name for an entry, also wherever other entries call it."""
    old, kind = _entry(text, place).get("name"), [str(part) for part in place if isinstance(part, str)][-1]
    if not isinstance(old, str):
        raise PartError("This part has no name.")
    changes: dict[Key, Any] = {(*place, "name"): new_name}
    changes |= dict.fromkeys(_naming(tomllib.loads(text), kind, old, ()), new_name)
    return edited(text, changes)


def added(text: str, where: Key, name: str, values: Mapping[str, Any]) -> str:
    """The text with a new entry of a list, behind the last of its kind, or with a table that it has not yet.

    What the entry cannot do without and was not given begins with the example of the reference, and says so.
    """
    model = _model(where)
    document = tomllib.loads(text)
    rows = list(_rows(model, document, name, values))
    header = ".".join(str(part) for part in where if isinstance(part, str))
    lines = text.splitlines(keepends=True)
    single = _is_table(where)
    if single and _entry(text, where, missing={}):
        raise PartError(f"The file has a {header} already.")
    at = _behind(text, where)
    ends = "\r\n" if "\r\n" in text else "\n"
    block = [f"[{header}]{ends}" if single else f"[[{header}]]{ends}", *(f"{row}{ends}" for row in rows)]
    return "".join([*_whole(lines[:at]), *_apart(block), *_space(lines[at:], ends)])


# ---------------------------------------------------------------- blocks


def _headers(text: str) -> dict[int, Key]:
    """The lines (from 0) on which a table or an entry of a list begins."""
    lines = text.splitlines()
    found: dict[int, Key] = {}
    for key, line in lines_of(text).items():
        # The first entry of a list stands on the line of the list: the entry is meant.
        if _HEADER.match(lines[line - 1]) and len(key) > len(found.get(line - 1, ())):
            found[line - 1] = key
    return found


def _block(text: str, place: Key) -> Block:
    headers = _headers(text)
    start = next((line for line, key in headers.items() if key == place), None)
    if start is None:
        where = ".".join(str(part) for part in place)
        raise PartError(f"{where} has no header of its own in the file. Change it by hand.")
    lines = text.splitlines()
    after = [line for line, key in headers.items() if line > start and key[: len(place)] != place]
    return Block(start, _above(lines, min(after)) if after else len(lines))


def _above(lines: list[str], line: int) -> int:
    """Where what belongs to a header begins: the comments right above it, and blank lines above those."""
    while line > 0 and lines[line - 1].lstrip().startswith("#"):
        line -= 1
    while line > 0 and not lines[line - 1].strip():
        line -= 1
    return line


def _behind(text: str, where: Key) -> int:
    """The line (from 0) behind the last entry of a list, else behind the table that holds it."""
    entries = _entry(text, where, missing=[])
    if isinstance(entries, list) and entries:
        return _block(text, (*where, len(entries) - 1)).end
    holder = where[:-1]
    there = bool(holder) and holder in _headers(text).values()
    return _block(text, holder).end if there else len(text.splitlines())


def _entry(text: str, place: Key, missing: Any = None) -> Any:  # noqa: ANN401  (a plain table or list)
    here: Any = tomllib.loads(text)
    for part in place:
        try:
            here = here[part]
        except (KeyError, IndexError, TypeError):
            if missing is not None:
                return missing
            where = ".".join(str(one) for one in place)
            raise PartError(f"The file has no {where}.") from None
    return here


def _whole(lines: list[str]) -> list[str]:
    """Lines of which the last ends as a line does."""
    if lines and not lines[-1].endswith("\n"):
        return [*lines[:-1], lines[-1] + "\n"]
    return lines


def _apart(block: list[str]) -> list[str]:
    """A block with a blank line before it."""
    return ["\r\n" if block[0].endswith("\r\n") else "\n", *block]


def _space(rest: list[str], ends: str) -> list[str]:
    """What follows, with a blank line before it."""
    return rest if not rest or not rest[0].strip() else [ends, *rest]


# ---------------------------------------------------------------- names and new entries


def _free_name(text: str, place: Key) -> str:
    """A name that no entry of the list has yet."""
    entries = _entry(text, place[:-1])
    names = {one.get("name") for one in entries if isinstance(one, dict)}
    old = str(entries[int(place[-1])].get("name"))
    number = 2
    while f"{old} {number}" in names:
        number += 1
    return f"{old} {number}"


def _naming(table: Any, kind: str, name: str, way: Key) -> Iterator[Key]:  # noqa: ANN401  (plain tables)
    """Keys that call a part by its name: a key of the kind's own word."""
    pairs = table.items() if isinstance(table, dict) else enumerate(table)
    for key, value in pairs:
        if key == kind and value == name:
            yield (*way, key)
        elif isinstance(value, dict | list):
            yield from _naming(value, kind, name, (*way, key))


def _model(where: Key) -> type:
    """The model of the entries of a list, by its place."""
    model: type = House
    for part in where:
        if isinstance(part, int):
            continue
        one = said_of(model).get(part)
        if one is None or not isinstance(one.kind, Table | Tables):
            raise PartError(f"A house has no list named {part}.")
        model = one.kind.of
    return model


def _is_table(where: Key) -> bool:
    """Whether a place is that of a single table."""
    holder = _model(where[:-1]) if len(where) > 1 else House
    one = said_of(holder).get(str(where[-1]))
    return one is not None and isinstance(one.kind, Table)


def _rows(model: type, document: Mapping[str, Any], name: str, values: Mapping[str, Any]) -> Iterator[str]:
    """The lines of a new entry: what was given, and what it cannot do without."""
    vaults = document.get("vault", [])
    for key, one in said_of(model).items():
        if key in values:
            yield f"{key} = {_toml(values[key])}"
        elif isinstance(one.kind, Words) and one.kind.name and name:
            yield f"{key} = {_toml(name)}"
        elif key == "vault" and vaults:
            yield f"{key} = {_toml(vaults[0].get('name', ''))}"
        elif one.required or key in NEEDED_BESIDE:
            yield f"{key} = {_example(one)}  # {STARTS_WITH}"


def _example(one: Said) -> str:
    plain = one.example
    return plain if plain[:1] == "[" or plain.replace(".", "").isdigit() else _toml(plain)


def _toml(value: object) -> str:
    """A plain value as TOML has it."""
    import tomlkit

    return tomlkit.item(value).as_string()


__all__ = ["PartError", "added", "copied", "removed", "renamed"]
