"""Two families of codes for snow: never mixed in one check."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from bermwright.base.findings import Verdict
from bermwright.data.rule_sets import AMERICAN_LOADS, rule_sets
from bermwright.data.works.actions import ASCE7, EN1991_1_3
from bermwright.handbook.actions import flat_roof_snow
from bermwright.rules.assess import assess
from bermwright.rules.study import study_vault

if TYPE_CHECKING:
    from bermwright.house import House


@pytest.fixture(scope="module")
def american(larch_bank: House) -> House:
    return replace(larch_bank, rules=replace(larch_bank.rules, set=AMERICAN_LOADS))


def snows(house: House):
    study = study_vault(house, house.vaults[0], stop_marks=False)
    return [
        (stage.kind.value, case.name, action)
        for stage in study.stages
        for case in stage.cases
        for action in case.actions
        if action.name == "snow"
    ]


def test_all_snow_is_of_the_family_that_the_file_names(larch_bank: House, american: House) -> None:
    assert {action.cite.work for _, _, action in snows(larch_bank)} == {EN1991_1_3}
    assert {action.cite.work for _, _, action in snows(american)} == {ASCE7}


def test_even_snow_on_level_ground_is_that_of_a_flat_cold_roof(american: House) -> None:
    name, _, action = next(one for one in snows(american) if one[0] == "turf" and one[1] == "full snow")
    assert name == "turf"
    flat = float(flat_roof_snow(american.site.ground_snow, thermal=1.2))
    assert float(np.max(action.on_fill)) == pytest.approx(flat, rel=1e-6)


def test_blown_snow_is_heavier_behind_the_ridge(american: House) -> None:
    _, _, action = next(one for one in snows(american) if one[1] == "snow blown to the left")
    half = action.on_fill.size // 2
    assert float(action.on_fill[:half].sum()) > 3.0 * float(action.on_fill[half + 1 :].sum())


def test_one_family_has_its_own_factors_and_no_other(american: House) -> None:
    sets = rule_sets(str(american.rules.approach), american.rules.set)
    assert [one.variable for one in sets] == [1.6]
    assert all(one.cite.work is ASCE7 for one in sets)


def test_nothing_that_asks_for_a_strength_holds_or_fails_by_mixed_families(american: House) -> None:
    found = assess(american, stop_marks=False).findings
    bending = [one for one in found if one.rule in {"ribs-bend", "nails-carry-the-cut-layer"}]
    assert bending
    assert {one.verdict for one in bending} == {Verdict.UNKNOWN}
    assert all(one.ratio is None for one in bending)
    assert all("one check" in one.says() for one in bending)
