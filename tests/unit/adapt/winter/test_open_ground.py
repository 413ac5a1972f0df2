"""Open ground through an average year: its frost by the modified Berggren equation, its warmth by phase."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.adapt.winter.open_ground import open_ground
from bermwright.base.errors import OutOfRangeError
from bermwright.form.heat.ground import soil_material
from bermwright.formats.house_file import load
from bermwright.handbook.lasting import frost_depth
from bermwright.handbook.weather import daily_means

EXAMPLES = Path(__file__).resolve().parents[4] / "examples"
COLD = (-15, -12, -6, 3, 10, 15, 18, 17, 11, 5, -5, -12)
MILD = (4, 5, 7, 9, 12, 15, 17, 17, 15, 11, 7, 5)
DAY = 86_400.0


@pytest.fixture(scope="module")
def house():
    return load(EXAMPLES / "larch-bank.toml").house


def test_frost_ends_where_the_whole_winter_of_the_handbook_ends(house) -> None:
    days = daily_means(COLD)
    below = days[days < 0.0]
    soil = soil_material(house.site.soil[0], "", [])
    whole = frost_depth(
        0.5 * (soil.conductivity + soil.frozen_conductivity),
        -float(below.sum()) * DAY,
        mean=float(days.mean()),
        duration=len(below) * DAY,
        latent=soil.latent,
        capacity=soil.capacity,
    )
    assert open_ground(house, COLD).frost.max() == pytest.approx(whole, rel=1e-6)


def test_frost_grows_then_thaws_from_the_top_and_is_gone_in_summer(house) -> None:
    ground = open_ground(house, COLD)
    deepest = int(np.argmax(ground.frost))
    assert 8 <= deepest <= 16
    assert ground.frost[30] == ground.thawed[30] == 0.0
    assert np.all(ground.thawed <= ground.frost)
    assert ground.thawed.max() > 0.3
    autumn = ground.frost[44:]
    assert np.all(np.diff(autumn) >= 0.0)


def test_ground_that_is_not_frozen_is_not_below_zero_and_frozen_ground_not_above(house) -> None:
    ground = open_ground(house, COLD)
    for week in range(0, 52, 3):
        for depth in (0.2, 0.6, 1.2, 2.5, 6.0):
            frozen = ground.thawed[week] <= depth < ground.frost[week]
            assert (
                ground.temperature(depth, week) <= 0.0 if frozen else ground.temperature(depth, week) >= 0.0
            )
    assert ground.temperature(12.0, 10) == pytest.approx(np.mean(daily_means(COLD)), abs=0.5)


def test_no_frost_where_no_month_is_cold_and_nothing_where_it_never_thaws(house) -> None:
    assert not open_ground(house, MILD).frost.any()
    assert open_ground(house, tuple(one - 20 for one in COLD)) is None


def test_ground_without_water_is_refused_not_divided_by(house) -> None:
    dry = replace(house.site.soil[0], kind=None, water_content=0.0)
    with pytest.raises(OutOfRangeError):
        open_ground(replace(house, site=replace(house.site, soil=(dry,))), COLD)
