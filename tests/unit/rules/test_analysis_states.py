"""Stages and cases as states of the frame: whose child, with which factors, with which arm."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from bermwright.data.rule_sets import SERVICE, rule_sets
from bermwright.house import Ballast
from bermwright.rules.analysis.states import Softening, frame_states, situations_of
from bermwright.rules.study import study_vault
from bermwright.stages import Action, StageKind

DA2 = rule_sets("DA2")[0]
SOFT = Softening(ribs=0.5, joints=0.25)


@pytest.fixture(scope="module")
def with_bags(larch_bank):
    bags = Ballast(weight=2e3, width=1.4, start=1.65, until=2.25)
    house = replace(larch_bank, stages=replace(larch_bank.stages, ballast=bags))
    return study_vault(house, house.vaults[0], stop_marks=False)


def test_a_case_goes_on_from_the_state_of_its_stage(good_study) -> None:
    situations = situations_of(good_study.stages)
    own = {}
    before = -1
    for i, now in enumerate(situations):
        if now.case is now.stage.cases[0]:
            assert now.parent == before
            before = own[now.stage.name] = i
        else:
            assert now.parent == own[now.stage.name]


def test_what_comes_before_the_soil_goes_on_from_the_stage_before(with_bags) -> None:
    situations = situations_of(with_bags.stages)
    names = [f"{now.stage.name}: {now.case.name}" for now in situations]
    laid = next(i for i, name in enumerate(names) if name.endswith("ballast laid"))
    parent = situations[situations[laid].parent]
    assert parent.case.name == "permanent"
    assert parent.stage is with_bags.stages[with_bags.stages.index(situations[laid].stage) - 1]


def case_with(study, *actions):
    case = replace(study.stages[2].cases[0], actions=actions)
    return situations_of((replace(study.stages[2], cases=(case,)),))


def an_action(study, **changes):
    ones = np.ones(study.form.mesh.x.size)
    given = {"name": "test", "permanent": True, "cite": DA2.cite, "down": 10.0 * ones, "across": 3.0 * ones}
    return Action(**{**given, **changes})


@pytest.mark.parametrize(
    ("changes", "factors", "gamma"),
    [
        ({}, DA2, 1.35),
        ({"favourable": True}, DA2, 1.0),
        ({"permanent": False}, DA2, 1.5),
        ({"permanent": False, "psi0": 0.7}, DA2, 1.5),
        ({"permanent": False}, rule_sets("DA1")[1], 1.3),
        ({}, rule_sets("DA1")[1], 1.0),
        ({}, SERVICE, 1.0),
        ({"permanent": False}, SERVICE, 1.0),
    ],
)
def test_each_action_takes_its_factor(good_study, changes, factors, gamma) -> None:
    states = frame_states(
        good_study.form, case_with(good_study, an_action(good_study, **changes)), factors, SOFT
    )
    assert states.down[0] == pytest.approx(gamma * 10.0 * good_study.form.spacing)
    assert states.across[0] == pytest.approx(gamma * 3.0 * good_study.form.spacing)


def test_only_the_second_variable_action_is_combined(good_study) -> None:
    first = an_action(good_study, permanent=False, psi0=0.6)
    second = an_action(good_study, permanent=False, psi0=0.7)
    states = frame_states(good_study.form, case_with(good_study, first, second), DA2, SOFT)
    assert states.down[0] == pytest.approx(1.5 * (10.0 + 0.7 * 10.0) * good_study.form.spacing)


@pytest.mark.parametrize("lever", [0.0, 0.4, 1.0])
def test_loads_turn_the_rib_by_their_arm(good_study, lever) -> None:
    mesh = good_study.form.mesh
    states = frame_states(
        good_study.form, case_with(good_study, an_action(good_study, lever=lever)), SERVICE, SOFT
    )
    arm_x, arm_z = mesh.soil_x - mesh.x, mesh.soil_z - mesh.z
    # A force down at the right of a node turns it clockwise, one to the right above it too.
    expected = -lever * (arm_x * 10.0 + arm_z * 3.0) * good_study.form.spacing
    assert states.moment[0] == pytest.approx(expected)


def test_ballast_helps_without_its_factor_and_weighs_with_it(with_bags) -> None:
    situations = situations_of(with_bags.stages)
    states = frame_states(with_bags.form, situations, DA2, SOFT, with_bags.model.members)
    down = {f"{now.stage.name}: {now.case.name}": states.down[i].sum() for i, now in enumerate(situations)}
    stage = next(stage.name for stage in with_bags.stages if stage.cases[0].ballast)
    light, heavy = down[f"{stage}: permanent"], down[f"{stage}: permanent, heavy ballast"]
    assert heavy - light == pytest.approx(0.35 * 2e3 * 1.4 * with_bags.form.spacing)
    without = down["wrapped: permanent"]
    assert light - without == pytest.approx(1.0 * 2e3 * 1.4 * with_bags.form.spacing)


def test_creep_softens_the_long_term_alone(good_study) -> None:
    situations = situations_of(good_study.stages)
    states = frame_states(good_study.form, situations, DA2, SOFT)
    long_term = np.array([now.stage.kind is StageKind.LONG_TERM for now in situations])
    assert (states.stiffness[long_term] == 0.5).all()
    assert (states.joint_stiffness[long_term] == 0.25).all()
    assert (states.stiffness[~long_term] == 1.0).all()


def test_soil_holds_only_where_it_lies(good_study) -> None:
    analysis = good_study.analyses[0]
    assert not (analysis.states.springs_on & (analysis.states.depth == 0.0)).any()
    frozen = analysis.where_situation(lambda now: now.case.name.startswith("first winter"))
    assert not analysis.states.springs_on[frozen].any()
