"""Ranges and edges of snow and people."""

from __future__ import annotations

import math

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import actions

X = np.linspace(-2.0, 2.0, 401)
SLOPE = np.arcsin(np.clip(np.abs(X) / 2.0, 0.0, 1.0))
ROOF = {"slope": SLOPE, "width": 4.0, "rise": 2.0}


REFUSED = [
    lambda: actions.mu_pitched_roof(-0.1),
    lambda: actions.mu_pitched_roof(1.6),
    lambda: actions.mu_pitched_roof(math.nan),
    lambda: actions.peak_mu_curved_roof(-1.0, 4.0),
    lambda: actions.peak_mu_curved_roof(1.0, 0.0),
    lambda: actions.mu_curved_roof(X, **ROOF, arrangement="sideways"),
    lambda: actions.mu_curved_roof(3 * X, **ROOF, arrangement="even"),
    lambda: actions.mu_curved_roof(X, slope=-SLOPE, width=4.0, rise=2.0, arrangement="even"),
    lambda: actions.mu_curved_roof(X, slope=SLOPE, width=4.0, rise=math.nan, arrangement="even"),
    lambda: actions.spread_pressure(-1.0, length=0.1, width=0.1, depth=0.1),
    lambda: actions.spread_pressure(1.0, length=0.1, width=0.1, depth=-0.1),
]


@pytest.mark.parametrize("call", REFUSED, ids=[str(number) for number in range(len(REFUSED))])
def test_outside_its_range_it_refuses(call):
    with pytest.raises(OutOfRangeError):
        call()


def test_drifted_snow_is_two_triangles_cut_where_the_roof_gets_too_steep():
    load = actions.mu_curved_roof(X, **ROOF, arrangement="right")
    edge = 2.0 * math.sin(math.radians(60))
    assert np.all(load[np.abs(X) > edge + 1e-9] == 0.0)
    peak = X[np.argmax(load)]
    assert peak == pytest.approx(edge / 2, abs=0.02)
    area_right, area_left = (np.trapezoid(np.where(side, load, 0.0), X) for side in (X >= 0, X <= 0))
    assert area_right == pytest.approx(2 * area_left, rel=0.01)
    assert area_right == pytest.approx(0.5 * edge * 2.0, rel=0.02)


def test_left_is_the_mirror_of_right():
    right = actions.mu_curved_roof(X, **ROOF, arrangement="right")
    left = actions.mu_curved_roof(X, **ROOF, arrangement="left")
    np.testing.assert_allclose(left, right[::-1], atol=1e-12)


def test_nothing_lies_where_all_is_steep():
    load = actions.mu_curved_roof([0.5, 1.0], slope=[1.2, 1.3], width=4.0, rise=2.0, arrangement="right")
    assert np.all(load == 0.0)


def test_deep_cover_spreads_a_wheel_to_little():
    near, far = (float(actions.spread_pressure(1e3, length=0.3, width=0.3, depth=z)) for z in (0.0, 1.2))
    assert near == pytest.approx(1e3 / 0.09)
    assert far == pytest.approx(near / 25)
