"""A rib or a plank lost, and a leak: each rule holds, fails and stays unknown."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from bermwright.base.findings import Verdict
from bermwright.data.timber_classes import GAMMA_TIMBER
from bermwright.house import CoverKind
from bermwright.rules.analysis.strength import ACCIDENT, bending_ratio, shear_ratio
from bermwright.rules.lasting.accident import finished
from bermwright.rules.lasting.lost import WIDER, without_a_rib
from bermwright.rules.registry import rule_named

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.rules.study import Study

LOSS = ("neighbours-carry-a-lost-rib", "a-lost-plank-lets-nothing-through", "ribs-stand-a-leak")


def said(rule: str, study: Study) -> tuple[Finding, ...]:
    return rule_named(rule).run(study)


def with_cover(study: Study, kind: CoverKind, **changes: Any) -> Study:
    cover = tuple(replace(one, **changes) if one.kind is kind else one for one in study.vault.cover)
    return replace(study, vault=replace(study.vault, cover=cover))


@pytest.mark.parametrize("rule", LOSS)
def test_the_careful_builder_is_told_that_it_holds(rule: str, good_study: Study) -> None:
    for found in said(rule, good_study):
        assert found.verdict is Verdict.HOLDS
        assert found.steps
        assert found.ratio is not None
        assert found.ratio < 1.0
        assert not found.advice


@pytest.mark.parametrize("rule", LOSS)
def test_the_weak_house_fails_and_hears_what_to_do(rule: str, bad_study: Study) -> None:
    fails = [found for found in said(rule, bad_study) if found.verdict is Verdict.FAILS]
    assert fails
    assert all(found.advice for found in fails)


def test_a_lost_rib_without_an_answer_is_not_known(good_study: Study) -> None:
    nailless = replace(good_study, strength=replace(good_study.strength, joint=None))
    (found,) = said("neighbours-carry-a-lost-rib", nailless)
    assert found.verdict is Verdict.UNKNOWN


def test_a_leak_without_an_answer_is_not_known(good_study: Study) -> None:
    response = good_study.service.response
    blank = replace(response, moment=np.full_like(response.moment, np.nan))
    (found,) = said("ribs-stand-a-leak", replace(good_study, service=replace(good_study.service,
                                                                            response=blank)))  # fmt: skip
    assert found.verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(
    ("kind", "changes"),
    [
        (CoverKind.LAGGING, {"timber": None}),
        (CoverKind.LAGGING, {"width": None}),
        (CoverKind.INSULATION, {"strength": None}),
    ],
)
def test_a_plank_of_which_too_little_is_known(
    kind: CoverKind, changes: dict[str, Any], good_study: Study
) -> None:
    found = said("a-lost-plank-lets-nothing-through", with_cover(good_study, kind, **changes))
    assert found[-1].verdict is Verdict.UNKNOWN
    assert found[-1].advice


def test_soft_boards_do_not_bridge_a_wide_hole(good_study: Study) -> None:
    soft = with_cover(good_study, CoverKind.INSULATION, strength=5e3, thickness=0.05)
    assert said("a-lost-plank-lets-nothing-through", soft)[-1].verdict is Verdict.FAILS


def test_neighbours_carry_more_than_before_and_a_wider_bay(good_study: Study) -> None:
    lost = without_a_rib(good_study)
    assert lost.form.spacing == pytest.approx(WIDER * good_study.form.spacing)
    before, after = (
        np.abs(one.response.axial)[one.bends & one.where_situation(finished)[None, :]]
        for one in (good_study.service, lost.analyses[0])
    )
    assert after.shape == before.shape
    assert after.max() > 1.3 * before.max()


def test_factors_of_one_leave_the_strength_whole(good_study: Study) -> None:
    whole = replace(good_study.strength, accidental=True)
    plain, after = (shear_ratio(good_study.service, one) for one in (good_study.strength, whole))
    known = np.isfinite(plain)
    assert after[known] == pytest.approx(plain[known] * ACCIDENT / GAMMA_TIMBER.value)


def test_wet_ribs_use_more_of_their_strength(good_study: Study) -> None:
    wet = replace(good_study.strength, service_class=3)
    dry, damp = (bending_ratio(good_study.service, one) for one in (good_study.strength, wet))
    known = np.isfinite(dry)
    assert damp[known].max() > 1.1 * dry[known].max()


def test_thinner_planks_over_two_bays(good_study: Study) -> None:
    thin = with_cover(good_study, CoverKind.LAGGING, thickness=0.012)
    assert said("a-lost-plank-lets-nothing-through", thin)[0].verdict is Verdict.FAILS
