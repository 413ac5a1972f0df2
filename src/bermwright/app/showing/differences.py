"""What two house files say otherwise, place by place, in the words of the file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from bermwright.formats.house_file.reading import parsed
from bermwright.house import House
from bermwright.house.fields import Table, Tables, said_of

if TYPE_CHECKING:
    from collections.abc import Iterator

NOTHING = "not given"


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One value that is another."""

    place: str
    """As a builder says it: `vault "day room", rise`."""
    before: str
    after: str
    says: str
    """What the place is, from the reference of the house file."""


def differences(before: str, after: str) -> tuple[Difference, ...]:
    """Everything that the text of one file says otherwise than that of another; remarks do not count."""
    return tuple(_table(parsed(before, "before"), parsed(after, "after"), House, ""))


def _table(before: Any, after: Any, model: type | None, place: str) -> Iterator[Difference]:  # noqa: ANN401  (any two values of a house)
    """Two tables, key by key."""
    for key in dict.fromkeys([*before, *after]):
        said = said_of(model).get(key) if model else None
        inner = said.kind.of if said and isinstance(said.kind, Table | Tables) else None
        here = f"{place}, {key}" if place else key
        old, new = before.get(key), after.get(key)
        if _tables(old) or _tables(new):
            yield from _lists(old or [], new or [], inner, here)
        elif isinstance(old, dict) or isinstance(new, dict):
            yield from _table(old or {}, new or {}, inner, here)
        elif old != new:
            was, now = _written(old), _written(new)
            now = f"{now}, other ones" if was == now else now
            yield Difference(place=here, before=was, after=now, says=said.words if said else "")


def _tables(value: object) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(one, dict) for one in value)


def _lists(before: list[Any], after: list[Any], model: type | None, place: str) -> Iterator[Difference]:
    """Two lists of tables, each matched by what it is called, else by its number."""
    old, new = _called(before), _called(after)
    for name in dict.fromkeys([*old, *new]):
        here = f"{place} {name}"
        if name not in new:
            yield Difference(place=here, before="there", after="taken out", says="")
        elif name not in old:
            yield Difference(place=here, before=NOTHING, after="new", says="")
            yield from _table({}, new[name], model, here)
        else:
            yield from _table(old[name], new[name], model, here)


def _called(tables: list[Any]) -> dict[str, Any]:
    """Tables by name; an end by its vault and side, a layer by its kind; the number tells twins apart."""
    found: dict[str, Any] = {}
    for number, table in enumerate(tables, 1):
        name = f'"{table["name"]}"' if "name" in table else _by_place(table, number)
        found[name if name not in found else f"{name} ({number})"] = table
    return found


def _by_place(table: dict[str, Any], number: int) -> str:
    words = [str(table[key]) for key in ("vault", "at", "kind") if key in table]
    return f'"{" ".join(words)}"' if words else f"number {number}"


def _written(value: object) -> str:
    if value is None:
        return NOTHING
    if isinstance(value, list):
        return f"{len(value)} points" if len(value) > 2 else str(value)  # noqa: PLR2004  (a pair can be read)
    return str(value)
