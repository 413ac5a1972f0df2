"""One value that cannot be read is one mistake: no check that would have read it says another thing."""

from __future__ import annotations

import copy
import json
import re
import tomllib
from collections import Counter
from pathlib import Path

import pytest

from bermwright.base.errors import HouseFileError
from bermwright.formats.house_file.reading import place_of, read, tried
from bermwright.house import House
from bermwright.house.fields import Number, Table, Tables, Whole, said_of
from bermwright.house.fields import Path as Points

ROOT = Path(__file__).resolve().parents[3]


def _example(said):
    """A value as the reference writes it."""
    match said.kind:
        case Table(of=model):
            return _everything(model)
        case Tables(of=model):
            return [_everything(model)]
        case Whole():
            return int(said.example)
        case Number():
            return float(said.example)
        case Points():
            return json.loads(said.example)
    return said.example


def _everything(model):
    """Every key of a table, with the value of the reference: a house that nobody would build."""
    return {key: _example(said) for key, said in said_of(model).items()}


DOCUMENTS = {
    "every key": _everything(House),
    "an example": tomllib.loads((ROOT / "examples" / "alder-loft.toml").read_text(encoding="utf-8")),
    "a dome": tomllib.loads((ROOT / "examples" / "domes" / "rowan-ring.toml").read_text(encoding="utf-8")),
}


def _has_tables(value):
    return isinstance(value, dict) or (
        isinstance(value, list) and any(isinstance(one, dict) for one in value)
    )


def _paths(table, path=()):
    for key, value in table.items() if isinstance(table, dict) else enumerate(table):
        yield (*path, key)
        if _has_tables(value):
            yield from _paths(value, (*path, key))


def _at(document, path):
    for key in path:
        document = document[key]
    return document


def _changed(document, path, value):
    whole = copy.deepcopy(document)
    _at(whole, path[:-1])[path[-1]] = value
    return whole


def _plain(place):
    """A place without the names of entries, which may be what is wrong."""
    return re.sub(r' "[^"]*"| number \d+', "", place)


def _mistakes(document):
    try:
        tried(document, {}, "x")
    except HouseFileError as error:
        return Counter(_plain(one.place) for one in error.mistakes)
    return Counter()


@pytest.mark.parametrize("name", DOCUMENTS)
def test_one_value_that_cannot_be_read_is_one_mistake(name):
    document = DOCUMENTS[name]
    before = _mistakes(document)
    for path in _paths(document):
        # No table can be a number, and no value can be a table.
        changed = _changed(document, path, 5 if _has_tables(_at(document, path)) else {})
        wrong = path[:-1] if isinstance(path[-1], int) else path
        assert _mistakes(changed) - before <= Counter([_plain(place_of(wrong, changed))]), path


def test_two_equal_names_are_told_beside_a_wrong_value():
    text = (ROOT / "examples" / "larch-bank.toml").read_text(encoding="utf-8")
    wrong = text.replace('name = "barn floor B"', 'name = "barn floor A"').replace("kerf = ", "kerv = ")
    wrong = wrong.replace('diameter = "0.34 m"', 'diameter = "0.34"')
    with pytest.raises(HouseFileError) as told:
        read(wrong.replace('length = "3.9 m"', 'length = "3.9"'), "x")
    places = [one.place for one in told.value.mistakes]
    assert 'stock "barn floor A" > name' in places
    assert len(places) == 4
