"""Frost under footings, water under the floor, insulation under soil: each holds, fails, stays unknown."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from bermwright.base.findings import Verdict
from bermwright.handbook.lasting import frost_depth, stefan_depth
from bermwright.house import CoverKind, Frost
from bermwright.house.living.umbrella import Umbrella
from bermwright.rules.lasting.frost import cold_ground
from bermwright.rules.registry import rule_named

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.house import House
    from bermwright.rules.study import Study

SUBJECTS = ("insulation-is-not-crushed", "frost-stays-under-the-footings", "water-stays-below-the-floor")


def said(rule: str, study: Study) -> Finding:
    (found,) = rule_named(rule).run(study)
    return found


def in_house(study: Study, **changes: Any) -> Study:
    return replace(study, house=replace(study.house, **changes))


def with_soil(study: Study, **changes: Any) -> Study:
    site = study.house.site
    return in_house(study, site=replace(site, soil=tuple(replace(one, **changes) for one in site.soil)))


def with_foam(study: Study, **changes: Any) -> Study:
    cover = tuple(
        replace(one, **changes) if one.kind is CoverKind.INSULATION else one for one in study.vault.cover
    )
    return replace(study, vault=replace(study.vault, cover=cover))


def with_water(study: Study, level: float | None) -> Study:
    ground = replace(study.form.ground, water_high=level)
    return replace(study, form=replace(study.form, ground=ground))


def hatted(house: House, **changes: float) -> House:
    assert house.ground_heat is not None
    hat = replace(Umbrella(reach=4.0, thickness=0.2, depth=0.3), **changes)
    return replace(house, ground_heat=replace(house.ground_heat, umbrella=hat))


@pytest.mark.parametrize("rule", SUBJECTS)
def test_the_careful_builder_is_told_that_it_holds(rule: str, good_study: Study) -> None:
    found = said(rule, good_study)
    assert found.verdict is Verdict.HOLDS
    assert found.steps
    assert not found.advice


def test_soft_foam_is_crushed(good_study: Study) -> None:
    found = said("insulation-is-not-crushed", with_foam(good_study, strength=10e3))
    assert found.verdict is Verdict.FAILS
    assert found.ratio == pytest.approx(1.58, abs=0.05)
    assert found.advice


def test_foam_of_unknown_strength_is_not_known(good_study: Study) -> None:
    assert said("insulation-is-not-crushed", with_foam(good_study, strength=None)).verdict is Verdict.UNKNOWN


def test_no_insulation_cannot_be_crushed(bad_study: Study) -> None:
    assert said("insulation-is-not-crushed", bad_study).verdict is Verdict.DOES_NOT_APPLY


def test_soil_that_heaves_lifts_a_shallow_footing(good_study: Study) -> None:
    found = said("frost-stays-under-the-footings", with_soil(good_study, frost=Frost.SUSCEPTIBLE))
    assert found.verdict is Verdict.FAILS
    assert found.advice


def test_soil_of_which_nobody_knows_whether_it_heaves(good_study: Study) -> None:
    found = said("frost-stays-under-the-footings", with_soil(good_study, frost=None))
    assert found.verdict is Verdict.UNKNOWN
    assert found.advice


@pytest.mark.parametrize("changes", [{"footings": (), "walls": ()}, {}])
def test_without_supports_or_climate_frost_is_not_known(changes: dict[str, Any], good_study: Study) -> None:
    bare = changes or {"site": replace(good_study.house.site, climate=None)}
    found = said("frost-stays-under-the-footings", in_house(good_study, **bare))
    assert found.verdict is Verdict.UNKNOWN
    assert found.advice


def test_deep_footings_hold_in_soil_that_heaves(good_study: Study) -> None:
    walls = tuple(replace(one, bottom=-3.0) for one in good_study.house.walls)
    deep = in_house(with_soil(good_study, frost=Frost.SUSCEPTIBLE), walls=walls)
    found = said("frost-stays-under-the-footings", deep)
    assert found.verdict in {Verdict.HOLDS, Verdict.TIGHT}
    assert found.ratio is not None
    assert found.ratio < 1.0


def test_a_wide_umbrella_keeps_frost_up_and_a_narrow_one_counts_nothing(larch_bank: House) -> None:
    soil = larch_bank.site.soil[0]
    bare = cold_ground(larch_bank, soil, soil.name)
    wide = cold_ground(hatted(larch_bank), soil, soil.name)
    narrow = cold_ground(hatted(larch_bank, reach=1.0), soil, soil.name)
    assert wide.depth < 0.6 * bare.depth
    assert narrow.depth == bare.depth == bare.open


@pytest.mark.parametrize(
    ("level", "verdict"),
    [(-0.1, Verdict.FAILS), (-0.4, Verdict.TIGHT), (-3.0, Verdict.HOLDS), (None, Verdict.UNKNOWN)],
)
def test_water_under_the_floor(level: float | None, verdict: Verdict, good_study: Study) -> None:
    found = said("water-stays-below-the-floor", with_water(good_study, level))
    assert found.verdict is verdict
    assert bool(found.advice) == (verdict is not Verdict.HOLDS)


def test_a_floor_of_unknown_thickness_is_not_known(good_study: Study) -> None:
    assert said("water-stays-below-the-floor", in_house(good_study, ground_heat=None)).verdict is (
        Verdict.UNKNOWN
    )


def test_warm_ground_freezes_less_deep_than_stefan_says() -> None:
    index, latent = 1.2e8, 8e7
    deep = frost_depth(1.3, index, mean=3.0, duration=1.4e7, latent=latent, capacity=1.9e6)
    assert 0.0 < deep < float(stefan_depth(1.3, index, latent))
    assert np.isfinite(deep)
