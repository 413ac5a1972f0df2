"""The house as one body and the raising of its ribs: each rule holds, fails and does not know."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest

from bermwright.base.findings import Verdict
from bermwright.base.ranges import Range
from bermwright.formats.house_file import load
from bermwright.house import Nail
from bermwright.rules.assess import assess
from bermwright.rules.erection.bracing import RIBS_STAND_UP
from bermwright.rules.erection.lifting import RIBS_ARE_LIFTED, rib_mass
from bermwright.rules.erection.works import brace_holds, guy_holds, rib_wind
from bermwright.rules.ribs.movement import PIECES_LIFT
from bermwright.rules.study import study_vault
from bermwright.rules.whole import wheels
from bermwright.rules.whole.along import LEANS_ALONG, end_push
from bermwright.rules.whole.along_storms import STORMS_ALONG, shell_weight
from bermwright.rules.whole.body import HOUSE_STAYS
from bermwright.rules.whole.cover import COVER_STAYS
from bermwright.rules.whole.forces import FORCES_CLOSE, balances
from bermwright.rules.whole.ground import base_level
from bermwright.rules.whole.slopes import SLOPES_STAY
from bermwright.rules.whole.storms import QUAKE_STANDS, WIND_STANDS, quake_analysis
from bermwright.rules.whole.wheels import WHEELS_KEEP_OFF, barrier, breaking, wheel_pressure
from bermwright.takeoff import vault_quantities
from bermwright.takeoff.lifting import hands_lift, rib_lifters

if TYPE_CHECKING:
    from bermwright.house import House, Nail
    from bermwright.rules.nouns import Rule
    from bermwright.rules.study import Study

EXAMPLES = Path(__file__).parents[3] / "examples"
HOLDS, FAILS, UNKNOWN = {Verdict.HOLDS}, Verdict.FAILS, Verdict.UNKNOWN


def verdicts(rule: Rule, study: Study) -> list[Verdict]:
    found = rule.run(study)
    for finding in found:
        assert "{" not in finding.says()
        assert "nan" not in finding.says().lower()
        assert finding.says("imperial")
        if finding.verdict in {FAILS, UNKNOWN}:
            assert finding.advice
    return [finding.verdict for finding in found]


def studied(house: House) -> Study:
    return study_vault(house, house.vaults[0], stop_marks=False)


def with_site(house: House, **changes: object) -> House:
    return replace(house, site=replace(house.site, **changes))


def with_mound(house: House, **changes: object) -> House:
    vault = house.vaults[0]
    return replace(house, vaults=(replace(vault, mound=replace(vault.mound, **changes)),))


def with_fill(house: House, **changes: object) -> House:
    vault = house.vaults[0]
    return replace(house, vaults=(replace(vault, fill=replace(vault.fill, **changes)),))


def own_fill(house: House) -> House:
    """The fill's values written beside it, so that the site may have another soil."""
    fill = house.fill(house.vaults[0])
    return with_fill(
        house,
        soil=None,
        unit_weight=fill.unit_weight,
        saturated_unit_weight=fill.saturated_unit_weight,
        friction_angle=fill.friction_angle,
    )


def with_cover(house: House, kind: str, **changes: object) -> House:
    vault = house.vaults[0]
    cover = tuple(replace(one, **changes) if one.kind == kind else one for one in vault.cover)
    return replace(house, vaults=(replace(vault, cover=cover),))


def with_erection(house: House, **changes: object) -> House:
    return replace(house, erection=replace(house.erection, **changes))


def test_every_force_on_the_shell_is_answered(good_study: Study) -> None:
    assert verdicts(FORCES_CLOSE, good_study) == [Verdict.HOLDS]
    found = balances(good_study)
    assert [one.stage for one in found] == [stage.name for stage in good_study.stages]
    assert max(one.closing for one in found) < 1e-9
    last = found[-1]
    feet = [last.named(f"{side} foot") for side in ("left", "right")]
    assert sum(one.up for one in feet) == pytest.approx(last.down)


def test_a_lost_state_of_rest_is_no_balance(good_study: Study) -> None:
    service = good_study.service
    lost = replace(service.response, converged=np.zeros_like(service.response.converged))
    broken = replace(good_study, service=replace(service, response=lost))
    assert verdicts(FORCES_CLOSE, broken) == [UNKNOWN]


def test_slopes_stay_where_they_are_flat_enough(larch_bank: House, good_study: Study) -> None:
    assert set(verdicts(SLOPES_STAY, good_study)) == HOLDS
    steep = studied(with_mound(larch_bank, left=math.atan(1 / 1.6)))
    failing = [finding for finding in SLOPES_STAY.run(steep) if finding.verdict is FAILS]
    assert failing
    assert "left" in failing[0].says()
    assert "1:" in failing[0].advice


def test_water_running_in_the_fill_can_bring_it_down(larch_bank: House) -> None:
    dry, soaked = SLOPES_STAY.run(studied(with_fill(larch_bank, drained=False)))[:2]
    assert soaked.case == "seeping"
    assert soaked.ratio > 1.5 * dry.ratio


def test_slopes_of_which_too_little_is_said(larch_bank: House) -> None:
    assert UNKNOWN in verdicts(SLOPES_STAY, studied(with_fill(larch_bank, drained=None)))
    assert verdicts(SLOPES_STAY, studied(with_site(own_fill(larch_bank), soil=()))) == [UNKNOWN]
    assert UNKNOWN in verdicts(SLOPES_STAY, studied(with_site(larch_bank, ground_acceleration=None)))


def test_a_hillside_is_a_long_slope_of_its_own(larch_bank: House) -> None:
    gentle = with_site(larch_bank, slope=math.radians(9), faces=math.radians(255))
    found = {finding.case: finding for finding in SLOPES_STAY.run(studied(gentle))}
    assert found["hillside"].verdict is Verdict.HOLDS
    steep = with_site(gentle, slope=math.radians(28), water_depth=Range(0.3, 1.0))
    found = {finding.case: finding for finding in SLOPES_STAY.run(studied(steep))}
    assert found["hillside"].verdict is FAILS
    dry = with_site(gentle, water_depth=None)
    assert UNKNOWN in verdicts(SLOPES_STAY, studied(dry))


def test_an_earthquake_is_looked_at_where_it_can_shake(larch_bank: House) -> None:
    shaken = SLOPES_STAY.run(studied(with_site(larch_bank, ground_acceleration=1.5)))
    by_case = {finding.case: finding.ratio for finding in shaken}
    assert by_case["earthquake"] > by_case["drained"]


def test_cover_stays_on_a_rough_sheet_and_slides_on_a_slippery_wet_one(
    larch_bank: House, good_study: Study
) -> None:
    assert set(verdicts(COVER_STAYS, good_study)) == HOLDS
    slippery = with_cover(larch_bank, "membrane", friction=Range(0.05, 0.08))
    found = verdicts(COVER_STAYS, studied(with_fill(slippery, drained=False)))
    assert FAILS in found
    rough = with_cover(larch_bank, "membrane", friction=None)
    assert verdicts(COVER_STAYS, studied(rough)) == [UNKNOWN]
    assert UNKNOWN in verdicts(COVER_STAYS, studied(with_fill(larch_bank, drained=None)))


def test_the_house_stays_between_like_fills_and_not_on_slippery_ground(
    larch_bank: House, good_study: Study
) -> None:
    assert set(verdicts(HOUSE_STAYS, good_study)) == HOLDS
    soft = tuple(replace(one, friction_angle=Range(0.18, 0.2)) for one in larch_bank.site.soil)
    own = own_fill(larch_bank)
    uneven = replace(own, stages=replace(own.stages, lead=0.3))
    found = verdicts(HOUSE_STAYS, studied(with_site(uneven, soil=soft)))
    assert FAILS in found
    assert verdicts(HOUSE_STAYS, studied(with_site(own, soil=()))) == [UNKNOWN]


def test_ground_water_over_the_base_holds_less_and_carries_less(larch_bank: House) -> None:
    def used(depth: float) -> dict[str, float]:
        house = with_site(larch_bank, water_depth=Range(depth, 4.0))
        return {one.unit + one.template: one.ratio or 0.0 for one in HOUSE_STAYS.run(studied(house))}

    deep, high = used(4.0), used(0.6)
    assert deep.keys() == high.keys()
    assert all(high[what] > deep[what] for what in deep)


def test_the_push_along_the_axis_finds_its_way_down(larch_bank: House, good_study: Study) -> None:
    assert verdicts(LEANS_ALONG, good_study) == [Verdict.HOLDS]
    front, back = larch_bank.ends
    buried = replace(back, soil_to=2.6, rises=math.radians(20), hillside=True)
    slippery = with_cover(larch_bank, "membrane", friction=Range(0.05, 0.08))
    assert verdicts(LEANS_ALONG, studied(replace(slippery, ends=(front, buried)))) == [FAILS]
    assert verdicts(LEANS_ALONG, studied(replace(larch_bank, ends=(front,)))) == [UNKNOWN]
    bare = with_cover(replace(slippery, ends=(front, buried)), "lagging", nail=None)
    assert verdicts(LEANS_ALONG, studied(bare)) == [UNKNOWN]


def test_a_blocked_drain_behind_one_end_pushes_along_the_axis(larch_bank: House) -> None:
    def used(overflow: float | None) -> float:
        (finding,) = LEANS_ALONG.run(studied(with_site(larch_bank, overflow=overflow)))
        assert finding.ratio is not None
        return finding.ratio

    assert used(None) < used(0.2) <= used(0.6)
    study = studied(larch_bank)
    _, back = larch_bank.ends
    friction = math.radians(32.0)
    higher = studied(with_site(larch_bank, overflow=0.6))
    assert (
        end_push(higher, back, friction, blocked=True).soil
        > end_push(study, back, friction, blocked=True).soil
    )
    dry, wet = end_push(study, back, friction), end_push(study, back, friction, blocked=True)
    # By hand, where the vault is as wide as between its walls: K = 1 − sin 32°, 2 kN/m3 more under water.
    deep = 0.3 - base_level(study)
    ratio = 1.0 - math.sin(friction)
    more = (9.81e3 * (1.0 - ratio) + ratio * 2e3) * 0.5 * deep**2
    assert (wet.soil - dry.soil) / more == pytest.approx(study.form.span, rel=0.2)
    undrained = replace(back, drained=False)
    assert end_push(study, undrained, friction).soil > wet.soil


def test_wind_and_earthquake_along_the_axis(larch_bank: House, kettle_hill: House) -> None:
    assert verdicts(STORMS_ALONG, studied(larch_bank)) == [Verdict.HOLDS]
    shaken = studied(with_site(larch_bank, ground_acceleration=1.2))
    assert verdicts(STORMS_ALONG, shaken) == [Verdict.HOLDS, Verdict.HOLDS]
    wind, quake = STORMS_ALONG.run(shaken)
    assert wind.stage == "lagged"
    assert (quake.demand or 0.0) > shell_weight(shaken) * 1.2 / 9.81
    stormy = with_cover(with_site(larch_bank, wind=48.0), "lagging", nail=Nail(0.0028, 0.075), nails=2)
    assert verdicts(STORMS_ALONG, studied(stormy)) == [FAILS]
    untold = with_site(with_cover(larch_bank, "lagging", nail=None), ground_acceleration=None)
    assert verdicts(STORMS_ALONG, studied(untold)) == [UNKNOWN, UNKNOWN]
    assert UNKNOWN in verdicts(STORMS_ALONG, studied(with_site(kettle_hill, wind=None)))


def test_the_bare_shell_stands_the_wind_when_it_is_strapped_down(
    larch_bank: House, good_study: Study
) -> None:
    assert set(verdicts(WIND_STANDS, good_study)) == HOLDS
    sockets = tuple(replace(one, hold_down=100.0) for one in larch_bank.sockets)
    assert FAILS in verdicts(WIND_STANDS, studied(replace(larch_bank, sockets=sockets)))
    loose = tuple(replace(one, hold_down=None) for one in larch_bank.sockets)
    assert UNKNOWN in verdicts(WIND_STANDS, studied(replace(larch_bank, sockets=loose)))
    assert verdicts(WIND_STANDS, studied(with_site(larch_bank, wind=None))) == [UNKNOWN]


def test_wind_over_the_covered_mound_is_outweighed_by_its_soil(larch_bank: House, good_study: Study) -> None:
    def used(study: Study) -> float:
        (covered,) = (one for one in WIND_STANDS.run(study) if one.says().startswith("Once it is covered"))
        assert covered.ratio is not None
        return covered.ratio

    calm = used(good_study)
    stormy = studied(with_site(larch_bank, wind=2.0 * (larch_bank.site.wind or 0.0)))
    assert calm < 0.5
    assert used(stormy) == pytest.approx(4.0 * calm)


def test_an_earthquake_shakes_shell_and_soil_both_ways(
    larch_bank: House, kettle_hill: House, good_study: Study
) -> None:
    assert verdicts(QUAKE_STANDS, good_study) == [Verdict.DOES_NOT_APPLY]
    assert verdicts(QUAKE_STANDS, studied(with_site(larch_bank, ground_acceleration=1.2))) == [Verdict.HOLDS]
    weak = studied(with_site(kettle_hill, ground_acceleration=2.4))
    assert set(verdicts(QUAKE_STANDS, weak)) <= {FAILS, UNKNOWN}
    assert verdicts(QUAKE_STANDS, studied(with_site(larch_bank, ground_acceleration=None))) == [UNKNOWN]


def test_the_soil_of_either_side_may_push(larch_bank: House) -> None:
    analysis = quake_analysis(studied(with_site(larch_bank, ground_acceleration=1.2)), 0.2)
    names = {now.case.name for now in analysis.situations if now.case.name.startswith("earthquake")}
    assert names == {"earthquake, the left soil pushing", "earthquake, the right soil pushing"}
    across = [
        float(analysis.states.across[k].sum())
        for k, now in enumerate(analysis.situations)
        if now.case.name in names and not now.stage.long_term
    ]
    assert across[0] == pytest.approx(-across[1], rel=1e-9)
    assert across[0] > 0.0


def test_wheels_keep_off(larch_bank: House, good_study: Study, bad_study: Study) -> None:
    assert set(verdicts(WHEELS_KEEP_OFF, good_study)) == HOLDS
    assert FAILS in verdicts(WHEELS_KEEP_OFF, bad_study)
    assert [one.case for one in WHEELS_KEEP_OFF.run(good_study)] == ["wheel", "axle", "barrow"]
    left, right = barrier(good_study)
    assert left == pytest.approx(-right, abs=0.05)
    assert right > float(good_study.form.soil_face.x.max())
    vault = replace(larch_bank.vaults[0], nails=None)
    loose = study_vault(replace(larch_bank, vaults=(vault,)), vault, stop_marks=False)
    assert verdicts(WHEELS_KEEP_OFF, loose) == [UNKNOWN]


def test_the_wheel_that_was_found_uses_a_rib_up(good_study: Study) -> None:
    wheel = next(one for one in breaking(good_study) if one.kind == "wheel")
    assert 0.5e3 < wheel.load < 60e3
    own = next(stage for stage in good_study.stages if stage.kind == "settled").cases[0]
    pressure = wheel_pressure(good_study, own, wheel.x, wheel.load, (0.0,))
    brought = float(np.sum(pressure * good_study.form.mesh.plan)) * good_study.form.spacing
    # Nowhere is more put on a rib than the wheel weighs, with its jolt and Boussinesq's peak.
    assert 0.3 * wheel.load < brought < 2.0 * wheel.load


def test_the_bare_ribs_stand_with_braces_and_fall_without(larch_bank: House, good_study: Study) -> None:
    assert set(verdicts(RIBS_STAND_UP, good_study)) == HOLDS
    assert FAILS in verdicts(RIBS_STAND_UP, studied(with_erection(larch_bank, braces=(), guys=())))
    assert verdicts(RIBS_STAND_UP, studied(replace(larch_bank, erection=None))) == [UNKNOWN]
    assert verdicts(RIBS_STAND_UP, studied(with_site(larch_bank, wind=None))) == [UNKNOWN]
    assert UNKNOWN in verdicts(RIBS_STAND_UP, studied(with_erection(larch_bank, wind_limit=None)))
    storm = studied(with_erection(larch_bank, wind_limit=20.0, unbraced=4))
    assert storm.house.crew is not None
    assert FAILS in verdicts(
        RIBS_STAND_UP, studied(replace(storm.house, crew=replace(storm.house.crew, people=1)))
    )


def test_a_guy_is_as_strong_as_its_anchor(good_study: Study) -> None:
    guy = good_study.house.erection.guys[0]
    weak = replace(guy, anchor_holds=0.3e3)
    assert guy_holds(good_study, weak) < guy_holds(good_study, guy)
    assert guy_holds(good_study, replace(guy, holds=None)) is None
    brace = good_study.house.erection.braces[0]
    assert brace_holds(good_study, replace(brace, nail=None)) is None
    assert brace_holds(good_study, replace(brace, nails=8)) == pytest.approx(
        2.0 * brace_holds(good_study, brace)
    )
    assert rib_wind(good_study).all == pytest.approx(rib_wind(good_study).each * good_study.form.ribs)


def test_ribs_are_lifted_by_enough_people(larch_bank: House, good_study: Study) -> None:
    assert verdicts(RIBS_ARE_LIFTED, good_study) == [Verdict.HOLDS]
    whole = with_erection(larch_bank, raised="whole")
    assert verdicts(RIBS_ARE_LIFTED, studied(whole)) == [FAILS]
    pole = with_erection(larch_bank, raised="whole", lifted="gin pole", hoist_holds=2.5e3)
    assert verdicts(RIBS_ARE_LIFTED, studied(pole)) == [Verdict.HOLDS]
    assert verdicts(RIBS_ARE_LIFTED, studied(with_erection(pole, hoist_holds=None))) == [UNKNOWN]
    assert verdicts(RIBS_ARE_LIFTED, studied(replace(larch_bank, erection=None))) == [UNKNOWN]
    assert hands_lift(1) < hands_lift(3) < hands_lift(6) == hands_lift(20)


def test_everybody_says_the_same_of_lifting_a_rib(good_study: Study) -> None:
    """Timber and nails, and a team at either end: as what can be lifted, so what is counted."""
    half = 0.5 * rib_mass(good_study)
    (said,) = PIECES_LIFT.run(good_study)
    assert said.values["half"].value == pytest.approx(half)  # type: ignore[union-attr]
    assert said.values["who"] == f"{rib_lifters(half)} people"
    counted = vault_quantities(good_study.house, good_study.vault, good_study.form).row("half a rib")
    assert counted.high == pytest.approx(half)
    assert str(rib_lifters(half)) in counted.note


def test_the_hillside_example_fails_for_its_stated_reason_alone() -> None:
    house = load(EXAMPLES / "sedge-bank.toml").house
    found = assess(house, stop_marks=False).findings
    failing = {finding.rule for finding in found if finding.verdict is FAILS}
    assert failing == {"the-way-out-is-short"}
    along = next(finding for finding in found if finding.rule == "house-does-not-lean-along")
    assert along.verdict is Verdict.HOLDS
    assert "towards the front" in along.says()


def test_the_least_wheel_is_the_least_of_all_places(good_study: Study) -> None:
    found = {one.kind: one.load for one in wheels.breaking(good_study) or ()}
    lanes = wheels._governing(good_study)
    assert lanes is not None
    loads = tuple(float(load) for load in np.linspace(500.0, 8000.0, 31))
    for kind in wheels.KINDS:
        places = {(kind, share): loads for share in wheels.SHARES}
        told = wheels._used(good_study, places, lanes)
        assert told is not None
        own, line = told
        least = min(wheels._crossing(own, loads, used) for used in line.values())
        assert found[kind] == pytest.approx(least, rel=0.02)
