"""The building sequence: what stands when, and what of `[stages]` changes it."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from bermwright.house import Mound, Site
from bermwright.stages import (
    Ballast,
    Compaction,
    Duration,
    StageKind,
    Standing,
    build_of,
    building_sequence,
    fill_base,
    fill_levels,
    soil_depth,
    staged,
)
from bermwright.stages.cases import lead_levels

CROWN = 2.0 + 0.06 + 0.04 + 0.1


def levels_of(stages):
    return [stage.level for stage in stages if stage.kind is StageKind.FILL]


def fills(build):
    return [stage for stage in staged(build) if stage.kind is StageKind.FILL]


def named(stage, name):
    return next(case for case in stage.cases if case.name == name)


def names(stage):
    return [case.name for case in stage.cases]


def test_order_of_the_stages(form, build) -> None:
    kinds = list(dict.fromkeys(stage.kind for stage in building_sequence(form, build.given)))
    assert kinds == [kind for kind in StageKind if kind is not StageKind.CROWN_SOIL]
    assert len({stage.name for stage in staged(build)}) == len(staged(build))


def test_a_stage_begins_with_what_stays_there(build) -> None:
    for stage in staged(build):
        assert stage.cases[0].name == "permanent"
        assert all(action.permanent for action in stage.cases[0].actions)
        assert stage.cases[0].lead == 0.0


def test_braces_stand_until_the_lagging_is_on(build) -> None:
    assert {stage.kind for stage in staged(build) if stage.braced} == {StageKind.RIBS, StageKind.LAGGED}


# ------------------------------------------------------------------ levels


@pytest.mark.parametrize("lift", [0.05, 0.17, 0.2, 0.3, 0.37, 0.6])
def test_no_lift_is_thicker_than_the_file_says(form, lift) -> None:
    levels = fill_levels(form, lift)
    thick = [high - low for low, high in pairwise(levels)]
    assert max(thick) <= lift + 1e-9
    assert min(thick) >= min(0.5 * lift, 0.05) - 1e-9
    assert levels[0] == pytest.approx(0.0)
    assert levels[-1] == pytest.approx(CROWN)


def test_a_last_lift_that_is_too_thin_shares_with_the_one_before(form) -> None:
    # 2.20 m in lifts of 0.24 leaves 0.04 m.
    levels = fill_levels(form, 0.24)
    assert levels[-3] == pytest.approx(8 * 0.24)
    assert levels[-2] - levels[-3] == pytest.approx(0.14)
    assert levels[-1] - levels[-2] == pytest.approx(0.14)


def test_one_single_lift(form) -> None:
    assert fill_levels(form, 5.0) == pytest.approx((0.0, CROWN))


def test_fill_begins_on_the_ground_beside_walls(shaped) -> None:
    form = shaped(
        springing=0.9, mound=Mound(crown=0.3, left=0.5, right=0.5, turf=0.0), site=Site(floor=-0.4, slope=0.0)
    ).form
    assert fill_base(form) == pytest.approx(0.4)


def test_fill_begins_at_the_feet_of_a_vault_that_is_dug_in(shaped) -> None:
    build = shaped(
        springing=0.2, mound=Mound(crown=0.3, left=0.5, right=0.5, turf=0.0), site=Site(floor=-1.0, slope=0.0)
    )
    assert fill_base(build.form) == pytest.approx(0.2)
    assert build.face.base == pytest.approx((0.2, 0.2))
    assert soil_depth(build, 0.5, 0.5).max() == pytest.approx(0.3, abs=0.05)


@pytest.fixture(scope="module")
def hillside(shaped):
    """Natural ground that lies over the left foot and under the right one."""
    return shaped(
        springing=0.5,
        mound=Mound(
            turf=0.0, line=((-7.0, 3.5), (1.0, 3.2), (7.0, -0.4)), natural=((-7.0, 2.0), (7.0, -0.8))
        ),
    )


def test_unequal_ground_on_a_hillside(hillside) -> None:
    left, right = hillside.face.base
    assert left == pytest.approx(0.5)
    assert right == pytest.approx(0.16, abs=0.02)
    assert fill_base(hillside.form) == pytest.approx(right)
    for stage in fills(hillside):
        for case in stage.cases:
            assert case.left is not None
            assert case.right is not None
            if "ahead" in case.name:
                assert case.left >= min(left, stage.level) - 1e-9
                assert case.right >= min(right, stage.level) - 1e-9


def test_ground_beyond_the_vault_does_not_name_its_level(hillside) -> None:
    settled = next(stage for stage in staged(hillside) if stage.kind is StageKind.SETTLED)
    assert settled.level < 3.45
    assert soil_depth(hillside, settled.level, settled.level) == pytest.approx(soil_depth(hillside, 9.0, 9.0))


def test_a_mound_lower_than_the_crown_on_one_side_bounds_the_fill_there(shaped) -> None:
    low = Mound(
        turf=0.0, line=((-7.0, 2.9), (0.2, 2.8), (1.2, 1.5), (7.0, 1.2)), natural=((-9.0, 0.0), (9.0, 0.0))
    )
    build = shaped(mound=low)
    last = fills(build)[-1].cases[0]
    mesh = build.form.mesh
    right = mesh.soil_x > 1.6
    assert (last.depth[right] < 1.5 - mesh.soil_z[right] + 0.05).all()
    assert last.depth[mesh.soil_x < -1.6].max() > 1.0


# ------------------------------------------------------------------ leads


def test_lead_never_goes_below_where_the_fill_begins() -> None:
    ahead = lead_levels((0.5, 0.5), (0.4, 0.0), 0.3)
    assert ahead == ((0.5, 0.2), (0.4, 0.5))
    assert lead_levels((0.5, 0.5), (0.7, 0.7), 0.3) == ((0.5, 0.5), (0.5, 0.5))


def test_either_side_leads_and_they_are_mirrored(build) -> None:
    for stage in fills(build):
        left, right = named(stage, "left ahead"), named(stage, "right ahead")
        assert (left.left, left.right) == (right.right, right.left)
        assert left.depth == pytest.approx(right.depth[::-1], abs=1e-12)
        assert left.lead == pytest.approx(min(0.2, stage.level))


def test_cover_and_turf_lead_too(build) -> None:
    for kind in (StageKind.COVER, StageKind.TURF):
        stage = next(one for one in staged(build) if one.kind is kind)
        assert {"left ahead", "right ahead"} <= set(names(stage))
        assert named(stage, "right ahead").left >= CROWN - 1e-9


def test_fill_that_does_not_reach_the_shell_has_no_cases_of_its_own(shaped) -> None:
    build = shaped(
        springing=0.9, mound=Mound(crown=0.3, left=0.5, right=0.5, turf=0.0), site=Site(floor=0.0, slope=0.0)
    )
    assert names(fills(build)[0]) == ["permanent"]
    assert len(names(fills(build)[-1])) > 5


# ------------------------------------------------------------------ crown soil, ballast, props


def test_crown_soil_goes_first(told) -> None:
    build = told(crown_first=0.2, crown_first_width=1.0)
    kinds = [stage.kind for stage in staged(build)]
    assert kinds.index(StageKind.CROWN_SOIL) == kinds.index(StageKind.FILL) - 1
    stage = staged(build)[kinds.index(StageKind.CROWN_SOIL)]
    assert stage.cases[0].depth.max() == pytest.approx(0.2)
    assert not stage.cases[0].springs
    assert "0.20 m" in stage.do[0]
    assert all(one.cases[0].depth[build.form.mesh.crown] >= 0.2 - 1e-9 for one in fills(build))


BAGS = Ballast(weight=2e3, width=1.2, start=0.9, until=1.5)


def with_bags(stages):
    return [stage.level for stage in stages if stage.cases[0].ballast]


def test_ballast_lies_only_through_whole_lifts_within_its_window(told) -> None:
    stages = fills(told(ballast=BAGS))
    assert with_bags(stages) == pytest.approx([1.2, 1.5])
    assert with_bags(fills(told(ballast=replace(BAGS, start=0.95)))) == pytest.approx([1.5])
    assert with_bags(fills(told(ballast=replace(BAGS, until=1.45)))) == pytest.approx([1.2])


def test_ballast_weighs_what_it_weighs_and_helps_without_its_factor(told) -> None:
    build = told(ballast=BAGS)
    stage = next(one for one in fills(build) if one.cases[0].ballast)
    bags = next(action for action in stage.cases[0].actions if action.name == "ballast")
    assert bags.down.sum() == pytest.approx(2e3 * 1.2)
    assert bags.favourable
    heavy = next(a for a in named(stage, "permanent, heavy ballast").actions if a.name == "ballast")
    assert not heavy.favourable
    assert heavy.down == pytest.approx(bags.down)


def test_laying_and_taking_off_are_cases_of_their_own(told) -> None:
    build = told(ballast=BAGS)
    stages = {round(stage.level, 2): stage for stage in fills(build)}
    laid, off = named(stages[1.2], "ballast laid"), named(stages[1.8], "ballast off")
    assert (laid.left, laid.right, laid.before, laid.ballast) == (
        pytest.approx(0.9),
        pytest.approx(0.9),
        True,
        True,
    )
    assert (off.left, off.before, off.ballast) == (pytest.approx(1.5), True, False)
    assert "ballast laid, heavy ballast" in names(stages[1.2])
    assert stages[1.2].do[1].startswith("First lay ballast of 2.0 kPa on the middle 1.20 m")
    assert stages[1.5].do[1].startswith("Keep ballast of 2.0 kPa")
    assert stages[1.8].do[1].startswith("First take the ballast off")


def test_props_stand_through_whole_lifts_and_never_in_use(told) -> None:
    build = told(members=(Standing(start=0.0, until=1.5), Standing(start=0.3, until=99.0)))
    stages = staged(build)
    by_level = {round(stage.level, 2): stage.props for stage in fills(build)}
    assert by_level[0.3] == (0,)
    assert by_level[0.6] == (0, 1)
    assert by_level[1.5] == (0, 1)
    assert by_level[1.8] == (1,)
    assert next(stage.props for stage in stages if stage.kind is StageKind.TURF) == (1,)
    assert all(
        stage.props == () for stage in stages if stage.kind in {StageKind.SETTLED, StageKind.LONG_TERM}
    )
    assert "props out" in names(next(stage for stage in stages if stage.kind is StageKind.SETTLED))


def test_ties_that_come_out_above_the_ground_stay_for_good(told) -> None:
    build = told(
        members=(Standing(start=0.0, until=99.0, tie=True), Standing(start=0.0, until=2.0, tie=True))
    )
    stages = {stage.kind: stage for stage in staged(build)}
    assert stages[StageKind.LONG_TERM].props == (0,)
    assert stages[StageKind.COVER].props == (0,)


# ------------------------------------------------------------------ compaction, winter, people


@pytest.mark.parametrize(
    ("tool", "holds"), [("hand rammer", True), ("plate", True), ("none", False), ("unknown", False)]
)
def test_soil_holds_only_where_it_is_known_to_be_compacted(told, tool, holds) -> None:
    stages = fills(told(compaction=tool))
    assert {stage.compaction for stage in stages} == {Compaction(tool)}
    assert {case.springs for stage in stages for case in stage.cases} == {holds}


def test_first_winter_frozen_soil_presses_but_does_not_hold(told) -> None:
    settled = {stage.kind: stage for stage in staged(told(unheated=None))}[StageKind.SETTLED]
    frozen = [case for case in settled.cases if case.name.startswith("first winter")]
    assert len(frozen) == 4
    assert not any(case.springs for case in frozen)
    heated = {stage.kind: stage for stage in staged(told(unheated=False))}
    assert not any("winter" in case.name for stage in heated.values() for case in stage.cases)
    assert not any("winter" in name for name in names(heated[StageKind.LONG_TERM]))


def test_loads_that_nobody_has_given_are_left_out(told) -> None:
    every = [
        name
        for stage in staged(told(snow=None, roof_load=None, saturated_unit_weight=None))
        for name in names(stage)
    ]
    assert not any("snow" in name or "maintenance" in name or "soaked" in name for name in every)
    assert any("soaked" in name for stage in staged(told()) for name in names(stage))


def test_crowd_and_snow_meet_where_people_may_gather(told) -> None:
    build = told(roof_load=5e3, roof_title="crowd", gathering=True)
    settled = next(stage for stage in staged(build) if stage.kind is StageKind.SETTLED)
    both, other = named(settled, "crowd, left half, and snow"), named(settled, "snow, and crowd, left half")
    assert [a.name for a in both.actions if not a.permanent] == ["people", "snow"]
    assert [a.name for a in other.actions if not a.permanent] == ["snow", "people"]
    assert not any("and snow" in name for stage in staged(told()) for name in names(stage))


def test_snow_is_named_by_how_it_lies(build) -> None:
    stages = {stage.kind: stage for stage in staged(build)}
    assert "snow drifted to the left" in names(stages[StageKind.LAGGED])
    assert "half the snow on the right" in names(stages[StageKind.SETTLED])


def test_what_lasts_how_long(told) -> None:
    for stage in staged(told(snow_short=True)):
        for case in stage.cases:
            if case.name.startswith(("full snow", "snow", "half")):
                assert case.duration is Duration.SHORT
            if case.name == "permanent":
                finished = stage.kind in {StageKind.SETTLED, StageKind.LONG_TERM}
                assert case.duration is (Duration.PERMANENT if finished else Duration.MEDIUM)
    assert {stage.kind for stage in staged(told()) if stage.long_term} == {StageKind.LONG_TERM}


# ------------------------------------------------------------------ what the file can change


@pytest.mark.parametrize(
    "change",
    [
        {"lift": 0.2},
        {"lead": 0.1},
        {"compaction": "plate"},
        {"crown_first": 0.1},
        {"ballast": BAGS},
        {"members": (Standing(start=0.3, until=2.0),)},
        {"order": "right first"},
        {"unheated": False},
        {"snow": 1e3},
        {"overflow": 0.8},
    ],
    ids=lambda change: next(iter(change)),
)
def test_what_the_file_says_of_the_stages_changes_them(told, change) -> None:
    def told_of(build):
        return [
            (
                s.name,
                s.do,
                s.compaction,
                s.props,
                c.name,
                c.left,
                c.right,
                c.springs,
                c.depth.sum(),
                loads_of(c),
            )
            for s in staged(build)
            for c in s.cases
        ]

    assert told_of(told(**change)) != told_of(told())


def loads_of(case):
    return sum(float(a.down.sum()) for a in case.actions if a.down is not None)


def test_without_variable_loads_only_what_stays_is_left(build) -> None:
    quick = staged(build, variable=False)
    assert [stage.name for stage in quick] == [stage.name for stage in staged(build)]
    kept = [case for stage in quick[1:] for case in stage.cases]
    assert all(action.permanent for case in kept for action in case.actions)


@pytest.mark.parametrize("order", ["left first", "right first", "together"])
def test_the_pages_tell_the_order_of_filling(told, order) -> None:
    first = fills(told(order=order))[0].do[0]
    assert ("on both sides at once" in first) == (order == "together")
    assert ("on the left first" in first) == (order == "left first")


def test_every_dangerous_stage_carries_its_caution(told) -> None:
    for stage in staged(told(crown_first=0.1)):
        assert stage.cautions
        assert stage.cautions[-1].startswith("Local rules")
        assert stage.do


def test_a_form_with_a_leaning_ground_keeps_its_lists_in_order(hillside) -> None:
    levels = levels_of(staged(hillside))
    assert levels == sorted(levels)
    assert all(math.isfinite(level) for level in levels)
    assert build_of(hillside.form, hillside.given).face.crown_z == pytest.approx(levels[-1])
