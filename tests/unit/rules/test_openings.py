"""Ends, openings, posts, beams and floors: each rule holds, fails and is unknown where it should."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bermwright.base.findings import Verdict
from bermwright.base.ranges import Range
from bermwright.form.holes import hole_of, rib_places
from bermwright.formats.house_file import load
from bermwright.house import (
    Beam,
    Board,
    BoardSide,
    End,
    EndKind,
    EndSide,
    Floor,
    FloorUse,
    GradedBoards,
    Opening,
    OpeningKind,
    OpeningSide,
    Post,
    Tamping,
)
from bermwright.rules.nouns import Whole
from bermwright.rules.openings.pressure import behind
from bermwright.rules.registry import rule_named

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.house import House
    from bermwright.rules.study import Study

EXAMPLES = Path(__file__).parents[3] / "examples"
VAULT = "day room"
FLUE = Opening(
    name="pipe", vault=VAULT, side=OpeningSide.CROWN, kind=OpeningKind.FLUE, width=0.35, height=0.35,
    along=2.4, header=Board(0.14, 0.15), header_timber="C24", hanger=12e3, doubled=2, collar=0.6,
)  # fmt: skip
DOOR = Opening(
    name="door", vault=VAULT, side=OpeningSide.FRONT, kind=OpeningKind.DOOR, width=0.95, height=2.0, sill=0.0,
    header=Board(0.06, 0.15), header_timber="C24", bearing=0.06,
)  # fmt: skip
FRONT = End(
    vault=VAULT, at=EndSide.FRONT, kind=EndKind.PLANKS, thickness=0.06, soil_to=0.0, drained=True,
    timber="C24", service_class=2,
)  # fmt: skip
BACK = End(
    vault=VAULT, at=EndSide.BACK, kind=EndKind.PLANKS, thickness=0.06, soil_to=1.2, drained=True,
    timber="C24", service_class=3, post_spacing=0.6, post=Board(0.1, 0.2),
    post_head=2.3, post_depth=0.95, head_holds=8e3,
)  # fmt: skip
TUBES = End(
    vault=VAULT, at=EndSide.BACK, kind=EndKind.EARTH_TUBES, thickness=0.9, soil_to=0.8, drained=True,
    unit_weight=Range(17e3, 19e3),
)  # fmt: skip
BEAM = Beam(
    name="beam", span=3.0, diameter=0.24, timber="C24", service_class=2, load=2e3, snow_or_people=2e3,
    bearing=0.15, bearing_width=0.12,
)  # fmt: skip
POST = Post(
    name="post", length=2.4, diameter=0.18, timber="C24", service_class=2, load=10e3, snow_or_people=8e3
)
FLOOR = Floor(
    name="loft", span=3.2, joist=Board(0.06, 0.22), spacing=0.4, width=5.0, timber="C24", service_class=1,
    boards=0.028, use=FloorUse.SLEEPING, weight=500.0, bearing=0.08,
)  # fmt: skip
STACK = GradedBoards(
    name="barn joists", section=Board(0.045, 0.195), counts_as="C24", knot=0.06, knot_in=BoardSide.WIDE,
    grain=math.atan(1 / 15), rings=0.003, wane=0.0, cracks=0.01, rotten=False,
)  # fmt: skip


def with_parts(study: Study, **parts: tuple[object, ...]) -> Study:
    return replace(study, house=replace(study.house, **parts))


def said(name: str, study: Study, **parts: tuple[object, ...]) -> tuple[Finding, ...]:
    """What a rule says of the first example with other parts."""
    changed = with_parts(study, **{"openings": (), **parts})
    rule = rule_named(name)
    if name in HOUSE:
        return rule.run(Whole(house=changed.house, studies={VAULT: changed}))
    return rule.run(changed)


HOUSE = {
    "ends-are-closed", "end-planks-carry-the-soil", "end-posts-hold-the-soil", "end-walls-stand",
    "openings-fit-under-the-ribs", "lintels-carry-the-wall", "beams-carry", "posts-carry", "floors-carry",
    "floors-are-firm", "salvaged-boards-are-graded",
}  # fmt: skip


def verdict(name: str, study: Study, **parts: tuple[object, ...]) -> Verdict:
    (finding,) = said(name, study, **parts)
    assert "{" not in finding.says()
    assert "nan" not in finding.says().lower()
    if finding.verdict in {Verdict.FAILS, Verdict.UNKNOWN}:
        assert finding.advice
    return finding.verdict


HOLDS = [
    ("headers-carry-the-cut-ribs", {"openings": (FLUE,)}),
    ("trimmers-carry-for-the-cut-ribs", {"openings": (FLUE,)}),
    ("collars-stand-out-of-the-ground", {"openings": (FLUE,)}),
    ("end-planks-carry-the-soil", {"ends": (BACK,)}),
    ("end-planks-carry-the-soil", {"ends": (FRONT,)}),
    ("end-planks-carry-the-soil", {"ends": (replace(BACK, kind=EndKind.LOGS, thickness=0.2),)}),
    ("end-posts-hold-the-soil", {"ends": (BACK,)}),
    ("end-posts-hold-the-soil", {"ends": (replace(BACK, post_depth=0.0, foot_holds=20e3),)}),
    (
        "end-posts-hold-the-soil",
        {"ends": (replace(BACK, soil_to=0.5, post_head=None, head_holds=None, post_depth=1.2),)},
    ),
    ("end-walls-stand", {"ends": (TUBES,)}),
    ("openings-fit-under-the-ribs", {"openings": (DOOR,)}),
    ("lintels-carry-the-wall", {"openings": (DOOR,), "ends": (FRONT,)}),
    ("beams-carry", {"beams": (BEAM,)}),
    ("beams-carry", {"beams": (replace(BEAM, diameter=None, section=Board(0.15, 0.25)),)}),
    ("posts-carry", {"posts": (POST,)}),
    ("posts-carry", {"posts": (replace(POST, diameter=None, section=Board(0.15, 0.15)),)}),
    ("floors-carry", {"floors": (FLOOR,)}),
    ("floors-are-firm", {"floors": (FLOOR,)}),
    ("salvaged-boards-are-graded", {"graded": (STACK,)}),
    ("salvaged-boards-are-graded", {"graded": (replace(STACK, counts_as=None, knot=0.1),)}),
]
FAILS = [
    ("headers-carry-the-cut-ribs", {"openings": (replace(FLUE, header=Board(0.045, 0.15)),)}),
    ("headers-carry-the-cut-ribs", {"openings": (replace(FLUE, hanger=None, header_nails=2),)}),
    ("headers-carry-the-cut-ribs", {"openings": (replace(FLUE, along=0.1),)}),
    ("trimmers-carry-for-the-cut-ribs", {"openings": (replace(FLUE, width=1.5, doubled=1),)}),
    ("trimmers-carry-for-the-cut-ribs", {"openings": (replace(FLUE, doubled=3),)}),
    ("collars-stand-out-of-the-ground", {"openings": (replace(FLUE, collar=0.1),)}),
    ("end-planks-carry-the-soil", {"ends": (replace(BACK, post_spacing=None),)}),
    ("end-planks-carry-the-soil", {"ends": (replace(BACK, thickness=0.02, post_spacing=1.2),)}),
    ("end-posts-hold-the-soil", {"ends": (replace(BACK, post=Board(0.08, 0.08)),)}),
    ("end-posts-hold-the-soil", {"ends": (replace(BACK, head_holds=200.0),)}),
    ("end-posts-hold-the-soil", {"ends": (replace(BACK, post_depth=0.3),)}),
    ("end-posts-hold-the-soil", {"ends": (replace(BACK, post_head=1.0),)}),
    ("end-posts-hold-the-soil", {"ends": (replace(BACK, post_head=None, post_depth=0.0),)}),
    ("end-posts-hold-the-soil", {"ends": (replace(BACK, post_depth=0.0, foot_holds=0.0),)}),
    ("end-posts-hold-the-soil", {"ends": (replace(BACK, post_head=None, head_holds=None),)}),
    ("end-walls-stand", {"ends": (replace(TUBES, thickness=0.3),)}),
    ("openings-fit-under-the-ribs", {"openings": (replace(DOOR, height=2.4, across=0.8),)}),
    (
        "lintels-carry-the-wall",
        {
            "openings": (replace(DOOR, header=Board(0.02, 0.03), height=0.6),),
            "ends": (replace(TUBES, at=EndSide.FRONT),),
        },
    ),
    ("beams-carry", {"beams": (replace(BEAM, diameter=0.12),)}),
    ("beams-carry", {"beams": (replace(BEAM, notch=0.11, snow_or_people=8e3, notch_to_support=0.2),)}),
    ("beams-carry", {"beams": (replace(BEAM, bearing=0.02, bearing_width=0.04, snow_or_people=8e3),)}),
    ("posts-carry", {"posts": (replace(POST, diameter=0.08),)}),
    ("posts-carry", {"posts": (replace(POST, notch=0.1),)}),
    ("floors-carry", {"floors": (replace(FLOOR, use=FloorUse.STORE, spacing=0.9),)}),
    ("floors-carry", {"floors": (replace(FLOOR, boards=0.012, spacing=1.2, span=1.0, use=FloorUse.STORE),)}),
    ("floors-are-firm", {"floors": (replace(FLOOR, joist=Board(0.045, 0.12)),)}),
    ("salvaged-boards-are-graded", {"graded": (replace(STACK, knot=0.1),)}),
    ("salvaged-boards-are-graded", {"graded": (replace(STACK, knot_in=BoardSide.NARROW),)}),
    ("salvaged-boards-are-graded", {"graded": (replace(STACK, rotten=True),)}),
    ("salvaged-boards-are-graded", {"graded": (replace(STACK, counts_as="D99"),)}),
]
UNKNOWN = [
    ("headers-carry-the-cut-ribs", {"openings": (replace(FLUE, header=None),)}),
    ("headers-carry-the-cut-ribs", {"openings": (replace(FLUE, hanger=None),)}),
    ("headers-carry-the-cut-ribs", {"openings": (replace(FLUE, along=None),)}),
    ("trimmers-carry-for-the-cut-ribs", {"openings": (replace(FLUE, along=None),)}),
    ("collars-stand-out-of-the-ground", {"openings": (replace(FLUE, collar=None),)}),
    ("end-planks-carry-the-soil", {"ends": (replace(BACK, thickness=None),)}),
    ("end-planks-carry-the-soil", {"ends": (replace(BACK, timber=None),)}),
    ("end-planks-carry-the-soil", {"ends": (replace(BACK, soil_to=None),)}),
    ("end-planks-carry-the-soil", {"ends": (replace(BACK, soil="nothing known"),)}),
    ("end-posts-hold-the-soil", {"ends": (replace(BACK, post=None),)}),
    ("end-posts-hold-the-soil", {"ends": (replace(BACK, post_depth=None),)}),
    ("end-posts-hold-the-soil", {"ends": (replace(BACK, head_holds=None),)}),
    ("end-walls-stand", {"ends": (replace(TUBES, unit_weight=None),)}),
    ("openings-fit-under-the-ribs", {"openings": (replace(DOOR, sill=None),)}),
    ("lintels-carry-the-wall", {"openings": (DOOR,), "ends": ()}),
    ("lintels-carry-the-wall", {"openings": (replace(DOOR, header=None),), "ends": (FRONT,)}),
    ("lintels-carry-the-wall", {"openings": (DOOR,), "ends": (replace(FRONT, thickness=None),)}),
    ("lintels-carry-the-wall", {"openings": (replace(DOOR, sill=None),), "ends": (FRONT,)}),
    ("beams-carry", {"beams": (replace(BEAM, timber="C99"),)}),
    ("beams-carry", {"beams": (replace(BEAM, load=None),)}),
    ("beams-carry", {"beams": (replace(BEAM, bearing=None),)}),
    ("beams-carry", {"beams": (replace(BEAM, carries="loft"),)}),
    ("posts-carry", {"posts": (replace(POST, service_class=None),)}),
    ("posts-carry", {"posts": (replace(POST, snow_or_people=None),)}),
    ("posts-carry", {"posts": (replace(POST, under="beam"),)}),
    ("floors-carry", {"floors": (replace(FLOOR, use=None),)}),
    ("floors-carry", {"floors": (replace(FLOOR, boards=None),)}),
    ("floors-carry", {"floors": (replace(FLOOR, bearing=None),)}),
    ("floors-are-firm", {"floors": (replace(FLOOR, timber=None),)}),
    ("floors-are-firm", {"floors": (replace(FLOOR, boards=None),)}),
    ("salvaged-boards-are-graded", {"graded": (replace(STACK, grain=None),)}),
    ("salvaged-boards-are-graded", {"graded": (replace(STACK, rotten=None),)}),
]


def numbered(cases: list[tuple[str, dict[str, object]]]) -> list[str]:
    return [f"{name}-{count}" for count, (name, _) in enumerate(cases)]


@pytest.mark.parametrize(("name", "parts"), HOLDS, ids=numbered(HOLDS))
def test_a_part_that_is_built_well_holds(name, parts, good_study: Study):
    assert verdict(name, good_study, **parts) is Verdict.HOLDS


@pytest.mark.parametrize(("name", "parts"), FAILS, ids=numbered(FAILS))
def test_a_part_that_is_too_weak_fails(name, parts, good_study: Study):
    assert verdict(name, good_study, **parts) is Verdict.FAILS


@pytest.mark.parametrize(("name", "parts"), UNKNOWN, ids=numbered(UNKNOWN))
def test_a_part_of_which_something_is_not_said_is_unknown(name, parts, good_study: Study):
    assert verdict(name, good_study, **parts) is Verdict.UNKNOWN


@pytest.mark.parametrize("name", sorted(HOUSE - {"ends-are-closed"}))
def test_where_there_is_nothing_a_rule_does_not_apply(name, good_study: Study):
    none = {"openings": (), "ends": (), "beams": (), "posts": (), "floors": (), "graded": ()}
    assert verdict(name, good_study, **none) is Verdict.DOES_NOT_APPLY


@pytest.mark.parametrize(
    "name",
    ["headers-carry-the-cut-ribs", "trimmers-carry-for-the-cut-ribs", "collars-stand-out-of-the-ground"],
)
def test_a_shell_without_an_opening_needs_no_header(name, good_study: Study):
    assert verdict(name, good_study, openings=(DOOR,)) is Verdict.DOES_NOT_APPLY


def test_an_opening_between_two_ribs_cuts_none(good_study: Study):
    slit = replace(FLUE, width=0.1, along=2.2)
    assert verdict("headers-carry-the-cut-ribs", good_study, openings=(slit,)) is Verdict.DOES_NOT_APPLY


# ---------------------------------------------------------------- ends
def ends_said(study: Study, *ends: End, openings: tuple[Opening, ...] = ()) -> dict[str, Finding]:
    return {one.part: one for one in said("ends-are-closed", study, ends=ends, openings=openings)}


def test_an_end_that_nobody_described_is_not_known(good_study: Study):
    found = ends_said(good_study, FRONT)
    assert found[f'end "{VAULT}", front'].verdict is Verdict.HOLDS
    assert found[f'end "{VAULT}", back'].verdict is Verdict.UNKNOWN
    assert "[[end]]" in found[f'end "{VAULT}", back'].advice


def test_soil_before_an_open_end_or_over_a_sill_fails(good_study: Study):
    opened = replace(FRONT, kind=EndKind.OPEN, soil_to=0.4)
    assert ends_said(good_study, opened)[f'end "{VAULT}", front'].verdict is Verdict.FAILS
    buried = ends_said(good_study, replace(FRONT, soil_to=0.3), openings=(DOOR,))
    assert "over the sill of door" in buried[f'end "{VAULT}", front'].says()
    assert (
        ends_said(good_study, replace(FRONT, soil_to=None))[f'end "{VAULT}", front'].verdict
        is Verdict.UNKNOWN
    )


def test_what_is_not_known_of_the_soil_keeps_an_end_from_holding(good_study: Study):
    site = replace(good_study.house.site, ground_snow=None)
    study = replace(good_study, house=replace(good_study.house, site=site))
    (finding,) = said("end-planks-carry-the-soil", study, ends=(BACK,))
    assert finding.verdict is Verdict.UNKNOWN
    assert "site.ground_snow" in finding.says()
    (finding,) = said("end-planks-carry-the-soil", study, ends=(replace(BACK, post_spacing=None),))
    assert finding.verdict is Verdict.FAILS


def test_water_a_slope_and_a_plate_press_more(good_study: Study):
    house = good_study.house
    plain = max(lean.bottom for lean in behind(house, BACK).leans)
    wet = max(lean.bottom for lean in behind(house, replace(BACK, drained=False)).leans)
    steep = max(lean.bottom for lean in behind(house, replace(BACK, rises=0.3)).leans)
    plate = replace(house, stages=replace(house.stages, compaction=Tamping.PLATE, compactor_distance=0.0))
    heavy = max(lean.bottom for lean in behind(plate, BACK).leans)
    assert plain < min(wet, steep, heavy)
    assert behind(house, FRONT).leans == ()
    # Ground water over the floor stands behind an end, whatever its drain does.
    flooded = replace(house, site=replace(house.site, floor=-0.5, water_depth=Range(0.1, 1.0), overflow=0.1))
    assert max(lean.water for lean in behind(flooded, BACK).leans) == pytest.approx(0.4)


def test_pressure_of_water_and_soil_by_hand(good_study: Study):
    house = good_study.house
    lean = next(
        one for one in behind(house, replace(BACK, drained=False)).leans
        if one.water > 0 and one.factors.friction == 1.0 and one.weight == pytest.approx(18e3)
        and one.angle == pytest.approx(math.radians(32))
    )  # fmt: skip
    at_rest = 1 - math.sin(math.radians(32))
    pressed = 1.35 * 1.2 * (at_rest * (21e3 - 9806.65) + 9806.65)
    assert lean.bottom == pytest.approx(pressed, rel=1e-6)


def test_posts_beside_an_opening_carry_more(good_study: Study):
    window = replace(DOOR, side=OpeningSide.BACK, width=1.2, sill=1.3, height=0.6)
    (plain,) = said("end-posts-hold-the-soil", good_study, ends=(BACK,), openings=())
    (beside,) = said("end-posts-hold-the-soil", good_study, ends=(BACK,), openings=(window,))
    assert beside.ratio == pytest.approx(plain.ratio * 0.5 * (0.6 + 1.3) / 0.6, rel=1e-6)


# ---------------------------------------------------------------- lintels, logs
def test_a_lintel_that_holds_only_by_the_arch_is_tight(good_study: Study):
    wall = replace(TUBES, at=EndSide.FRONT, thickness=0.9)
    window = replace(DOOR, height=0.8, header=Board(0.1, 0.16), bearing=0.2)
    assert verdict("lintels-carry-the-wall", good_study, openings=(window,), ends=(wall,)) is Verdict.TIGHT
    opened = replace(wall, kind=EndKind.OPEN)
    assert verdict("lintels-carry-the-wall", good_study, openings=(window,), ends=(opened,)) is (
        Verdict.DOES_NOT_APPLY
    )


def test_a_post_takes_its_load_from_the_beam_on_it_and_that_from_the_floor(good_study: Study):
    beam = replace(BEAM, carries="loft", load=None, snow_or_people=None, diameter=0.3, bearing=0.2)
    post = replace(POST, under="beam", load=None, snow_or_people=None)
    parts = {"floors": (FLOOR,), "beams": (beam,), "posts": (post,)}
    (both,) = said("posts-carry", good_study, **parts)
    (one,) = said("posts-carry", good_study, **{**parts, "posts": (replace(post, beams_meet=1),)})
    assert both.ratio == pytest.approx(2 * one.ratio, rel=1e-6)
    assert verdict("beams-carry", good_study, **parts) is Verdict.HOLDS


def test_a_thick_end_helps_against_buckling(good_study: Study):
    slim = replace(POST, diameter=0.1, length=3.5)
    (even,) = said("posts-carry", good_study, posts=(slim,))
    (tapered,) = said("posts-carry", good_study, posts=(replace(slim, thick_end=0.16),))
    assert tapered.ratio < even.ratio


def test_a_notch_costs_more_than_what_it_takes_away(good_study: Study):
    sawn = replace(BEAM, diameter=None, section=Board(0.15, 0.25), span=1.0)
    (whole,) = said("beams-carry", good_study, beams=(sawn,))
    (notched,) = said("beams-carry", good_study, beams=(replace(sawn, notch=0.06),))
    assert notched.ratio > whole.ratio * 0.25 / 0.19
    assert "notch" in notched.says()


# ---------------------------------------------------------------- holes
def test_ribs_stand_a_spacing_apart_and_the_last_at_the_end(good_study: Study):
    places = rib_places(good_study.form)
    assert places[0] == 0.0
    assert places[-1] == pytest.approx(good_study.form.length)
    assert places[1] == pytest.approx(good_study.form.spacing)


@pytest.mark.parametrize(
    ("width", "cut"), [(0.1, (7,)), (0.5, (7,)), (0.9, (6, 7, 8))], ids=["slit", "one", "three"]
)
def test_a_wider_opening_cuts_more_ribs(width, cut, good_study: Study):
    hole = hole_of(good_study.form, replace(FLUE, width=width))
    assert hole.cut == cut
    assert hole.trimmers == (cut[0] - 1, cut[-1] + 1)


def test_left_and_right_openings_mirror_each_other(good_study: Study):
    window = replace(FLUE, side=OpeningSide.LEFT, sill=1.5, height=0.5)
    left = hole_of(good_study.form, window)
    right = hole_of(good_study.form, replace(window, side=OpeningSide.RIGHT))
    whole = good_study.form.mesh.s[-1]
    assert left.low == pytest.approx(whole - right.high, abs=2e-3)
    assert left.high == pytest.approx(whole - right.low, abs=2e-3)
    assert left.low < left.high


def test_an_opening_that_reaches_the_crown_belongs_there(good_study: Study):
    window = replace(FLUE, side=OpeningSide.LEFT, sill=1.5, height=1.2)
    assert "crown" in hole_of(good_study.form, window)


def test_a_door_through_the_side_needs_a_header_above_alone(good_study: Study):
    door = replace(FLUE, side=OpeningSide.LEFT, sill=0.0, height=1.8)
    hole = hole_of(good_study.form, door)
    assert len(hole.edges(good_study.form)) == 1
    assert len(hole_of(good_study.form, FLUE).edges(good_study.form)) == 2


# ---------------------------------------------------------------- under a mound that falls away
def near_ends(study: Study) -> dict[str, Finding]:
    return {finding.part: finding for finding in rule_named("ribs-stand-near-the-ends").run(study)}


def test_ribs_under_a_falling_mound_hold_fail_and_are_unknown(good_study: Study, bad_study: Study):
    front, back = f'end "{VAULT}", front', f'end "{VAULT}", back'
    good = near_ends(with_parts(good_study, ends=(FRONT, BACK)))
    assert good[front].verdict is Verdict.HOLDS
    assert {one.verdict for one in near_ends(bad_study).values()} == {Verdict.FAILS}
    assert near_ends(with_parts(good_study, ends=(FRONT,)))[back].verdict is Verdict.UNKNOWN
    high = replace(BACK, soil_to=9.0)
    assert near_ends(with_parts(good_study, ends=(FRONT, high)))[back].verdict is Verdict.DOES_NOT_APPLY
    mound = replace(good_study.vault.mound, front=None, back=math.radians(40))
    other = replace(good_study, vault=replace(good_study.vault, mound=mound))
    said_of = near_ends(with_parts(other, ends=(FRONT, BACK)))
    assert said_of[front].verdict is Verdict.UNKNOWN
    assert "steeper than 1:1.5" in said_of[back].says()


def test_fill_that_stays_for_good_counts_as_permanent(good_study: Study):
    (front, _back) = near_ends(with_parts(good_study, ends=(FRONT, BACK))).values()
    filling = max(
        ratio
        for name, ratio in good_study.stage_ratio.items()
        if name.startswith("fill") and ratio is not None
    )
    assert front.ratio <= filling * 0.8 / 0.6 + 1e-9


def test_openings_are_told_from_the_house_that_holds_them(larch_bank: House):
    assert {opening.kind for opening in larch_bank.openings} >= {OpeningKind.DOOR, OpeningKind.WINDOW}


# ---------------------------------------------------------------- the example of two storeys
def test_the_loft_of_the_third_example_stands_on_its_own_posts_and_is_firm():
    house = load(EXAMPLES / "alder-loft.toml").house
    whole = Whole(house=house, studies={})
    for name in ("floors-carry", "floors-are-firm", "beams-carry", "posts-carry"):
        found = rule_named(name).run(whole)
        assert {finding.verdict for finding in found} == {Verdict.HOLDS}, name
    loaded = replace(house.floors[0], use=FloorUse.STORE)
    store = Whole(house=replace(house, floors=(loaded,)), studies={})
    assert Verdict.FAILS in {finding.verdict for finding in rule_named("beams-carry").run(store)}
