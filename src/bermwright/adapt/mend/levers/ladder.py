"""How a lever's steps are made: from the value in the file along a ladder of what can be bought."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from bermwright.adapt.mend.nouns import Amount
from bermwright.house import House
from bermwright.house.fields import said_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from bermwright.adapt.mend.nouns import Place, Writes
    from bermwright.house.checks import Key

SCALES = {
    "mm": 1e-3, "m": 1.0, "kN": 1e3, "kN/m": 1e3, "kPa": 1e3, "MPa": 1e6, "m3/h": 1.0 / 3600.0, "m/s": 1.0,
}  # fmt: skip
"""SI value of one of each unit that texts are written in."""
ALIKE = 1e-6
MOST = 8
"""Steps of one lever that are looked at."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A table of the file with its key."""

    key: Key
    table: Any


def entries(place: Place, path: str) -> tuple[Entry, ...]:
    """The tables at a path such as `vault.cover` that belong to the place's part, or to its vault."""
    first, *rest = path.split(".")
    found = tuple(_first(place, first))
    for part in rest:
        found = tuple(inner for entry in found for inner in _inner(entry, part))
    return found


def _first(place: Place, name: str) -> Iterator[Entry]:
    said = said_of(House)[name]
    value = getattr(place.house, said.attribute)
    if not isinstance(value, tuple):
        if value is not None:
            yield Entry((name,), value)
        return
    if name == "vault":
        if place.vault is not None:
            yield Entry((name, place.vault), value[place.vault])
        return
    all_of_it = [Entry((name, number), one) for number, one in enumerate(value)]
    named = [one for one in all_of_it if title_of(name, one.table) == place.part]
    yield from named or [one for one in all_of_it if _belongs(place, one.table)]


def _inner(entry: Entry, part: str) -> Iterator[Entry]:
    said = said_of(type(entry.table))[part]
    value = getattr(entry.table, said.attribute)
    if isinstance(value, tuple):
        for number, one in enumerate(value):
            yield Entry((*entry.key, part, number), one)
    elif value is not None:
        yield Entry((*entry.key, part), value)


def title_of(name: str, table: Any) -> str:  # noqa: ANN401  (any table of the house)
    """How findings call a part: `wall "foot walls"`, `end "day room", back`."""
    if name == "end":
        return f'end "{table.vault}", {table.at}'
    return f'{name} "{getattr(table, "name", "")}"'


def _belongs(place: Place, table: Any) -> bool:  # noqa: ANN401  (any table of the house)
    vault = getattr(table, "vault", None)
    return vault is None or place.vault is None or vault == place.house.vaults[place.vault].name


def written(value: float, unit: str) -> str | int:
    """An SI value as it stands in the file.

    >>> written(0.045, "mm"), written(4, ""), written(0.4636476, "slope")
    ('45 mm', 4, '1:2')
    """
    if unit == "slope":
        return "0 %" if value < ALIKE else f"1:{round(1.0 / math.tan(value), 2):g}"
    if not unit:
        return int(value)
    return f"{round(value / SCALES[unit], 6):g} {unit}"


def ladder(
    path: str,
    key: str,
    values: Sequence[float],
    unit: str = "",
    *,
    up: bool = True,
    begin: float | None = None,
    only: Callable[[Any], bool] = lambda _table: True,
) -> Callable[[Place], tuple[Amount, ...]]:
    """Steps of one number: every table at `path` goes on from its own value.

    `begin` is what counts where the file gives none; without it such a table is left alone.
    """
    scale = SCALES.get(unit, 1.0)
    steps = [math.atan(1.0 / value) if unit == "slope" else value * scale for value in values]
    steps.sort(reverse=not up)

    def amounts(place: Place) -> tuple[Amount, ...]:
        tables = [one for one in entries(place, path) if only(one.table)]
        ways = [(one, list(_beyond(one.table, key, steps, up=up, begin=begin))) for one in tables]
        ways = [(one, way) for one, way in ways if way]
        most = min(max((len(way) for _, way in ways), default=0), MOST)
        return tuple(_amount(ways, key, unit, number) for number in range(most))

    return amounts


def _beyond(
    table: Any,  # noqa: ANN401  (any table of the house)
    key: str,
    steps: Sequence[float],
    *,
    up: bool,
    begin: float | None,
) -> Iterator[float]:
    now = getattr(table, said_of(type(table))[key].attribute)
    if now is None:
        now = begin
    if now is None:
        return
    slack = ALIKE * max(abs(now), ALIKE)
    for step in steps:
        if step > now + slack if up else step < now - slack:
            yield step


def _amount(ways: list[tuple[Entry, list[float]]], key: str, unit: str, number: int) -> Amount:
    writes: list[tuple[Key, str | int]] = []
    says: dict[str, None] = {}
    for entry, way in ways:
        value = way[min(number, len(way) - 1)]
        now = getattr(entry.table, said_of(type(entry.table))[key].attribute)
        text = written(value, unit)
        writes.append(((*entry.key, key), text))
        says[f"{text} in place of {'none' if now is None else written(now, unit)}"] = None
    return Amount(says=", ".join(says), writes=tuple(writes))


def sizes(
    path: str,
    key: str,
    pairs: Sequence[tuple[float, float]],
    *,
    only: Callable[[Any], bool] = lambda _t: True,
) -> Callable[[Place], tuple[Amount, ...]]:
    """Steps of a size such as `60 x 150 mm`: every pair (mm) that is larger in one measure, less in none."""

    def amounts(place: Place) -> tuple[Amount, ...]:
        tables = [one for one in entries(place, path) if only(one.table)]
        tables = [one for one in tables if _size(one.table, key) is not None]
        if not tables:
            return ()
        first = _size(tables[0].table, key)
        larger = [pair for pair in pairs if first is not None and _larger(pair, first)]
        return tuple(_sized(tables, key, pair) for pair in larger[:MOST])

    return amounts


def _size(table: Any, key: str) -> tuple[float, float] | None:  # noqa: ANN401  (any table of the house)
    value = getattr(table, said_of(type(table))[key].attribute)
    if value is None:
        return None
    names = ("diameter", "length") if hasattr(value, "diameter") else ("thickness", "width")
    return 1e3 * getattr(value, names[0]), 1e3 * getattr(value, names[1])


def _larger(pair: tuple[float, float], now: tuple[float, float]) -> bool:
    no_less = all(one >= other - ALIKE for one, other in zip(pair, now, strict=True))
    return no_less and pair != (round(now[0], 6), round(now[1], 6))


def _sized(tables: list[Entry], key: str, pair: tuple[float, float]) -> Amount:
    text = "{:g} x {:g} mm".format(*pair)
    now = _size(tables[0].table, key)
    before = "none" if now is None else "{:g} x {:g} mm".format(*now)
    writes = tuple(((*one.key, key), text) for one in tables)
    return Amount(says=f"{text} in place of {before}", writes=writes)


def word(
    path: str,
    key: str,
    texts: Sequence[str],
    *,
    only: Callable[[Any], bool] = lambda _table: True,
) -> Callable[[Place], tuple[Amount, ...]]:
    """Steps that are words: those after the one in the file; all of them where it gives none."""

    def amounts(place: Place) -> tuple[Amount, ...]:
        found = []
        for entry in entries(place, path):
            now = getattr(entry.table, said_of(type(entry.table))[key].attribute)
            shown = {True: "yes", False: "no", None: ""}.get(now) if now in {True, False, None} else str(now)
            if not only(entry.table) or shown is None:
                continue
            after = texts[texts.index(shown) + 1 :] if shown in texts else texts
            found += [(entry, text, shown or "nothing said") for text in after]
        return tuple(
            Amount(says=f"{text} in place of {shown}", writes=(((*entry.key, key), text),))
            for entry, text, shown in found
        )

    return amounts


def fixed(
    make: Callable[[Place], Writes], says: str, *, when: Callable[[Place], bool] = lambda _place: True
) -> Callable[[Place], tuple[Amount, ...]]:
    """One step that needs more than one key."""

    def amounts(place: Place) -> tuple[Amount, ...]:
        writes = make(place) if when(place) else ()
        return (Amount(says=says, writes=writes),) if writes else ()

    return amounts
