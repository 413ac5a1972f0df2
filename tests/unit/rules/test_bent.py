"""Ribs of bent boards: every rule of the ribs runs, and the two of their own hold, fail and are unknown."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from bermwright.base.findings import Verdict
from bermwright.house import Board, CurveKind, Nail, Structure
from bermwright.rules.analysis.strength import rib_ratios, slip_ratio
from bermwright.rules.registry import RULES, rule_named
from bermwright.rules.study import study_vault

if TYPE_CHECKING:
    from bermwright.house import House
    from bermwright.rules.study import Study

BENT = {
    "structure": Structure.BENT, "board": Board(0.017, 0.22), "depth": None, "layers": 10,
    "board_length": 3.0, "curve": CurveKind.SEGMENT, "spacing": 0.3,
    "nails": Nail(0.0034, 0.065), "nail_spacing": 0.012,
}  # fmt: skip


def studied(house: House, **changes: object) -> Study:
    vault = replace(house.vaults[0], **{**BENT, **changes})
    changed = replace(house, vaults=(vault,), openings=())
    return study_vault(changed, vault, stop_marks=False)


@pytest.fixture(scope="module")
def bent(larch_bank: House) -> Study:
    return studied(larch_bank)


def verdicts(name: str, study: Study) -> set[Verdict]:
    return {finding.verdict for finding in rule_named(name).run(study)}


def test_the_rules_of_the_ribs_run_for_bent_boards(bent: Study):
    for name in ("ribs-bend", "ribs-shear", "ribs-do-not-buckle", "ribs-do-not-tip", "ribs-keep-their-shape"):
        assert verdicts(name, bent) <= {Verdict.HOLDS, Verdict.TIGHT}, name
    assert verdicts("nails-carry-the-cut-layer", bent) == {Verdict.DOES_NOT_APPLY}
    assert verdicts("nails-find-room", bent) == {Verdict.DOES_NOT_APPLY}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_what_is_said_of_bent_boards_is_whole(rule, bent: Study):
    for finding in rule.run(bent):
        assert "{" not in finding.says()
        assert "nan" not in finding.says().lower()


def test_boards_bend_to_the_curve_or_not(larch_bank: House, bent: Study, good_study: Study):
    assert verdicts("boards-bend-to-the-curve", bent) == {Verdict.HOLDS}
    assert verdicts("boards-bend-to-the-curve", good_study) == {Verdict.DOES_NOT_APPLY}
    thick = studied(larch_bank, board=Board(0.03, 0.22), layers=6)
    assert verdicts("boards-bend-to-the-curve", thick) == {Verdict.FAILS}


def test_nails_tie_the_boards_or_not_or_nobody_knows(larch_bank: House, bent: Study, good_study: Study):
    name = "nails-tie-the-bent-boards"
    assert verdicts(name, bent) == {Verdict.HOLDS}
    assert verdicts(name, good_study) == {Verdict.DOES_NOT_APPLY}
    assert verdicts(name, studied(larch_bank, nails=None)) == {Verdict.UNKNOWN}
    assert verdicts(name, studied(larch_bank, nails=Nail(0.0034, 0.03))) == {Verdict.FAILS}
    assert Verdict.FAILS in verdicts(name, studied(larch_bank, nail_spacing=0.3))


def test_without_nails_nothing_of_the_ribs_is_known(larch_bank: House):
    study = studied(larch_bank, nails=None)
    assert study.strength.loose
    assert np.isnan(slip_ratio(study.analyses[0], study.strength)).all()
    assert verdicts("ribs-bend", study) <= {Verdict.UNKNOWN, Verdict.FAILS}


def test_more_nails_make_a_stiffer_and_stronger_rib(larch_bank: House, bent: Study):
    fewer = studied(larch_bank, nail_spacing=0.05)
    assert fewer.strength.bending_stiffness < bent.strength.bending_stiffness
    assert fewer.strength.modulus < bent.strength.modulus
    solid = 0.22 * 0.17**2 / 6
    assert bent.strength.modulus < solid
    assert bent.strength.peak == pytest.approx(solid / bent.strength.modulus)


def test_butted_boards_count_for_nothing_and_whole_ones_for_all(larch_bank: House, bent: Study):
    whole = studied(larch_bank, board_length=6.0)
    assert bent.strength.bent.counted == 9
    assert whole.strength.bent.counted == 10
    assert whole.strength.left_at_joint == 1.0
    assert whole.strength.bending_stiffness > bent.strength.bending_stiffness


def test_the_section_modulus_uses_up_bending_and_pull_together(bent: Study):
    strength, stack = bent.strength, bent.strength.bent.later
    moment, timber = 1e3, bent.strength.timber
    board = moment * stack.bent / (0.22 * 0.017**2 / 6) / timber.bending
    pull = moment * stack.pulled / (0.22 * 0.017) / timber.tension
    assert moment / strength.modulus / timber.bending == pytest.approx(board + pull, rel=1e-9)


def test_bent_boards_creep_more_than_timber_alone(bent: Study):
    creep = 1 / bent.strength.softening.ribs - 1
    assert creep > 0.8
    assert math.isinf(bent.strength.joint_stiffness)


def test_the_nails_count_in_what_steers_the_fill(bent: Study):
    analysis = bent.analyses[0]
    used = rib_ratios(analysis, bent.strength)
    slipping = slip_ratio(analysis, bent.strength).max(axis=2)
    assert (used[analysis.bends] >= slipping[analysis.bends] - 1e-12).all()
