"""Ribs of pieces against a layered beam model that has every nail, and the limits of both."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import timber

_SPEC = importlib.util.spec_from_file_location("layered", Path(__file__).with_name("layered.py"))
assert _SPEC
assert _SPEC.loader
layered = importlib.util.module_from_spec(_SPEC)
sys.modules["layered"] = layered
_SPEC.loader.exec_module(layered)

EI = 9e9 * 0.032 * 0.195**3 / 12
TWO, FOUR = [-0.06, 0.06], [-0.08, -0.03, 0.03, 0.08]
CASES = [
    (2, [0, 1], 700e3, 0.1, TWO, 1.2),
    (2, [0, 1], 700e3, 0.05, FOUR, 2.0),
    (3, [0, 1, 2], 700e3, 0.1, FOUR, 1.2),
    (3, [0, 2, 1], 700e3, 0.05, FOUR, 2.0),
    (4, [0, 2, 1, 3], 200e3, 0.1, TWO, 1.2),
    (4, [0, 2, 1, 3], 700e3, 0.05, FOUR, 1.2),
    (4, [0, 1, 2, 3], 700e3, 0.1, TWO, 1.2),
    (4, [0, 1, 2, 3], 700e3, 0.1, FOUR, 2.0),
    (5, [0, 2, 4, 1, 3], 700e3, 0.05, FOUR, 1.5),
]


def computed(layers: int, slip: float, spacing: float, rows: list[float], piece: float) -> timber.RibOfPieces:
    tie = timber.nail_coupling(slip, rows, spacing=spacing)
    return timber.pieces_in_rib(
        EI, layers, piece_length=piece, transverse=tie.transverse, rotational=tie.rotational
    )


@pytest.mark.parametrize(("layers", "order", "slip", "spacing", "rows", "piece"), CASES)
def test_a_rib_of_pieces_is_no_softer_and_no_harder_pressed_than_the_layered_model(
    layers, order, slip, spacing, rows, piece
):
    length, cuts = layered.staggered(layers, piece, order)
    model = layered.bend(EI, layers, length, cuts, slip=slip, rows=rows, spacing=spacing)
    rib = computed(layers, slip, spacing, rows, piece)
    assert 0.6 * model.stiffness_ratio < rib.stiffness_ratio < 1.08 * model.stiffness_ratio
    assert 0.95 * model.moment_peak < rib.moment_peak < 1.6 * model.moment_peak


@pytest.mark.parametrize("layers", [2, 3, 4])
def test_one_joint_alone_turns_as_in_the_layered_model(layers):
    model = layered.bend(EI, layers, 6.0, [(3.0, 0)], slip=700e3, rows=TWO, spacing=0.1)
    tie = timber.nail_coupling(700e3, TWO, spacing=0.1)
    joint = timber.single_joint(EI, layers, transverse=tie.transverse, rotational=tie.rotational)
    assert model.turn == pytest.approx(float(joint.flexibility), rel=0.08)


def test_single_joints_added_up_miss_most_of_the_softness_of_short_pieces():
    length, cuts = layered.staggered(4, 0.8, [0, 2, 1, 3])
    model = layered.bend(EI, 4, length, cuts, slip=700e3, rows=TWO, spacing=0.1)
    tie = timber.nail_coupling(700e3, TWO, spacing=0.1)
    joint = timber.single_joint(EI, 4, transverse=tie.transverse, rotational=tie.rotational)
    assert model.turn > 3 * len(cuts) * joint.flexibility


def test_very_long_pieces_are_as_stiff_as_whole_boards_and_miss_one_layer_at_a_joint():
    rib = computed(4, 700e3, 0.05, FOUR, 200.0)
    assert rib.stiffness_ratio == pytest.approx(1.0, abs=0.01)
    assert rib.moment_peak == pytest.approx(4 / 3, rel=0.01)


def test_the_frame_with_a_spring_at_each_joint_is_as_stiff_as_the_rib():
    rib = computed(4, 700e3, 0.1, TWO, 1.2)
    turn_of_a_piece_length = 1.2 / (4 * EI) + 4 * rib.joint_flexibility
    assert 1.2 / (4 * EI) / turn_of_a_piece_length == pytest.approx(float(rib.stiffness_ratio))


def test_equal_roots_give_no_jump():
    critical = 2 * np.sqrt(EI * 14e6)
    ratios = [
        float(timber.pieces_in_rib(EI, 4, piece_length=1.2, transverse=14e6, rotational=k).stiffness_ratio)
        for k in (critical * (1 - 1e-5), critical, critical * (1 + 1e-5))
    ]
    assert ratios[0] == pytest.approx(ratios[1], rel=1e-4)
    assert ratios[2] == pytest.approx(ratios[1], rel=1e-4)


def test_it_broadcasts():
    rib = timber.pieces_in_rib(EI, 4, piece_length=[0.8, 1.2, 1.6], transverse=14e6, rotational=50e3)
    assert np.all(np.diff(rib.stiffness_ratio) > 0)
    assert np.all(np.diff(rib.moment_peak) < 0.1)
    force = timber.joint_nail_force(
        np.array([1000.0, 2000.0]),
        axial=0.0,
        shear=0.0,
        layers=4,
        planes=1,
        along=[0.0, 0.1],
        across=[0.0, 0.0],
    ).force
    assert force[1] == pytest.approx(2 * force[0])


def test_one_nail_takes_no_moment():
    with pytest.raises(OutOfRangeError, match="spread of the nails"):
        timber.joint_nail_force(1.0, axial=0.0, shear=0.0, layers=2, planes=1, along=[0.1], across=[0.0])


@pytest.mark.parametrize(
    "wrong",
    [
        {"layer_stiffness": 0.0},
        {"layers": 1},
        {"transverse": 0.0},
        {"rotational": -1.0},
        {"piece_length": 0.0},
    ],
)
def test_what_cannot_be_a_rib_is_refused(wrong):
    right = {"layer_stiffness": EI, "layers": 4, "piece_length": 1.2, "transverse": 14e6, "rotational": 50e3}
    with pytest.raises(OutOfRangeError):
        timber.pieces_in_rib(**{**right, **wrong})
