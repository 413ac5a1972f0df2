"""The least value over a box: near a known one, always the same, and honest where there is none."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bermwright.adapt.shape.least import least

share = st.floats(0.0, 1.0)


@given(share, share)
def test_a_cone_is_found_from_anywhere(x: float, y: float) -> None:
    at, value = least(lambda p: abs(p[0] - x) + 2.0 * abs(p[1] - y), 2)
    assert value <= 0.04
    assert at == pytest.approx((x, y), abs=0.02)


def test_the_larger_of_two_planes_has_its_least_where_they_meet() -> None:
    at, value = least(lambda p: max(3.0 * p[0], 1.0 - p[0]), 1)
    assert at[0] == pytest.approx(0.25, abs=0.02)
    assert value == pytest.approx(0.75, abs=0.06)


def test_nothing_free_is_one_look() -> None:
    looks = []
    assert least(lambda p: looks.append(p) or 7.0, 0) == ((), 7.0)
    assert looks == [()]


def test_nowhere_is_infinite() -> None:
    assert least(lambda _p: math.inf, 2)[1] == math.inf


def test_no_place_is_asked_twice() -> None:
    looks: list[tuple[float, ...]] = []

    def slow(point: tuple[float, ...]) -> float:
        looks.append(point)
        return sum((x - 0.4) ** 2 for x in point)

    least(slow, 3)
    assert len(looks) == len(set(looks))
    assert all(0.0 <= x <= 1.0 for point in looks for x in point)
