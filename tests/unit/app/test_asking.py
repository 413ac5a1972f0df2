"""A house file from plain questions: what is known is written, what is not stays open."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bermwright.app.asking import QUESTIONS, AnswerError, begun, filled, question_named
from bermwright.app.asking.questions import field_at
from bermwright.data.soils import SOILS
from bermwright.formats.house_file import read

EVERYTHING = {question.name: question.example for question in QUESTIONS}


def test_every_example_is_an_answer_in_both_systems():
    for question in QUESTIONS:
        metric, imperial = question.read(question.example), question.read(question.example_imperial)
        assert set(metric) >= set(question.places)
        assert metric.keys() == imperial.keys()


def test_every_place_is_in_the_model():
    for question in QUESTIONS:
        assert all(field_at(place).words for place in question.places)


def test_what_is_answered_stands_in_the_file_as_it_was_typed():
    house = read(begun("Try", {**EVERYTHING, "span": "15 ft 9 in"}), "answers").house
    (vault,) = house.vaults
    assert vault.span == pytest.approx(15.75 * 0.3048)
    assert house.name == "Try"
    assert vault.mound is not None
    assert vault.mound.left == vault.mound.right


def test_nothing_is_invented_for_what_was_asked_and_is_not_known():
    made = filled("Try", {"span": "4 m", "rise": "2 m", "springing": "1 m", "length": "6 m"})
    house = read(made.text, "answers").house
    (vault,) = house.vaults
    assert (vault.axis, vault.mound, house.site.latitude, house.site.soil) == (None, None, None, ())
    asked = {question.place for question in read(made.text, "answers").questions}
    assert {"site.latitude", "site.ground_snow", "site.slope", "site.water_depth", "site.soil"} <= asked
    assert made.questions == len(read(made.text, "answers").questions)


@pytest.mark.parametrize("left_out", ["span", "rise", "springing", "length"])
def test_without_a_measure_of_the_curve_the_vault_stays_a_remark(left_out):
    made = filled("Try", {name: text for name, text in EVERYTHING.items() if name != left_out})
    assert [one.name for one in made.undrawn] == [left_out]
    assert "\n[[vault]]" not in made.text
    assert f"\n# {left_out} is not known yet" in made.text
    assert made.questions == 0


def test_without_any_answer_there_is_a_file_that_only_asks():
    made = filled("Try", {})
    assert len(made.open) == len(QUESTIONS)
    assert "\n[house]" in made.text


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("span", "4.8", "has no unit"),
        ("span", "40 m", "must lie from 0.8 m to 8 m"),
        ("span", "4.8 kg", "a length is due"),
        ("span", "", "Nothing is written"),
        ("span", 'x" = 3', "is not a length"),
        ("sides", "2.5:1", "can be read in two ways"),
        ("people", "three", "whole number"),
        ("people", "3.5", "whole number"),
        ("people", "٣", "whole number"),
        ("soil", "mud", "not in the list"),
        ("soil", "99", "not in the list"),
        ("water", "3..2 m", "runs down"),
        ("axis", "nan deg", "no number"),
    ],
)
def test_what_cannot_be_read_is_refused_with_what_to_write(name, text, says):
    with pytest.raises(AnswerError, match=says):
        question_named(name).read(text)


def test_a_question_that_is_not_there_is_named():
    with pytest.raises(AnswerError, match="no question"):
        filled("Try", {"colour": "red"})


@pytest.mark.parametrize("number", range(1, len(SOILS) + 1))
def test_every_soil_is_wide_enough_for_its_row(number):
    row = list(SOILS.values())[number - 1]
    places = question_named("soil").read(str(number))
    (soil,) = read(begun("Try", {**EVERYTHING, "soil": row.name}), "answers").house.site.soil
    assert places["site.soil.name"] == row.name
    for found, wanted in [
        (soil.unit_weight, row.unit_weight),
        (soil.saturated_unit_weight, row.saturated),
        (soil.friction_angle, row.friction),
        (soil.stiffness, row.modulus),
    ]:
        assert found is not None
        assert found.low <= wanted.low * (1 + 1e-9)
        assert found.high >= wanted.high * (1 - 1e-9)
        assert found.low > 0.9 * wanted.low


ENDS = {
    "people": ["1", "20"],
    "span": ["0.8 m", "8 m", "20 ft"],
    "rise": ["0.2 m", "8 m"],
    "springing": ["-2 m", "0 m", "4 m"],
    "length": ["0.6 m", "60 m"],
    "crown": ["0 m", "1.2 m"],
    "sides": ["1:1", "1:10", "60 deg"],
    "slope": ["0 deg", "35 deg"],
    "soil": [str(number) for number in range(1, len(SOILS) + 1)],
    "water": ["0..1 m", "30 m"],
}


@given(st.fixed_dictionaries({}, optional={name: st.sampled_from(texts) for name, texts in ENDS.items()}))
def test_whatever_is_answered_makes_a_file_that_can_be_read(answers):
    made = filled("Try", answers)
    if not made.undrawn:
        assert made.questions > 0
