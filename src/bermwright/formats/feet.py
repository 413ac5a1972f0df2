"""Levels in feet: documents and sheets are made with bare levels in metres, and turned as a whole.

A level stands in names of stages and places (`fill to +1.00`) long before anybody knows in which units it
will be read, and has no unit of its own. Here every text of a document or sheet is turned at once.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from typing import TYPE_CHECKING, Any, TypeVar

from bermwright.base.units import levels_in

if TYPE_CHECKING:
    from bermwright.base.document import Document

Thing = TypeVar("Thing")


def in_units_of(document: Document) -> Document:
    """A document whose levels stand in its own units."""
    return document if document.system == "metric" else with_levels_in_feet(document)


def with_levels_in_feet(thing: Thing) -> Thing:
    """A document, sheet or text in which every bare level stands in feet and inches."""
    turned: Any = _turned(thing)
    return turned  # type: ignore[no-any-return]


def _turned(thing: Any) -> Any:  # noqa: ANN401  (whatever a block or sheet holds)
    match thing:
        case Enum() | bool() | int() | float() | None:
            return thing
        case str():
            return levels_in(thing, "imperial")
        case tuple():
            return _turned_all(thing)
        case Mapping():
            return {name: _turned(value) for name, value in thing.items()}
        case _ if is_dataclass(thing) and not isinstance(thing, type):
            return _turned_fields(thing)
        case _:
            return thing


def _turned_all(things: tuple[Any, ...]) -> tuple[Any, ...]:
    """Paths hold thousands of numbers and no words: they are passed by."""
    if things and isinstance(things[0], float):
        return things
    turned = tuple(map(_turned, things))
    return things if all(new is old for new, old in zip(turned, things, strict=True)) else turned


def _turned_fields(thing: Any) -> Any:  # noqa: ANN401  (a frozen dataclass)
    changed = {}
    for one in fields(thing):
        value = getattr(thing, one.name)
        turned = _turned(value)
        if turned is not value and one.init:
            changed[one.name] = turned
    return replace(thing, **changed) if changed else thing
