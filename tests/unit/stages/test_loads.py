"""Every action's sum against a closed form, on a semicircle under a level mound."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from bermwright.base.ranges import Range
from bermwright.house import Cover, CoverKind, CurveKind, Mound
from bermwright.stages import StageKind, loads, soil_depth, staged
from bermwright.stages.face import between, covered, half, strip, turf_depth

RADIUS, DEPTH, PLANKS, FOAM = 2.0, 0.12, 0.04, 0.1
FACE = RADIUS + 0.5 * DEPTH + PLANKS + FOAM
TOP, TURF = 3.0, 0.15
ALL = frozenset({"lagging", "insulation"})
EVERYWHERE = (TOP, TOP)


def bare(build, shape, snow=2e3, levels=(None, None)):
    return loads.snow_on_bare(build, snow, shape, ~covered(build, *levels)) * build.form.mesh.plan


def test_ribs_weigh_their_volume(form) -> None:
    volume = 3 * 0.032 * DEPTH * math.pi * RADIUS / 0.6
    assert loads.rib_weight(form, 420.0).sum() == pytest.approx(420.0 * 9.80665 * volume, rel=1e-4)


def test_each_cover_layer_weighs_its_volume(form) -> None:
    planks = 5e3 * PLANKS * math.pi * (RADIUS + 0.5 * DEPTH + 0.5 * PLANKS)
    foam = 300.0 * FOAM * math.pi * (FACE - 0.5 * FOAM)
    assert loads.band_weight(form, frozenset({"lagging"})).sum() == pytest.approx(planks, rel=1e-4)
    assert loads.band_weight(form, ALL).sum() == pytest.approx(planks + foam, rel=1e-4)


def test_cover_acts_at_its_own_middle(form) -> None:
    out = FACE - RADIUS
    planks = (0.5 * DEPTH + 0.5 * PLANKS) / out
    assert loads.band_lever(form, frozenset({"lagging"})) == pytest.approx(planks)
    foam = (out - 0.5 * FOAM) / out
    both = (200.0 * planks + 30.0 * foam) / 230.0
    assert loads.band_lever(form, ALL) == pytest.approx(both)
    assert loads.band_lever(form, frozenset()) == 0.0


def test_weight_of_an_unknown_layer_is_unknown(shaped) -> None:
    form = shaped(cover=(Cover(kind=CoverKind.LAGGING, thickness=PLANKS),)).form
    assert np.isnan(loads.band_weight(form, ALL)).all()


def test_cells_that_lean_over_the_room_have_no_share_of_a_strip(build) -> None:
    edges = np.array([0.4, 0.0, 1e9, 1e9])  # the first cell is undercut, the last upright
    shares = between(replace(build.face, edge_x=edges), -1e9, 5e8)
    assert shares == pytest.approx([0.0, 0.5, 0.0])


def test_soil_column_is_the_block_less_the_semicircle(build) -> None:
    depth = soil_depth(build, *EVERYWHERE)
    area = 2.0 * FACE * (TOP - TURF) - 0.5 * math.pi * FACE**2
    assert (depth * build.form.mesh.plan).sum() == pytest.approx(area, rel=2e-3)


@pytest.mark.parametrize("level", [0.4, 1.1, 1.75])
def test_level_fill_presses_on_what_it_covers(build, level) -> None:
    depth = soil_depth(build, level, level)
    x = math.sqrt(FACE**2 - level**2)
    segment = 0.5 * FACE**2 * math.asin(level / FACE) + 0.5 * level * x
    area = 2.0 * (FACE * level - segment)
    assert (depth * build.form.mesh.plan).sum() == pytest.approx(area, rel=0.04)


def test_sideways_column_is_half_the_square_of_the_level(build) -> None:
    level = 1.3
    depth, rise = soil_depth(build, level, level), build.form.mesh.rise
    left = rise > 0
    assert (depth * rise)[left].sum() == pytest.approx(0.5 * level**2, rel=3e-3)
    assert (depth * rise).sum() == pytest.approx(0.0, abs=1e-9)


def test_one_side_ahead_loads_that_side(build) -> None:
    mesh = build.form.mesh
    ahead, mirror = soil_depth(build, 1.2, 0.8), soil_depth(build, 0.8, 1.2)
    assert ahead == pytest.approx(mirror[::-1], abs=1e-12)
    assert (ahead * mesh.rise).sum() == pytest.approx(0.5 * (1.2**2 - 0.8**2), rel=5e-3)


def test_crown_cell_lies_half_under_either_side(build) -> None:
    crown = build.form.mesh.crown
    one_side = soil_depth(build, TOP, 0.0)
    assert one_side[crown] == pytest.approx(0.5 * soil_depth(build, *EVERYWHERE)[crown])


def test_full_snow_lies_where_the_shell_is_flatter_than_60_degrees(build) -> None:
    within = 2.0 * FACE * math.sin(math.radians(60.0))
    assert bare(build, "even").sum() == pytest.approx(0.8 * 2e3 * within, rel=0.01)


def test_drifted_snow_is_two_triangles(build) -> None:
    within = 2.0 * FACE * math.sin(math.radians(60.0))
    # Peak 2.0 on one half and 1.0 on the other, each over half of that length.
    assert bare(build, "left").sum() == pytest.approx(2e3 * 0.5 * within * 0.5 * 3.0, rel=0.01)
    assert bare(build, "left") == pytest.approx(bare(build, "right")[::-1], abs=1e-6)
    assert (
        bare(build, "left")[: build.form.mesh.crown].sum()
        > bare(build, "right")[: build.form.mesh.crown].sum()
    )


def test_snow_on_what_is_still_bare_drifts_by_its_own_curve(build) -> None:
    level = 1.9
    half_width = math.sqrt(FACE**2 - level**2)
    rise, width = FACE - level, 2.0 * half_width
    peak = 0.2 + 10.0 * rise / width
    load = bare(build, "left", levels=(level, level))
    assert peak < 2.0
    assert load.sum() == pytest.approx(2e3 * 0.5 * width * 0.5 * 1.5 * peak, rel=0.05)
    assert not load[soil_depth(build, level - 0.1, level - 0.1) > 0].any()


def test_snow_on_fill_lies_on_level_lifts_and_by_half_on_one_side(build) -> None:
    plan = build.form.mesh.plan
    level = 1.0
    beside = FACE - math.sqrt(FACE**2 - level**2)
    even = loads.snow_on_fill(build, 2e3, "even", (level, level)) * plan
    left = loads.snow_on_fill(build, 2e3, "left", (level, level)) * plan
    right = loads.snow_on_fill(build, 2e3, "right", (level, level)) * plan
    assert even.sum() == pytest.approx(0.8 * 2e3 * 2.0 * beside, rel=0.03)
    assert left.sum() == pytest.approx(0.75 * even.sum(), rel=1e-6)
    assert left == pytest.approx(right[::-1], abs=1e-6)


def test_steep_mounds_shed_their_snow(shaped) -> None:
    steep = Mound(
        turf=0.0,
        line=((-6.0, -5.0), (-0.5, 2.9), (0.5, 2.9), (6.0, -5.0)),
        natural=((-9.0, -5.0), (9.0, -5.0)),
    )
    build = shaped(mound=steep)
    slope = math.degrees(math.atan2(7.9, 5.5))
    load = loads.snow_on_fill(build, 1e3, "even", EVERYWHERE)
    beside = np.abs(build.form.mesh.soil_x) > 0.7
    under_soil = soil_depth(build, *EVERYWHERE) > 0.3
    assert load[beside & under_soil] == pytest.approx(800.0 * (60.0 - slope) / 30.0, rel=1e-6)


def test_nothing_lies_on_an_undercut_face(shaped) -> None:
    build = shaped(curve=CurveKind.SEGMENT, rise=2.6)
    under = build.form.mesh.plan < 0
    assert under.any()
    for shape in ("even", "left", "right"):
        assert not bare(build, shape)[under].any()
    assert not half(build.face, "left")[under].any()
    assert not strip(build.face, 1.5)[under].any()


def test_people_load_half_of_the_plan(build) -> None:
    plan = build.form.mesh.plan
    assert (half(build.face, "left") * plan).sum() == pytest.approx(FACE, rel=1e-9)
    assert half(build.face, "left") == pytest.approx(half(build.face, "right")[::-1])
    assert half(build.face, "left")[build.form.mesh.crown] == pytest.approx(0.5)


@pytest.mark.parametrize("width", [0.03, 0.5, 1.37, 3.0])
def test_a_strip_is_exactly_as_wide_as_it_is(build, width) -> None:
    assert (strip(build.face, width) * build.form.mesh.plan).sum() == pytest.approx(width, rel=1e-9)


def test_water_pushes_with_half_the_square_of_its_depth(build) -> None:
    mesh, level = build.form.mesh, 0.83
    pressure = loads.water_pressure(build.face, level)
    left = mesh.rise > 0
    assert (pressure * mesh.rise)[left].sum() == pytest.approx(0.5 * 9810.0 * level**2, rel=1e-9)
    assert (pressure * mesh.rise).sum() == pytest.approx(0.0, abs=1e-6)
    x = math.sqrt(FACE**2 - level**2)
    above = 2.0 * (FACE * level - (0.5 * FACE**2 * math.asin(level / FACE) + 0.5 * level * x))
    assert (pressure * mesh.plan).sum() == pytest.approx(9810.0 * above, rel=0.01)


def test_blocked_drain_takes_its_pressure_off_the_soil_and_soaks_it(told) -> None:
    build = told(overflow=0.6)
    for stage in staged(build):
        for case in stage.cases:
            if case.name != "drain blocked":
                continue
            water = case.actions[-1]
            reached = min(0.6, case.left)
            assert water.pore == pytest.approx(loads.water_pressure(build.face, reached))
            assert water.on_fill == pytest.approx(2e3 * loads.water_depth(build, reached))
            assert "accident" in case.title
    names = [case.name for stage in staged(build) for case in stage.cases]
    assert "drain blocked" in names
    assert not any("drain" in case.name for stage in staged(told(overflow=-0.2)) for case in stage.cases)


def test_turf_weighs_its_own_weight(build, told) -> None:
    plan = build.form.mesh.plan
    assert (turf_depth(build, *EVERYWHERE) * plan).sum() == pytest.approx(TURF * 2.0 * FACE, rel=1e-9)
    cases = {case.name: case for case in stage_of(told(turf_weight=Range(12e3, 16e3)), StageKind.TURF).cases}
    heavy, light = cases["permanent"].actions[-1], cases["turf dry"].actions[-1]
    assert (heavy.on_fill * plan).sum() == pytest.approx(16e3 * TURF * 2.0 * FACE)
    assert (light.on_fill * plan).sum() == pytest.approx(12e3 * TURF * 2.0 * FACE)
    assert cases["permanent"].depth == pytest.approx(soil_depth(build, *EVERYWHERE))


def test_turf_of_unknown_weight_counts_as_fill(build) -> None:
    cases = {case.name: case for case in stage_of(build, StageKind.TURF).cases}
    assert "turf dry" not in cases
    turf = cases["permanent"].actions[-1]
    assert turf.on_fill.max() == pytest.approx(20e3 * TURF)


def test_turf_ahead_on_one_side_is_missing_near_the_crown_of_the_other(shaped) -> None:
    mound = Mound(turf=TURF, line=((-7.0, 0.2), (0.0, 3.0), (7.0, 0.2)), natural=((-9.0, 0.0), (9.0, 0.0)))
    build = shaped(mound=mound)
    thick = turf_depth(build, 3.0, 2.6)
    x = build.form.mesh.soil_x
    assert not thick[(x > 0.1) & (x < 0.45)].any()
    assert thick[(x > 1.2) & (x < 2.0)].min() > 0.9 * TURF
    assert thick[:10] == pytest.approx(turf_depth(build, 3.0, 3.0)[:10])


def test_crown_soil_is_as_heavy_as_it_is_thick_and_is_overtaken_by_the_fill(told) -> None:
    build = told(crown_first=0.2, crown_first_width=1.0)
    plan = build.form.mesh.plan
    alone = soil_depth(build, None, None, crown_soil=True)
    assert (alone * plan).sum() == pytest.approx(0.2 * 1.0, rel=1e-9)
    level = FACE - 0.05
    filled = soil_depth(build, level, level, crown_soil=True)
    beside = soil_depth(build, level, level)
    assert ((beside > 0.0) & (alone > 0.0)).any()
    assert filled == pytest.approx(np.maximum(beside, alone))


def test_crown_soil_stays_under_the_turf(told) -> None:
    build = told(crown_first=5.0, crown_first_width=1.0)
    alone = soil_depth(build, None, None, crown_soil=True)
    finished = soil_depth(build, *EVERYWHERE)
    assert (alone <= finished + 1e-12).all()
    assert alone[build.form.mesh.crown] == pytest.approx(finished[build.form.mesh.crown])


def test_one_person_stands_on_one_rib(build) -> None:
    cases = {case.name: case for case in staged(build)[0].cases}
    person = cases["one person at the crown"].actions[-1]
    assert person.down.sum() * build.form.spacing == pytest.approx(1000.0)
    assert int(np.argmax(person.down)) == build.form.mesh.crown


def stage_of(build, kind):
    return next(stage for stage in staged(build) if stage.kind is kind)
