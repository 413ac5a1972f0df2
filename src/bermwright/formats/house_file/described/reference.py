"""The reference page of the house file, made from what is said of every field."""

from __future__ import annotations

from typing import assert_never

from bermwright.base.units import DIMENSIONS
from bermwright.formats.house_file.writing import as_toml
from bermwright.house import House
from bermwright.house.fields import (
    Choice,
    Cost,
    Day,
    Kind,
    Number,
    Path,
    Quantity,
    Said,
    Size,
    Table,
    Tables,
    Whole,
    Words,
    YesNo,
    said_of,
)
from bermwright.house.model import NOT_READ_YET

_HEAD = """# The house file

Every table and key of format 1. A house file is a TOML text: one file, every quantity in quotes with its
unit (`"4.8 m"`, `"15 ft 9 in"`, `"18 kN/m3"`), a range as `"22..30 deg"`, a slope as `"1:2.5"` (1 up in
2.5 along). What is left out is asked, or assumed and printed with its reason; nothing is assumed in silence.
"""


def reference() -> str:
    """The whole page as Markdown."""
    parts = [_HEAD, *_tables(House, "", many=False), _later(), _units()]
    return "\n".join(parts)


def _tables(model: type, path: str, *, many: bool) -> list[str]:
    said = said_of(model)
    plain = [one for one in said.values() if not isinstance(one.kind, Table | Tables)]
    parts = [_section(path, plain, many=many)] if plain else []
    for one in said.values():
        if isinstance(one.kind, Table | Tables):
            inner = f"{path}.{one.key}".lstrip(".")
            parts += _tables(one.kind.of, inner, many=isinstance(one.kind, Tables))
    return parts


def _section(path: str, said: list[Said], *, many: bool) -> str:
    head = f"`[[{path}]]`" if many else f"`[{path}]`" if path else "At the top"
    return "\n".join([f"## {head}", "", *(line for one in said for line in _key(one))])


def _key(said: Said) -> list[str]:
    example = said.example if said.example[:1] == "[" or _bare(said.kind) else f'"{said.example}"'
    lines = [
        f"### `{said.key}`",
        "",
        f"{said.words}",
        "",
        f"- write: `{said.key} = {example}`",
        f"- is: {_is(said.kind)}",
    ]
    return [*lines, *_left_out(said), ""]


def _bare(kind: Kind) -> bool:
    return isinstance(kind, Whole | Number)


def _left_out(said: Said) -> list[str]:
    if said.required:
        return ["- must be given"]
    if said.ask:
        asks = said.ask
        return [f"- if left out it is asked: *{asks.asks}* {asks.why} Cheapest way: {asks.cheapest_way}"]
    if said.source:
        value = as_toml(said.default, said.kind)
        return [f"- if left out: `{value}` is assumed and printed, because {said.source}"]
    return [f"- if left out: {said.missing}"]


def _is(kind: Kind) -> str:
    match kind:
        case Quantity():
            return _quantity(kind)
        case Whole(low=low, high=high, because=because):
            return f"a whole number from {low} to {high}" + (f" ({because})" if because else "")
        case Number(low=low, high=high, because=because):
            return f"a number from {low:g} to {high:g} ({because})"
        case Choice(options=options, later=later):
            words = ", ".join(f'"{option}"' for option in options)
            return f"one of {words}" + (f"; not read yet: {', '.join(later)}" if later else "")
        case YesNo():
            return '"yes" or "no"'
        case Words(options=options):
            return f"one of {', '.join(options)}" if options else "text"
        case Day():
            return "a day, year-month-day"
        case Size(first=first, second=second, words=words):
            return f"{words[0]} ({first.low} to {first.high}) x {words[1]} ({second.low} to {second.high})"
        case Path(least=least):
            return f"a list of at least {least} points, each two lengths"
        case Cost(per=per):
            return f"money per {per}"
        case Table() | Tables():
            return "a table"
        case _:
            assert_never(kind)


def _quantity(kind: Quantity) -> str:
    due = DIMENSIONS[kind.dimension]
    limits = f" from {kind.low} to {kind.high} ({kind.because})" if kind.low else ""
    return due.says + limits + ("; a range `a..b` is allowed" if kind.ranged else "")


def _later() -> str:
    names = ", ".join(f"`{name}`" for name in NOT_READ_YET)
    says = f"These tables are planned. They may stand in a file and are named when it is read: {names}."
    return f"## Not read yet\n\n{says}\n"


def _units() -> str:
    rows = [
        f"| {due.says} | {', '.join(f'`{unit}`' for unit in due.units if unit)} | `{due.example}` |"
        for due in DIMENSIONS.values()
        if any(due.units)
    ]
    return "\n".join(["## Units", "", "| for | write one of | example |", "|---|---|---|", *rows, ""])
