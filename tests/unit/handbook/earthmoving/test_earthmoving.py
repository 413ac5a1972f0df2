from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import earthmoving

SHARES = st.floats(0.5, 1.3)


@given(volume=st.floats(0.0, 1e4), share=SHARES)
def test_bank_and_compacted_undo_each_other(volume, share):
    bank = earthmoving.bank_volume(volume, compacted_over_bank=share)
    assert float(earthmoving.compacted_volume(bank, compacted_over_bank=share)) == pytest.approx(volume)


@given(volume=st.floats(0.001, 1e4), bulking=st.floats(0.01, 1.0))
def test_loose_soil_is_always_more_than_in_the_bank(volume, bulking):
    assert earthmoving.loose_volume(volume, bulking=bulking) > volume


def test_averaged_ends_are_never_less_for_a_pit():
    prismoidal = earthmoving.prismoidal_volume(30.0, 56.0, 90.0, length=2.0)
    assert prismoidal < 2.0 * 0.5 * (30.0 + 90.0)


def test_loads_broadcast():
    assert np.array_equal(earthmoving.loads(np.array([0.0, 6.0, 6.1]), capacity=6.0), [0.0, 1.0, 2.0])


REFUSED = {
    "volume NaN": lambda: earthmoving.bank_volume(math.nan, compacted_over_bank=0.9),
    "share NaN": lambda: earthmoving.compacted_volume(1.0, compacted_over_bank=math.nan),
    "share in per cent": lambda: earthmoving.bank_volume(1.0, compacted_over_bank=90.0),
    "bulking in per cent": lambda: earthmoving.loose_volume(1.0, bulking=25.0),
    "negative volume": lambda: earthmoving.loads(-1.0, capacity=1.0),
    "barrow of nothing": lambda: earthmoving.loads(1.0, capacity=0.0),
    "standing barrow": lambda: earthmoving.barrow_cycle(
        25.0, speed_out=0.0, speed_back=1.0, loading=60.0, tipping=20.0
    ),
    "more than the hour": lambda: earthmoving.output_of_cycle(130.0, capacity=0.06, worked=1.2),
    "end slope level": lambda: earthmoving.end_slope_area(1.0, 0.0, slope=0.0),
    "end slope unknown": lambda: earthmoving.end_slope_area(1.0, 0.0, slope=math.nan),
    "negative area": lambda: earthmoving.prismoidal_volume(1.0, -1.0, 1.0, length=1.0),
}


@pytest.mark.parametrize("ask", REFUSED.values(), ids=REFUSED.keys())
def test_outside_the_range_is_refused(ask):
    with pytest.raises(OutOfRangeError):
        ask()
