"""The bending envelope: that of the check, mirrored with the house, honest where there is no rest."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from bermwright.adapt.shape.corridor import corridor_of
from bermwright.adapt.shape.envelope import Screen, bending_envelope, ribs_of
from bermwright.form import FormUnknownError
from bermwright.house import CurveKind
from bermwright.rules.study import stage_ratios, study_vault

if TYPE_CHECKING:
    from bermwright.house import House


@pytest.fixture(scope="module")
def low(larch_bank: House) -> Any:
    return bending_envelope(larch_bank, larch_bank.vaults[0])


def test_it_is_the_bending_and_strength_of_the_check(larch_bank: House, low: Any) -> None:
    study = study_vault(larch_bank, larch_bank.vaults[0], stop_marks=False)
    # Of the check with a usual number of nails in every piece: those that are drawn never hold more.
    usual = stage_ratios(study.analyses, study.stages, study.strength.provisional)
    bent = np.where(np.isfinite(study.service.moment), np.abs(study.service.moment), 0.0)
    assert low.bending == pytest.approx(bent.max() / study.form.spacing)
    for one in low.stages:
        drawn = study.stage_ratio[one.stage.name]
        if one.stage.cases[0].depth.any():
            assert one.used == pytest.approx(usual[one.stage.name])
            assert one.used <= drawn * (1.0 + 1e-6)


def test_the_worst_stage_is_the_one_that_is_named(low: Any) -> None:
    worst = max(low.stages, key=lambda one: one.bending)
    assert worst.stage.name == low.stage
    assert worst.bending == low.bending == max(low.filling, low.bending)
    assert low.finished < low.filling
    assert low.outward.low < 0.0 < low.outward.high
    assert 0.0 < low.down.low < low.down.high


def test_strength_is_the_worse_of_boards_and_nails(low: Any) -> None:
    for one in low.stages:
        assert one.used == max(one.boards, one.nails)
    assert low.boards < low.used


def test_a_house_and_its_mirror_image_bend_alike(larch_bank: House) -> None:
    vault = larch_bank.vaults[0]
    uneven = replace(vault, curve=CurveKind.SEGMENT, mound=replace(vault.mound, left=0.3, right=0.45))
    mirrored = replace(uneven, mound=replace(vault.mound, left=0.45, right=0.3))
    one, other = (bending_envelope(larch_bank, v, every_corner=False) for v in (uneven, mirrored))
    # The mesh is not its own mirror image, so that the last parts in a thousand differ.
    assert one.bending == pytest.approx(other.bending, rel=5e-3)
    assert one.used == pytest.approx(other.used, rel=1e-2)


def test_heavier_soil_bends_more(kettle_hill: House) -> None:
    vault = replace(kettle_hill.vaults[0], curve=CurveKind.SEGMENT, rise=2.0, springing=1.5)
    screen = Screen.of(ribs_of(kettle_hill, vault))
    soil = kettle_hill.site.soil[0]
    light = replace(soil, unit_weight=type(soil.unit_weight)(16e3, 17e3))
    lighter = replace(screen, house=replace(kettle_hill, site=replace(kettle_hill.site, soil=(light,))))
    assert lighter.bending(vault) < screen.bending(vault)


def test_ribs_that_find_no_rest_bend_without_end(kettle_hill: House) -> None:
    vault = replace(kettle_hill.vaults[0], curve=CurveKind.ELLIPSE)
    gone = bending_envelope(kettle_hill, vault, every_corner=False)
    assert gone.bending == math.inf
    assert gone.used is None
    assert math.isfinite(gone.filling)


def test_what_the_file_does_not_say_is_named(larch_bank: House) -> None:
    vault = replace(larch_bank.vaults[0], feet=None)
    with pytest.raises(FormUnknownError, match=r"vault\.feet"):
        bending_envelope(larch_bank, vault)


def test_the_corridor_is_where_bending_alone_uses_the_strength_up(larch_bank: House) -> None:
    ribs = ribs_of(larch_bank, larch_bank.vaults[0])
    corridor = corridor_of(ribs)
    kmod, gamma = 0.8, 1.3
    design = kmod * ribs.strength.bending_strength / gamma
    boards = design * ribs.strength.modulus / ribs.form.spacing / 1.35 / 1.3
    assert corridor.boards == pytest.approx(boards, rel=1e-6)
    assert 0.0 < corridor.nails < corridor.boards
    assert corridor.least == corridor.nails


def test_a_corridor_without_known_nails_rests_on_the_boards(larch_bank: House) -> None:
    ribs = ribs_of(larch_bank, replace(larch_bank.vaults[0], nails=None))
    corridor = corridor_of(ribs)
    assert math.isnan(corridor.nails)
    assert corridor.least == corridor.boards
