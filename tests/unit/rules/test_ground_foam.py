"""Insulation outside walls and under the floor: holding, failing and unknown."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from bermwright.base.findings import Verdict
from bermwright.rules.lasting.foam import FOAM_HOLDS

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.rules.study import Study


def said(study: Study, **changes: object) -> tuple[Finding, ...]:
    """Of the house with both insulations changed."""
    ground = study.house.ground_heat
    assert ground is not None
    assert ground.floor is not None
    assert ground.wall is not None
    changed = replace(ground, floor=replace(ground.floor, **changes), wall=replace(ground.wall, **changes))
    return FOAM_HOLDS.run(replace(study, house=replace(study.house, ground_heat=changed)))


def test_rigid_foam_of_the_example_carries(good_study: Study) -> None:
    found = said(good_study)
    assert [one.verdict for one in found] == [Verdict.HOLDS, Verdict.HOLDS]
    for one in found:
        assert one.steps[-1].result.value == pytest.approx(one.ratio)


def test_soft_foam_is_crushed_and_the_share_goes_with_its_strength(good_study: Study) -> None:
    soft, softer = (said(good_study, strength=value) for value in (40e3, 20e3))
    assert {one.verdict for one in soft} == {Verdict.FAILS}
    for one, other in zip(soft, softer, strict=True):
        assert other.ratio == pytest.approx(2.0 * (one.ratio or 0.0))
        assert "strength" in one.advice


@pytest.mark.parametrize("changes", [{"strength": None}, {"insulation": None}])
def test_what_is_not_said_is_not_known(good_study: Study, changes: dict[str, object]) -> None:
    assert {one.verdict for one in said(good_study, **changes)} == {Verdict.UNKNOWN}


def test_without_insulation_there_is_nothing_to_crush(good_study: Study) -> None:
    assert [one.verdict for one in said(good_study, insulation=0.0)] == [Verdict.DOES_NOT_APPLY]
