"""Heat through layers: what lies outside the range is refused, and bent layers tend to flat ones."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import conduction as c


@pytest.mark.parametrize(
    ("call", "inputs"),
    [
        (c.layer_resistance, {"thickness": -0.1, "conductivity": 1.0}),
        (c.layer_resistance, {"thickness": 0.1, "conductivity": 0.001}),
        (c.layer_resistance, {"thickness": 0.1, "conductivity": 401.0}),
        (c.layer_resistance, {"thickness": 0.1, "conductivity": math.nan}),
        (c.transmittance, {"resistances": (0.0, 0.0)}),
        (c.layer_temperatures, {"resistances": (1.0,), "inside": 200.0, "outside": 0.0}),
        (c.bent_layer_resistance, {"thickness": 0.1, "conductivity": 1.0, "radius": 0.0}),
        (c.vault_conductance, {"inner": 2.0, "outer": 2.0, "conductivity": 1.0}),
        (c.dome_conductance, {"inner": 2.0, "outer": 1.0, "conductivity": 1.0}),
        (c.buried_pipe_factor, {"radius": 1.0, "depth": 1.0}),
        (c.buried_sphere_factor, {"radius": 1.0, "depth": 0.5}),
        (c.heat_flow, {"slope": 2.0}),
        (c.air_layer_resistance, {"thickness": 0.5, "flow": c.HeatFlow.UP}),
        (c.air_void_correction, {"level": 3, "pierced": 1.0, "total": 2.0}),
        (c.rain_correction, {"rain": 1.0, "above": 1.0, "total": 2.0, "joints": 0.1}),
        (c.slab_transmittance, {"width": 0.0, "thickness": 1.0, "conductivity": 1.0}),
        (c.undisturbed_ground, {"depth": -1.0, "day": 1.0, "mean": 5.0, "swing": 5.0, "coldest_day": 20.0,
                                "diffusivity": 1e-6}),
        (c.frost_line, {"index": 1e6, "mean": -1.0}),
        (c.heating_degrees, {"mean": (1.0,) * 11, "spread": (0.0,) * 11, "base": 18.0}),
    ],
)  # fmt: skip
def test_outside_the_range_is_refused(call: Any, inputs: dict[str, Any]) -> None:
    with pytest.raises(OutOfRangeError):
        call(**inputs)


def test_shares_of_a_bridged_layer_add_up_to_one() -> None:
    with pytest.raises(OutOfRangeError, match=r"add up to 0\.9"):
        c.bridged_resistance((((0.5, 1.0), (0.4, 2.0)),), 0.13, 0.04)


def test_a_wide_bend_is_nearly_flat() -> None:
    flat = float(c.layer_resistance(0.3, 0.04))
    bent = np.array([float(c.bent_layer_resistance(0.3, 0.04, radius)) for radius in (2.0, 20.0, 2000.0)])
    assert np.all(np.diff(bent) > 0.0)
    assert bent[-1] == pytest.approx(flat, rel=1e-4)


def test_the_upper_limit_is_never_under_the_lower() -> None:
    layers = (((0.85, 5.0), (0.15, 0.8)), ((0.9, 2.0), (0.1, 0.3)))
    found = c.bridged_resistance(layers, 0.13, 0.04)
    assert found.upper > found.total > found.lower
    plain = c.bridged_resistance((((1.0, 5.0),),), 0.13, 0.04)
    assert plain.upper == pytest.approx(plain.lower)
