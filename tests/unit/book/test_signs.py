"""Lettering of the small signs."""

from __future__ import annotations

import math

import pytest

from bermwright.base.drawing import Stroke, Text
from bermwright.book.sheets.paper import boxes_of
from bermwright.book.sheets.signs import compass


@pytest.mark.parametrize("degrees", range(0, 360, 15))
def test_north_never_stands_in_the_door(degrees: int) -> None:
    items = list(compass((0.0, 0.0), math.radians(degrees)))
    north, door = (next(i for i in items if isinstance(i, Text) and i.text == word) for word in ("N", "door"))
    (letter,), (word,) = boxes_of(north, 0.0), boxes_of(door, 0.0)
    opening = min(y for i in items if isinstance(i, Stroke) for _, y in i.path)
    beside = letter[0] > word[2] or letter[2] < word[0]
    assert beside or letter[1] > opening > word[3]
