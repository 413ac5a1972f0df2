from __future__ import annotations

import math

import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import lifting

BEST = {
    "reach": 0.25,
    "height": 0.75,
    "travel": 0.25,
    "twist": 0.0,
    "frequency_factor": 1.0,
    "grip_factor": 1.0,
}


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("reach", 0.64),
        ("height", 1.8),
        ("height", -0.1),
        ("travel", 1.8),
        ("twist", math.radians(136.0)),
        ("frequency_factor", 1.1),
        ("grip_factor", 0.8),
        ("reach", math.nan),
        ("frequency_factor", math.nan),
    ],
)
def test_outside_the_equation_nothing_is_recommended(name, value):
    with pytest.raises(OutOfRangeError):
        lifting.recommended_weight_limit(**{**BEST, name: value})


def test_a_load_for_more_than_three_needs_tackle():
    assert lifting.lifters_needed(34.6, each=23.0) is None


def test_an_unknown_load_is_refused():
    with pytest.raises(OutOfRangeError, match="mass of the load"):
        lifting.lifters_needed(math.nan, each=23.0)


def test_a_team_of_four_has_no_published_share():
    with pytest.raises(OutOfRangeError, match="people"):
        lifting.team_capacity(23.0, people=4)
