"""The nails that are drawn in half a piece: counted where they stand, and reckoned where they are few."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from bermwright.base.findings import Verdict
from bermwright.form.rib.flat import lay_flat
from bermwright.form.rib.nails import nail_spots
from bermwright.handbook import timber as ec5
from bermwright.rules.analysis.halves import Halves, most_of_a_layer, worst_shares
from bermwright.rules.analysis.strength import joint_forces, nail_ratio
from bermwright.rules.ribs.joints import NAILS_CARRY, NAILS_FIT

NEAR_MIDDLE = 0.003
"""m; the middle of the curve against the middle of the chord."""


def with_halves(study, **changes):
    joint = study.strength.joint
    own = joint.halves
    halves = Halves(
        **{"rib": own.rib, "nailing": own.nailing, "predrilled": own.predrilled, "peak": own.peak, **changes}
    )
    return replace(study, strength=replace(study.strength, joint=replace(joint, halves=halves)))


def test_each_half_holds_the_crosses_of_its_template(good_study):
    joint, rib = good_study.strength.joint, good_study.form.rib
    flats = {piece.name: lay_flat(rib, piece) for piece in rib.pieces}
    near_all = 0
    for pair in joint.halves.at_joints:
        assert len(pair) == 2
        for half in pair:
            flat = flats[half.piece]
            if flat.piece.layer == 1:
                continue
            at_start = abs(half.joint - flat.piece.start) < 1e-6
            crown_half = at_start == flat.mirrored
            beyond = np.array([u for u, _ in nail_spots(flat, joint.nailing)]) - 0.5 * flat.chord
            beyond = beyond if crown_half else -beyond
            # A nail within a few millimetres of the middle may count for either half.
            assert np.sum(beyond > NEAR_MIDDLE) <= half.along.size <= np.sum(beyond > -NEAR_MIDDLE)
            near_all += half.along.size
    assert near_all > 20 * rib.joints.size


def test_no_half_takes_more_than_the_ratio_says(good_study):
    joint, strength = good_study.strength.joint, good_study.strength
    analysis = good_study.analyses[0]
    ratio = nail_ratio(analysis, strength)
    moment, axial, shear = joint_forces(analysis, strength.joint_nodes)
    limit = ec5.design_strength(joint.resistance, strength.kmods(analysis), gamma=strength.gamma_nails)
    for number, pair in enumerate(joint.halves.at_joints):
        for half in pair:
            bent = moment[:, :, number] * float(joint.pieces.moment_peak) * (not half.relieved)
            # The thrust acts in the middle of the depth, the nails in their own middle.
            bent = np.abs(bent) + np.abs(axial[:, :, number]) * abs(half.across.mean())
            one, along, across = worst_shares(half.along, half.across)
            force = (
                np.hypot(axial[:, :, number] * one + bent * along, shear[:, :, number] * one + bent * across)
                / strength.layers
            )
            most = force / (limit * half.effective)
            assert np.max(most - ratio[:, :, number]) <= 0.02 * np.max(ratio)


def test_thrust_beside_the_middle_of_the_nails_turns_them(good_study):
    joint = good_study.strength.joint
    half = next(half for pair in joint.halves.at_joints for half in pair if not half.relieved)
    aside = replace(half, across=half.across + 0.01 - half.across.mean())
    plain = replace(half, across=half.across - half.across.mean())
    assert plain.eccentric == pytest.approx(0.0, abs=1e-12)
    assert aside.eccentric == pytest.approx(0.01)
    thrust, none = np.array(50e3), np.array(0.0)
    peak = float(joint.pieces.moment_peak)
    asked = joint.half_force(aside, none, thrust, none, 5)
    assert asked == pytest.approx(joint.half_force(plain, thrust * 0.01 / peak, thrust, none, 5))
    assert asked > 1.02 * joint.half_force(plain, none, thrust, none, 5)
    # Every half whose nails stand aside is reckoned for itself.
    reckoned = {id(one) for _, one in joint.weaker}
    assert all(id(one) in reckoned for pair in joint.halves.at_joints for one in pair if one.eccentric > 1e-9)


def test_short_pieces_at_the_feet_need_their_share_where_the_others_cannot_take_it(good_study):
    own = good_study.strength.joint.halves
    assert own.relieved
    assert all(own.most_beside(name) <= own.peak for name in own.relieved)
    strict = with_halves(good_study, peak=1.0)
    assert not strict.strength.joint.halves.relieved
    before, after = (nail_ratio(one.analyses[0], one.strength) for one in (good_study, strict))
    assert np.max(after[:, :, 0]) > 2.0 * np.max(before[:, :, 0])
    (said,) = NAILS_CARRY.decide(strict)
    assert said.verdict is Verdict.FAILS
    assert any("drawn on half of piece" in step.says for step in said.steps)


def test_others_beside_a_short_piece_take_more_than_their_share():
    # One layer of two takes all; of three whole ones beside a short one each takes a third.
    assert most_of_a_layer(np.array([[1.0, 2.0], [0.4, 2.0]])) == pytest.approx(2.0)
    whole = [1.0, 0.0]
    assert most_of_a_layer(np.array([whole, whole, whole, [0.4, 2.0]])) == pytest.approx(4 / 3)
    assert most_of_a_layer(np.array([[0.4, 2.0], [0.4, 2.0]])) == np.inf


def test_half_a_piece_without_nails_fails_by_its_name(good_study):
    nailing = good_study.strength.joint.nailing
    bare = with_halves(good_study, nailing=replace(nailing, end=0.13))
    piece = bare.strength.joint.halves.bare.piece
    assert np.isnan(nail_ratio(bare.analyses[0], bare.strength)[:, :, 0]).all()
    for rule in (NAILS_CARRY, NAILS_FIT):
        said = [one for one in rule.decide(bare) if one.verdict is Verdict.FAILS]
        assert said
        assert said[-1].values["piece"] == piece
        assert "board_length" in said[-1].advice


def test_the_half_with_the_fewest_nails_is_named(good_study):
    *_, said = NAILS_FIT.decide(good_study)
    assert said.verdict is Verdict.HOLDS
    assert said.values["piece"] in {"3L1", "3R1"}
    assert said.values["drawn"].value == 8
    assert "other layers" in said.template


def test_while_a_hand_drags_a_usual_number_of_nails_counts(good_study):
    strength = good_study.strength.provisional
    assert strength.joint.halves.at_joints == ()
    assert strength.joint.weaker == ()
    analysis = good_study.analyses[0]
    quick, full = (nail_ratio(analysis, one) for one in (strength, good_study.strength))
    assert np.all(quick <= full)
    assert np.any(quick < full)
