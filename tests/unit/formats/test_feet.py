"""Levels without a unit are turned into feet wherever a document or sheet holds them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bermwright.base.document import Document, Heading, Points, plain
from bermwright.base.drawing import Pen as DrawingPen
from bermwright.base.drawing import Sheet, Stroke, Text
from bermwright.base.units import lengths_in, levels_in
from bermwright.formats.documents import text
from bermwright.formats.feet import in_units_of, with_levels_in_feet

BOOK = Document(
    title="Site book",
    subtitle="",
    house="A house",
    revision="1",
    date="2026-01-02",
    mark="calculation aid, not reviewed",
    blocks=(
        Heading(text="Fill to +1.00", lead="From ±0.00 on."),
        Points(items=(plain("left at −0.45, right ahead by 0.30 m"),)),
    ),
)


def test_a_metric_document_stays_the_same_thing() -> None:
    assert in_units_of(BOOK) is BOOK


def test_every_level_of_a_document_stands_in_feet() -> None:
    said = text(replace(BOOK, system="imperial"))
    assert "Fill to +3 ft 3 3/8 in" in said
    assert "From ±0 in on." in said
    assert "left at −1 ft 5 11/16 in, right ahead by 0.30 m" in said
    assert "2026-01-02" in said


def test_the_words_of_a_sheet_turn_and_its_lines_stay() -> None:
    line = Stroke(path=((0.0, 1.0), (2.0, 3.0)), pen=DrawingPen.CUT)
    sheet = Sheet(
        width=100.0, height=50.0, title="Fill to +2.41", items=(line, Text(at=(1.0, 1.0), text="+2.41"))
    )
    turned = with_levels_in_feet(sheet)
    assert turned.title == "Fill to +7 ft 10 7/8 in"
    assert turned.items[0] is line
    assert turned.items[1] == Text(at=(1.0, 1.0), text="+7 ft 10 7/8 in")


@pytest.mark.parametrize(
    "said", ["+1.00 m", "2.50", "+0.35 kN", "−19.50 °C", "1.25+0.50", "+1.000", "by +3.25 %", "x-0.50"]
)
def test_what_is_no_bare_level_stays(said: str) -> None:
    assert levels_in(said, "imperial") == said


@pytest.mark.parametrize(
    ("said", "turned"),
    [
        ("at least 12 mm behind", "at least 1/2 in behind"),
        ('Write lead = "0.10 m".', 'Write lead = "0.10 m".'),
        ("9.00 m/0.50 m and 0.5 m²", None),
    ],
)
def test_lengths_of_advice(said: str, turned: str | None) -> None:
    assert lengths_in(said, "metric") == said
    if turned is not None:
        assert lengths_in(said, "imperial") == turned
    else:
        assert "m²" in lengths_in(said, "imperial")
