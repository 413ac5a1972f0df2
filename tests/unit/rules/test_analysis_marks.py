"""Stop marks: rounded down, capped, of the worse side, the smallest where the strength used is not steady."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from bermwright.house import Approach
from bermwright.rules.analysis.stop_marks import LeadMark, lead_marks
from bermwright.rules.analysis.strength import rib_ratios
from bermwright.rules.study import study_vault
from bermwright.stages import Ballast, StageKind, build_of, staged

LIFT = 0.3


@pytest.fixture(scope="module")
def marks_of(good_study):
    """Stop marks under a strength used that is made up: a function of the lead, + where the left is ahead."""

    def made_up(used, *, limit=0.6, given=None):
        build = build_of(good_study.form, given or good_study.given)

        def ratios(analysis):
            leads = np.array([used(now.case.lead) for now in analysis.situations])
            return np.broadcast_to(leads, (len(analysis.lanes), leads.size))

        return lead_marks(good_study.model, build, staged(build), limit, ratios)

    return made_up


def test_marks_are_rounded_down_to_50_mm(marks_of) -> None:
    # Two sides that reach 1 at leads of 0.13 m: 0.10 m holds, 0.15 m does not.
    marks = marks_of(lambda lead: 0.5 + abs(lead) / 0.26)
    full = [mark for mark in marks if mark.cap >= 0.15]
    assert [mark.lead for mark in full] == pytest.approx([0.10] * len(full))
    assert [mark.ratio_next for mark in full] == pytest.approx([0.5 + 0.15 / 0.26] * len(full))
    assert not any(mark.blocked for mark in marks)


def leads(marks, least_cap):
    """The different leads, in whole millimetres, of the marks that are not capped sooner."""
    return {round(1e3 * mark.lead) for mark in marks if mark.cap >= least_cap}


def test_marks_are_capped_by_one_lift_and_by_the_limit(marks_of) -> None:
    assert leads(marks_of(lambda _: 0.5), LIFT - 1e-9) == {300}
    limited = marks_of(lambda _: 0.5, limit=0.12)
    assert leads(limited, 0.0) == {100}
    assert {mark.cap for mark in limited} == {0.12}
    assert all(np.isnan(mark.ratio_next) for mark in limited)


@pytest.mark.parametrize("side", [1, -1])
def test_the_worse_side_counts(marks_of, side) -> None:
    assert leads(marks_of(lambda lead: 1.2 if side * lead > 0.07 else 0.5), 0.1) == {50}


def test_the_smallest_is_taken_where_it_is_not_steady(marks_of) -> None:
    assert leads(marks_of(lambda lead: 1.1 if 0.08 < abs(lead) < 0.12 else 0.6), 0.1) == {50}


def test_a_level_that_does_not_hold_is_blocked(marks_of) -> None:
    marks = marks_of(lambda _: 1.01)
    assert all(mark.blocked and mark.lead == 0.0 for mark in marks)
    assert {mark.ratio_level for mark in marks} == {1.01}
    barely = marks_of(lambda lead: 1.0 if lead == 0.0 else 1.001)
    assert all(mark.blocked for mark in barely)


@pytest.mark.parametrize("value", [np.nan, np.inf])
def test_what_is_not_known_has_no_mark(marks_of, value) -> None:
    marks = marks_of(lambda lead: value if abs(lead) > 0.1 else 0.2)
    wide = [mark for mark in marks if mark.cap > 0.1]
    assert all(mark.lead is None and not mark.blocked for mark in wide)


def test_marks_begin_at_the_base_and_end_with_the_cover(good_study, marks_of) -> None:
    marks = marks_of(lambda _: 0.5)
    levels = [stage.level for stage in good_study.stages if stage.kind is StageKind.FILL]
    cover = next(stage.level for stage in good_study.stages if stage.kind is StageKind.COVER)
    assert [mark.level for mark in marks] == pytest.approx([levels[0] - LIFT, *levels])
    assert marks[-1].level == pytest.approx(good_study.form.crown_level)
    assert marks[-1].cap == pytest.approx(min(cover - marks[-1].level, LIFT))


def test_a_whole_lift_is_rounded_down_too() -> None:
    mark = LeadMark(level=2.0, cap=0.29, allowed=0.29, ratio_level=0.5, ratio_next=np.nan, corner="")
    assert mark.lead == pytest.approx(0.25)
    assert replace(mark, allowed=0.15, cap=0.3).lead == pytest.approx(0.15)


def test_a_lift_thinner_than_the_step_may_be_placed_at_once(marks_of, good_study) -> None:
    thin = LeadMark(level=2.0, cap=0.03, allowed=0.03, ratio_level=0.5, ratio_next=np.nan, corner="")
    assert thin.lead == 0.03
    assert not thin.blocked
    assert replace(thin, allowed=0.02).lead == 0.0
    lifted = marks_of(lambda _: 0.5, given=replace(good_study.given, lift=0.05))
    assert all(mark.lead > 0.0 for mark in lifted)


def test_marks_of_the_example_are_what_its_states_say(good_study) -> None:
    for mark in good_study.marks:
        assert mark.ratio_level <= 1.0
        assert mark.lead <= mark.cap + 1e-9
        assert "soil run" in mark.corner


def test_a_weaker_strength_never_lengthens_a_mark(good_study) -> None:
    build = build_of(good_study.form, good_study.given)

    def marks(factor):
        return lead_marks(
            good_study.model,
            build,
            good_study.stages,
            0.6,
            lambda one: factor * rib_ratios(one, good_study.strength),
        )

    strong, weak = marks(1.0), marks(1.45)
    assert all(one.lead >= other.lead for one, other in zip(strong, weak, strict=True))
    assert any(one.lead > other.lead for one, other in zip(strong, weak, strict=True))
    assert any(0.0 < mark.lead < mark.cap - 0.05 or mark.blocked for mark in weak)


def test_works_that_stand_in_the_next_stage_count_at_its_level(good_study) -> None:
    bags = Ballast(weight=3e3, width=1.4, start=1.95, until=2.25)
    build = build_of(good_study.form, replace(good_study.given, ballast=bags))
    seen = []

    def ratios(analysis):
        seen.extend(analysis.situations)
        return np.zeros((len(analysis.lanes), len(analysis.situations)))

    lead_marks(good_study.model, build, staged(build), 0.6, ratios)
    ahead = [now for now in seen if "ahead" in now.case.title]
    assert {now.case.ballast for now in ahead if now.stage.level == pytest.approx(2.25)} == {True}
    assert {now.case.ballast for now in ahead if now.stage.level == pytest.approx(2.55)} == {False}


def test_all_sets_of_factors_count(larch_bank) -> None:
    both = replace(larch_bank, rules=replace(larch_bank.rules, approach=Approach.DA1))
    one = study_vault(larch_bank, larch_bank.vaults[0])
    two = study_vault(both, both.vaults[0])
    for single, double in zip(one.marks, two.marks, strict=True):
        assert double.ratio_level >= single.ratio_level - 1e-9
