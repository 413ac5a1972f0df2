"""What is not known becomes a question with the cheapest way to answer it."""

from __future__ import annotations

import re
from dataclasses import is_dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from bermwright.base.findings import Question
from bermwright.house.around import Fill
from bermwright.house.fields import Said, Table, Tables, said_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bermwright.house.model import House
    from bermwright.house.vault import Vault

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
    known = house.fill(_vault_of(house, table)) if isinstance(table, Fill) else table
    for key, said in said_of(type(table)).items():
        value = getattr(known, said.attribute)
        here, plain = f"{place}.{key}".lstrip("."), f"{path}.{key}".lstrip(".")
        if said.ask is not None and value in (None, ()) and said.ask.needed(known):
            yield said, here, plain
        elif isinstance(said.kind, Table) and is_dataclass(value):
            yield from _open(house, value, here, plain)
        elif isinstance(said.kind, Tables):
            for count, entry in enumerate(value, 1):
                yield from _open(house, entry, f"{here} {label(entry, count)}", plain)


def _vault_of(house: House, fill: Fill) -> Vault:
    return next(vault for vault in house.vaults if vault.fill is fill)


def label(entry: object, count: int) -> str:
    """How one of several tables is told apart: its name in quotes, else its number."""
    name = getattr(entry, "name", "")
    return f'"{name}"' if name else f"number {count}"


def plain_path(place: str) -> str:
    """A question's place without names and numbers: `vault "day room".nails` is `vault.nails`.

    >>> plain_path('vault "day room".cover number 2.friction')
    'vault.cover.friction'
    """
    return re.sub(r' ("[^"]*"|number \d+)', "", place)
