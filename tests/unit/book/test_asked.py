"""The pictures of the plain questions."""

from __future__ import annotations

import pytest

from bermwright.app.asking import QUESTIONS
from bermwright.base.drawing import Clip
from bermwright.book.sheets.asked import PICTURES, picture
from bermwright.formats.drawings import svg


def test_every_question_has_its_picture_and_no_picture_is_left_over():
    assert set(PICTURES) == {question.name for question in QUESTIONS}


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_is_drawn_and_says_what_it_shows(name):
    sheet = picture(name)
    (inside,) = sheet.items
    assert isinstance(inside, Clip)
    assert len(inside.items) > 4
    drawn = svg(sheet, "lamp")
    assert f"<desc>{sheet.alt}</desc>" in drawn
    assert "nan" not in drawn
