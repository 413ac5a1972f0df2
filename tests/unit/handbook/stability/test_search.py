"""The search for the worst circle: it is the same every time, mirrors, and leaves out what it must."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import stability
from bermwright.handbook.stability.search import Columns, Earth

SOIL = Earth(unit_weight=19e3, wet_unit_weight=21e3, cohesion=2e3, friction=math.radians(30))


def slope(fall: float = 0.5) -> Columns:
    x = np.linspace(-20.0, 20.0, 401)
    return Columns.plain(x, np.interp(x, [-4.0, 4.0], [8.0 * fall, 0.0]), SOIL)


def test_the_same_ground_gives_the_same_circle() -> None:
    assert stability.critical_circle(slope()) == stability.critical_circle(slope())


def test_a_mirrored_slope_slides_the_other_way() -> None:
    right = stability.critical_circle(slope())
    left = stability.critical_circle(slope().mirrored(), right=False)
    assert left.factor == pytest.approx(right.factor, rel=1e-12)
    assert left.x == pytest.approx(-right.x)


def test_level_ground_slides_nowhere() -> None:
    found = stability.critical_circle(slope(0.0), least_depth=0.3)
    assert found.factor > 100.0


def test_water_and_quake_make_it_worse() -> None:
    dry = stability.critical_circle(slope()).factor
    wet = replace(slope(), water=slope().top)
    assert stability.critical_circle(wet).factor < dry
    assert stability.critical_circle(slope(), quake=0.1).factor < dry


def test_no_circle_goes_through_the_house() -> None:
    ground = slope()
    inside = (ground.x > -12.0) & (ground.x < -4.0)
    walled = replace(
        ground, floor=np.zeros_like(ground.x) - 3.0, roof=np.where(inside, 3.5, -3.0), inside=inside * 30e3
    )
    found = stability.critical_circle(walled)
    x = np.linspace(found.start, found.end, 50)
    base = found.z - np.sqrt(np.maximum(found.radius**2 - (x - found.x) ** 2, 0.0))
    through = (x > -11.9) & (x < -4.1) & (base > -2.9) & (base < 3.4)
    assert not through.any()


def test_a_gentle_slope_without_cohesion_is_a_long_slope() -> None:
    factor = stability.simple_slope_factor(
        10.0, math.radians(20), unit_weight=19e3, cohesion=0.0, friction=math.radians(30), firm=5.0
    )
    endless = math.tan(math.radians(30)) / math.tan(math.radians(20))
    assert endless <= factor < 1.05 * endless


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRangeError, match="method of slices"):
        stability.circle_factors(
            slope(), np.array([-4.0]), np.array([4.0]), bulge=np.array([0.2]), method="guess"
        )
    with pytest.raises(OutOfRangeError, match="length of the slip"):
        stability.circle_factors(slope(), np.array([4.0]), np.array([-4.0]), bulge=np.array([0.2]))
    with pytest.raises(OutOfRangeError, match="slope"):
        stability.infinite_slope_factor(0.0, 0.5, unit_weight=19e3, depth=1.0)


def test_a_net_that_carries_all_leaves_nothing_to_slide() -> None:
    factor = stability.veneer_factor(
        4.0, 0.3, slope=0.6, unit_weight=18e3, friction=0.5, interface=0.3, tension=50e3
    )
    assert math.isinf(float(factor))


def test_a_pull_that_was_solved_for_gives_its_factor() -> None:
    cover = {"slope": 0.7, "unit_weight": 18e3, "friction": 0.5, "interface": 0.35}
    pull = float(stability.veneer_tension(5.0, 0.4, factor=1.3, **cover))
    assert float(stability.veneer_factor(5.0, 0.4, tension=pull, **cover)) == pytest.approx(1.3)


def test_a_base_that_rises_too_steeply_is_not_known() -> None:
    factor = stability.bishop_factor(
        (40e3, 10e3), (math.radians(60), math.radians(-70)), (1.0, 1.0), cohesion=1e3, friction=0.6
    )
    assert math.isnan(float(factor))
