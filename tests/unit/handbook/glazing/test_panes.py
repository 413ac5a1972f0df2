"""Panes in the wind and how they are set: laws, both ends of every range."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.glazing import (
    GlassKind,
    Lasting,
    glass_strength,
    pane_deflection,
    pane_rebate,
    pane_stress,
    pane_thickness,
    setting_block,
)

SIDE = st.floats(0.1, 4.0)


@given(one=SIDE, other=SIDE, thickness=st.floats(0.002, 0.02), pressure=st.floats(10.0, 5000.0))
def test_a_pane_does_not_know_which_side_is_named_first(one, other, thickness, pressure):
    for of in (pane_stress, pane_deflection):
        assert float(of(one, other, thickness, pressure)) == pytest.approx(
            float(of(other, one, thickness, pressure)), rel=1e-12
        )


@given(one=SIDE, other=SIDE, pressure=st.floats(10.0, 5000.0))
def test_the_thinnest_pane_uses_its_strength_up(one, other, pressure):
    strength = glass_strength(GlassKind.FLOAT, Lasting.WIND)
    thin = float(pane_thickness(one, other, pressure, strength=strength))
    if 0.001 <= thin <= 0.1:
        assert float(pane_stress(one, other, thin, pressure)) == pytest.approx(strength, rel=1e-9)


def test_a_longer_pane_bends_more_until_it_is_endless():
    found = pane_stress(1.0, np.array([1.0, 1.5, 2.0, 3.0]), 0.006, 1000.0)
    assert np.all(np.diff(found) > 0.0)
    strip = 0.75 * 1000.0 * (0.05 / 0.006) ** 2
    assert float(pane_stress(0.05, 6.0, 0.006, 1000.0)) == pytest.approx(strip, rel=1e-5)


def test_loads_that_stay_longer_find_weaker_glass():
    found = [glass_strength(GlassKind.FLOAT, lasting) for lasting in Lasting]
    assert found == sorted(found, reverse=True)
    assert glass_strength(GlassKind.TOUGHENED, Lasting.WIND) > found[0]


def test_a_sealed_or_large_pane_wants_a_deeper_rebate():
    plain = pane_rebate(0.004, 0.5, sealed=False)
    assert pane_rebate(0.024, 0.5, sealed=True).depth > plain.depth
    assert pane_rebate(0.004, 2.5, sealed=False).gap > plain.gap
    assert float(setting_block(0.2)) == float(setting_block(3.0)) < float(setting_block(5.0))


REFUSED = {
    "pane without a side": lambda: pane_stress(0.0, 1.0, 0.004, 100.0),
    "pane like paper": lambda: pane_stress(1.0, 1.0, 0.0005, 100.0),
    "suction as pressure": lambda: pane_deflection(1.0, 1.0, 0.004, -100.0),
    "no strength": lambda: pane_thickness(1.0, 1.0, 100.0, strength=0.0),
    "no area": lambda: setting_block(0.0),
    "a shop front": lambda: pane_rebate(0.004, 25.0, sealed=False),
    "no bead": lambda: pane_rebate(0.004, 1.0, sealed=False, bead=0.0),
}


@pytest.mark.parametrize("call", REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutOfRangeError):
        call()
