"""Texts of the house file put into a house, as if the file had been written and read again."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, assert_never

from bermwright.base.errors import BermwrightError, OutOfRangeError, QuantityError
from bermwright.base.units import parse, parse_exact, parse_pair
from bermwright.house import House, contradictions
from bermwright.house.fields import (
    Choice,
    Cost,
    Day,
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

if TYPE_CHECKING:
    from bermwright.adapt.mend.nouns import Writes, Written
    from bermwright.base.ranges import Range

Tree = dict[str | int, Any]
SLACK = 1e-9


class NoSuchHouseError(OutOfRangeError):
    """A change that no house file could hold."""


def changed(house: House, writes: Writes) -> House:
    """The house with these keys set. Raises `NoSuchHouseError` where it contradicts itself."""
    try:
        new: House = _table(house, House, _tree(writes))
    except (QuantityError, TypeError, KeyError, ValueError) as error:
        raise NoSuchHouseError(f"That cannot be written: {error}") from error
    clashes = contradictions(new)
    if clashes:
        one = clashes[0]
        place = ".".join(str(part) for part in one.path)
        raise NoSuchHouseError(f"{place} would be {one.given}: {one.allowed}")
    return new


def _tree(writes: Writes) -> Tree:
    tree: Tree = {}
    for key, value in writes:
        *way, last = key
        here = tree
        for part in way:
            here = here.setdefault(part, {})
        here[last] = value
    return tree


def _table(before: Any, model: type, tree: Tree) -> Any:  # noqa: ANN401  (an instance of `model`)
    said = said_of(model)
    values: dict[str, Any] = {}
    for key, raw in tree.items():
        one = said[str(key)]
        values[one.attribute] = _field(getattr(before, one.attribute, None), one, raw)
    return model(**values) if before is None else replace(before, **values)


def _field(before: Any, said: Said, raw: Any) -> Any:  # noqa: ANN401  (what the model holds)
    match said.kind:
        case Table():
            return None if raw is None else _table(before, said.kind.of, raw)
        case Tables():
            return _entries(before or (), said.kind.of, raw)
        case _:
            return said.default if raw is None else value_of(raw, said)


def _entries(before: tuple[Any, ...], model: type, tree: Tree) -> tuple[Any, ...]:
    entries = list(before)
    for place, raw in sorted(tree.items()):
        if int(place) < len(entries):
            entries[int(place)] = _table(entries[int(place)], model, raw)
        elif int(place) == len(entries):
            entries.append(_table(None, model, raw))
        else:
            raise NoSuchHouseError(f"The list has {len(entries)} entries and no number {int(place) + 1}.")
    return tuple(entries)


def value_of(raw: Written, said: Said) -> object:
    """What the model holds for a text of the file."""
    match said.kind:
        case Quantity():
            return _quantity(str(raw), said.kind)
        case Whole() | Number():
            if not isinstance(raw, int | float) or not said.kind.low <= raw <= said.kind.high:
                raise QuantityError(f"{raw} must lie from {said.kind.low:g} to {said.kind.high:g}.")
            return raw if isinstance(said.kind, Whole) else float(raw)
        case Choice():
            return said.kind.options(str(raw))
        case YesNo():
            return str(raw) == "yes"
        case Words() | Day():
            return str(raw)
        case Size():
            return _size(str(raw), said.kind)
        case Path() | Cost() | Table() | Tables():
            raise BermwrightError(f"No lever changes {said.key}.")
        case _:
            assert_never(said.kind)


def _quantity(text: str, kind: Quantity) -> float | Range:
    if kind.ranged:
        found = parse(text, kind.dimension)
        _inside(found.low, kind, text)
        _inside(found.high, kind, text)
        return found
    value = parse_exact(text, kind.dimension)
    _inside(value, kind, text)
    return value


def _inside(value: float, kind: Quantity, text: str) -> None:
    low, high = kind.bounds
    if not low - SLACK * max(abs(low), 1.0) <= value <= high + SLACK * max(abs(high), 1.0):
        raise QuantityError(f"{text} does not lie from {kind.low} to {kind.high}.")


def _size(text: str, kind: Size) -> object:
    first, second = parse_pair(text)
    _inside(first, kind.first, text)
    _inside(second, kind.second, text)
    return kind.of(first, second)
