"""What lets a blocked fill go on: found, true in the whole analysis, and honest where there is nothing."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
import pytest

from bermwright.house import Ballast, Hold, Tamping
from bermwright.rules.analysis.remedies import FillRemedy, fill_remedies
from bermwright.rules.analysis.strength import bending_ratio, rib_ratios
from bermwright.rules.study import Study, study_vault
from bermwright.stages import StageKind

FILLING = {StageKind.CROWN_SOIL, StageKind.FILL, StageKind.COVER}


def weaker(study, factor):
    """The strength used by ribs that take less."""
    return lambda analysis: factor * rib_ratios(analysis, study.strength)


@dataclass
class Mended:
    """A house whose ribs are so weak that the fill is just blocked, and what is said of it."""

    study: Study
    factor: float
    found: tuple[FillRemedy, ...]

    def named(self, name: str) -> FillRemedy:
        return next(one for one in self.found if one.name == name)


def just_blocked(house, most=1.05):
    study = study_vault(house, house.vaults[0])
    factor = most / max(mark.ratio_level for mark in study.marks)
    marks = tuple(
        replace(mark, allowed=0.0) if factor * mark.ratio_level > 1.0 else mark for mark in study.marks
    )
    found = fill_remedies(study.model, study.form, study.given, weaker(study, factor), marks)
    return Mended(study, factor, found)


def used_with(house, factor, ratio=rib_ratios):
    """Largest strength used while filling, over all lanes and cases, of a house as its file has it."""
    study = study_vault(house, house.vaults[0], stop_marks=False)
    filling = study.analyses[0].where_situation(lambda now: now.stage.kind in FILLING)
    return max(float((factor * ratio(one, study.strength))[:, filling].max()) for one in study.analyses)


def bends_alone(analysis, strength):
    """The strength used by bending, without the nails, which the heavy run governs always."""
    used = bending_ratio(analysis, strength).max(axis=(2, 3))
    return np.where(analysis.bends, used, -np.inf)


@pytest.fixture(scope="module")
def calm(larch_bank):
    """No snow falls while it is filled."""
    return replace(larch_bank, site=replace(larch_bank.site, ground_snow=0.0))


def test_nothing_to_mend_where_nothing_is_blocked(good_study) -> None:
    ratios = weaker(good_study, 1.0)
    assert fill_remedies(good_study.model, good_study.form, good_study.given, ratios, good_study.marks) == ()


@pytest.fixture(scope="module")
def mended(calm):
    return just_blocked(calm)


def test_crown_soil_that_is_named_holds_in_the_whole_analysis(calm, mended) -> None:
    assert used_with(calm, mended.factor) > 1.0
    crown_soil = mended.named("crown soil first")
    assert crown_soil.works
    assert crown_soil.says().startswith("Do not fill above +")
    said = {place: float(text.split()[0]) for place, text in crown_soil.writes.items()}
    stages = replace(
        calm.stages,
        crown_first=said["stages.crown_first"],
        crown_first_width=said["stages.crown_first_width"],
        lead=said.get("stages.lead", calm.stages.lead),
    )
    again = used_with(replace(calm, stages=stages), mended.factor)
    assert again == pytest.approx(crown_soil.ratio, rel=1e-6)
    assert again <= 1.0


def test_ballast_that_is_named_holds_and_less_of_it_does_not(calm, mended) -> None:
    ballast = mended.named("ballast")
    said = {place.removeprefix("stages.ballast."): text for place, text in ballast.writes.items()}
    bags = Ballast(
        weight=1e3 * float(said["weight"].split()[0]),
        width=float(said["width"].split()[0]),
        start=float(said["from"].split()[0]),
        until=float(said["until"].split()[0]),
    )
    lead = float(ballast.writes.get("stages.lead", f"{calm.stages.lead} m").split()[0])

    def used(weight):
        stages = replace(calm.stages, ballast=replace(bags, weight=weight), lead=lead)
        return used_with(replace(calm, stages=stages), mended.factor)

    assert used(bags.weight) <= 1.0
    assert used(0.4 * bags.weight) > 1.0
    assert "kPa on the middle" in ballast.says()
    assert bags.start < bags.until <= mended.study.form.crown_level + 1e-3


NEAR = {"compaction": Tamping.PLATE, "compactor_distance": 0.1}
"""A plate that runs right beside the ribs."""


def bending_mended(house, factor):
    """Remedies where bending alone counts, and the last level is taken for blocked."""
    study = study_vault(house, house.vaults[0])
    marks = (*study.marks[:-1], replace(study.marks[-1], allowed=0.0))
    return fill_remedies(
        study.model, study.form, study.given, lambda one: factor * bends_alone(one, study.strength), marks
    )


def test_a_plate_kept_off_is_the_first_remedy(calm) -> None:
    house = replace(calm, stages=replace(calm.stages, **NEAR))
    away = replace(calm, stages=replace(calm.stages, **{**NEAR, "compactor_distance": 0.6}))
    near, off = used_with(house, 1.0, bends_alone), used_with(away, 1.0, bends_alone)
    assert near > 1.1 * off
    factor = 2.0 / (near + off)
    first = bending_mended(house, factor)[0]
    assert first.name == "plate kept off"
    assert first.writes == {"stages.compactor_distance": "0.6 m"}
    assert first.ratio == pytest.approx(factor * off, rel=1e-6)


def test_wet_fill_and_a_near_plate_are_mended_together(calm) -> None:
    nobody_said = replace(calm, stages=replace(calm.stages, compaction=None, wet_fill=None))
    near, off = used_with(nobody_said, 1.0, bends_alone), used_with(calm, 1.0, bends_alone)
    first = bending_mended(nobody_said, 2.0 / (near + off))[0]
    assert first.writes == {"stages.compaction": "hand rammer", "stages.wet_fill": "no"}


def test_wet_fill_alone_is_kept_dry(calm) -> None:
    wet = replace(calm, stages=replace(calm.stages, wet_fill=True))
    near, off = used_with(wet, 1.0, bends_alone), used_with(calm, 1.0, bends_alone)
    first = bending_mended(wet, 2.0 / (near + off))[0]
    assert first.name == "fill kept dry"
    assert first.writes == {"stages.wet_fill": "no"}


def test_a_smaller_lead_where_that_is_enough(good_study) -> None:
    def made_up(analysis):
        ratio = np.array([0.9 + abs(now.case.lead) for now in analysis.situations])
        return np.broadcast_to(ratio, (len(analysis.lanes), ratio.size))

    marks = (replace(good_study.marks[-1], allowed=0.0),)
    given = replace(good_study.given, lead=0.2)
    found = fill_remedies(good_study.model, good_study.form, given, made_up, marks)
    assert found[0].name == "smaller lead"
    assert found[0].writes == {"stages.lead": "0.05 m"}
    assert found[0].ratio == pytest.approx(0.95)
    assert all("Never let one side be more than 0.05 m ahead" in one.says() for one in found[1:])


def made_up(works):
    """A strength used that is enough wherever `works` says so of a situation."""

    def ratios(analysis):
        used = np.array([0.5 if works(now) else 1.4 for now in analysis.situations])
        return np.broadcast_to(used, (len(analysis.lanes), used.size))

    return ratios


def blocked_at_the_end(study, works):
    marks = (replace(study.marks[-1], allowed=0.0),)
    return fill_remedies(study.model, study.form, study.given, made_up(works), marks)


def test_props_say_where_they_stand_and_what_one_carries(good_study) -> None:
    (props,) = blocked_at_the_end(
        good_study, lambda now: now.stage.kind is StageKind.COVER or now.stage.props
    )
    assert props.name == "props"
    assert "posts of 100 x 100 mm every 1.2 m under the crown" in props.says()
    # What one post of 1.2 m carries is at most the whole design load of the strip over it.
    assert 0.0 < props.values["force"].value < 1.2 * 4.2 * 60e3
    assert "kN" in props.says()


def test_feet_that_give_way_are_tied_for_good(calm) -> None:
    vault = calm.vaults[0]
    feet = replace(vault.feet, hold=Hold.ELASTIC, stiffness=2e6)
    soft = replace(calm, vaults=(replace(vault, feet=feet),))
    study = study_vault(soft, soft.vaults[0])
    (ties,) = blocked_at_the_end(study, lambda now: now.stage.props)
    assert ties.name == "ties"
    assert ties.values["force"].value > 0.0
    (nothing,) = blocked_at_the_end(study, lambda _: False)
    assert "ties at the feet" in nothing.says()


def test_where_nothing_helps_it_says_what_was_tried(good_study, bad_study) -> None:
    (found,) = blocked_at_the_end(good_study, lambda _: False)
    assert not found.works
    assert found.name == "nothing found"
    assert math.isnan(found.ratio)
    for tried in ("less of a lead", "crown soil first", "ballast on the crown", "props"):
        assert tried in found.says()
    assert "ties" not in found.says()
    ratios = weaker(bad_study, 1.0)
    (hopeless,) = fill_remedies(bad_study.model, bad_study.form, bad_study.given, ratios, bad_study.marks)
    assert not hopeless.works
    assert "no ballast or prop makes up for that" in hopeless.says()


def test_what_is_not_known_never_counts_as_mended(good_study) -> None:
    marks = (replace(good_study.marks[-1], allowed=0.0),)

    def lost(analysis):
        return np.full((len(analysis.lanes), len(analysis.situations)), np.nan)

    (found,) = fill_remedies(good_study.model, good_study.form, good_study.given, lost, marks)
    assert not found.works
    assert "more than can be computed" in found.says()


def test_a_change_whose_effect_is_not_known_never_counts(good_study) -> None:
    crown = good_study.form.mesh.crown

    def changed(now):
        crown_soil = now.stage.kind is StageKind.FILL and now.case.depth[crown] > 0.05
        return crown_soil or now.case.ballast or now.stage.props or 0.0 < abs(now.case.lead) < 0.1

    def ratios(analysis):
        used = np.array([np.nan if changed(now) else 1.4 for now in analysis.situations])
        return np.broadcast_to(used, (len(analysis.lanes), used.size))

    marks = (replace(good_study.marks[-1], allowed=0.0),)
    (found,) = fill_remedies(good_study.model, good_study.form, good_study.given, ratios, marks)
    assert not found.works
