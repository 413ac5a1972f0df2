"""Areas of fill against plain polygons."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from bermwright.form import fill_area, under_turf, vault_form
from bermwright.form.lines import upper
from bermwright.form.shapes import Line
from bermwright.handbook.curves import enclosed_area
from bermwright.house import CurveKind, Mound


def whole_section(form):
    """Fill of both sides as a difference of two polygons: under the finished ground, less the vault."""
    face, ground = form.soil_face, form.ground
    x = np.linspace(ground.finished.x[0], ground.finished.x[-1], 400_001)
    over = np.trapezoid(np.maximum(ground.finished.level(x) - ground.natural.level(x), 0.0), x)
    base = float(ground.natural.level(0.0))
    px = np.concatenate([[face.x[0]], face.x, [face.x[-1]]])
    pz = np.concatenate([[base], face.z, [base]])
    return float(over) - enclosed_area(px, pz)


@pytest.mark.parametrize(
    "change",
    [
        {},
        {"curve": CurveKind.SEMICIRCLE, "rise": None},
        {"curve": CurveKind.EGG, "rise": 3.0, "base_centre": 0.5, "flank_radius": 4.0, "crown_radius": 1.5},
        {"curve": CurveKind.UNDER_COVER},
    ],
    ids=["catenary", "semicircle", "egg that leans out", "under cover"],
)
def test_whole_section_is_the_mound_less_the_vault(house, change):
    built = house(**change)
    form = vault_form(built, built.vaults[0])
    assert fill_area(form, -5.0, 9.0, "both") == pytest.approx(whole_section(form), rel=1e-3)


def test_lifts_add_up(form):
    levels = np.linspace(-3.0, float(np.max(form.ground.finished.z)), 9)
    for side in ("left", "right"):
        lifts = [fill_area(form, a, b, side) for a, b in pairwise(levels)]
        assert sum(lifts) == pytest.approx(fill_area(form, -3.0, levels[-1], side), rel=2e-3)
        assert min(lifts) >= 0.0


def test_even_sides_take_the_same(house):
    built = house()
    form = vault_form(built, built.vaults[0])
    assert fill_area(form, 0.0, 2.0, "left") == pytest.approx(fill_area(form, 0.0, 2.0, "right"), rel=1e-9)


def test_turf_is_as_thick_square_to_the_slope(house):
    built = house(mound=Mound(crown=0.35, left=np.arctan(0.4), right=np.arctan(0.4), turf=0.1))
    form = vault_form(built, built.vaults[0])
    slope = np.hypot(1.0, 0.4)
    drop = form.ground.finished.level(3.0) - under_turf(form).level(3.0)
    assert drop / slope == pytest.approx(0.1)
    turf = fill_area(form, -5.0, 9.0, "both", layer="turf")
    x = form.ground.finished.x
    length = slope * (x[3] - x[1])
    assert turf == pytest.approx(0.1 * length, rel=0.03)
    soil = fill_area(form, -5.0, 9.0, "both", layer="soil")
    assert soil + turf == pytest.approx(fill_area(form, -5.0, 9.0, "both"))


def test_no_turf_no_area(house):
    built = house(mound=Mound(crown=0.35, left=0.3, right=0.3, turf=0.0))
    form = vault_form(built, built.vaults[0])
    assert fill_area(form, -5.0, 9.0, "left", layer="turf") == 0.0
    assert fill_area(form, -5.0, 9.0, "left", layer="soil") == fill_area(form, -5.0, 9.0, "left")


def test_a_step_of_a_drawn_mound_does_not_lower_the_level_ground_beside_it(house):
    built = house()
    form = vault_form(built, built.vaults[0])
    line = Line(x=np.array([-6.0, -5.999999, 5.999999, 6.0]), z=np.array([0.0, 4.0, 4.0, 0.0]))
    under = under_turf(replace(form, ground=replace(form.ground, finished=line, turf=0.1)))
    assert under.level(0.0) == pytest.approx(3.9)
    assert under.level(5.9) == pytest.approx(3.9)


def test_a_hillside_beside_the_mound_is_not_its_top(house):
    built = house()
    form = vault_form(built, built.vaults[0])
    steep = Line(x=np.array([-9.0, 9.0]), z=np.array([9.0, -9.0]))
    ground = replace(form.ground, natural=steep, finished=upper(form.ground.finished, steep))
    assert ground.finished.z.max() == pytest.approx(9.0)
    assert ground.top == pytest.approx(form.ground.top)
    bare = replace(ground, finished=steep)
    assert bare.top == pytest.approx(0.0)
