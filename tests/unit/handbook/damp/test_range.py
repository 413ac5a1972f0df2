"""Damp: ranges, the psychrometric package, and water that neither comes from nowhere nor goes there."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import psychrolib
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import damp as d

psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize(
    ("call", "inputs"),
    [
        (d.saturation_pressure, {"temperature": -90.0}),
        (d.saturation_pressure, {"temperature": math.nan}),
        (d.dew_point, {"pressure": 0.0}),
        (d.air_thickness, {"thickness": 0.1, "factor": 0.5}),
        (d.wood_moisture, {"temperature": 20.0, "humidity": 1.2}),
        (d.surface_factor, {"surface": 10.0, "inside": 10.0, "outside": 10.0}),
        (d.indoor_pressure, {"outdoor": 300.0, "production": -1.0, "flow": 1.0, "temperature": 20.0}),
        (d.factor_with_film, {"factor": 1.2, "film": 0.13, "wanted": 0.25}),
        (d.vapour_profile, {"air_layers": (1.0,), "temperatures": (1.0,), "inside": 1.0, "outside": 1.0}),
        (d.vapour_profile, {"air_layers": (0.0,), "temperatures": (1.0, 1.0), "inside": 1.0, "outside": 1.0}),
    ],
)
def test_outside_the_range_is_refused(call: Any, inputs: dict[str, Any]) -> None:
    with pytest.raises(OutOfRangeError):
        call(**inputs)


@pytest.mark.parametrize("temperature", [-40.0, -12.0, -0.5, 0.5, 8.0, 21.0, 45.0])
def test_moist_air_agrees_with_the_package(temperature: float) -> None:
    fine = float(d.saturation_pressure_fine(temperature))
    assert fine == pytest.approx(psychrolib.GetSatVapPres(temperature), rel=1e-6)
    assert float(d.saturation_pressure(temperature)) == pytest.approx(fine, rel=0.025)
    half = 0.5 * fine
    ratio = psychrolib.GetHumRatioFromVapPres(half, 101_325.0)
    assert float(d.humidity_ratio(half)) == pytest.approx(ratio, rel=1e-6)
    assert float(d.enthalpy(temperature, ratio)) == pytest.approx(
        psychrolib.GetMoistAirEnthalpy(temperature, ratio), rel=1e-6
    )


def _still(inside: float, outside: float, pressures: tuple[float, float]) -> d.MonthlyAir:
    return d.MonthlyAir(
        inside=np.full(12, inside),
        outside=np.full(12, outside),
        pressure_inside=np.full(12, pressures[0]),
        pressure_outside=np.full(12, pressures[1]),
    )


def test_a_roof_that_never_sees_summer_builds_up_the_same_every_year() -> None:
    year = d.wet_year((0.1, 5.0, 0.2, 0.04), (1.0, 50.0), _still(20.0, -10.0, (1200.0, 200.0)))
    assert not year.dries
    assert year.builds_up
    assert np.diff(year.years) == pytest.approx(year.years[0])
    assert year.left == pytest.approx(float(year.gathered.sum()))


def test_a_dry_room_leaves_no_water() -> None:
    year = d.wet_year((0.1, 0.2, 5.0, 0.04), (1.0, 50.0), _still(20.0, -10.0, (250.0, 200.0)))
    assert year.dries
    assert year.peak == 0.0
    assert not year.builds_up


def test_slices_carry_what_the_layer_carried() -> None:
    heat, air, owner = d.cut_layers((7.5, 0.1, 0.0), (0.9, 2.0, 60.0))
    assert heat.max() <= 0.25 + 1e-12
    for at, (resistance, sd) in enumerate(zip((7.5, 0.1, 0.0), (0.9, 2.0, 60.0), strict=True)):
        assert heat[owner == at].sum() == pytest.approx(resistance)
        assert air[owner == at].sum() == pytest.approx(sd)


def test_resistances_count_the_films() -> None:
    with pytest.raises(OutOfRangeError, match="films"):
        d.wet_year((0.1, 1.0), (1.0,), _still(20.0, 0.0, (1000.0, 500.0)))


def test_nothing_dries_without_a_rate() -> None:
    assert d.drying_time(0.3, 0.0) == math.inf
