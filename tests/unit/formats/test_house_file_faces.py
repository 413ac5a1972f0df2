from __future__ import annotations

import re
import tomllib
from dataclasses import fields, is_dataclass

import jsonschema
import pytest
import tomlkit

from bermwright.base.errors import QuantityError
from bermwright.base.units import DIMENSIONS
from bermwright.formats.house_file import edited, read, reference, schema, starter
from bermwright.formats.house_file.values import value_of
from bermwright.formats.house_file.writing import as_toml
from bermwright.house import House
from bermwright.house.fields import Number, Path, Quantity, Table, Tables, Whole, said_of


def every_field(model=House, path=""):
    for key, said in said_of(model).items():
        here = f"{path}.{key}".lstrip(".")
        yield here, said
        if isinstance(said.kind, Table | Tables):
            yield from every_field(said.kind.of, here)


FIELDS = dict(every_field())
PLAIN = {path: said for path, said in FIELDS.items() if not isinstance(said.kind, Table | Tables)}


@pytest.mark.parametrize("path", FIELDS)
def test_everything_is_said_of_every_field(path):
    said = FIELDS[path]
    assert said.words.endswith(".")
    ways = [said.required, bool(said.ask), bool(said.source), bool(said.missing)]
    assert sum(ways) == 1, "required, asked, assumed with a reason, or said what happens"
    if isinstance(said.kind, Quantity):
        assert said.kind.dimension in DIMENSIONS
        assert said.kind.low
        assert said.kind.high
        assert said.kind.because
        assert said.kind.bounds[0] < said.kind.bounds[1]


@pytest.mark.parametrize("path", PLAIN)
def test_every_example_is_a_value_that_is_read_and_written_back_alike(path):
    said = PLAIN[path]
    bare = isinstance(said.kind, Whole | Number | Path)
    raw = tomllib.loads(f"x = {said.example}")["x"] if bare else said.example
    value = value_of(raw, said.kind)
    again = value_of(tomllib.loads(f"x = {as_toml(value, said.kind)}")["x"], said.kind)
    assert again == pytest.approx(value) if isinstance(value, float) else again == value


@pytest.mark.parametrize("path", [path for path, said in PLAIN.items() if said.source])
def test_every_assumed_value_is_one_that_the_file_could_hold(path):
    said = PLAIN[path]
    raw = tomllib.loads(f"x = {as_toml(said.default, said.kind)}")["x"]
    assert (
        value_of(raw, said.kind) == pytest.approx(said.default) if isinstance(said.default, float) else True
    )


def test_the_starter_file_is_read_and_asks_for_what_nobody_told():
    opened = read(starter("Ash Row"), "starter")
    assert opened.house.name == "Ash Row"
    assert opened.not_read == ()
    assert {"site.floor", "site.ground_snow", "stages.compaction", "site.soil"} <= {
        q.place for q in opened.questions
    }
    assert "# invented" in starter()


def test_the_starter_file_names_every_key_and_every_question():
    text = " ".join(line.lstrip("# ") for line in starter().split("\n"))
    for path, said in FIELDS.items():
        assert re.search(rf"(^| ){re.escape(said.key)} = |\[{re.escape(path)}\]", text), path
        if said.ask and path in PLAIN:
            assert " ".join(said.ask.cheapest_way.split()) in text


def test_the_starter_file_takes_answers():
    text = starter("Ash Row", {"site.latitude": "62.9 deg", "vault.span": "4 m", "site.soil.name": "till"})
    opened = read(text, "starter")
    assert opened.house.vaults[0].span == 4.0
    assert opened.house.site.soil[0].name == "till"
    assert 'span = "4 m"\n' in text


@pytest.mark.parametrize(
    ("place", "text"),
    [
        ("site.latitud", "1 deg"),
        ("sight.latitude", "1 deg"),
        ("site.latitude.more", "1"),
        ("house.note", 'a "b"'),
    ],
)
def test_an_answer_that_cannot_be_written_is_refused(place, text):
    with pytest.raises(QuantityError, match=place):
        starter("Ash Row", {place: text})


SECOND_WAYS = (
    ("end", "post_diameter"), ("opening", "along"), ("opening", "header_nails"), ("post", "section"),
    ("beam", "section"), ("ring", "held_every"),
)  # fmt: skip
"""Keys that say the same as another one of their table."""


def test_every_remark_of_the_starter_can_be_switched_on():
    text = re.sub(r"^# (format|\[+[a-z_.]+\]+|[a-z_]+ = .*)$", r"\1", starter(), flags=re.MULTILINE)
    document = tomllib.loads(text)
    vault = document["vault"][0]
    for key in (
        "chain",
        "centre_offset",
        "side_radius",
        "base_centre",
        "flank_radius",
        "crown_radius",
        "points",
    ):
        del vault[key]
    for key in ("crown", "left", "right", "left_toe", "right_toe"):
        del vault["mound"][key]
    del (
        vault["feet"]["stiffness"],
        document["stages"]["prop"][0]["section"],
        document["stages"]["tie"][0]["area"],
    )
    for table, second in SECOND_WAYS:
        del document[table][0][second]
    del document["air"]["tube"]["stack_height"]
    opened = read(tomlkit.dumps(document), "starter")
    assert opened.questions == ()
    assert opened.house.assumptions == ()


def test_the_schema_is_one_and_takes_what_the_reader_takes():
    jsonschema.Draft202012Validator.check_schema(schema())
    validator = jsonschema.Draft202012Validator(schema())
    assert list(validator.iter_errors(tomllib.loads(starter()))) == []


@pytest.mark.parametrize(
    ("key", "value"),
    [("span", 4.8), ("layers", "4"), ("curve", "catenry"), ("colour", "red"), ("timber", "C19")],
)
def test_the_schema_refuses_what_the_reader_refuses(key, value):
    validator = jsonschema.Draft202012Validator(schema())
    document = tomllib.loads(starter())
    document["vault"][0][key] = value
    assert list(validator.iter_errors(document))


def test_the_reference_explains_every_key():
    page = reference()
    for path, said in PLAIN.items():
        assert f"### `{said.key}`" in page, path
        assert said.words in page
    assert "`[[vault.cover]]`" in page
    assert "nothing is assumed in silence" in page


def test_a_house_is_frozen_all_the_way_down():
    house = read(starter(), "starter").house
    todo: list[object] = [house]
    while todo:
        one = todo.pop()
        assert one.__hash__ is not None
        hash(one)
        if is_dataclass(one):
            todo += [getattr(one, field.name) for field in fields(one)]
        elif isinstance(one, tuple):
            todo += one


def test_an_edited_starter_is_still_explained():
    text = edited(starter(), {("site", "floor"): "-0.4 m"})
    assert read(text, "x").house.site.floor == -0.4
    assert text.count("#") >= starter().count("#") - 1
