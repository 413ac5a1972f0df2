"""Ranges and edges of the soil equations, and the rows of soil data."""

from __future__ import annotations

import math

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.data.soils import MEMBRANES, SOILS
from bermwright.handbook import soils

STEEP = math.radians(51)


REFUSED = [
    lambda: soils.at_rest_ratio(STEEP),
    lambda: soils.active_ratio(-0.1),
    lambda: soils.passive_ratio(math.nan),
    lambda: soils.sloping_active_ratio(0.5, 0.6),
    lambda: soils.coulomb_active_ratio(0.5, 0.6),
    lambda: soils.coulomb_active_ratio(0.5, 0.1, 0.6),
    lambda: soils.coulomb_passive_ratio(math.radians(45), math.radians(45), math.radians(44)),
    lambda: soils.design_friction_angle(0.5, 0.9),
    lambda: soils.stress_modulus(1e6, -1.0, 0.5),
    lambda: soils.needed_wall_friction(1.01, 0.5),
    lambda: soils.largest_needed_wall_friction(0.0),
    lambda: soils.soil_runs(STEEP),
    lambda: soils.soil_runs(0.5, membrane_friction=1.0),
    lambda: soils.buoyant_unit_weight(9e3),
    lambda: soils.moist_unit_weight(2.65, 0.6, water=0.3),
    lambda: soils.moist_unit_weight(2.65, 0.6, water=-0.01),
    lambda: soils.saturated_unit_weight(1.9, 0.6),
    lambda: soils.void_ratio_of(27e3, 2.65),
    lambda: soils.void_ratio_of(0.0, 2.65),
    lambda: soils.shape_factor(0.9, 4.8),
    lambda: soils.shape_factor(3.0, 4.8),
    lambda: soils.moment_at_crown_level(19e3, 4.8, rise=2.2, flexibility=9.0),
    lambda: soils.moment_change_by_cover(19e3, 4.8, cover=1.0, rise=2.2, flexibility=2e6),
    lambda: soils.ring_thrust(19e3, 4.8, rise=2.2, cover=-0.1),
    lambda: soils.arching_factor(0.5, 0.0, span=4.8),
]


@pytest.mark.parametrize("call", REFUSED, ids=[str(number) for number in range(len(REFUSED))])
def test_outside_its_range_it_refuses(call):
    with pytest.raises(OutOfRangeError):
        call()


def test_the_active_ratio_needs_the_soils_own_friction():
    angle = np.radians([20.0, 32.0, 40.0])
    needed = soils.largest_needed_wall_friction(soils.active_ratio(angle))
    np.testing.assert_allclose(needed, angle)


def test_no_slope_needs_more_than_the_steepest_case():
    slopes = np.linspace(0.0, np.pi / 2, 200)
    needed = soils.needed_wall_friction(0.47, slopes)
    assert needed.max() <= soils.largest_needed_wall_friction(0.47) + 1e-12
    assert needed.max() == pytest.approx(float(soils.largest_needed_wall_friction(0.47)), abs=1e-3)


def test_soil_soaked_to_the_brim_weighs_as_saturated():
    full = 0.6 / 2.65
    moist = soils.moist_unit_weight(2.65, 0.6, water=full)
    assert moist == pytest.approx(float(soils.saturated_unit_weight(2.65, 0.6)))


def test_the_bend_of_the_shape_factor_is_small():
    for ratio in (0.35, 0.5):
        below, above = soils.shape_factor([ratio - 1e-9, ratio + 1e-9], 1.0)
        assert below == pytest.approx(above, abs=0.001)


@pytest.mark.parametrize("row", SOILS.values(), ids=lambda row: row.name)
def test_each_soil_is_possible_and_sourced(row):
    assert 14e3 < row.unit_weight.low <= row.unit_weight.high < 22.5e3
    assert row.unit_weight.low < row.saturated.high < 24e3
    assert math.radians(20) < row.friction.low <= row.friction.high < math.radians(45)
    assert 1e6 < row.modulus.low <= row.modulus.high < 50e6
    assert row.cites


def test_a_fleece_on_a_smooth_sheet_is_the_slipperiest():
    slipperiest = min(MEMBRANES.values(), key=lambda one: one.friction.low)
    assert slipperiest.name == "fleece on smooth HDPE"
    runs = {
        run.name: run for run in soils.soil_runs(math.radians(32), membrane_friction=slipperiest.friction.low)
    }
    assert runs["low"].ratio == runs["expected"].ratio
