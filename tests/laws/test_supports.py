"""Laws of walls and bases: equilibrium, bounds, and what a mirror does."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bermwright.handbook import bearing, retaining

HEIGHTS = st.floats(0.1, 6.0)
RATIOS = st.floats(0.1, 1.2)
WEIGHTS = st.floats(14e3, 22e3)


@given(down=st.floats(1e3, 1e6), width=st.floats(0.2, 3.0), share=st.floats(-0.45, 0.45))
def test_contact_pressure_is_in_equilibrium_with_its_force(down: float, width: float, share: float) -> None:
    contact = bearing.contact_pressure(down, width, share * width)
    largest, least, length = (float(one) for one in contact)
    assert 0.5 * (largest + least) * length == pytest.approx(down, rel=1e-9)
    # From the edge that is pressed most to the middle of the pressure.
    middle = length * (largest + 2.0 * least) / (3.0 * (largest + least))
    assert middle == pytest.approx(width * (0.5 - abs(share)), rel=1e-9)
    assert least >= 0.0


@given(height=HEIGHTS, weight=WEIGHTS, ratio=RATIOS, load=st.floats(0.0, 50e3), water=st.floats(-1.0, 7.0))
def test_the_push_is_the_sum_of_its_pressures(
    height: float, weight: float, ratio: float, load: float, water: float
) -> None:
    push = retaining.wet_soil_push(
        height, water=water, weight=weight, saturated=weight + 2e3, ratio=ratio, surcharge=load
    )
    count = 4000
    up = (np.arange(count) + 0.5) * height / count
    wet = np.clip(water, 0.0, height)
    below = np.maximum(wet - up, 0.0)
    moist = weight * np.minimum(height - up, height - wet)
    upright = load + moist + (weight + 2e3 - 9810.0) * below
    pressure = ratio * upright + 9810.0 * below
    force = pressure.sum() * height / count
    assert float(push.force) == pytest.approx(force, rel=1e-5, abs=1e-6)
    assert float(push.moment) == pytest.approx((pressure * up).sum() * height / count, rel=1e-4, abs=1e-6)


@given(
    height=st.floats(0.5, 5.0),
    depth=st.floats(0.3, 2.0),
    down=st.floats(0.0, 60e3),
    share=st.floats(0.0, 1.0),
)
def test_a_cracked_buttress_stands_between_its_kern_and_its_edge(
    height: float, depth: float, down: float, share: float
) -> None:
    body = {"depth": depth, "width": 0.5, "weight": 20e3, "down": down, "inset": share * depth}
    cracked = retaining.cracked_buttress_thrust(height, **body)
    assert cracked <= float(retaining.overturning_thrust(height, **body)) * (1 + 1e-9)
    kern = float(retaining.kern_thrust(height, **body))
    if share <= 2.0 / 3.0:
        # Steps leave a few thousandths.
        assert cracked >= kern * 0.99


@given(angle=st.floats(0.2, 0.8), sideways=st.floats(0.0, 0.15), share=st.floats(0.0, 1.0))
def test_shaking_never_lightens_the_push(angle: float, sideways: float, share: float) -> None:
    wall = share * angle
    still = float(retaining.earthquake_active_ratio(angle, wall, sideways=0.0))
    assert float(retaining.earthquake_active_ratio(angle, wall, sideways=sideways)) >= still * (1 - 1e-12)


@given(factor=st.floats(0.2, 5.0), turning=st.floats(0.0, 50e3), along=st.floats(0.0, 50e3))
def test_the_stand_of_a_body_does_not_depend_on_the_unit_of_force(
    factor: float, turning: float, along: float
) -> None:
    given_forces = {"down": 100e3, "along": along, "holding": 60e3, "turning": turning, "resistance": 40e3}
    one = retaining.stand_of(width=1.2, **given_forces)
    other = retaining.stand_of(width=1.2, **{name: factor * value for name, value in given_forces.items()})
    assert [float(a) for a in one] == pytest.approx([float(a) for a in other])
