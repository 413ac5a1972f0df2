"""What a builder writes into the house file is read by something, or its reference says that it is not."""

from __future__ import annotations

import ast
from dataclasses import fields
from pathlib import Path

import bermwright
from bermwright.house.fields import Table, Tables, said_of
from bermwright.house.model import House

PACKAGE = Path(bermwright.__file__).parent
KEPT = {("House", "review"), ("Stove", "storage"), ("Stove", "flue_height")}
"""Said to be kept for people, in the words of the field itself."""
BY_NAME = {("Prices", name) for name in ("planks", "membrane", "drainage", "geogrid")}
"""Looked up by the name of what is bought: `takeoff/money.py`."""


def tables_of(table: type) -> set[type]:
    found = {table}
    for key, said in said_of(table).items():
        if isinstance(said.kind, (Table, Tables)) and (table.__name__, key) not in KEPT:
            found |= tables_of(said.kind.of)
    return found


def attributes_read_by_the_program() -> set[str]:
    checks = PACKAGE / "house" / "checks"
    paths = (path for path in PACKAGE.rglob("*.py") if not path.is_relative_to(checks))
    trees = (ast.parse(path.read_text(encoding="utf-8")) for path in paths)
    return {node.attr for tree in trees for node in ast.walk(tree) if isinstance(node, ast.Attribute)}


def test_every_field_is_read_or_says_that_it_is_only_kept():
    read = attributes_read_by_the_program()
    asked = {(table.__name__, one.name) for table in tables_of(House) for one in fields(table)}
    assert {(table, name) for table, name in asked if name not in read} == KEPT | BY_NAME
