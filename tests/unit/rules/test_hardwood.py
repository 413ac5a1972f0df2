"""Dense hardwood is nailed through drilled holes, or it is not known, or refused."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.data.timber_classes import strength_class
from bermwright.house import Nail, contradictions, questions
from bermwright.rules.analysis.joint import nailed_joint
from bermwright.rules.whole.along import racking
from bermwright.rules.whole.nail import nail_design

if TYPE_CHECKING:
    from bermwright.house import House
    from bermwright.rules.study import Study


def with_vault(house: House, **changes: object) -> House:
    return replace(house, vaults=(replace(house.vaults[0], **changes), *house.vaults[1:]))


def test_drilled_hardwood_carries_more_than_drilled_spruce(good_study: Study) -> None:
    vault = replace(good_study.vault, predrilled=True)
    light, dense = (nailed_joint(vault, good_study.form, strength_class(one)) for one in ("C24", "D40"))
    assert light is not None
    assert dense is not None
    assert dense.resistance > light.resistance
    assert dense.embedment == pytest.approx(light.embedment * 550.0 / 350.0)
    assert dense.least.along == light.least.along


def test_driven_into_hardwood_nothing_is_known(good_study: Study) -> None:
    for drilled in (None, False):
        vault = replace(good_study.vault, predrilled=drilled)
        assert nailed_joint(vault, good_study.form, strength_class("D40")) is None
        assert nailed_joint(vault, good_study.form, strength_class("D24")) is not None


def test_a_file_that_drives_nails_into_hardwood_is_refused(larch_bank: House) -> None:
    clashes = contradictions(with_vault(larch_bank, timber="D40", predrilled=False))
    assert [one.path[-1] for one in clashes] == ["predrilled"]
    assert not contradictions(with_vault(larch_bank, timber="D40", predrilled=True))
    asked = questions(with_vault(larch_bank, timber="D40", predrilled=None))
    assert any("predrilled" in one.asks for one in asked)


def test_one_nail_in_hardwood_needs_its_hole() -> None:
    oak, nail = strength_class("D40"), Nail(0.004, 0.11)

    def takes(*, drilled: bool) -> float | None:
        return nail_design(
            nail, 0.045, oak, service_class=2, duration="permanent", depth=0.15, predrilled=drilled
        )

    with pytest.raises(OutOfRangeError, match="drilled holes only"):
        takes(drilled=False)
    assert (takes(drilled=True) or 0.0) > 0.0


def test_planks_on_oak_ribs_ask_for_holes(good_study: Study) -> None:
    strength = replace(good_study.strength, timber=strength_class("D40"))
    oak = replace(good_study, strength=strength)
    with pytest.raises(OutOfRangeError, match='predrilled = "yes"'):
        racking(oak)
    cover = tuple(replace(one, predrilled=True) for one in good_study.vault.cover)
    drilled = replace(oak, vault=replace(good_study.vault, cover=cover))
    assert racking(drilled).nails is not None
