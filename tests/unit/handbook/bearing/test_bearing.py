"""Ground under a base: where the equations end, and what the factors do at their ends."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.data.supports import PRESUMED
from bermwright.handbook import bearing
from bermwright.handbook.bearing import Formula

STRIP = {"angle": 0.5, "cohesion": 0.0, "weight": 18e3, "surcharge": 10e3, "width": 1.0}


@pytest.mark.parametrize(
    "changed", [{"angle": 0.0}, {"angle": 0.9}, {"cohesion": -1.0}, {"weight": -1.0}, {"surcharge": np.nan},
                {"width": 0.0}, {"inclination": 1.1}, {"length": 0.5}]
)  # fmt: skip
def test_outside_its_range_the_drained_equation_says_so(changed: dict[str, float]) -> None:
    with pytest.raises(OutOfRangeError):
        bearing.drained_capacity(**{**STRIP, **changed})


@pytest.mark.parametrize(
    "call",
    [
        lambda: bearing.contact_pressure(-1.0, 1.0, 0.0),
        lambda: bearing.contact_pressure(1.0, 0.0, 0.0),
        lambda: bearing.effective_width(0.0, 0.0),
        lambda: bearing.weight_with_water(18e3, 9e3, water=1.0, width=1.0),
        lambda: bearing.undrained_capacity(strength=0.0, surcharge=0.0, width=1.0),
        lambda: bearing.undrained_capacity(strength=50e3, surcharge=0.0, width=1.0, along=60e3),
        lambda: bearing.cohesion_inclination(0.5, 0.0),
        lambda: bearing.surcharge_inclination(0.5, 3.0),
        lambda: bearing.skempton_factor(-0.1, 1.0),
        lambda: bearing.weight_shape(2.0, 1.0),
    ],
    ids=[str(number) for number in range(10)],
)
def test_outside_its_range_an_equation_says_so(call) -> None:
    with pytest.raises(OutOfRangeError):
        call()


def test_a_base_that_the_force_has_left_carries_nothing() -> None:
    contact = bearing.contact_pressure(100e3, 1.0, np.array([0.0, 0.5, 0.7]))
    assert contact.largest[0] == 100e3
    assert np.isinf(contact.largest[1:]).all()
    assert contact.length.tolist() == [1.0, 0.0, 0.0]
    assert float(bearing.effective_width(1.0, -0.7)) == 0.0


def test_no_force_presses_nothing() -> None:
    contact = bearing.contact_pressure(0.0, 1.0, 0.0)
    assert float(contact.largest) == float(contact.least) == 0.0


@pytest.mark.parametrize("formula", Formula)
def test_a_leaning_force_finds_less_ground(formula: Formula) -> None:
    shares = np.linspace(0.0, 0.9, 10)
    carried = bearing.drained_capacity(**{**STRIP, "inclination": shares, "formula": formula})
    assert (np.diff(carried) < 0.0).all()


def test_water_at_the_base_makes_the_ground_lighter() -> None:
    depths = np.array([-1.0, 0.0, 0.5, 1.0, 5.0])
    weights = bearing.weight_with_water(18e3, 20e3, water=depths, width=1.0)
    assert weights[0] == weights[1] == pytest.approx(20e3 - 9810.0)
    assert weights[3] == weights[4] == 18e3


def test_presumed_values_are_read_or_say_that_they_are_from_memory() -> None:
    assert all(20e3 <= row.pressure <= 700e3 and row.cite.place for row in PRESUMED)
    assert {row.ground: row.pressure for row in PRESUMED}["soft clay"] == 40e3
