"""Air: ranges, the friction package, and limits of the tube."""

from __future__ import annotations

import math
from typing import Any

import fluids
import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import air as a


@pytest.mark.parametrize(
    ("call", "inputs"),
    [
        (a.friction_factor, {"number": 0.0, "roughness": 0.0}),
        (a.friction_factor, {"number": 1e5, "roughness": 0.2}),
        (a.reynolds, {"flow": 0.1, "diameter": 0.0, "temperature": 0.0}),
        (a.ground_resistance, {"radius": 0.1, "depth": 0.1, "time": 1e6, "conductivity": 1.5,
                               "capacity": 2e6}),
        (a.tube_air, {"flow": 0.0, "inlet": 0.0, "ground": 5.0, "diameter": 0.2, "length": 3.0,
                      "resistance": 0.0}),
        (a.air_for, {"produced": 1e-5, "allowed": 400e-6}),
        (a.stove_air, {"burned": 1e-3, "excess": 0.5}),
        (a.underpressure, {"extracted": 0.01, "changes": 0.0, "volume": 100.0}),
        (a.stack_pressure, {"height": -1.0, "inside": 20.0, "outside": 0.0}),
        (a.air_density, {"temperature": math.nan}),
    ],
)  # fmt: skip
def test_outside_the_range_is_refused(call: Any, inputs: dict[str, Any]) -> None:
    with pytest.raises(OutOfRangeError):
        call(**inputs)


@pytest.mark.parametrize("number", [4e3, 2e4, 3e5, 1e7])
@pytest.mark.parametrize("rough", [0.0, 1e-4, 5e-3, 0.04])
def test_friction_agrees_with_the_package(number: float, rough: float) -> None:
    reference = fluids.friction_factor(Re=number, eD=rough, Method="Clamond")
    assert float(a.friction_factor(number, rough)) == pytest.approx(reference, rel=1e-6)


def test_a_longer_tube_comes_nearer_to_the_ground_and_never_past_it() -> None:
    outlets = np.array(
        [
            float(a.tube_air(0.03, -20.0, 4.0, diameter=0.2, length=length, resistance=0.3).outlet)
            for length in (0.0, 10.0, 40.0, 500.0)
        ]
    )
    assert outlets[0] == pytest.approx(-20.0)
    assert np.all(np.diff(outlets) > 0.0)
    assert outlets[-1] <= 4.0


def test_the_ground_gives_less_the_longer_it_is_drawn_on() -> None:
    days = np.array([1.0, 10.0, 100.0, 1000.0]) * 86_400.0
    assert np.all(np.diff(a.ground_resistance(0.1, 2.0, days, conductivity=1.5, capacity=2e6)) > 0.0)


def test_friction_has_no_jump_where_flow_turns() -> None:
    for edge in (2040.0, 3000.0):
        below, above = a.friction_factor(np.array([edge - 0.1, edge + 0.1]), 0.0)
        assert below == pytest.approx(above, rel=1e-3)
