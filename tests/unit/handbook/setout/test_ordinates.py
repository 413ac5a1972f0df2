"""Ordinates both ways."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.curves import catenary, segment
from bermwright.handbook.setout import ordinates_by_distance, ordinates_by_height

TALL, LEANING = catenary(5.0, 4.0), segment(3.0, 2.2)


def test_both_ways_meet():
    heights = np.linspace(0.1, 3.8, 9)
    sides = ordinates_by_height(TALL.x, TALL.z, heights)
    assert ordinates_by_distance(TALL.x, TALL.z, sides.right) == pytest.approx(heights, abs=1e-3)
    assert sides.left == pytest.approx(-sides.right, abs=1e-9)


def test_upper_branch_of_a_curve_that_leans_out():
    widest = LEANING.half_width
    assert widest > 1.5
    assert float(ordinates_by_distance(LEANING.x, LEANING.z, 1.55)) > 0.6


@pytest.mark.parametrize("distance", [2.6, -2.6, float("nan")])
def test_outside_the_curve_there_is_no_height(distance):
    with pytest.raises(OutOfRangeError):
        ordinates_by_distance(TALL.x, TALL.z, distance)


@pytest.mark.parametrize("height", [4.1, -0.1, float("nan")])
def test_outside_the_curve_there_is_no_distance(height):
    with pytest.raises(OutOfRangeError):
        ordinates_by_height(TALL.x, TALL.z, height)
