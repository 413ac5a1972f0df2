"""Every rule: one case that holds, one that fails, one that is not known; and NaN never holds."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from bermwright.base.findings import Verdict
from bermwright.base.marks import StopMark
from bermwright.base.ranges import Range
from bermwright.data.climates import PLACES
from bermwright.house import CurveKind, Frost, Nail, Site
from bermwright.house.choices import SoilKind
from bermwright.rules.assess import assess
from bermwright.rules.registry import EVERY_RULE, RULES, UnknownRuleError, rule_named
from bermwright.rules.ribs import buckling
from bermwright.rules.ribs.buckling import buckling_ratio, lane_factors
from bermwright.rules.ribs.common import lagged
from bermwright.rules.ribs.lagging import plank_pressure
from bermwright.rules.study import study_vault

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.house import House
    from bermwright.rules.study import Study

GOOD = {Verdict.HOLDS, Verdict.DOES_NOT_APPLY}
OF_A_VAULT = {rule.name for rule in RULES}
"""Rules that read one vault; those on the house say of each part what they know of it."""


def verdicts(name: str, study: Study) -> set[Verdict]:
    return {finding.verdict for finding in rule_named(name).run(study)}


def test_the_first_example_holds_in_every_rule(larch_bank: House) -> None:
    found = assess(larch_bank)
    assert {finding.rule for finding in found.findings} == {rule.name for rule in EVERY_RULE}
    assert [f"{f.rule}: {f.says()}" for f in found.findings if f.verdict not in GOOD] == []


def test_the_second_example_fails_first_while_it_is_filled(kettle_hill: House) -> None:
    found = assess(kettle_hill)
    bending = [finding for finding in found.findings if finding.rule == "ribs-bend"]
    assert any(finding.verdict is Verdict.FAILS for finding in bending)
    assert found.findings[0].verdict is Verdict.FAILS
    study = found.studies["great room"]
    first = next(name for name, ratio in study.stage_ratio.items() if ratio is None or ratio > 1.0)
    assert first.startswith("fill to")


def test_findings_are_sorted_worst_first(kettle_hill: House) -> None:
    severities = [finding.verdict.severity for finding in assess(kettle_hill, stop_marks=False).findings]
    assert severities == sorted(severities)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_what_a_rule_says_is_whole(rule, good_study: Study, bad_study: Study) -> None:
    for study in (good_study, bad_study):
        for finding in rule.run(study):
            assert "{" not in finding.says()
            assert "nan" not in finding.says().lower()
            assert finding.says("imperial")
            assert finding.cites
            assert finding.ratio is None or np.isfinite(finding.ratio)
            if finding.verdict is Verdict.FAILS:
                assert finding.advice


def poisoned(study: Study, value: float) -> Study:
    """The study with every computed number lost."""

    def lost(analysis):
        response = analysis.response
        names = ("axial", "moment", "shear", "displacement", "feet", "pressure")
        arrays = {name: np.full_like(getattr(response, name), value) for name in names}
        broken = replace(response, **arrays, converged=np.zeros_like(response.converged))
        return replace(analysis, response=broken)

    return replace(
        study,
        analyses=tuple(lost(analysis) for analysis in study.analyses),
        service=lost(study.service),
        marks=tuple(replace(mark, allowed=None) for mark in study.marks),
    )


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
@pytest.mark.parametrize("value", [np.nan, np.inf], ids=["nan", "inf"])
def test_nan_and_infinity_never_hold(rule, value: float, good_study: Study) -> None:
    computed = {
        "ribs-bend", "ribs-shear", "nails-carry-the-cut-layer", "ribs-do-not-buckle", "ribs-do-not-tip",
        "ribs-keep-their-shape", "feet-bear", "feet-press-on-their-supports", "planks-carry-the-soil",
        "fill-keeps-to-its-stop-marks", "headers-carry-the-cut-ribs", "trimmers-carry-for-the-cut-ribs",
        "ribs-stand-near-the-ends", "feet-stay-on-their-supports", "supports-do-not-turn-over",
        "supports-do-not-slide", "ground-carries-the-supports", "force-stays-under-the-base",
        "walls-do-not-break", "footings-do-not-break", "floor-tie-holds-the-feet",
        "ribs-stand-a-fire", "planks-stand-a-fire", "forces-on-the-shell-close", "wheels-keep-off",
        "ribs-stand-a-leak", "a-lost-plank-lets-nothing-through",
        "insulation-is-not-crushed",
    }  # fmt: skip
    if rule.name not in computed:
        # What it reads is no computed number but the file; it must say the same as before.
        assert [f.verdict for f in rule.run(poisoned(good_study, value))] == [
            f.verdict for f in rule.run(good_study)
        ]
        return
    findings = rule.run(poisoned(good_study, value))
    assert findings
    assert all(finding.verdict not in GOOD and finding.verdict is not Verdict.TIGHT for finding in findings)


@pytest.mark.parametrize(
    "name", ["ribs-bend", "ribs-shear", "nails-carry-the-cut-layer", "ribs-do-not-buckle", "ribs-do-not-tip"]
)
def test_one_moment_that_came_to_no_number_is_not_known(name: str, good_study: Study) -> None:
    """Even where the ribs are said to have come to rest."""

    def lost(analysis):
        arrays = {key: getattr(analysis.response, key).copy() for key in ("axial", "moment", "shear")}
        for array in arrays.values():
            array[:, 5] = np.nan
        return replace(analysis, response=replace(analysis.response, **arrays))

    study = replace(good_study, analyses=tuple(lost(one) for one in good_study.analyses))
    assert Verdict.UNKNOWN in verdicts(name, study)


def test_a_buckling_factor_that_is_not_known_never_holds(
    good_study: Study, monkeypatch: pytest.MonkeyPatch
) -> None:
    known = buckling.buckling_factor

    def lost(*arguments, **options):
        factors = known(*arguments, **options).copy()
        factors[3] = np.nan
        return factors

    monkeypatch.setattr(buckling, "buckling_factor", lost)
    fresh = replace(good_study, analyses=tuple(replace(one) for one in good_study.analyses))
    assert verdicts("ribs-do-not-buckle", fresh) == {Verdict.UNKNOWN}


def test_bending_fails_with_thin_ribs(restudy: Callable[..., Study]) -> None:
    thin = restudy(layers=2, spacing=1.2)
    assert Verdict.FAILS in verdicts("ribs-bend", thin) | verdicts("ribs-do-not-buckle", thin)


def test_without_nails_the_joint_is_not_known(restudy: Callable[..., Study]) -> None:
    bare = restudy(nails=None)
    assert verdicts("nails-carry-the-cut-layer", bare) == {Verdict.UNKNOWN}
    assert verdicts("nails-find-room", bare) == {Verdict.UNKNOWN}
    assert not verdicts("ribs-bend", bare) & GOOD


# One study that passes and one that fails for each rule that reads the ribs; what is not known is above.
@pytest.mark.parametrize(
    "name",
    [
        "ribs-bend",
        "ribs-shear",
        "nails-carry-the-cut-layer",
        "ribs-do-not-buckle",
        "ribs-do-not-tip",
        "ribs-keep-their-shape",
        "feet-bear",
        "fill-keeps-to-its-stop-marks",
    ],
)
def test_one_example_passes_and_the_other_fails(name: str, good_study: Study, bad_study: Study) -> None:
    assert verdicts(name, good_study) <= GOOD
    assert Verdict.FAILS in verdicts(name, bad_study)


def test_a_foot_that_lifts_fails(good_study: Study) -> None:
    def lifted(analysis):
        feet = analysis.response.feet.copy()
        feet[0, 0, 1, 1] = -4200.0
        return replace(analysis, response=replace(analysis.response, feet=feet))

    study = replace(good_study, analyses=tuple(lifted(one) for one in good_study.analyses))
    (finding,) = rule_named("feet-press-on-their-supports").run(study)
    assert finding.verdict is Verdict.FAILS
    assert finding.place == "right foot"
    lift = 4.2 / good_study.form.spacing
    assert finding.says() == f"Ribs up: the right foot lifts off its support with {lift:.1f} kN/m."
    assert finding.steps[3].result.value < 0


def test_a_blank_too_heavy_for_one_person_fails(good_study: Study) -> None:
    timber = replace(good_study.strength.timber, density=4000.0)
    study = replace(good_study, strength=replace(good_study.strength, timber=timber))
    assert verdicts("pieces-can-be-lifted", good_study) == {Verdict.HOLDS}
    assert verdicts("pieces-can-be-lifted", study) == {Verdict.FAILS}


def test_a_grippy_membrane_counts_and_a_slippery_one_does_not(
    good_study: Study, restudy: Callable[..., Study]
) -> None:
    grip = Range(math.radians(34), math.radians(36))
    cover = good_study.vault.cover
    rough = restudy(cover=tuple(replace(one, friction=one.friction and grip) for one in cover))
    (slips,) = rule_named("soil-runs-fit-the-membrane").run(good_study)
    (grips,) = rule_named("soil-runs-fit-the-membrane").run(rough)
    assert "soil at rest takes its place" in slips.says()
    assert "it counts" in grips.says()


def test_an_end_of_a_lift_that_is_no_whole_step_is_no_failure(good_study: Study) -> None:
    mark = replace(good_study.marks[-1], cap=0.18, allowed=0.18, ratio_next=np.nan)
    study = replace(good_study, marks=(mark,), given=replace(good_study.given, lead=0.25))
    (finding,) = rule_named("fill-keeps-to-its-stop-marks").run(study)
    assert mark.lead == pytest.approx(0.15)
    assert finding.verdict is Verdict.HOLDS


def test_a_mark_below_the_permitted_lead_fails_and_says_what_to_write(good_study: Study) -> None:
    mark = replace(good_study.marks[0], cap=0.3, allowed=0.1, ratio_next=1.1)
    study = replace(
        good_study, marks=(mark, *good_study.marks[1:]), given=replace(good_study.given, lead=0.25)
    )
    (finding,) = (
        one
        for one in rule_named("fill-keeps-to-its-stop-marks").run(study)
        if one.capacity == pytest.approx(0.1)
    )
    assert finding.verdict is Verdict.FAILS
    assert finding.ratio == pytest.approx(2.5)
    assert finding.advice == 'Write [stages] lead = "0.10 m".'


def test_planks_of_which_one_pressure_is_lost_are_not_known(good_study: Study) -> None:
    def lost(analysis):
        pressure = analysis.response.pressure.copy()
        lane, situation = (int(i) for i in np.argwhere(analysis.bends)[-1])
        pressure[lane, situation] = np.nan
        return replace(analysis, response=replace(analysis.response, pressure=pressure))

    study = replace(good_study, analyses=tuple(lost(one) for one in good_study.analyses))
    assert verdicts("planks-carry-the-soil", study) == {Verdict.UNKNOWN}


def test_a_pulled_rib_is_worked_as_pulled(good_study: Study) -> None:
    def pulled(analysis):
        return replace(analysis, response=replace(analysis.response, axial=-analysis.response.axial))

    study = replace(good_study, analyses=tuple(pulled(one) for one in good_study.analyses))
    for finding in rule_named("ribs-bend").run(study):
        assert finding.steps[-1].formula == "(σ_t/f_t,d) + σ_m/f_m,d"
        assert finding.steps[-1].result.value == pytest.approx(finding.ratio)
        assert finding.demand / finding.capacity < finding.ratio  # type: ignore[operator]


def test_few_thin_nails_fail(restudy: Callable[..., Study]) -> None:
    poor = restudy(nails=Nail(0.0031, 0.09), nails_each_side=2, nail_spacing=0.15)
    assert verdicts("nails-carry-the-cut-layer", poor) == {Verdict.FAILS}


def test_a_nail_that_is_too_short_does_not_count(restudy: Callable[..., Study]) -> None:
    short = restudy(nails=Nail(0.005, 0.060))
    findings = rule_named("nails-carry-the-cut-layer").run(short)
    assert findings[0].verdict is Verdict.FAILS
    assert "8 diameters" in findings[0].says()


def test_many_nails_find_no_room(restudy: Callable[..., Study]) -> None:
    assert Verdict.FAILS in verdicts("nails-find-room", restudy(nails_each_side=60))


def test_planks_of_unknown_class_are_not_known(good_study: Study, restudy: Callable[..., Study]) -> None:
    cover = good_study.vault.cover
    ungraded = (replace(cover[0], timber=None), *cover[1:])
    assert verdicts("planks-carry-the-soil", restudy(cover=ungraded)) == {Verdict.UNKNOWN}
    thin = (replace(cover[0], thickness=0.012), *cover[1:])
    assert Verdict.FAILS in verdicts("planks-carry-the-soil", restudy(cover=thin))
    assert verdicts("planks-carry-the-soil", restudy(cover=cover[1:])) == {Verdict.UNKNOWN}


def test_a_membrane_nobody_measured_is_not_known(good_study: Study, restudy: Callable[..., Study]) -> None:
    cover = good_study.vault.cover
    unknown = tuple(replace(layer, friction=None) for layer in cover)
    assert verdicts("soil-runs-fit-the-membrane", restudy(cover=unknown)) == {Verdict.UNKNOWN}


@pytest.mark.parametrize(
    ("frost", "drained", "unheated", "expected"),
    [
        (Frost.NOT_SUSCEPTIBLE, True, True, Verdict.HOLDS),
        (Frost.SUSCEPTIBLE, True, True, Verdict.FAILS),
        (Frost.SUSCEPTIBLE, True, None, Verdict.FAILS),
        (Frost.NOT_SUSCEPTIBLE, False, True, Verdict.FAILS),
        (None, True, True, Verdict.UNKNOWN),
        (Frost.NOT_SUSCEPTIBLE, None, True, Verdict.UNKNOWN),
        (Frost.SUSCEPTIBLE, False, False, Verdict.DOES_NOT_APPLY),
    ],
)
def test_first_winter(frost, drained, unheated, expected, good_study: Study) -> None:
    house, vault = good_study.house, good_study.vault
    fill = replace(house.fill(vault), soil=None, frost=frost, drained=drained)
    changed = replace(
        house,
        vaults=(replace(vault, fill=fill),),
        stages=replace(house.stages, unheated_first_winter=unheated),
    )
    study = replace(good_study, house=changed, vault=changed.vaults[0])
    assert verdicts("stands-its-first-winter", study) == {expected}


def test_actions_that_nobody_gave_are_not_known(good_study: Study) -> None:
    house = replace(
        good_study.house,
        site=replace(good_study.house.site, ground_snow=None, overflow=None, accessible_roof=None),
    )
    findings = rule_named("actions-are-known").run(replace(good_study, house=house))
    assert {finding.verdict for finding in findings} == {Verdict.UNKNOWN}
    assert len(findings) == 3


def test_outside_the_methods_nothing_holds(larch_bank: House) -> None:
    vault = larch_bank.vaults[0]
    short = replace(larch_bank, vaults=(replace(vault, length=3.0),))
    found = assess(short, stop_marks=False)
    assert {f.verdict for f in found.findings if f.rule == "within-the-methods"} == {Verdict.UNKNOWN}
    said = [finding.verdict for finding in found.findings if finding.rule in OF_A_VAULT]
    assert Verdict.HOLDS not in said
    assert Verdict.TIGHT not in said


def in_ground(study: Study, site: Site, **changes) -> Study:
    soil = replace(site.soil[0], **changes)
    return replace(study, house=replace(study.house, site=replace(site, soil=(soil,))))


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"kind": SoilKind.PEAT}, "Peat:"),
        ({"kind": SoilKind.CLAY, "swells": True}, "Clay that swells:"),
        ({"kind": SoilKind.CLAY}, "Whether the clay swells,"),
    ],
)
def test_ground_that_no_method_holds_for(changes, says, good_study: Study) -> None:
    study = in_ground(good_study, good_study.house.site, **changes)
    (finding,) = rule_named("within-the-methods").run(study)
    assert finding.verdict is Verdict.UNKNOWN
    assert finding.says().startswith(says)
    assert finding.advice


def test_clay_that_does_not_swell_is_ground_like_other(good_study: Study) -> None:
    study = in_ground(good_study, good_study.house.site, kind=SoilKind.CLAY, swells=False)
    assert verdicts("within-the-methods", study) == {Verdict.HOLDS}


@pytest.mark.parametrize(
    ("permafrost", "expected"), [(None, Verdict.UNKNOWN), (True, Verdict.UNKNOWN), (False, Verdict.HOLDS)]
)
def test_ground_that_may_stay_frozen(permafrost, expected, good_study: Study) -> None:
    cold = min(PLACES, key=lambda place: sum(place.mean))
    site = replace(good_study.house.site, climate=f"normals:{cold.name}", permafrost=permafrost)
    assert verdicts("within-the-methods", in_ground(good_study, site)) == {expected}


def test_missing_soil_leaves_every_rule_unknown_and_asks(larch_bank: House) -> None:
    vault = larch_bank.vaults[0]
    lost = replace(larch_bank, vaults=(replace(vault, fill=None),))
    found = assess(lost)
    assert {f.verdict for f in found.findings if f.rule in OF_A_VAULT} == {Verdict.UNKNOWN}
    assert any("fill" in question.place for question in found.questions)


def test_unknown_tool_counts_as_the_worse(larch_bank: House) -> None:
    unknown = replace(larch_bank, stages=replace(larch_bank.stages, compaction=None))
    known = study_vault(larch_bank, larch_bank.vaults[0], stop_marks=False)
    worse = study_vault(unknown, unknown.vaults[0], stop_marks=False)
    assert max(worse.stage_ratio.values()) > max(known.stage_ratio.values())  # type: ignore[type-var]


def test_heavier_soil_never_helps_the_planks(restudy: Callable[..., Study], good_study: Study) -> None:
    fill = good_study.house.fill(good_study.vault)
    heavy = replace(fill, soil=None, unit_weight=Range(21e3, 22e3), saturated_unit_weight=Range(23e3, 24e3))

    def worst(study: Study) -> float:
        return max(f.ratio or 0.0 for f in rule_named("planks-carry-the-soil").run(study))

    assert worst(restudy(fill=heavy)) > worst(good_study)


def test_marks_of_the_rules_can_be_drawn(bad_study: Study) -> None:
    drawn = 0
    for rule in RULES:
        for finding in rule.run(bad_study):
            if rule.draws is not None:
                drawn += len(rule.draws(bad_study, finding))
    assert drawn > 4


def test_a_misspelt_rule_is_told_the_nearest_name() -> None:
    assert rule_named("ribs bend").name == "ribs-bend"
    with pytest.raises(UnknownRuleError, match="Did you mean ribs-bend"):
        rule_named("rib bend")


def test_no_face_paints_a_wider_mark_than_the_file_permits(good_study: Study) -> None:
    permitted = good_study.given.lead
    marks = [mark for mark in good_study.marks if mark.lead is not None]
    assert any(mark.lead > permitted + 1e-9 for mark in marks)  # the ribs would stand more
    assert all((good_study.lead(mark) or 0.0) <= permitted + 1e-9 for mark in marks)
    rule = rule_named("fill-keeps-to-its-stop-marks")
    assert rule.draws is not None
    for finding in rule.run(good_study):
        drawn = rule.draws(good_study, finding)
        levels = {mark.level for mark in drawn if isinstance(mark, StopMark)}
        assert levels <= {good_study.stop(mark) for mark in marks}


def test_planks_are_known_at_a_pointed_crown(restudy: Callable[..., Study]) -> None:
    pointed = restudy(curve=CurveKind.POINTED, rise=2.3)
    for analysis in pointed.analyses:
        counted = (analysis.bends & analysis.where_situation(lagged)) & analysis.response.converged
        assert counted.any()
        assert np.isfinite(plank_pressure(pointed, analysis)[counted]).all()


def test_the_critical_force_of_a_place_is_its_own(good_study: Study) -> None:
    analysis, strength = good_study.analyses[0], good_study.strength
    factors = lane_factors(analysis, strength)
    largest = np.maximum(analysis.response.axial, 0.0).max(axis=2)
    # The same rib under the same shape of thrust: factor times thrust is one force for all lanes.
    forces = factors * largest
    assert np.allclose(forces, forces.max(axis=0)[None, :], rtol=1e-9)
    # An ideal strut uses 1/factor of its buckling force; kc of real timber and bending only add to that.
    kmod = np.broadcast_to(strength.kmods(analysis)[None, :], factors.shape)
    ratio = buckling_ratio(analysis, strength).max(axis=2)
    known = analysis.bends & np.isfinite(factors)
    assert (ratio[known] >= (1.3 / kmod / factors)[known] * 0.99).all()
