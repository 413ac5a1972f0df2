"""What holds of heat, vapour and air whatever the numbers are."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bermwright.handbook.air import frozen_length, tube_air
from bermwright.handbook.conduction import (
    bent_layer_resistance,
    bridged_resistance,
    layer_resistance,
    layer_temperatures,
    transmittance,
)
from bermwright.handbook.damp import (
    MonthlyAir,
    dew_point,
    factor_with_film,
    indoor_pressure,
    saturation_pressure,
    vapour_profile,
    wet_year,
    wood_moisture,
)

resistances = st.lists(st.floats(0.01, 10.0), min_size=1, max_size=8)
air_layers = st.lists(st.floats(0.01, 200.0), min_size=1, max_size=6)
warmth = st.floats(-40.0, 35.0)


@given(resistances, st.floats(0.0, 5.0))
def test_more_insulation_never_loses_more(layers: list[float], added: float) -> None:
    assert transmittance((*layers, added)) <= transmittance(layers) * (1 + 1e-12)


@given(resistances, warmth, warmth)
def test_warmth_lies_between_both_airs(layers: list[float], inside: float, outside: float) -> None:
    found = layer_temperatures(layers, inside, outside)
    assert found[0] == pytest.approx(inside, abs=1e-9)
    assert found[-1] == pytest.approx(outside, abs=1e-9)
    steps = np.diff(found) * np.sign(outside - inside)
    assert np.all(steps >= -1e-9)


@given(st.floats(0.001, 1.0), st.floats(0.02, 3.0), st.floats(0.2, 50.0))
def test_a_bent_layer_never_resists_more_than_a_flat_one(
    d: float, conductivity: float, radius: float
) -> None:
    bent = float(bent_layer_resistance(d, conductivity, radius))
    assert bent <= float(layer_resistance(d, conductivity)) * (1 + 1e-12)


@given(st.floats(0.05, 0.95), st.floats(0.1, 8.0), st.floats(0.1, 8.0))
def test_the_truth_lies_between_upper_and_lower_limit(share: float, one: float, other: float) -> None:
    found = bridged_resistance((((share, one), (1.0 - share, other)),), 0.13, 0.04)
    assert found.upper >= found.lower * (1 - 1e-12)


@given(st.floats(-60.0, 60.0))
def test_the_dew_point_of_saturated_air_is_its_temperature(temperature: float) -> None:
    assert float(dew_point(saturation_pressure(temperature))) == pytest.approx(temperature, abs=1e-6)


@given(air_layers, st.data())
def test_vapour_never_passes_saturation_and_none_is_lost(layers: list[float], data: st.DataObject) -> None:
    faces = np.array(data.draw(st.lists(warmth, min_size=len(layers) + 1, max_size=len(layers) + 1)))
    most = saturation_pressure(faces)
    inside = data.draw(st.floats(1.0, float(most[0])))
    outside = data.draw(st.floats(1.0, float(most[-1])))
    found = vapour_profile(layers, faces, inside=inside, outside=outside)
    assert np.all(found.pressure <= found.saturation * (1 + 1e-9))
    assert np.all(found.rate >= -1e-18)
    flow = -2e-10 * np.diff(found.pressure) / np.array(layers)
    assert flow[0] - flow[-1] == pytest.approx(float(found.rate.sum()), abs=1e-12)


@given(st.floats(5.0, 24.0), st.floats(-20.0, 10.0), st.floats(0.2, 0.9))
def test_a_year_keeps_its_water(inside: float, mean: float, humidity: float) -> None:
    outside = mean + 10.0 * np.cos(2.0 * np.pi * (np.arange(12) - 6.0) / 12.0)
    air = MonthlyAir(
        inside=np.maximum(inside, outside),
        outside=outside,
        pressure_inside=humidity * saturation_pressure(np.maximum(inside, outside)),
        pressure_outside=0.8 * saturation_pressure(outside),
    )
    year = wet_year((0.1, 0.3, 5.0, 0.2, 0.04), (1.0, 5.0, 30.0), air)
    assert np.all(year.lying >= 0.0)
    assert np.cumsum(year.gathered, axis=0) == pytest.approx(year.lying, abs=1e-12)
    assert year.left == pytest.approx(year.years[0])


@given(st.floats(0.0, 2000.0), st.floats(1e-7, 1e-3), st.floats(1e-4, 1.0), st.floats(1.0, 10.0))
def test_more_air_is_never_damper(outdoors: float, made: float, flow: float, more: float) -> None:
    less = float(indoor_pressure(outdoors, made, flow, temperature=20.0))
    assert float(indoor_pressure(outdoors, made, flow * more, temperature=20.0)) <= less * (1 + 1e-12)


@given(warmth, st.floats(0.0, 0.98), st.floats(0.0, 0.02))
def test_wood_takes_up_more_in_damper_air(temperature: float, humidity: float, damper: float) -> None:
    dry = float(wood_moisture(temperature, humidity))
    assert float(wood_moisture(temperature, humidity + damper)) >= dry - 1e-12


@given(st.floats(0.0, 1.0), st.floats(0.04, 0.3), st.floats(0.04, 0.5))
def test_a_film_and_back_is_the_same_place(factor: float, film: float, other: float) -> None:
    there = factor_with_film(factor, film, other)
    assert 0.0 <= float(there) <= 1.0
    assert float(factor_with_film(there, other, film)) == pytest.approx(factor, abs=1e-9)


@given(st.floats(0.005, 0.3), st.floats(-30.0, 35.0), st.floats(0.5, 15.0), st.floats(1.0, 100.0))
def test_a_tube_never_overshoots_the_ground(flow: float, inlet: float, ground: float, length: float) -> None:
    found = tube_air(flow, inlet, ground, diameter=0.2, length=length, resistance=0.2)
    low, high = sorted((inlet, ground))
    assert low - 1e-9 <= float(found.outlet) <= high + 1e-9
    ice = frozen_length(length, found.units, start=found.wall_start, ground=ground)
    assert 0.0 <= float(ice) <= length
