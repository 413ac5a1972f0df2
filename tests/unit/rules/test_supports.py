"""What carries the feet: every rule once holding, once failing, once not known; and both sides alike."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.base.findings import Verdict
from bermwright.base.ranges import Range
from bermwright.house.parts.holds import FloorTie, Ring
from bermwright.house.parts.support_words import Retains, Sides, SocketKind, TieKind, WallKind
from bermwright.house.parts.walls import Buttress
from bermwright.house.values import Board
from bermwright.rules.registry import rule_named
from bermwright.rules.supports.acting import INWARD
from bermwright.rules.supports.base import bases, braced, sides_of, worst_first
from bermwright.rules.supports.ground import pressed
from bermwright.rules.supports.stages import governing_turn, stage_forces
from bermwright.rules.supports.standing import Standing, standings

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.house import House
    from bermwright.rules.study import Study

GOOD = {Verdict.HOLDS, Verdict.TIGHT}


def with_house(study: Study, **changes: object) -> Study:
    """The study with other parts in its house; the ribs' response stays as it is."""
    return replace(study, house=replace(study.house, **changes))


def found(name: str, study: Study) -> tuple[Finding, ...]:
    return rule_named(name).run(study)


def verdicts(name: str, study: Study) -> set[Verdict]:
    said = {finding.verdict for finding in found(name, study)}
    assert said
    return said


def wall(study: Study, **changes: object) -> Study:
    return with_house(study, walls=(replace(study.house.walls[0], **changes),))


def footing(study: Study, **changes: object) -> Study:
    return with_house(study, footings=(replace(study.house.footings[0], **changes),))


def ground(study: Study, **changes: object) -> Study:
    soil = replace(study.house.site.soil[0], **changes)
    return with_house(study, site=replace(study.house.site, soil=(soil,)))


def bare(study: Study) -> Study:
    return with_house(study, walls=(), footings=(), floor_ties=(), sockets=())


NARROW = {"footings": (), "floor_ties": ()}


@pytest.mark.parametrize(
    "name",
    [
        "supports-do-not-turn-over",
        "supports-do-not-slide",
        "ground-carries-the-supports",
        "force-stays-under-the-base",
        "feet-press-on-their-supports",
    ],
)
def test_a_described_support_holds_a_narrow_wall_fails_and_none_is_not_known(
    name: str, good_study: Study
) -> None:
    assert verdicts(name, good_study) <= GOOD
    assert verdicts(name, with_house(good_study, **NARROW)) == {Verdict.FAILS}
    nothing = found(name, bare(good_study))
    assert {finding.verdict for finding in nothing} == {Verdict.UNKNOWN}
    assert all("[[wall]]" in finding.advice for finding in nothing)


def test_what_fails_says_what_to_do_and_shows_its_working(good_study: Study) -> None:
    (turned,) = found("supports-do-not-turn-over", with_house(good_study, **NARROW))
    assert "[[footing]]" in turned.advice
    assert turned.steps[-1].result.value == pytest.approx(turned.ratio)
    assert turned.demand / turned.capacity == pytest.approx(turned.ratio)
    assert turned.place.endswith("into the room")


def test_what_soil_alone_pushes_over_is_said(good_study: Study) -> None:
    narrow = with_house(good_study, **NARROW)
    (feet,) = found("feet-press-on-their-supports", narrow)
    assert "without any push of the foot" in feet.says()
    assert feet.ratio is None
    (carried,) = found("ground-carries-the-supports", narrow)
    assert "leaves the" in carried.says()


def test_a_measure_that_is_missing_is_asked_for(good_study: Study) -> None:
    (lost,) = found("supports-do-not-turn-over", wall(good_study, bottom=None))
    assert lost.verdict is Verdict.UNKNOWN
    assert "wall.bottom" in lost.says()
    assert lost.part == 'wall "foot walls"'


def test_fill_without_a_drain_needs_a_level_of_water(good_study: Study) -> None:
    vault = replace(good_study.vault, fill=replace(good_study.vault.fill, drained=None))
    house = replace(good_study.house, vaults=(vault,), site=replace(good_study.house.site, overflow=None))
    (lost,) = found("supports-do-not-slide", replace(good_study, house=house, vault=vault))
    assert lost.verdict is Verdict.UNKNOWN
    assert "vault.fill.drained" in lost.says()


def test_standing_water_pushes_more(good_study: Study) -> None:
    """A drain that is blocked up to a higher overflow turns the wall more."""

    def turned(overflow: float) -> float:
        site = replace(good_study.house.site, overflow=overflow)
        (finding,) = found("supports-do-not-turn-over", with_house(good_study, site=site))
        return finding.ratio or np.inf

    assert turned(0.9) > turned(0.3)


def test_weak_ground_gives_way_and_unknown_ground_is_asked(good_study: Study) -> None:
    weak = ground(good_study, friction_angle=Range(0.14, 0.17))
    assert verdicts("ground-carries-the-supports", weak) == {Verdict.FAILS}
    lost = ground(good_study, friction_angle=None)
    assert verdicts("ground-carries-the-supports", lost) == {Verdict.UNKNOWN}
    assert verdicts("supports-do-not-slide", lost) == {Verdict.UNKNOWN}


def test_presumed_bearing_stands_in_for_unknown_ground(good_study: Study) -> None:
    lost = ground(good_study, friction_angle=None)
    assert verdicts("ground-carries-the-supports", footing(lost, presumed_bearing=200e3)) <= GOOD
    assert verdicts("ground-carries-the-supports", footing(lost, presumed_bearing=30e3)) == {Verdict.FAILS}


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, GOOD),
        ({"bars": 0.006, "bar_spacing": 0.4}, {Verdict.FAILS}),
        ({"kind": WallKind.MORTARED, "friction": Range(0.5, 0.6)}, {Verdict.FAILS}),
        ({"kind": WallKind.EARTH, "friction": Range(0.5, 0.6), "strength": 4e5}, {Verdict.FAILS}),
        ({"kind": WallKind.CONCRETE, "strength": 25e6}, GOOD),
        ({"kind": None}, {Verdict.UNKNOWN}),
        ({"bars": None}, {Verdict.UNKNOWN}),
        ({"kind": WallKind.DRY_STONE, "friction": None}, {Verdict.UNKNOWN}),
    ],
    ids=["blocks", "thin bars", "mortared", "earth", "concrete", "no kind", "no bars", "no friction"],
)
def test_walls_break_or_not(changes: dict[str, object], expected: set[Verdict], good_study: Study) -> None:
    assert verdicts("walls-do-not-break", wall(good_study, **changes)) <= expected


def test_a_thick_wall_needs_no_bars_where_no_soil_lies(good_study: Study) -> None:
    plain = {"kind": WallKind.MORTARED, "friction": Range(0.6, 0.7), "bars": None, "grip": 0.0}
    thick = wall(good_study, **plain, thickness=1.6, retains=Retains.NOTHING)
    study = footing(thick, width=2.4)
    assert verdicts("walls-do-not-break", study) <= GOOD


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, GOOD),
        ({"thickness": 0.12}, {Verdict.FAILS}),
        ({"bars": None}, {Verdict.FAILS}),
        ({"bars": None, "thickness": 1.2}, GOOD),
        ({"concrete": None}, {Verdict.UNKNOWN}),
    ],
    ids=["barred", "thin", "no bars", "thick without bars", "no concrete"],
)
def test_footings_break_or_not(changes: dict[str, object], expected: set[Verdict], good_study: Study) -> None:
    assert verdicts("footings-do-not-break", footing(good_study, **changes)) <= expected


def tied(study: Study, **changes: object) -> Study:
    return with_house(study, floor_ties=(replace(study.house.floor_ties[0], **changes),))


POLE = {
    "kind": TieKind.TIMBER, "thickness": None, "concrete": None, "section": Board(0.05, 0.05),
    "timber": "C24", "spacing": 1.2,
}  # fmt: skip


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, GOOD),
        (POLE, {Verdict.FAILS}),
        ({**POLE, "section": Board(0.2, 0.25), "propped": 1.0}, GOOD),
        ({"thickness": None}, {Verdict.UNKNOWN}),
        ({**POLE, "timber": None}, {Verdict.UNKNOWN}),
    ],
    ids=["slab", "thin pole", "propped beams", "no thickness", "no class"],
)
def test_what_joins_the_feet_holds_or_not(
    changes: dict[str, object], expected: set[Verdict], good_study: Study
) -> None:
    assert verdicts("floor-tie-holds-the-feet", tied(good_study, **changes)) <= expected


def test_a_rod_only_pulls(good_study: Study) -> None:
    rod = FloorTie(
        name="rod", vault="day room", kind=TieKind.ROD, level=0.0, rod=0.012, spacing=1.0, steel=235e6
    )
    (pulled,) = found("floor-tie-holds-the-feet", with_house(good_study, floor_ties=(rod,)))
    assert "pull" in pulled.says()
    thin = with_house(good_study, floor_ties=(replace(rod, rod=0.005, spacing=4.0, steel=200e6),))
    assert verdicts("floor-tie-holds-the-feet", thin) == {Verdict.FAILS}
    without = with_house(good_study, floor_ties=())
    assert verdicts("floor-tie-holds-the-feet", without) == {Verdict.DOES_NOT_APPLY}


def shod(study: Study, **changes: object) -> Study:
    return with_house(study, sockets=(replace(study.house.sockets[0], **changes),))


LOG = {
    "kind": SocketKind.LOG, "friction": None, "log": 0.5, "depth": 0.2, "lip": 0.15, "timber": "C24",
    "hold_down": 4e3,
}  # fmt: skip


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, GOOD),
        ({"friction": Range(0.05, 0.1), "hold_across": None}, {Verdict.FAILS}),
        ({"friction": None}, {Verdict.UNKNOWN}),
        (LOG, GOOD),
        ({**LOG, "depth": 0.02, "lip": 0.02}, {Verdict.FAILS}),
        ({**LOG, "lip": None}, {Verdict.UNKNOWN}),
    ],
    ids=["shoe", "slippery", "no friction", "log", "thin lip", "no lip"],
)
def test_feet_stay_or_not(changes: dict[str, object], expected: set[Verdict], good_study: Study) -> None:
    assert verdicts("feet-stay-on-their-supports", shod(good_study, **changes)) <= expected


def test_a_foot_without_anything_that_holds_it_is_not_known(good_study: Study) -> None:
    (lost,) = found("feet-stay-on-their-supports", with_house(good_study, sockets=()))
    assert lost.verdict is Verdict.UNKNOWN
    assert "[[socket]]" in lost.advice


def test_a_foot_that_lifts_needs_something_that_holds_it_down(good_study: Study) -> None:
    def lifted(analysis):
        feet = analysis.response.feet.copy()
        feet[0, 0, 1, 1] = -2000.0
        feet[0, 0, 1, 0] = 0.0
        return replace(analysis, response=replace(analysis.response, feet=feet))

    study = replace(good_study, analyses=tuple(lifted(one) for one in good_study.analyses))
    assert verdicts("feet-stay-on-their-supports", shod(study, hold_down=None)) == {Verdict.FAILS}
    assert verdicts("feet-stay-on-their-supports", shod(study, hold_down=3e3)) <= GOOD
    (fails,) = found("feet-stay-on-their-supports", shod(study, hold_down=1e3))
    assert "lifts off" in fails.says()


BEAM = Ring(
    name="bond beam", vault="day room", width=0.4, height=0.2, concrete=25e6, bars=0.012, count=2, lap=0.75,
    held_every=2.5,
)  # fmt: skip


@pytest.mark.parametrize(
    ("ring", "expected"),
    [
        (BEAM, GOOD),
        (replace(BEAM, held_every=7.5), {Verdict.FAILS, *GOOD}),
        (replace(BEAM, lap=0.15), {Verdict.FAILS, *GOOD}),
        (replace(BEAM, held_every=None, radius=2.5), GOOD),
        (replace(BEAM, held_every=None, radius=2.5, bars=0.005, count=1, lap=3.0), {Verdict.FAILS, *GOOD}),
        (replace(BEAM, bars=None), {Verdict.UNKNOWN}),
        (replace(BEAM, held_every=None), {Verdict.UNKNOWN}),
    ],
    ids=["beam", "far apart", "short lap", "round", "thin round", "no bars", "nothing holds it"],
)
def test_bond_beams_hold_or_not(ring: Ring, expected: set[Verdict], good_study: Study) -> None:
    said = verdicts("bond-beam-holds", with_house(good_study, rings=(ring,)))
    assert said <= expected
    assert (Verdict.FAILS in said) is (Verdict.FAILS in expected)


def test_without_a_bond_beam_nothing_is_said_of_it(good_study: Study) -> None:
    assert verdicts("bond-beam-holds", with_house(good_study, rings=())) == {Verdict.DOES_NOT_APPLY}
    assert verdicts("buttresses-stand-without-tension", good_study) == {Verdict.DOES_NOT_APPLY}


PIER = Buttress(
    name="piers", vault="day room", spacing=1.0, width=0.6, depth=1.8, unit_weight=22e3, bond=150e3
)


@pytest.mark.parametrize(
    ("pier", "expected"),
    [
        (PIER, GOOD),
        (replace(PIER, depth=0.4, spacing=3.0), {Verdict.FAILS, *GOOD}),
        (replace(PIER, bond=5e3), {Verdict.FAILS, *GOOD}),
        (replace(PIER, bond=None), {Verdict.UNKNOWN}),
        (replace(PIER, width=None), {Verdict.UNKNOWN}),
        (replace(PIER, inside=True, depth=0.5), {Verdict.FAILS, *GOOD}),
    ],
    ids=["deep", "shallow", "weak bond", "no bond", "no width", "inside"],
)
def test_buttresses_stand_or_not(pier: Buttress, expected: set[Verdict], good_study: Study) -> None:
    said = verdicts("buttresses-stand-without-tension", with_house(good_study, buttresses=(pier,)))
    assert said <= expected
    assert (Verdict.FAILS in said) is (Verdict.FAILS in expected)


def test_a_bonded_buttress_helps_against_turning_outward(good_study: Study) -> None:
    def outward(study: Study) -> float:
        (right,) = [one for one in standings(study) if isinstance(one, Standing) and one.side == 1]
        every = [base for base in bases(study, right, balance=True) if not base.inward]
        top = worst_first(every, lambda base: base.overturning)
        return top.ratio if top else np.nan

    assert outward(with_house(good_study, buttresses=(PIER,))) < outward(good_study)


@pytest.mark.parametrize(
    ("acceleration", "expected"),
    [
        (0.1, {Verdict.DOES_NOT_APPLY}),
        (0.6, GOOD),
        (2.2, {Verdict.FAILS}),
        (None, {Verdict.UNKNOWN}),
    ],
    ids=["calm", "weak", "strong", "not known"],
)
def test_supports_stand_an_earthquake_or_not(
    acceleration: float | None, expected: set[Verdict], good_study: Study
) -> None:
    site = replace(good_study.house.site, ground_acceleration=acceleration)
    assert verdicts("supports-stand-an-earthquake", with_house(good_study, site=site)) <= expected


def test_shaking_that_no_slope_stands_is_not_known(good_study: Study) -> None:
    site = replace(good_study.house.site, ground_acceleration=4.0)
    with pytest.raises(OutOfRangeError, match="no solution"):
        found("supports-stand-an-earthquake", with_house(good_study, site=site))


def test_both_sides_of_a_house_that_is_alike_are_alike(good_study: Study) -> None:
    left, right = (one for one in standings(good_study) if isinstance(one, Standing))
    for here, there in zip(stage_forces(good_study, left), stage_forces(good_study, right), strict=True):
        assert here.stage == there.stage
        for ends in ("outward", "down", "soil"):
            assert getattr(here, ends) == pytest.approx(getattr(there, ends), rel=1e-6, abs=1.0)
        assert (here.turning, here.sliding) == pytest.approx((there.turning, there.sliding), rel=1e-5)


def test_forces_on_a_base_are_in_equilibrium(good_study: Study) -> None:
    """Down on the base, its place, and the moments about both edges belong together."""
    (standing, *_), _ = sides_of(good_study)
    for base in bases(good_study, standing, balance=False):
        place = 0.5 * base.width - base.eccentricity
        assert np.allclose(base.total * place, base.holding - base.turning, rtol=1e-9, atol=1e-3)
        if base.way == INWARD:
            by_hand = base.push + base.soil.force
            assert np.allclose(base.along, by_hand)
            assert (base.tie <= np.maximum(base.along, 0.0) + 1e-9).all()


def test_weights_that_press_more_are_heard_too(good_study: Study) -> None:
    (standing, *_), _ = sides_of(good_study)
    base = next(iter(bases(good_study, standing, balance=False)))
    light, heavy = pressed(base, heavy=False), pressed(base, heavy=True)
    assert (heavy.down >= light.down).all()


def test_a_wall_on_one_side_only_leaves_the_other_not_known(good_study: Study) -> None:
    left = with_house(
        good_study,
        walls=(replace(good_study.house.walls[0], side=Sides.LEFT),),
        footings=(replace(good_study.house.footings[0], side=Sides.LEFT),),
    )
    said = found("supports-do-not-turn-over", left)
    assert {finding.verdict for finding in said} == {Verdict.UNKNOWN, Verdict.HOLDS}
    assert any("the right foot" in finding.says() for finding in said)


def test_the_governing_moment_can_be_drawn(good_study: Study) -> None:
    rule = rule_named("supports-do-not-turn-over")
    (finding,) = rule.run(good_study)
    arrows, note = rule.draws(good_study, finding)  # type: ignore[union-attr,misc]
    assert max(abs(one) for one in arrows.across) > 1e3
    assert "turns over" in note.text
    standing = standings(good_study)[1]
    assert governing_turn(good_study, standing).ratio == pytest.approx(finding.ratio, rel=1e-3)


def test_the_second_example_has_supports_that_stand_and_shoes_that_do_not(bad_study: Study) -> None:
    assert verdicts("supports-do-not-turn-over", bad_study) <= GOOD
    assert verdicts("feet-stay-on-their-supports", bad_study) == {Verdict.FAILS}


def test_examples_say_what_their_feet_stand_on(larch_bank: House, kettle_hill: House) -> None:
    for house in (larch_bank, kettle_hill):
        assert house.footings
        assert house.sockets


def test_a_bonded_buttress_presses_the_ground_with_its_wall(good_study: Study) -> None:
    tall = with_house(good_study, buttresses=(PIER,))
    side = next(one for one in sides_of(tall)[0])
    out = next(one for one in bases(tall, side, balance=False) if not one.inward)
    tee = braced(out)
    assert tee is not None
    whole = out.width + (PIER.width or 0.0) / (PIER.spacing or 1.0) * (out.tip - out.width)
    assert (tee.area <= whole + 1e-9).all()
    # The middle of what is pressed lies under the force: by small strips instead of the closed form.
    strips = np.linspace(0.0, out.tip, 20001)
    beyond, share = out.tip - out.width, (PIER.width or 0.0) / (PIER.spacing or 1.0)
    wide = np.where(strips < beyond, share, 1.0)
    area = np.cumsum(wide) * (strips[1] - strips[0])
    near = (out.tip_holding - out.tip_turning) / tee.down
    lane, moment = (int(i) for i in np.argwhere((near > 0.05) & (tee.area < 0.999 * whole))[0])
    reached = int(np.searchsorted(area, tee.area[lane, moment]))
    middle = float(np.sum((wide * strips)[:reached]) / np.sum(wide[:reached]))
    assert middle == pytest.approx(float(near[lane, moment]), rel=0.01)
    inward = next(one for one in bases(tall, side, balance=False) if one.inward)
    assert braced(inward) is None
