"""Rib pieces: from foot to foot, inside their boards, square ends, joints one layer at a time."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from bermwright.form import vault_form
from bermwright.house import CurveKind


def by_layer(rib):
    return [[piece for piece in rib.pieces if piece.layer == layer + 1] for layer in range(rib.layers)]


def test_each_layer_runs_from_foot_to_foot(form):
    for pieces in by_layer(form.rib):
        assert pieces[0].start == 0.0
        assert pieces[-1].end == pytest.approx(form.rib.centreline.length)
        for before, after in pairwise(pieces):
            assert after.start == before.end


def test_one_layer_is_cut_at_a_time(form):
    rib = form.rib
    cut = [round(piece.end, 6) for piece in rib.pieces if piece.end < rib.centreline.length - 1e-6]
    if rib.apex is not None:
        cut = [end for end in cut if abs(end - rib.apex) > 1e-4]
    assert sorted(cut) == pytest.approx(list(rib.joints), abs=1e-6)
    assert np.min(np.diff(rib.joints)) > 0.05
    assert len(rib.joint_layers) == rib.joints.size


def test_pieces_and_their_blanks_fit_their_boards(form):
    for piece in form.rib.pieces:
        assert piece.blank_width <= 0.195 + 1e-4
        assert piece.blank_length <= 1.5 + 1e-4
        assert piece.blank_width >= form.rib.depth - 1e-6
        assert 0.0 <= piece.sagitta < piece.blank_width


def test_outlines_are_closed_and_hold_the_piece(form):
    for piece in form.rib.pieces:
        points = np.array(piece.outline)
        assert np.array_equal(points[0], points[-1])
        x, z = points.T
        area = 0.5 * abs(np.sum(x[:-1] * z[1:] - x[1:] * z[:-1]))
        length = piece.end - piece.start
        assert area == pytest.approx(length * form.rib.depth, rel=0.06)


def test_ends_are_square_to_the_curve(form):
    line = form.rib.centreline
    for piece in form.rib.pieces:
        points = np.array(piece.outline[:-1])
        half = len(points) // 2
        for inner, outer, at in ((0, -1, piece.start), (half - 1, half, piece.end)):
            if form.rib.apex is not None and abs(at - form.rib.apex) < 0.2:
                continue
            cut = points[outer] - points[inner]
            tangent = float(np.interp(at, line.s, line.angle))
            assert abs(cut @ [np.cos(tangent), np.sin(tangent)]) < 1e-3 * np.hypot(*cut)


def test_bevels_are_half_the_turn_of_the_piece(form):
    line = form.rib.centreline
    for piece in form.rib.pieces:
        if (
            form.rib.apex is not None
            and min(abs(piece.start - form.rib.apex), abs(piece.end - form.rib.apex)) < 1e-3
        ):
            continue
        turn = float(np.interp(piece.start, line.s, line.angle) - np.interp(piece.end, line.s, line.angle))
        assert sum(piece.end_bevels) == pytest.approx(turn, abs=1e-6)


def test_names_are_unique_and_mirrored(house):
    built = house(curve=CurveKind.SEMICIRCLE, rise=None)
    rib = vault_form(built, built.vaults[0]).rib
    names = [piece.name for piece in rib.pieces]
    assert len(set(names)) == len(names)
    by_name = {piece.name: piece for piece in rib.pieces}
    for piece in rib.pieces:
        layer, rest = piece.name[0], piece.name[1:]
        other = f"{rib.layers + 1 - int(layer)}" + rest.translate(str.maketrans("LR", "RL"))
        assert by_name[other].blank_length == pytest.approx(piece.blank_length, abs=2e-3), other


def test_sagittas_come_out_alike_where_the_curve_decides(house):
    built = house(curve=CurveKind.SEMICIRCLE, rise=None)
    rib = vault_form(built, built.vaults[0]).rib
    whole = [p.sagitta for p in rib.pieces if p.start > 0.0 and p.end < rib.centreline.length - 1e-6]
    assert max(whole) < 1.05 * min(whole)


def test_narrow_boards_are_said_with_the_width_that_is_needed(house):
    built = house(depth=None)
    form = vault_form(built, built.vaults[0])
    needed = max(piece.blank_width for piece in form.rib.pieces)
    assert needed > 0.195
    assert any(f"need {np.ceil(1e3 * needed):.0f} mm" in remark for remark in form.remarks)


def test_a_pointed_rib_is_cut_through_at_its_crown(house):
    built = house(curve=CurveKind.POINTED, rise=3.0)
    rib = vault_form(built, built.vaults[0]).rib
    assert rib.apex == pytest.approx(0.5 * rib.centreline.length)
    assert not any(name.name.endswith("C") for name in rib.pieces)
    ends = [piece.end for piece in rib.pieces]
    assert sum(abs(end - rib.apex) < 1e-6 for end in ends) == rib.layers


def test_joints_keep_an_nth_of_a_piece_apart(house):
    for layers in (2, 3, 4, 5):
        built = house(curve=CurveKind.SEMICIRCLE, rise=None, layers=layers)
        rib = vault_form(built, built.vaults[0]).rib
        whole = max(p.end - p.start for p in rib.pieces if p.name.endswith(("2", "C")))
        assert np.min(np.diff(rib.joints)) > 0.85 * whole / layers / 1.2
