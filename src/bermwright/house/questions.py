"""What is not known becomes a question with the cheapest way to answer it."""

from __future__ import annotations

import re
from dataclasses import is_dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from bermwright.base.findings import Question
from bermwright.house.around import Fill
from bermwright.house.fields import Said, Table, Tables, said_of
from bermwright.house.site import Soil

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bermwright.house.model import House

_NOTHING: Mapping[str, tuple[str, ...]] = MappingProxyType({})


def questions(house: House, blocked: Mapping[str, tuple[str, ...]] = _NOTHING) -> tuple[Question, ...]:
    """Every question that the house leaves open, in the order of the file.

    `blocked` tells for a plain path (`vault.nails`, see `plain_path`) which rules stay unknown.
    """
    return tuple(_ask(said, place, path, blocked) for said, place, path in _open(house, house, "", ""))


def _ask(said: Said, place: str, path: str, blocked: Mapping[str, tuple[str, ...]]) -> Question:
    ask = said.ask
    assert ask is not None  # noqa: S101  (only fields with a question are walked)
    return Question(
        place=place, asks=ask.asks, why=ask.why, cheapest_way=ask.cheapest_way, blocks=blocked.get(path, ())
    )


def _open(house: House, table: object, place: str, path: str) -> Iterator[tuple[Said, str, str]]:
    for key, said in said_of(table.__class__).items():
        value = getattr(table, said.attribute)
        here, plain = f"{place}.{key}".lstrip("."), f"{path}.{key}".lstrip(".")
        if said.ask is not None and value in (None, ()):
            if said.ask.needed(table) and not _from_soil(house, table, key):
                yield said, here, plain
        elif isinstance(said.kind, Table) and is_dataclass(value):
            yield from _open(house, value, here, plain)
        elif isinstance(said.kind, Tables):
            for count, entry in enumerate(value, 1):
                yield from _open(house, entry, f"{here} {label(entry, count)}", plain)


def _from_soil(house: House, table: object, key: str) -> bool:
    """Whether a fill takes this from a soil of the site, which is then asked itself."""
    if not isinstance(table, Fill) or table.soil is None or house.soil(table.soil) is None:
        return False
    return key in said_of(Soil)


def label(entry: object, count: int) -> str:
    """How one of several tables is told apart: its name in quotes, else its number."""
    name = getattr(entry, "name", "")
    return f'"{name}"' if name else f"number {count}"


def plain_path(place: str) -> str:
    """A question's place without names and numbers.

    >>> plain_path('vault "day room".cover number 2.friction')
    'vault.cover.friction'
    """
    return re.sub(r' ("[^"]*"|number \d+)', "", place)
