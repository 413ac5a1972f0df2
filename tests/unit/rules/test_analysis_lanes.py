"""Soil runs, the corners of the ranges, and which of them count for bending."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from bermwright.base.ranges import Range
from bermwright.data.rule_sets import rule_sets
from bermwright.house import Approach, Ballast, Board, CoverKind, Mound, Prop, Tamping, Tie
from bermwright.rules import readings
from bermwright.rules.analysis.lanes import SoilInput, build_lanes, frame_soil
from bermwright.rules.study import study_vault
from bermwright.stages import StageKind

DA2 = rule_sets("DA2")[0]
DA1 = rule_sets("DA1")
RUNS = ("low", "expected", "compacted", "heavy")
GIVEN = SoilInput(
    unit_weight=Range(18e3, 20e3),
    friction_angle=Range(math.radians(30), math.radians(34)),
    modulus=10e6,
    membrane_friction=None,
    verticals=(1.0, 0.7),
    undercut=False,
)


def test_every_corner_of_the_ranges_in_every_run() -> None:
    lanes = build_lanes(GIVEN, DA2)
    wanted = set(product(RUNS, (18e3, 20e3), GIVEN.friction_angle.ends, (1.0, 0.7)))
    assert {(lane.run, lane.unit_weight, lane.friction_angle, lane.vertical) for lane in lanes} == wanted
    assert len(lanes) == len(wanted) == 32


def test_exact_values_have_one_corner() -> None:
    exact = replace(GIVEN, unit_weight=Range(19e3, 19e3), friction_angle=Range(0.56, 0.56), verticals=(1.0,))
    assert [lane.run for lane in build_lanes(exact, DA2)] == list(RUNS)


def test_undercut_faces_are_pressed_from_below_in_three_ways() -> None:
    lanes = build_lanes(replace(GIVEN, undercut=True), DA2)
    assert len(lanes) == 96
    for lane in lanes:
        active = lane.soil[1]
        assert lane.soil[5] == pytest.approx({"full": 1.0, "active": active, "none": 0.0}[lane.underside])


def test_friction_is_factored_in_the_second_combination_only() -> None:
    first, second = (build_lanes(GIVEN, factors)[0] for factors in DA1)
    assert first.run == "low"
    assert first.soil[1] == pytest.approx((1 - math.sin(math.radians(30))) / (1 + math.sin(math.radians(30))))
    design = math.atan(math.tan(math.radians(30)) / 1.25)
    assert second.soil[1] == pytest.approx((1 - math.sin(design)) / (1 + math.sin(design)))
    assert second.friction_angle == pytest.approx(math.radians(30))


def test_weight_takes_the_partial_factor_of_its_set() -> None:
    for factors, gamma in zip((*DA1, DA2), (1.35, 1.0, 1.35), strict=True):
        lanes = build_lanes(GIVEN, factors)
        assert frame_soil(lanes, factors.permanent).weight.max() == pytest.approx(gamma * 20e3)


def test_soil_of_unknown_stiffness_has_no_spring() -> None:
    assert not any(lane.springy for lane in build_lanes(replace(GIVEN, modulus=None), DA2))
    assert {lane.run for lane in build_lanes(GIVEN, DA2) if lane.springy} == {"expected"}


def test_a_slippery_membrane_admits_no_low_run() -> None:
    slippery = build_lanes(replace(GIVEN, membrane_friction=math.radians(20)), DA2)
    rough = build_lanes(replace(GIVEN, membrane_friction=math.radians(40)), DA2)
    for lane in slippery:
        if lane.run == "low":
            assert lane.soil[0] == pytest.approx(1.0 - math.sin(lane.friction_angle))
    for lane in rough:
        if lane.run == "low":
            assert lane.soil[0] == pytest.approx(lane.soil[1])


def test_the_corner_is_told_in_words() -> None:
    lane = build_lanes(replace(GIVEN, undercut=True), DA2)[1]
    assert lane.corner["soil run"] == "low"
    assert lane.corner["pressure from below"] == "active"


# ------------------------------------------------------------------ what the house says of it


def test_membrane_and_mound_shed_and_level_fill_attracts(larch_bank) -> None:
    vault = larch_bank.vaults[0]
    study = study_vault(larch_bank, vault, stop_marks=False)
    assert set(study.model.soil.verticals) == {1.0, 0.7}
    wide = replace(vault, mound=replace(vault.mound, flat=10.0))
    assert set(study_vault(larch_bank, wide, stop_marks=False).model.soil.verticals) == {1.0, 0.7, 1.2}
    bonded = replace(vault, cover=tuple(one for one in vault.cover if one.kind is not CoverKind.MEMBRANE))
    assert set(study_vault(larch_bank, bonded, stop_marks=False).model.soil.verticals) == {1.0, 1.2}


def test_the_slipperiest_layer_counts(larch_bank) -> None:
    vault = larch_bank.vaults[0]
    assert readings.membrane_friction(vault) == pytest.approx(math.radians(20))
    sheet = next(layer for layer in vault.cover if layer.kind is CoverKind.MEMBRANE)
    two = (*vault.cover, replace(sheet, friction=Range(math.radians(12), math.radians(30))))
    assert readings.membrane_friction(replace(vault, cover=two)) == pytest.approx(math.radians(12))
    assert readings.membrane_friction(replace(vault, cover=vault.cover[:1])) is None


@pytest.mark.parametrize(
    ("said", "heavy"),
    [
        ({"compaction": Tamping.HAND, "wet_fill": False}, False),
        ({"compaction": Tamping.NONE, "wet_fill": False}, False),
        ({"compaction": Tamping.PLATE, "compactor_distance": 0.6, "wet_fill": False}, False),
        ({"compaction": Tamping.PLATE, "compactor_distance": 0.5, "wet_fill": False}, True),
        ({"compaction": Tamping.PLATE, "compactor_distance": None, "wet_fill": False}, True),
        ({"compaction": None, "wet_fill": False}, True),
        ({"compaction": Tamping.HAND, "wet_fill": True}, True),
        ({"compaction": Tamping.HAND, "wet_fill": None}, True),
    ],
)
def test_heavy_run_counts_where_it_must(larch_bank, said, heavy) -> None:
    house = replace(larch_bank, stages=replace(larch_bank.stages, **said))
    study = study_vault(house, house.vaults[0], stop_marks=False)
    analysis = study.analyses[0]
    is_heavy = np.array([lane.run == "heavy" for lane in analysis.lanes])
    assert analysis.bends[~is_heavy].all()
    assert analysis.bends[is_heavy].all() == heavy
    assert analysis.bends[is_heavy].any() == heavy
    assert np.unique(analysis.model).tolist() == [1.0 if heavy else 1.3]


def test_unknown_tool_is_unknown_and_holds_nothing(larch_bank) -> None:
    house = replace(larch_bank, stages=replace(larch_bank.stages, compaction=None))
    study = study_vault(house, house.vaults[0], stop_marks=False)
    fills = [stage for stage in study.stages if stage.kind is StageKind.FILL]
    assert {str(stage.compaction) for stage in fills} == {"unknown"}
    assert not study.analyses[0].states.springs_on.any()


def test_ballast_while_compacting_brings_the_heavy_run_in(larch_bank) -> None:
    bags = Ballast(weight=2e3, width=1.4, start=1.65, until=2.25)
    for tool, counts in ((Tamping.HAND, True), (Tamping.NONE, False)):
        house = replace(larch_bank, stages=replace(larch_bank.stages, ballast=bags, compaction=tool))
        analysis = study_vault(house, house.vaults[0], stop_marks=False).analyses[0]
        is_heavy = np.array([lane.run == "heavy" for lane in analysis.lanes])
        lies = analysis.where_situation(lambda now: now.case.ballast)
        assert lies.any()
        assert analysis.bends[is_heavy][:, lies].all() == counts
        assert not analysis.bends[is_heavy][:, ~lies].any()
        assert (analysis.model[lies] == (1.0 if counts else 1.3)).all()


def test_both_combinations_are_run(larch_bank) -> None:
    house = replace(larch_bank, rules=replace(larch_bank.rules, approach=Approach.DA1))
    study = study_vault(house, house.vaults[0], stop_marks=False)
    assert [analysis.factors.name for analysis in study.analyses] == [one.name for one in DA1]


# ------------------------------------------------------------------ props, ties, feet


def test_props_under_the_crown_and_under_both_haunches(larch_bank) -> None:
    vault = larch_bank.vaults[0]
    post = Board(thickness=0.1, width=0.1)
    props = (
        Prop(level=2.6, start=0.0, until=2.5, section=post, spacing=1.2),
        Prop(level=1.9, start=0.0, until=2.5, stiffness=15e6),
    )
    ties = (Tie(level=1.1, start=0.0, until=9.0, rod=0.012, spacing=1.0),)
    house = replace(larch_bank, stages=replace(larch_bank.stages, props=props, ties=ties))
    study = study_vault(house, vault, stop_marks=False)
    mesh, width = study.form.mesh, study.form.spacing
    crown, left, right, tie = study.model.members
    assert crown.start == mesh.crown
    assert crown.stiffness == pytest.approx(7e9 * 0.01 / 2.6 * width / 1.2)
    assert mesh.x[left.start] == pytest.approx(-mesh.x[right.start])
    assert left.stiffness == right.stiffness == pytest.approx(15e6 * width)
    assert (tie.start, tie.end) == (0, mesh.x.size - 1)
    assert tie.stiffness == pytest.approx(210e9 * math.pi / 4 * 0.012**2 / vault.span * width, rel=1e-3)
    assert len(study.given.members) == 4
    settled = next(stage for stage in study.stages if stage.kind is StageKind.SETTLED)
    assert settled.props == (3,)


def test_a_prop_of_unknown_stiffness_leaves_its_stages_unknown(larch_bank) -> None:
    props = (Prop(level=2.6, start=0.0, until=2.0),)
    house = replace(larch_bank, stages=replace(larch_bank.stages, props=props))
    study = study_vault(house, house.vaults[0], stop_marks=False)
    analysis = study.analyses[0]
    lost = ~analysis.response.converged.any(axis=0)
    stands = analysis.where_situation(lambda now: bool(now.stage.props))
    assert stands.any()
    assert lost[stands].all()


def test_a_hillside_far_above_counts_as_wide_fill(larch_bank) -> None:
    vault = larch_bank.vaults[0]
    line = ((-14.0, 3.4), (0.5, 3.2), (7.0, 0.3))
    up = Mound(turf=0.15, line=line, natural=((-14.0, 0.4), (7.0, 0.4)))
    study = study_vault(larch_bank, replace(vault, mound=up), stop_marks=False)
    assert 1.2 in study.model.soil.verticals
