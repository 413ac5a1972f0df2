"""Earth pressure, walls and buttresses: where the equations end, and that they never give NaN."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import retaining, soils

if TYPE_CHECKING:
    from collections.abc import Callable


def rad(degrees: float) -> float:
    return float(np.radians(degrees))


def test_without_shaking_the_earthquake_ratio_is_coulombs() -> None:
    quiet = retaining.earthquake_active_ratio(rad(30), rad(10), sideways=0.0)
    assert float(quiet) == pytest.approx(float(soils.coulomb_active_ratio(rad(30), rad(10))))
    passive = retaining.earthquake_passive_ratio(rad(30), rad(22), sideways=0.0)
    assert float(passive) == pytest.approx(float(soils.coulomb_passive_ratio(rad(30), rad(22))))


@pytest.mark.parametrize("shaken", [retaining.earthquake_active_ratio, retaining.earthquake_passive_ratio])
def test_shaking_that_no_slope_stands_has_no_solution(shaken) -> None:
    with pytest.raises(OutOfRangeError, match="no solution"):
        shaken(rad(20), 0.0, sideways=0.5)


def test_a_slope_takes_the_solution_away() -> None:
    assert np.isfinite(retaining.earthquake_active_ratio(rad(30), 0.0, sideways=0.2))
    with pytest.raises(OutOfRangeError, match="no solution"):
        retaining.earthquake_active_ratio(rad(30), 0.0, sideways=0.2, slope=rad(25))


def test_an_endless_passive_wedge_has_no_solution() -> None:
    with pytest.raises(OutOfRangeError, match="no solution"):
        retaining.earthquake_passive_ratio(rad(45), rad(40), sideways=0.0, slope=rad(30))


@pytest.mark.parametrize(
    "call",
    [
        lambda: retaining.leaning_active_ratio(rad(30), rad(31)),
        lambda: retaining.leaning_active_ratio(rad(51), 0.0),
        lambda: retaining.leaning_active_ratio(rad(30), 0.0, rad(31)),
        lambda: retaining.leaning_active_ratio(rad(30), 0.0, 0.0, 0.8),
        lambda: retaining.sloping_at_rest_ratio(rad(30), rad(31)),
        lambda: retaining.earthquake_active_ratio(rad(30), 0.0, sideways=1.1),
        lambda: retaining.earthquake_active_ratio(rad(30), 0.0, sideways=0.1, upward=0.6),
        lambda: retaining.soil_push(-1.0, weight=18e3, ratio=0.5),
        lambda: retaining.soil_push(1.0, weight=18e3, ratio=0.5, surcharge=-1.0),
        lambda: retaining.wet_soil_push(1.0, water=0.5, weight=18e3, saturated=9e3, ratio=0.5),
        lambda: retaining.wall_body(1.0, top=0.0, base=0.5, weight=20e3),
        lambda: retaining.eccentricity(0.0, 1.0, 1.0),
        lambda: retaining.sliding_resistance(-1.0, 0.5),
        lambda: retaining.stand_of(down=1.0, along=0.0, holding=-1.0, turning=0.0, width=1.0, resistance=1.0),
        lambda: retaining.bond_stress(1.0, height=0.0, width=0.4),
        lambda: retaining.kern_thrust(3.0, depth=0.5, width=0.5, weight=20e3, inset=0.6),
        lambda: retaining.compaction_pressure(-1.0, 18e3),
        lambda: retaining.compaction_depth(30e3, 18e3, 0.0),
        lambda: retaining.strip_pressure(20e3, near=0.5, width=0.0, depth=1.0),
    ],
    ids=[str(number) for number in range(19)],
)
def test_outside_its_range_an_equation_says_so(call) -> None:
    with pytest.raises(OutOfRangeError):
        call()


def test_no_soil_pushes_nowhere() -> None:
    push = retaining.soil_push(np.array([0.0, 2.0]), weight=18e3, ratio=0.5)
    assert push.force.tolist() == [0.0, 18e3]
    assert push.arm[0] == 0.0
    assert np.isfinite(push.moment).all()


def test_water_pushes_more_than_the_soil_it_lightens() -> None:
    levels = np.linspace(-1.0, 4.0, 11)
    push = retaining.wet_soil_push(3.0, water=levels, weight=18e3, saturated=20e3, ratio=0.4)
    assert (np.diff(push.force) >= -1e-9).all()
    assert push.force[0] == pytest.approx(float(retaining.soil_push(3.0, weight=18e3, ratio=0.4).force))


def test_what_nothing_holds_is_beyond_all_bounds() -> None:
    stand = retaining.stand_of(
        down=10e3, along=np.array([5e3, -5e3]), holding=0.0, turning=1e3, width=1.0, resistance=0.0
    )
    assert float(stand.overturning) == np.inf
    assert stand.sliding.tolist() == [np.inf, 0.0]


def test_a_crack_takes_strength_from_a_loaded_buttress_only() -> None:
    body = {"depth": 0.9, "width": 0.5, "weight": 20e3}
    bare = retaining.cracked_buttress_thrust(3.0, **body)
    assert bare == pytest.approx(float(retaining.kern_thrust(3.0, **body)), rel=2e-3)
    loaded = retaining.cracked_buttress_thrust(3.0, **body, down=20e3, inset=0.2)
    kern = float(retaining.kern_thrust(3.0, **body, down=20e3, inset=0.2))
    whole = float(retaining.overturning_thrust(3.0, **body, down=20e3, inset=0.2))
    assert kern < loaded < whole


@pytest.mark.parametrize(
    "call",
    [
        lambda: retaining.long_term_strength(20e3, creep=0.9, damage=1.1, ageing=1.1),
        lambda: retaining.layer_pull(-0.1, spacing=0.3, weight=18e3, ratio=0.3),
        lambda: retaining.layer_pull(1.0, spacing=1.2, weight=18e3, ratio=0.3),
        lambda: retaining.beyond_wedge(2.0, height=1.0, angle=0.05),
        lambda: retaining.layer_hold(1.0, depth=1.0, weight=18e3, angle=0.9),
        lambda: retaining.layer_hold(1.0, depth=1.0, weight=18e3, angle=0.6, scale=1.1),
        lambda: retaining.face_bulge(0.8, height=3.0),
        lambda: retaining.face_bulge(2.0, height=3.0, surcharge=200e3),
    ],
    ids=["creep", "depth", "spacing", "loose", "steep", "scale", "short", "loaded"],
)
def test_layers_of_geogrid_beyond_their_range_are_refused(call: Callable[[], object]) -> None:
    with pytest.raises(OutOfRangeError):
        call()
