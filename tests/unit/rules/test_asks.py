"""What a rule asks for is a place in the house file, so that its question can say what it blocks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.house import House
from bermwright.house.fields import Table, Tables, said_of
from bermwright.rules.registry import EVERY_RULE

if TYPE_CHECKING:
    from collections.abc import Iterator


def test_every_question_of_a_rule_is_a_place_in_the_file() -> None:
    places = set(_paths(House, ""))
    asked = {place: rule.name for rule in EVERY_RULE for place in rule.asks}
    assert {place: name for place, name in asked.items() if place not in places} == {}


def _paths(model: type, path: str) -> Iterator[str]:
    for key, said in said_of(model).items():
        here = f"{path}.{key}".lstrip(".")
        yield here
        if isinstance(said.kind, Table | Tables):
            yield from _paths(said.kind.of, here)
