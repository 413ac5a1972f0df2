"""Families of curves: what is free in them becomes a vault that the house file takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from bermwright.adapt.shape.families import FAMILIES
from bermwright.form import vault_form
from bermwright.house import CurveKind, contradictions

if TYPE_CHECKING:
    from bermwright.house import House

RISES = {CurveKind.SEMICIRCLE: 2.5, CurveKind.SEGMENT: 1.6, CurveKind.POINTED: 3.0, CurveKind.EGG: 3.0}


def test_every_kind_but_the_drawn_one_is_a_family() -> None:
    assert set(FAMILIES) == set(CurveKind) - {CurveKind.DRAWN}


@pytest.mark.parametrize("kind", FAMILIES)
def test_a_family_gives_a_vault_without_contradictions(kettle_hill: House, kind: CurveKind) -> None:
    from dataclasses import replace

    family, like = FAMILIES[kind], kettle_hill.vaults[0]
    rise = RISES.get(kind, 1.8)
    vault = family.vault(like, rise=rise, springing=1.0, shares=(0.5,) * family.free)
    assert vault is not None
    assert (vault.curve, vault.rise, vault.springing) == (kind, rise, 1.0)
    assert not list(contradictions(replace(kettle_hill, vaults=(vault,))))
    form = vault_form(kettle_hill, vault, pieces=False)
    assert form.rise == pytest.approx(rise)
    assert form.span == like.span


@pytest.mark.parametrize(
    ("kind", "rise"),
    [
        (CurveKind.SEGMENT, 2.6),
        (CurveKind.POINTED, 2.4),
        (CurveKind.SEMICIRCLE, 2.4),
        (CurveKind.EGG, 2.5),
        (CurveKind.CATENARY, 0.3),
    ],
)
def test_where_a_family_has_no_curve_there_is_none(kettle_hill: House, kind: CurveKind, rise: float) -> None:
    family = FAMILIES[kind]
    shares = (0.5,) * family.free
    assert family.vault(kettle_hill.vaults[0], rise=rise, springing=0.0, shares=shares) is None


def test_the_range_of_rises_is_cut_to_what_a_family_has() -> None:
    assert FAMILIES[CurveKind.POINTED].rises(4.0, 1.0, 3.0) == (2.0, 3.0)
    assert FAMILIES[CurveKind.SEGMENT].rises(4.0, 1.0, 3.0) == (1.0, 2.0)
    assert FAMILIES[CurveKind.SEMICIRCLE].rises(4.0, 1.0, 3.0) == (2.0, 2.0)
    assert FAMILIES[CurveKind.SEMICIRCLE].rises(4.0, 1.0, 1.5) is None


def test_what_described_the_curve_before_is_taken_out(kettle_hill: House) -> None:
    from dataclasses import replace

    drawn = replace(kettle_hill.vaults[0], chain=9.0, rise=None)
    vault = FAMILIES[CurveKind.ELLIPSE].vault(drawn, rise=2.0, springing=1.0)
    assert vault is not None
    assert vault.chain is None
