"""Fill in steps of geogrid: once holding, once failing, once not known, and what a wall then feels."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from bermwright.adapt.mend.levers.grids import GRID_LEVERS
from bermwright.adapt.mend.nouns import Place
from bermwright.adapt.mend.writing import changed
from bermwright.base.findings import Verdict
from bermwright.base.ranges import Range
from bermwright.house import EndSide, contradictions
from bermwright.house.choices import SoilKind
from bermwright.house.parts.holds import Geogrid
from bermwright.house.parts.support_words import Behind
from bermwright.rules.grids.blocks import Block, Under, side_block
from bermwright.rules.grids.shares import ground_carries, shares
from bermwright.rules.nouns import Whole
from bermwright.rules.openings.pressure import behind
from bermwright.rules.registry import rule_named
from bermwright.rules.supports.acting import INWARD
from bermwright.rules.supports.base import bases, sides_of, worst_first
from bermwright.rules.whole.body import body_at
from bermwright.stages import StageKind

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.house import House
    from bermwright.rules.study import Study

STEPS = Geogrid(
    name="steps", vault="day room", behind=Behind.SIDES, spacing=0.3, length=3.0, strength=20e3,
    soft_gives=0.06, soft_passes=4e3,
)  # fmt: skip
BACK = replace(STEPS, name="back", behind=Behind.BACK, length=2.4)


@pytest.fixture(name="study")
def _study(good_study: Study) -> Study:
    """The good study on sand that drains, with all that the rule asks for."""
    house = good_study.house
    vault = replace(good_study.vault, name="day room")
    soil = replace(house.site.soil[0], kind=SoilKind.SAND)
    site = replace(
        house.site, soil=(soil,), overflow=0.3, ground_snow=2.5e3, accessible_roof=False,
        ground_acceleration=0.1,
    )  # fmt: skip
    assert vault.fill is not None
    fill = replace(vault.fill, drained=True, soil=soil.name, kind=SoilKind.SAND)
    vault = replace(vault, fill=fill)
    house = replace(house, site=site, vaults=(vault,))
    return replace(good_study, house=house, vault=vault)


def with_grid(study: Study, *grids: Geogrid) -> Study:
    return replace(study, house=replace(study.house, geogrids=grids))


def found(study: Study) -> tuple[Finding, ...]:
    whole = Whole(house=study.house, studies={study.vault.name: study})
    return rule_named("geogrid-steps-stand-by-themselves").run(whole)


def verdict(study: Study) -> Verdict:
    (one,) = found(study)
    return one.verdict


def test_steps_that_stand(study: Study) -> None:
    (one,) = found(with_grid(study, STEPS))
    assert one.verdict is Verdict.HOLDS, one
    assert "no method covers it" in one.template
    assert one.ratio is not None
    assert one.steps[-1].result.value == pytest.approx(one.ratio)


@pytest.mark.parametrize(
    ("change", "way"),
    [
        ({"strength": 3e3}, "tears"), ({"length": 1.0}, "ground under it gives way"),
        ({"soft_gives": 0.005}, "reaches the wall"),
    ],
)  # fmt: skip
def test_steps_that_fall(study: Study, change: dict[str, float], way: str) -> None:
    (one,) = found(with_grid(study, replace(STEPS, **change)))  # type: ignore[arg-type]
    assert one.verdict is Verdict.FAILS
    assert way in str(one.values["way"])
    assert one.advice


def block_of(study: Study, grid: Geogrid = STEPS) -> Block:
    block = side_block(study.house, study.form, grid, 0)
    assert isinstance(block, Block)
    return block


def test_layers_that_end_in_the_wedge_are_named(study: Study) -> None:
    ways = {one.way for one in shares(block_of(study, replace(STEPS, length=1.0))) if one.ratio > 1.0}
    assert any("ends too near" in way for way in ways)


def test_the_ground_under_the_block_by_hand(study: Study) -> None:
    """Meyerhof's width, and N_q, N_γ of EN 1997-1 at 30 degrees: 18.401 and 20.093."""
    ground = Under(name="sand", friction=math.radians(30.0), cohesion=2e3, weight=18e3, saturated=20e3)
    block = replace(block_of(study), length=3.0, under=(ground,), ground_water=math.inf)
    width = 3.0 - 2.0 * 20.0 / 150.0
    weighs = 0.5 * 18.0 * width * 20.093 * 0.8**3
    sticks = 2.0 * (0.64 - 0.36 / (30.140 * math.tan(math.radians(30.0)))) * 30.140
    carries = ground_carries(replace(block, ground_water=50.0), 150e3, along=30e3, moment=20e3)
    assert carries / 1e3 == pytest.approx((weighs + sticks) * width, rel=1e-3)
    wet = ground_carries(replace(block, ground_water=0.0), 150e3, along=30e3, moment=20e3)
    assert wet / 1e3 == pytest.approx((weighs * (20.0 - 9.81) / 18.0 + sticks) * width, rel=1e-3)
    assert ground_carries(block, 150e3, along=30e3, moment=400e3) == 0.0  # the force has left the base
    assert ground_carries(block, 20e3, along=30e3, moment=0.0) == 0.0  # it pushes more than it weighs


def test_weak_ground_carries_no_block_and_unknown_ground_is_asked_for(study: Study) -> None:
    sand = study.house.site.soil[0]
    weak = replace(
        sand, name="soft silt", thickness=None, friction_angle=Range(math.radians(20.0), math.radians(24.0))
    )
    for soil, wanted in ((weak, Verdict.FAILS), (replace(weak, friction_angle=None), Verdict.UNKNOWN)):
        site = replace(study.house.site, soil=(replace(sand, thickness=1.0), soil))
        layered = replace(study, house=replace(study.house, site=site))
        (one,) = found(with_grid(layered, STEPS))
        assert one.verdict is wanted
    assert "ground under it" in str(one.values["lacks"])


def test_in_an_earthquake_the_block_leans_and_presses(study: Study) -> None:
    calm, shaken = block_of(study), replace(block_of(study), shaking=0.2)
    new = {one.way for one in shares(shaken)} - {one.way for one in shares(calm)}
    assert {"the block leans in an earthquake", "the ground under it gives way in an earthquake"} <= new


@pytest.mark.parametrize("key", ["spacing", "length", "strength", "soft_gives", "soft_passes"])
def test_what_is_not_said_is_not_known(study: Study, key: str) -> None:
    (one,) = found(with_grid(study, replace(STEPS, **{key: None})))
    assert one.verdict is Verdict.UNKNOWN
    assert f"geogrid.{key}" in str(one.values["lacks"])


def test_clay_and_water_are_not_known(study: Study) -> None:
    fill = study.vault.fill
    assert fill is not None
    for change in ({"kind": SoilKind.CLAY}, {"drained": False}):
        vault = replace(study.vault, fill=replace(fill, **change))  # type: ignore[arg-type]
        wet = replace(study, vault=vault, house=replace(study.house, vaults=(vault,)))
        assert verdict(with_grid(wet, STEPS)) is Verdict.UNKNOWN


def test_layers_that_lie_over_the_wall_or_come_out_of_the_mound(study: Study) -> None:
    assert verdict(with_grid(study, replace(STEPS, bottom=1.5))) is Verdict.UNKNOWN
    (one,) = found(with_grid(study, replace(STEPS, length=9.0)))
    assert one.verdict is Verdict.FAILS
    assert "out of the mound" in str(one.values["way"])
    assert "shorter" in one.advice


def test_without_steps_it_does_not_apply(study: Study) -> None:
    assert verdict(study) is Verdict.DOES_NOT_APPLY


def test_an_earthquake_asks_for_more(study: Study) -> None:
    def used(acceleration: float) -> float:
        site = replace(study.house.site, ground_acceleration=acceleration)
        house = replace(study.house, site=site)
        block = side_block(house, study.form, STEPS, 0)
        assert isinstance(block, Block)
        return max(one.ratio for one in shares(block))

    assert used(2.0) > used(0.1)


def push_into_the_room(study: Study) -> float:
    sides, _ = sides_of(study)
    ways = [base for side in sides for base in bases(study, side, balance=False) if base.way == INWARD]
    top = worst_first(ways, lambda base: base.soil.force)
    assert top is not None
    return top.ratio


def test_a_wall_feels_less_of_steps_that_stand_and_as_much_of_those_that_do_not(study: Study) -> None:
    before = push_into_the_room(study)
    stands = push_into_the_room(with_grid(study, STEPS))
    tears = push_into_the_room(with_grid(study, replace(STEPS, strength=3e3)))
    nobody_knows = push_into_the_room(with_grid(study, replace(STEPS, strength=None)))
    assert stands < 0.6 * before
    assert tears == pytest.approx(before)
    assert nobody_knows == pytest.approx(before)


def test_steps_on_one_side_leave_the_house_between_unlike_fills(study: Study) -> None:
    stage = next(one for one in study.stages if one.kind is StageKind.SETTLED)
    case = next(one for one in stage.cases if one.left is not None)

    def net(*grids: Geogrid) -> float:
        return abs(body_at(with_grid(study, *grids), stage, case, 0.5).net)

    assert net(replace(STEPS, behind=Behind.LEFT)) > 5.0 * max(net(STEPS), 1.0)


def test_an_end_feels_what_the_soft_layer_passes(study: Study) -> None:
    ends = tuple(
        replace(one, soil_to=0.9, drained=True) for one in study.house.ends if one.at is EndSide.BACK
    )
    assert ends, "the house of the fixture has a back end"
    house = replace(study.house, ends=ends)
    bare = max(lean.bottom for lean in behind(house, ends[0]).leans)
    held = replace(house, geogrids=(replace(BACK, vault=ends[0].vault),))
    leans = behind(held, ends[0]).leans
    assert max(lean.bottom for lean in leans if lean.water == 0.0) == pytest.approx(1.35 * 4e3)
    assert max(lean.bottom for lean in leans) < bare


def test_the_lever_writes_steps_that_stand(study: Study) -> None:
    lever = next(one for one in GRID_LEVERS if one.name == "geogrid-stepped fill")
    amounts = lever.amounts(Place(house=study.house, part=study.part, vault=0))
    assert [amount.writes[4][1] for amount in amounts][:2] == ["1.5 m", "2 m"]
    houses: list[House] = [changed(study.house, amount.writes) for amount in amounts]
    verdicts = [verdict(replace(study, house=house)) for house in houses]
    assert Verdict.HOLDS in verdicts


def test_two_grids_at_one_face_and_layers_too_short_are_refused(study: Study) -> None:
    twice = replace(study.house, geogrids=(STEPS, replace(STEPS, name="again", behind=Behind.LEFT)))
    assert any(one.path[-1] == "behind" for one in contradictions(twice))
    short = replace(study.house, geogrids=(replace(STEPS, length=0.5),))
    assert any(one.path == ("geogrid", 0, "length") for one in contradictions(short))
