from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.form import vault_form
from bermwright.form.rib.laminations import cuts_of
from bermwright.formats.house_file import load
from bermwright.house import Board, CurveKind, Structure, contradictions
from bermwright.takeoff.ribs import rib_volume

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.fixture(scope="module")
def bent_house():
    house = load(EXAMPLES / "larch-bank.toml").house
    vault = replace(
        house.vaults[0],
        structure=Structure.BENT,
        board=Board(0.017, 0.22),
        depth=None,
        layers=10,
        board_length=3.0,
        curve=CurveKind.SEGMENT,
    )
    return replace(house, vaults=(vault,))


@pytest.fixture(scope="module")
def form(bent_house):
    return vault_form(bent_house, bent_house.vaults[0])


def test_boards_lie_on_each_other_and_not_side_by_side(form):
    assert form.rib.bent
    assert form.rib.depth == pytest.approx(0.17)
    assert form.rib.width == pytest.approx(0.22)
    assert form.rib.board == pytest.approx(0.017)
    assert form.rib.joints.size == 0


def test_no_board_is_longer_than_those_at_hand(form):
    assert max(piece.blank_length for piece in form.rib.pieces) <= 3.0 + 1e-6


def test_the_boards_of_each_layer_fill_it_from_foot_to_foot(form):
    for layer in range(1, 11):
        pieces = [piece for piece in form.rib.pieces if piece.layer == layer]
        assert pieces[0].start == 0.0
        assert pieces[-1].end == pytest.approx(form.rib.centreline.length)
        assert [one.end for one in pieces[:-1]] == [two.start for two in pieces[1:]]


def test_outer_boards_are_longer_than_inner_ones(form):
    def length(layer):
        return sum(piece.blank_length for piece in form.rib.pieces if piece.layer == layer)

    lengths = [length(layer) for layer in range(1, 11)]
    assert lengths == sorted(lengths)


def test_the_timber_is_that_of_the_rib(form):
    whole = form.rib.centreline.length * form.rib.depth * form.rib.width
    assert rib_volume(form.rib) == pytest.approx(whole, rel=2e-3)


@pytest.mark.parametrize("layers", [2, 3, 4, 6, 9, 12])
def test_neighbouring_layers_are_butted_far_from_each_other(layers):
    cuts = cuts_of(9.0, 3.0, layers)
    for one, two in pairwise(cuts):
        nearest = min(abs(a - b) for a in one[1:-1] for b in two[1:-1])
        assert nearest >= 3.0 * 0.75 * max(0.5 - 1.0 / layers, 1.0 / layers) - 1e-9
        assert np.diff(one).max() <= 3.0 + 1e-9


def test_boards_as_long_as_the_rib_are_not_cut():
    assert cuts_of(2.9, 3.0, 3) == [[0.0, 2.9]] * 3


def test_a_pointed_crown_cannot_be_bent(bent_house):
    vault = replace(bent_house.vaults[0], curve=CurveKind.POINTED, rise=2.6)
    with pytest.raises(OutOfRangeError, match="pointed crown"):
        vault_form(replace(bent_house, vaults=(vault,)), vault)


def test_the_depth_of_bent_boards_follows_from_their_number(bent_house):
    assert contradictions(bent_house) == ()
    vault = replace(bent_house.vaults[0], depth=0.15)
    (clash,) = contradictions(replace(bent_house, vaults=(vault,)))
    assert "10 bent boards of 17 mm" in clash.allowed
