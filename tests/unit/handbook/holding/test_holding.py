"""Rings, cuts through walls and sockets: where the equations end."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import holding


@pytest.mark.parametrize(
    "call",
    [
        lambda: holding.ring_tension(1.0, 0.0),
        lambda: holding.beam_moment(-1.0, 2.0),
        lambda: holding.bar_area(0.002),
        lambda: holding.concrete_tension(60e6),
        lambda: holding.bond_strength(0.0, good=True),
        lambda: holding.lap_length(0.012, -1.0, 2.7e6),
        lambda: holding.anchorage_length(0.04, 100e6, 2.7e6),
        lambda: holding.pressed_moment(-1.0, 0.4, 1e6),
        lambda: holding.uncracked_moment(0.0, 1e6),
        lambda: holding.reinforced_moment(1e-3, 435e6, depth=0.5, thickness=0.4, concrete=10e6),
        lambda: holding.reinforced_shear(1e-3, depth=0.3, concrete=5e6),
        lambda: holding.course_shear(1.0, 1.1),
        lambda: holding.pressed_strut(0.1, length=40.0, strength=8e6),
        lambda: holding.split_capacity(0.1, kept=0.2, height=0.2),
        lambda: holding.lip_shear(1.0, depth=0.0, kept=0.05),
    ],
    ids=[str(number) for number in range(15)],
)
def test_outside_its_range_an_equation_says_so(call) -> None:
    with pytest.raises(OutOfRangeError):
        call()


def test_a_ring_pushed_inward_is_pressed() -> None:
    assert float(holding.ring_tension(-4e3, 2.0)) == -8e3


def test_short_laps_keep_to_their_least() -> None:
    assert float(holding.lap_length(0.01, 0.0, 2.7e6)) == 0.2
    assert float(holding.anchorage_length(0.01, 0.0, 2.7e6)) == 0.1


def test_more_weight_first_helps_a_wall_without_tension_and_then_crushes_it() -> None:
    moments = holding.pressed_moment(np.array([0.0, 100e3, 200e3, 300e3, 400e3]), 0.4, 1e6)
    assert moments[0] == moments[-1] == 0.0
    assert int(np.argmax(moments)) == 2


def test_a_thin_slab_bows_out() -> None:
    short, long = (float(holding.pressed_strut(0.1, length=free, strength=8e6)) for free in (0.5, 6.0))
    assert 0.0 == long < short
