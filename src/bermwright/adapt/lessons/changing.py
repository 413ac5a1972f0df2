"""Changing a few lines of a house file that has been read into plain tables."""

from __future__ import annotations

from copy import deepcopy
from typing import TYPE_CHECKING, Any

from bermwright.base.errors import BermwrightError

if TYPE_CHECKING:
    from collections.abc import Mapping

GONE = "-"
"""Written for a value that is to be taken out."""


class NoSuchPlaceError(BermwrightError):
    """A place that the house file does not have."""


def changed(house: Mapping[str, Any], changes: Mapping[str, Any]) -> dict[str, Any]:
    """A copy of the tables of a house with some places changed; `-` takes a value out.

    >>> changed({"vault": [{"span": "4 m", "rise": "2 m"}]}, {"vault.0.span": "5 m", "vault.0.rise": "-"})
    {'vault': [{'span': '5 m'}]}
    """
    tables: dict[str, Any] = deepcopy(dict(house))
    for place, value in changes.items():
        _put(tables, place, deepcopy(value))
    return tables


def _put(tables: dict[str, Any], place: str, value: object) -> None:
    *way, last = place.split(".")
    at: Any = tables
    for name in way:
        at = _inside(at, name, place)
    key = _key(at, last, place)
    if value == GONE:
        del at[key]
    else:
        at[key] = value


def _inside(at: Any, name: str, place: str) -> Any:  # noqa: ANN401  (plain tables of any shape)
    """The table or the list of that name; a table that is not there yet is made."""
    if isinstance(at, dict):
        return at.setdefault(name, {})
    return at[_key(at, name, place)]


def _key(at: Any, name: str, place: str) -> str | int:  # noqa: ANN401  (the same)
    if isinstance(at, dict):
        return name
    if isinstance(at, list) and name.isdigit() and int(name) < len(at):
        return int(name)
    raise NoSuchPlaceError(f"The ordinary house has no place {place!r}.")
