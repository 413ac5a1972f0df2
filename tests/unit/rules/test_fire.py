"""Fire: burned timber, ways out, alarms, stoves and flues: holding, failing and unknown."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from bermwright.base.findings import Verdict
from bermwright.house import Bedroom, Fire, Lining, OpeningKind, Stove, StoveKind
from bermwright.rules.fire.escape import ALARMS_WAKE, TWO_WAYS_OUT, WAY_OUT_IS_SHORT, exit_of
from bermwright.rules.fire.stoves import FLUE_OVER_SNOW, FLUE_THROUGH, HEARTH_IS_DEEP, STOVE_KEEPS_OFF
from bermwright.rules.fire.timber import NAILS_IN_FIRE, PLANKS_IN_FIRE, RIBS_IN_FIRE
from bermwright.rules.nouns import Whole

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.house import House
    from bermwright.rules.nouns import HouseRule, Rule
    from bermwright.rules.study import Study

HALF_HOUR = 1800.0
STOVE = Stove(
    name="iron stove", kind=StoveKind.IRON, vault="day room", flue=0.15, lagging_distance=0.5,
    terminal_height=2.2, hearth_depth=0.4,
)  # fmt: skip


def found(rule: HouseRule, house: House) -> tuple[Finding, ...]:
    return rule.run(Whole(house=house, studies={}))


def burning(study: Study, **changes: object) -> Study:
    fire = replace(study.house.fire or Fire(), **changes)
    return replace(study, house=replace(study.house, fire=fire))


TIMBER = (RIBS_IN_FIRE, PLANKS_IN_FIRE, NAILS_IN_FIRE)


@pytest.mark.parametrize("rule", TIMBER, ids=lambda rule: rule.name)
def test_a_lined_house_holds_half_an_hour(rule: Rule, good_study: Study) -> None:
    (finding,) = rule.run(
        burning(
            good_study, resists=HALF_HOUR, lining=Lining.GYPSUM, lining_thickness=0.018, lining_gaps=False
        )
    )
    assert finding.verdict in {Verdict.HOLDS, Verdict.TIGHT}
    assert finding.ratio is not None
    assert finding.steps


@pytest.mark.parametrize("rule", TIMBER, ids=lambda rule: rule.name)
def test_a_bare_house_does_not_hold_for_long(rule: Rule, good_study: Study) -> None:
    (finding,) = rule.run(
        burning(good_study, resists=3 * HALF_HOUR, lining=Lining.NONE, lining_thickness=None)
    )
    assert finding.verdict is Verdict.FAILS
    assert "gypsum" in finding.advice


@pytest.mark.parametrize("rule", TIMBER, ids=lambda rule: rule.name)
def test_what_the_file_does_not_say_is_not_known(rule: Rule, good_study: Study) -> None:
    untold = replace(good_study, house=replace(good_study.house, fire=None))
    (finding,) = rule.run(untold)
    assert finding.verdict is Verdict.UNKNOWN
    assert finding.ratio is None


def test_plasters_count_for_nothing(good_study: Study) -> None:
    bare, plastered = (
        RIBS_IN_FIRE.run(burning(good_study, resists=HALF_HOUR, lining=lining))[0].ratio
        for lining in (Lining.NONE, Lining.CLAY)
    )
    assert bare == plastered


def test_a_longer_fire_uses_more(good_study: Study) -> None:
    ratios = [
        RIBS_IN_FIRE.run(burning(good_study, resists=minutes * 60.0, lining=Lining.NONE))[0].ratio or 0.0
        for minutes in (5, 15, 30)
    ]
    assert ratios == sorted(ratios)
    assert ratios[0] < ratios[-1]


def test_two_ways_out_of_every_bed(larch_bank: House) -> None:
    assert [one.verdict for one in found(TWO_WAYS_OUT, larch_bank)] == [Verdict.HOLDS]
    assert [one.verdict for one in found(TWO_WAYS_OUT, replace(larch_bank, bedrooms=()))] == [Verdict.UNKNOWN]
    one_door = tuple(one for one in larch_bank.openings if one.kind is OpeningKind.DOOR)
    (finding,) = found(TWO_WAYS_OUT, replace(larch_bank, openings=one_door))
    assert finding.verdict is Verdict.FAILS
    assert "second way out" in finding.advice


def test_a_closed_room_counts_its_own_window_and_its_door(larch_bank: House) -> None:
    room = Bedroom(name="back room", vault="day room", people=2, begins=5.0, ends=7.5, closed=True)
    (finding,) = found(TWO_WAYS_OUT, replace(larch_bank, bedrooms=(room,)))
    assert finding.verdict is Verdict.HOLDS
    assert "door to the rest of the vault" in finding.says()
    blind = tuple(one for one in larch_bank.openings if one.name != "back window")
    (finding,) = found(TWO_WAYS_OUT, replace(larch_bank, bedrooms=(room,), openings=blind))
    assert finding.verdict is Verdict.FAILS


@pytest.mark.parametrize(
    ("changes", "passable"),
    [
        ({}, True),
        ({"opens": False}, False),
        ({"opens": None}, None),
        ({"clear_width": None}, None),
        ({"clear_width": 0.45}, False),
        ({"clear_height": 0.55}, False),
        ({"clear_width": 0.55, "clear_height": 0.7}, False),
        ({"sill": 1.2}, False),
        ({"sill": None}, None),
    ],
)
def test_what_a_grown_person_gets_out_by(
    larch_bank: House, changes: dict[str, object], passable: object
) -> None:
    window = next(one for one in larch_bank.openings if one.name == "south window")
    assert exit_of(replace(window, **changes), 0.0).passable is passable


def test_the_way_out_is_measured_to_the_nearest_exit(larch_bank: House) -> None:
    (finding,) = found(WAY_OUT_IS_SHORT, larch_bank)
    assert finding.verdict is Verdict.HOLDS
    assert finding.demand == pytest.approx(0.5 * 7.5 + 0.5 * 4.2)
    front = tuple(one for one in larch_bank.openings if one.name == "front door")
    (finding,) = found(WAY_OUT_IS_SHORT, replace(larch_bank, openings=front))
    assert finding.verdict is Verdict.FAILS
    (finding,) = found(WAY_OUT_IS_SHORT, replace(larch_bank, openings=()))
    assert finding.verdict is Verdict.UNKNOWN


def test_alarms(larch_bank: House) -> None:
    house = replace(larch_bank, stoves=(STOVE,))
    assert {one.verdict for one in found(ALARMS_WAKE, house)} == {Verdict.HOLDS}
    few = replace(house, fire=replace(house.fire or Fire(), smoke_alarms=1, co_alarms=0))
    assert {one.verdict for one in found(ALARMS_WAKE, few)} == {Verdict.FAILS}
    assert {one.verdict for one in found(ALARMS_WAKE, replace(house, fire=None))} == {Verdict.UNKNOWN}


STOVES = (
    (STOVE_KEEPS_OFF, {"lagging_distance": 0.2}, {"lagging_distance": None}),
    (FLUE_OVER_SNOW, {"terminal_height": 1.2}, {"terminal_height": None}),
    (HEARTH_IS_DEEP, {"hearth_depth": 0.1}, {"hearth_depth": None}),
    (FLUE_THROUGH, {"flue": 0.3}, {"flue": None}),
)


@pytest.mark.parametrize(("rule", "bad", "unsaid"), STOVES, ids=lambda one: getattr(one, "name", ""))
def test_stoves_and_flues(
    rule: HouseRule, bad: dict[str, object], unsaid: dict[str, object], larch_bank: House
) -> None:
    def verdicts(**changes: object) -> set[Verdict]:
        return {one.verdict for one in found(rule, replace(larch_bank, stoves=(replace(STOVE, **changes),)))}

    assert verdicts() == {Verdict.HOLDS}
    assert verdicts(**bad) == {Verdict.FAILS}
    assert verdicts(**unsaid) == {Verdict.UNKNOWN}


def test_a_shield_halves_the_distance(larch_bank: House) -> None:
    near = replace(STOVE, lagging_distance=0.25, shield=True, shield_gap=0.03)
    assert found(STOVE_KEEPS_OFF, replace(larch_bank, stoves=(near,)))[0].verdict is Verdict.HOLDS
    tight = replace(near, shield_gap=0.005)
    assert found(STOVE_KEEPS_OFF, replace(larch_bank, stoves=(tight,)))[0].verdict is Verdict.FAILS


def test_a_house_without_a_stove_has_nothing_to_check(larch_bank: House) -> None:
    cold = replace(larch_bank, stoves=(), openings=())
    for rule in (STOVE_KEEPS_OFF, FLUE_THROUGH, FLUE_OVER_SNOW, HEARTH_IS_DEEP):
        assert [one.verdict for one in found(rule, cold)] == [Verdict.DOES_NOT_APPLY]


def test_a_flue_that_goes_nowhere_is_asked_for(larch_bank: House) -> None:
    (finding,) = found(FLUE_THROUGH, replace(larch_bank, stoves=(STOVE,), openings=()))
    assert finding.verdict is Verdict.UNKNOWN
