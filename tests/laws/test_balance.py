"""True of every house: forces close, and a mirrored site has mirrored forces."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bermwright.formats.house_file import load
from bermwright.house import CurveKind, Hold
from bermwright.rules.study import study_vault
from bermwright.rules.whole.forces import balances

HOUSE = load(Path(__file__).parents[2] / "examples" / "larch-bank.toml").house
SLOPES = st.floats(1.8, 4.0)


def forces(left: float, right: float, hold: Hold = Hold.PINNED):
    vault = HOUSE.vaults[0]
    mound = replace(vault.mound, left=math.atan(1 / left), right=math.atan(1 / right))
    # A catenary: the curve under cover follows its mound, and is found to a tenth of a millimetre only.
    vault = replace(vault, curve=CurveKind.CATENARY, mound=mound, feet=replace(vault.feet, hold=hold))
    house = replace(HOUSE, vaults=(vault,))
    return balances(study_vault(house, vault, stop_marks=False))


@settings(max_examples=4)
@given(left=SLOPES, right=SLOPES, hold=st.sampled_from([Hold.PINNED, Hold.FIXED]))
def test_forces_and_moments_close_at_every_stage(left: float, right: float, hold: Hold) -> None:
    for one in forces(left, right, hold):
        assert one.closing < 1e-9, (one.stage, one.open_across, one.open_up, one.open_moment)


@settings(max_examples=2)
@given(left=SLOPES, right=SLOPES)
def test_a_mirrored_site_has_mirrored_forces(left: float, right: float) -> None:
    for one, other in zip(forces(left, right), forces(right, left), strict=True):
        for here, there in (("left", "right"), ("right", "left")):
            mine, mirrored = one.named(f"soil from the {here}"), other.named(f"soil from the {there}")
            assert (mine is None) == (mirrored is None)
            if mine is not None and mirrored is not None:
                assert mine.across == pytest.approx(-mirrored.across, rel=1e-4, abs=1.0)
            foot, twin = one.named(f"{here} foot"), other.named(f"{there} foot")
            assert foot is not None
            assert twin is not None
            assert foot.up == pytest.approx(twin.up, rel=1e-4)
            assert foot.across == pytest.approx(-twin.across, rel=1e-4, abs=1.0)
