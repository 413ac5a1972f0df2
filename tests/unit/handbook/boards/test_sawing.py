"""Logs to boards: inside the circle, never more than the log, and both ends of every range."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.boards import sawing


@given(
    diameter=st.floats(0.1, 1.0), thickness=st.floats(0.015, 0.08), kerf=st.floats(0.0, 0.01),
    heart=st.sampled_from(sawing.Heart),
)  # fmt: skip
def test_every_board_lies_inside_its_log(diameter, thickness, kerf, heart):
    boards = sawing.live_sawn(diameter, thickness=thickness, kerf=kerf, least=0.05, heart=heart)
    for width, place in zip(boards.widths, boards.places, strict=True):
        assert math.hypot(0.5 * width, abs(place) + 0.5 * thickness) <= 0.5 * diameter + 1e-9
    places = sorted(boards.places)
    assert all(b - a >= thickness + kerf - 1e-9 for a, b in pairwise(places))
    assert 0.0 <= boards.yields < 1.0


@given(small=st.floats(0.05, 1.0), more=st.floats(0.0, 0.5), length=st.floats(0.5, 10.0))
def test_the_even_taper_lies_between_middle_and_ends(small, more, length):
    large = small + more
    true = float(sawing.cone_volume(small, large, length))
    assert float(sawing.huber_volume(0.5 * (small + large), length)) <= true * (1 + 1e-12)
    assert true <= float(sawing.smalian_volume(small, large, length)) * (1 + 1e-12)
    assert float(sawing.newton_volume(small, 0.5 * (small + large), large, length)) == pytest.approx(true)


@given(diameter=st.floats(0.05, 1.5))
def test_the_strongest_beam_touches_the_bark_and_nothing_is_stronger(diameter):
    b, h = sawing.strongest_beam(diameter)
    assert math.hypot(b, h) == pytest.approx(diameter)
    for angle in (0.3, 0.8, 0.95, 1.1):
        other = (diameter * math.cos(angle), diameter * math.sin(angle))
        assert other[0] * other[1] ** 2 <= b * h * h * (1 + 1e-9)


def test_a_rule_gives_nothing_for_a_pole():
    assert float(sawing.doyle_volume(0.08, 4.0)) == 0.0
    assert float(sawing.scribner_volume(0.05, 4.0)) == 0.0


REFUSED = {
    "log without thickness": lambda: sawing.live_sawn(0.0, thickness=0.03, kerf=0.003, least=0.1),
    "negative kerf": lambda: sawing.live_sawn(0.3, thickness=0.03, kerf=-0.001, least=0.1),
    "too long for the rules": lambda: sawing.international_volume(0.3, 7.0),
    "negative length": lambda: sawing.smalian_volume(0.2, 0.3, -1.0),
}


@pytest.mark.parametrize("call", REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutOfRangeError):
        call()
