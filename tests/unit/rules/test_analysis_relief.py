"""Soil over the crown relieves it, and only a part of that counts."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from bermwright.rules.analysis.relief import credited
from bermwright.rules.study import study_vault
from bermwright.stages import StageKind

CREDIT = 0.45


def used(moment, filled, covered, credit=CREDIT):
    return float(
        credited(
            np.array(moment), filled=np.array(filled), covered=np.array(covered), credit=np.array(credit)
        )
    )


def test_a_share_of_the_relief_counts() -> None:
    # From -4 to -1 are 3 of relief; 0.45 of them leave -4 + 1.35.
    assert used(-1.0, -4.0, -1.0) == pytest.approx(-2.65)
    assert used(-1.0, -4.0, -1.0, 0.7) == pytest.approx(-1.9)
    assert used(-1.0, -4.0, -1.0, 1.0) == -1.0


def test_what_comes_on_top_of_the_cover_stays_whole() -> None:
    # Snow on one side adds -0.5 to the -1 under cover: it is not cut down with the relief.
    assert used(-1.5, -4.0, -1.0) == pytest.approx(-2.65 - 0.5)


def test_full_relief_counts_where_that_is_worse() -> None:
    # The cover bends the crown down further than the fill bent it up.
    assert used(3.0, -1.0, 3.0) == 3.0
    assert used(0.9, -1.0, 0.9) == pytest.approx(0.9)


def test_no_relief_where_the_fill_did_not_push_up_or_the_cover_pushes_more() -> None:
    assert used(0.5, 2.0, 0.5) == 0.5
    assert used(-3.0, -2.0, -3.0) == -3.0
    assert used(-3.0, 0.0, -3.0) == -3.0
    # Nor where something on top of such a cover bends the other way.
    assert used(1.0, -2.0, -3.0) == 1.0


def test_what_is_not_known_stays_so() -> None:
    assert np.isnan(used(np.nan, -4.0, -1.0))
    assert np.isnan(used(-1.0, np.nan, -1.0))
    assert np.isnan(used(-1.0, -4.0, np.nan))


def test_it_broadcasts_over_lanes_and_situations() -> None:
    moment, filled, covered = (np.sin(1.7 * np.arange(3 * n * 10) + n).reshape(3, n, 5, 2) for n in (4, 1, 4))
    credit = np.array([0.45, 0.7, 0.45])[:, None, None, None]
    whole = credited(moment, filled=filled, covered=covered, credit=credit)
    assert whole.shape == moment.shape
    assert whole[1, 2, 3, 0] == pytest.approx(
        used(moment[1, 2, 3, 0], filled[1, 0, 3, 0], covered[1, 2, 3, 0], 0.7)
    )


def test_bending_of_the_study_holds_it(good_study) -> None:
    analysis = good_study.analyses[0]
    relief = analysis.relief
    situations, lanes = analysis.situations, analysis.lanes
    raw = analysis.response.moment * analysis.model[None, :, None, None]
    last = max(
        i
        for i, now in enumerate(situations)
        if now.stage.kind is StageKind.FILL and now.case is now.stage.cases[0]
    )
    assert relief.filled == last
    runs = np.array([lane.run for lane in lanes])
    for kind in (StageKind.COVER, StageKind.SETTLED, StageKind.LONG_TERM):
        own = next(i for i, now in enumerate(situations) if now.stage.kind is kind)
        crown = good_study.form.mesh.crown
        for run, credit in (("compacted", 0.45), ("expected", 0.7), ("low", 0.45)):
            lane = int(np.flatnonzero(runs == run)[0])
            before, after = raw[lane, last, crown, 0], raw[lane, own, crown, 0]
            assert before < after
            part = before + credit * (after - before)
            expected = part if abs(part) > abs(after) else after
            assert analysis.moment[lane, own, crown, 0] == pytest.approx(expected)


def test_states_before_the_cover_are_left_alone(good_study) -> None:
    analysis = good_study.analyses[0]
    before = analysis.where_situation(lambda now: now.stage.kind in {StageKind.WRAPPED, StageKind.FILL})
    raw = analysis.response.moment * analysis.model[None, :, None, None]
    same = np.where(analysis.bends[:, before, None, None], raw[:, before], np.nan)
    np.testing.assert_allclose(analysis.moment[:, before], same)


def test_relief_never_makes_bending_smaller(good_study) -> None:
    analysis = good_study.analyses[0]
    raw = np.abs(analysis.response.moment * analysis.model[None, :, None, None])
    known = analysis.bends
    assert (np.abs(analysis.moment)[known] >= raw[known] - 1e-9).all()


def test_loose_or_frozen_soil_earns_the_smaller_credit(restudy, larch_bank) -> None:
    loose = replace(larch_bank.vaults[0].fill, stiffness=None)
    bare = replace(
        larch_bank,
        site=replace(larch_bank.site, soil=tuple(replace(s, stiffness=None) for s in larch_bank.site.soil)),
    )
    vault = replace(larch_bank.vaults[0], fill=loose)
    study = study_vault(replace(bare, vaults=(vault,)), vault, stop_marks=False)
    assert set(np.unique(study.analyses[0].relief.credit)) == {0.45}
    assert set(np.unique(restudy().analyses[0].relief.credit)) == {0.45, 0.7}
